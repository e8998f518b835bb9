#include "ground/sight.h"

#include <math.h>
#include <stdlib.h>

#include "base/fault.h"
#include "base/grow.h"
#include "ground/passing.h"
#include "ground/segment.h"

/* From one start a line is followed over so many junctions, into so many stretches: more
 * are met only in a tangle of lines, where it is told too short. */
enum { JUNCTIONS_MOST = 32, STRETCHES_MOST = 256, HALVINGS = 20 };
#define MORE 0.01 /* ft over what is asked that is let pass */

struct seeing {
    const struct trail_net *net;
    const struct net_trail *trails;
    size_t *starts, *ways; /* stretches at each node */
    struct passing_frame frame;
    int stretches;        /* looked into from one start */
    double most, longest; /* what is asked, and the longest so far */
    struct sight_line best;
};

/* The longest of the lines left, from the start to a gate. */
static void note(struct seeing *s, const struct passing *l,
                 const struct passing_gate *last)
{
    struct point from, to;
    double length = passing_longest(&s->frame, l, last, &from, &to);
    if (length > s->best.length) {
        s->best.length = length;
        s->best.from = from;
        s->best.to = to;
    }
}

/* Could a line that ends in this piece be told? */
static bool worth(const struct seeing *s, struct point from, struct point to, double half)
{
    struct point start = s->frame.origin;
    double length = fmax(point_gap(start, from), point_gap(start, to)) + half;
    return length > fmin(s->most, s->longest);
}

/* How far into a piece some line still passes: its last gate, by halving. */
static void end_in_piece(struct seeing *s, const struct passing *l, struct passing_gate g,
                         struct point from, double length)
{
    double low = 0, high = length;
    struct passing kept = *l;
    for (int i = 0; i < HALVINGS; i++) {
        double middle = (low + high) / 2;
        struct passing tried = *l;
        g.at = point_moved(from, g.along, middle);
        if (passing_gate(&s->frame, &tried, &g)) {
            low = middle;
            kept = tried;
        } else {
            high = middle;
        }
    }
    g.at = point_moved(from, g.along, low);
    note(s, &kept, &g);
}

/* A stretch walked from one of its ends: its k-th point that way. */
struct walked {
    size_t stretch;
    bool back;
};

static struct point point_of(const struct trail_net *net, struct walked w, size_t k)
{
    const struct net_stretch *s = &net->stretches[w.stretch];
    return net->points[s->first + (w.back ? s->count - 1 - k : k)];
}

static double half_width(const struct seeing *s, size_t stretch)
{
    return s->trails[s->net->stretches[stretch].trail].width / 2;
}

/* Along a walked stretch from a place on its piece k; false where the line ends. */
static bool see_along(struct seeing *s, struct walked w, size_t k, struct point from,
                      struct passing *l, struct passing_gate *last)
{
    const struct net_stretch *stretch = &s->net->stretches[w.stretch];
    struct passing_gate g = { .half = half_width(s, w.stretch) };
    for (; k + 1 < stretch->count; k++) {
        struct point to = point_of(s->net, w, k + 1);
        double length = point_gap(from, to);
        if (length <= 0)
            continue;
        g.at = from;
        g.along = (struct point){ (to.x - from.x) / length, (to.y - from.y) / length };
        if (!passing_gate(&s->frame, l, &g)) {
            note(s, l, last);
            return false;
        }
        *last = g;
        g.at = to;
        if (!passing_gate(&s->frame, l, &g)) {
            if (worth(s, from, to, g.half + half_width(s, s->best.stretch)))
                end_in_piece(s, l, g, from, length);
            return false;
        }
        *last = g;
        from = to;
    }
    return true;
}

/* On from the end of a stretch into those joined to it. */
static void see_on(struct seeing *s, struct walked w, const struct passing *l,
                   const struct passing_gate *last, int junctions)
{
    const struct net_stretch *from = &s->net->stretches[w.stretch];
    size_t node = w.back ? from->a : from->b;
    note(s, l, last);
    if (s->net->nodes[node].opening != NET_NONE || junctions >= JUNCTIONS_MOST)
        return;
    for (size_t i = s->starts[node]; i < s->starts[node + 1]; i++) {
        const struct net_stretch *next = &s->net->stretches[s->ways[i]];
        for (int back = 0; back < 2; back++) {
            struct walked on = { s->ways[i], back };
            if ((back ? next->b : next->a) != node || on.stretch == w.stretch ||
                ++s->stretches > STRETCHES_MOST)
                continue;
            struct passing left = *l;
            struct passing_gate end = *last;
            if (see_along(s, on, 0, point_of(s->net, on, 0), &left, &end))
                see_on(s, on, &left, &end, junctions + 1);
        }
    }
}

static void look_from(struct seeing *s, struct walked w, size_t k, struct point from)
{
    struct point to = point_of(s->net, w, k + 1);
    double length = point_gap(from, to), half = half_width(s, w.stretch);
    if (length <= 0)
        return;
    struct point along = { (to.x - from.x) / length, (to.y - from.y) / length };
    struct passing all = passing_all(half);
    struct passing_gate last = { from, along, half };
    s->frame = (struct passing_frame){ from, along, point_left_of(along) };
    s->best = (struct sight_line){ .stretch = w.stretch };
    s->stretches = 0;
    if (see_along(s, w, k, from, &all, &last))
        see_on(s, w, &all, &last, 0);
}

static bool keep(struct seeing *s, struct sight_list *out, struct fault *f)
{
    out->longest = s->longest = fmax(s->longest, s->best.length);
    if (s->best.length <= s->most + MORE)
        return true;
    struct sight_line *list = grow(out->list, &out->room, out->count, sizeof *list);
    if (!list)
        return fault_no_memory(f);
    out->list = list;
    list[out->count++] = s->best;
    return true;
}

static bool look_along(struct seeing *s, struct walked w, struct sight_list *out,
                       struct fault *f)
{
    const struct net_stretch *stretch = &s->net->stretches[w.stretch];
    double next = 0, start = 0;
    for (size_t k = 0; k + 1 < stretch->count; k++) {
        struct segment piece = { point_of(s->net, w, k), point_of(s->net, w, k + 1) };
        double length = segment_length(piece);
        for (; next < start + length; next += SIGHT_STEP) {
            look_from(s, w, k, segment_at(piece, (next - start) / length));
            if (!keep(s, out, f))
                return false;
        }
        start += length;
    }
    return true;
}

static int by_length(const void *a, const void *b)
{
    const struct sight_line *x = a, *y = b;
    if (x->length != y->length)
        return x->length > y->length ? -1 : 1;
    if (x->from.x != y->from.x)
        return x->from.x < y->from.x ? -1 : 1;
    return x->from.y < y->from.y ? -1 : x->from.y > y->from.y;
}

/* Leaves out lines whose middle lies along one that is told already. */
static void keep_longest(struct seeing *s, struct sight_list *out)
{
    size_t kept = 0;
    if (out->count > 0)
        qsort(out->list, out->count, sizeof *out->list, by_length);
    for (size_t i = 0; i < out->count; i++) {
        struct sight_line *one = &out->list[i];
        struct point middle = segment_at((struct segment){ one->from, one->to }, 0.5);
        double width = 2 * half_width(s, one->stretch);
        bool told = false;
        for (size_t k = 0; k < kept && !told; k++) {
            struct segment other = { out->list[k].from, out->list[k].to };
            told = segment_distance(other, middle, NULL) <= width;
        }
        if (!told)
            out->list[kept++] = *one;
    }
    out->count = kept;
}

bool sight_find(const struct trail_net *net, const struct net_trail *trails, double most,
                struct sight_list *out, struct fault *f)
{
    struct seeing s = { .net = net, .trails = trails, .most = most };
    *out = (struct sight_list){ .list = NULL };
    bool ok = trail_net_meet(net, &s.starts, &s.ways, f);
    for (size_t i = 0; ok && i < net->stretch_count; i++)
        ok = look_along(&s, (struct walked){ i, false }, out, f) &&
             look_along(&s, (struct walked){ i, true }, out, f);
    if (ok)
        keep_longest(&s, out);
    free(s.starts);
    free(s.ways);
    if (!ok)
        sight_free(out);
    return ok;
}

void sight_free(struct sight_list *s)
{
    free(s->list);
    *s = (struct sight_list){ .list = NULL };
}
