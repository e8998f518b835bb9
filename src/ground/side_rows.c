/* Lines made one: their parts joined, their loops cut out; rings and their rims. */
#include <math.h>
#include <stdlib.h>

#include "base/fault.h"
#include "ground/segment.h"
#include "ground/side_inner.h"

bool row_add(struct row *row, struct point p)
{
    if (row->count == row->room) {
        size_t more = row->room + row->room / 2 + 16;
        void *moved = realloc(row->list, more * sizeof *row->list);
        if (!moved)
            return false;
        row->list = moved;
        row->room = more;
    }
    row->list[row->count++] = p;
    return true;
}

void row_free(struct row *row)
{
    free(row->list);
    *row = (struct row){ NULL, 0, 0 };
}

static double length_of(const struct point *list, size_t count)
{
    double sum = 0;
    for (size_t i = 1; i < count; i++)
        sum += point_gap(list[i - 1], list[i]);
    return sum;
}

void row_turn_round(struct row *row)
{
    for (size_t i = 0, j = row->count; i + 1 < j; i++) {
        struct point p = row->list[i];
        row->list[i] = row->list[--j];
        row->list[j] = p;
    }
}

struct crossing row_crossing(const struct point *list, size_t count,
                             const struct shape_box *box)
{
    struct point corners[] = { { box->west, box->south },
                               { box->east, box->south },
                               { box->east, box->north },
                               { box->west, box->north } };
    struct crossing all = { 0, 0, 0 };
    for (size_t i = 1; i < count; i++) {
        struct segment s = { list[i - 1], list[i] };
        double from, to;
        if (!segment_in_convex(s, corners, 4, &from, &to) || !(to > from))
            continue;
        all.east += (to - from) * (s.b.x - s.a.x);
        all.north += (to - from) * (s.b.y - s.a.y);
        all.length += (to - from) * segment_length(s);
    }
    return all;
}

/* ---- rings ---- */

/* A line comes back to its start when its ends are nearer than this and it is four times
 * as long. */
#define MEETS_FT 20.0

bool row_is_ring(const struct row *row)
{
    double length = length_of(row->list, row->count);
    double gap = point_gap(row->list[0], row->list[row->count - 1]);
    return row->count > 3 && gap <= MEETS_FT && 4 * gap <= length;
}

static bool north_rim(const struct point *p, size_t count, struct row *out)
{
    size_t west = 0, east = 0;
    double twice = 0, least = HUGE_VAL, most = -HUGE_VAL;
    for (size_t i = 0; i < count; i++) {
        least = fmin(least, p[i].x + SIDE_LEVEL_FT);
        most = fmax(most, p[i].x - SIDE_LEVEL_FT);
    }
    for (size_t i = 0; i < count; i++) {
        struct point next = p[i + 1 < count ? i + 1 : 0];
        twice += (p[i].x - p[0].x) * (next.y - p[0].y) -
                 (next.x - p[0].x) * (p[i].y - p[0].y);
        if (p[i].x <= least && (p[west].x > least || p[i].y > p[west].y))
            west = i;
        if (p[i].x >= most && (p[east].x < most || p[i].y > p[east].y))
            east = i;
    }
    /* Counterclockwise the rim runs from east over north to west. */
    size_t step = twice > 0 ? count - 1 : 1;
    for (size_t i = west;; i = (i + step) % count) {
        if (!row_add(out, p[i]))
            return false;
        if (i == east)
            return true;
    }
}

bool row_take_rim(struct row *row)
{
    struct row rim = { NULL, 0, 0 };
    bool ok = north_rim(row->list, row->count, &rim);
    row_free(row);
    *row = rim;
    return ok;
}

/* ---- parts ---- */

static double inside(const struct shape *line, size_t part, const struct shape_box *box)
{
    const struct shape_part *p = &line->parts[part];
    return row_crossing(line->points + p->first, p->count, box).length;
}

/* The part to begin with: of those with most in the box, the longest, the first. */
static size_t first_part(const struct shape *line, const struct shape_box *box)
{
    size_t best = 0;
    double most = -1, longest = -1;
    for (size_t i = 0; i < line->part_count; i++) {
        const struct shape_part *p = &line->parts[i];
        double in = inside(line, i, box);
        double length = length_of(line->points + p->first, p->count);
        if (in > most || (in >= most && length > longest)) {
            best = i;
            most = in;
            longest = length;
        }
    }
    return best;
}

/* Adds a part behind the row, from its first or from its last point on. */
static bool add_part(struct row *row, const struct shape *line, size_t part, bool turned)
{
    const struct shape_part *p = &line->parts[part];
    for (size_t i = 0; i < p->count; i++)
        if (!row_add(row, line->points[p->first + (turned ? p->count - 1 - i : i)]))
            return false;
    return true;
}

struct nearest {
    size_t part;
    double gap;
    bool turned, before; /* its last point is the near one; at the row's start */
};

static struct nearest nearest_part(const struct row *row, const struct shape *line,
                                   const bool *used)
{
    struct nearest best = { line->part_count, HUGE_VAL, false, false };
    for (size_t i = 0; i < line->part_count; i++) {
        const struct shape_part *p = &line->parts[i];
        for (int k = 0; k < 4 && !used[i]; k++) {
            bool turned = k & 1, before = k & 2;
            struct point end = line->points[p->first + (turned ? p->count - 1 : 0)];
            double gap = point_gap(row->list[before ? 0 : row->count - 1], end);
            if (gap < best.gap)
                best = (struct nearest){ i, gap, turned, before };
        }
    }
    return best;
}

static bool join(const struct shape *line, const struct shape_box *box, bool *used,
                 struct row *out)
{
    size_t first = first_part(line, box);
    used[first] = true;
    if (!add_part(out, line, first, false))
        return false;
    for (;;) {
        struct nearest next = nearest_part(out, line, used);
        if (next.part == line->part_count || next.gap > SIDE_JOIN_FT)
            return true;
        used[next.part] = true;
        if (next.before)
            row_turn_round(out);
        if (!add_part(out, line, next.part, next.turned))
            return false;
    }
}

bool row_join(const struct shape *line, const struct shape_box *box, const char *name,
              struct row *out, struct fault *f)
{
    bool *used = calloc(line->part_count, sizeof *used);
    if (!used || !join(line, box, used, out)) {
        free(used);
        return fault_no_memory(f);
    }
    bool left = false;
    for (size_t i = 0; i < line->part_count; i++)
        left = left || (!used[i] && inside(line, i, box) > 0);
    free(used);
    if (!left)
        return true;
    fault_set(f, "side-pieces", SPAN_NONE,
              "%s is drawn in pieces that do not meet, and has no one side here",
              name ? name : "the line");
    fault_hint(f, "name the piece that is meant, or draw the part: part = { map = ... }");
    return false;
}

/* ---- loops ---- */

static bool boxes_apart(struct segment s, struct segment o)
{
    return fmax(s.a.x, s.b.x) < fmin(o.a.x, o.b.x) ||
           fmin(s.a.x, s.b.x) > fmax(o.a.x, o.b.x) ||
           fmax(s.a.y, s.b.y) < fmin(o.a.y, o.b.y) ||
           fmin(s.a.y, s.b.y) > fmax(o.a.y, o.b.y);
}

/* Where `s`, which starts at the row's end, first comes back to the row: the number of
 * the piece, and how far on `s`; false when it does not. */
static bool comes_back(const struct point *list, size_t count, struct segment s,
                       size_t *piece, double *at)
{
    bool found = false;
    for (size_t i = 0; i + 2 < count; i++) {
        struct segment o = { list[i], list[i + 1] };
        double t, u;
        if (boxes_apart(s, o) || !segment_cross(s, o, &t, &u) || (found && t >= *at))
            continue;
        found = true;
        *piece = i;
        *at = t;
    }
    return found;
}

/* What is kept is never longer than what was read: a loop of at least one point goes with
 * each crossing that comes in. */
bool row_without_loops(struct row *row, double *loops)
{
    struct point *kept = malloc((row->count + 1) * sizeof *kept);
    size_t count = 0;
    *loops = 0;
    if (!kept)
        return false;
    for (size_t i = 0; i < row->count; i++) {
        struct point next = row->list[i];
        size_t piece;
        double at;
        while (count > 1 &&
               comes_back(kept, count, (struct segment){ kept[count - 1], next }, &piece,
                          &at)) {
            struct segment s = { kept[count - 1], next };
            struct point cross = segment_at(s, at);
            *loops += length_of(kept + piece + 1, count - piece - 1) +
                      point_gap(cross, kept[piece + 1]) + at * segment_length(s);
            count = piece + 1;
            kept[count++] = cross;
        }
        if (count == 0 || kept[count - 1].x != next.x || kept[count - 1].y != next.y)
            kept[count++] = next;
    }
    free(row->list);
    *row = (struct row){ kept, count, row->count + 1 };
    return true;
}
