#include "ground/trail_net_inner.h"

#include <math.h>
#include <stdlib.h>

#include "base/fault.h"
#include "base/grow.h"

size_t builder_root(struct builder *b, size_t id)
{
    while (b->roots[id] != id) {
        b->roots[id] = b->roots[b->roots[id]];
        id = b->roots[id];
    }
    return id;
}

/* The lowest is the root: openings before cuts. */
void builder_unite(struct builder *b, size_t id, size_t other)
{
    id = builder_root(b, id);
    other = builder_root(b, other);
    if (id < other)
        b->roots[other] = id;
    else
        b->roots[id] = other;
}

static bool add_root(struct builder *b, struct fault *f)
{
    size_t *roots = grow(b->roots, &b->root_room, b->root_count, sizeof *roots);
    if (!roots)
        return fault_no_memory(f);
    b->roots = roots;
    roots[b->root_count] = b->root_count;
    b->root_count++;
    return true;
}

size_t builder_add_cut(struct builder *b, size_t run, double along, struct point at,
                       struct fault *f)
{
    struct cut *cuts = grow(b->cuts, &b->cut_room, b->cut_count, sizeof *cuts);
    if (!cuts) {
        fault_no_memory(f);
        return NET_NONE;
    }
    b->cuts = cuts;
    if (!add_root(b, f))
        return NET_NONE;
    cuts[b->cut_count] = (struct cut){ run, cut_id(b, b->cut_count), along, at };
    return b->cut_count++;
}

bool builder_arrive(struct builder *b, struct arrival a, struct fault *f)
{
    struct arrival *list =
        grow(b->arrivals, &b->arrival_room, b->arrival_count, sizeof *list);
    if (!list)
        return fault_no_memory(f);
    b->arrivals = list;
    list[b->arrival_count++] = a;
    return true;
}

static bool add_run(struct builder *b, size_t trail, size_t part, struct fault *f)
{
    const struct shape *s = b->ask->trails[trail].line;
    const struct point *at = s->points + s->parts[part].first;
    struct run run = { .trail = trail, .part = part, .first = b->pieces.count };
    struct run *runs = grow(b->runs, &b->run_room, b->run_count, sizeof *runs);
    if (!runs)
        return fault_no_memory(f);
    b->runs = runs;
    for (size_t i = 1; i < s->parts[part].count; i++) {
        struct segment piece = { at[i - 1], at[i] };
        struct segment *list =
            grow(b->pieces.list, &b->pieces.room, b->pieces.count, sizeof *list);
        if (!list)
            return fault_no_memory(f);
        b->pieces.list = list;
        struct spot *spots =
            grow(b->spots, &b->spot_room, b->pieces.count, sizeof *spots);
        if (!spots)
            return fault_no_memory(f);
        b->spots = spots;
        if (segment_length(piece) <= 0)
            continue;
        list[b->pieces.count] = piece;
        spots[b->pieces.count++] = (struct spot){ b->run_count, run.length };
        run.length += segment_length(piece);
    }
    run.count = b->pieces.count - run.first;
    if (run.count > 0)
        runs[b->run_count++] = run;
    return true;
}

bool builder_open(struct builder *b, const struct net_ask *ask, struct fault *f)
{
    *b = (struct builder){ .ask = ask };
    for (size_t i = 0; i < ask->trail_count; i++)
        for (size_t part = 0; part < ask->trails[i].line->part_count; part++)
            if (!add_run(b, i, part, f))
                return false;
    b->boxes = malloc((ask->opening_count + 1) * sizeof *b->boxes);
    if (!b->boxes)
        return fault_no_memory(f);
    for (size_t i = 0; i < ask->opening_count; i++) {
        b->boxes[i] = shape_box(ask->openings[i]);
        if (!add_root(b, f))
            return false;
    }
    return near_build(&b->near, b->pieces.list, b->pieces.count, f);
}

void builder_close(struct builder *b)
{
    near_free(&b->near);
    pieces_free(&b->pieces);
    free(b->spots);
    free(b->boxes);
    free(b->runs);
    free(b->cuts);
    free(b->arrivals);
    free(b->inside);
    free(b->roots);
    *b = (struct builder){ .ask = NULL };
}

/* What near_each is told while it looks for pieces that meet one. */
struct meeting {
    struct builder *b;
    size_t piece;
    struct fault *f;
};

/* Cuts both where they meet, as one node. */
static bool cut_both(struct meeting *m, size_t other, double t, double u)
{
    struct builder *b = m->b;
    size_t pieces[2] = { m->piece, other }, cuts[2];
    double at[2] = { t, u };
    for (int i = 0; i < 2; i++) {
        struct segment s = b->pieces.list[pieces[i]];
        struct spot p = b->spots[pieces[i]];
        cuts[i] = builder_add_cut(b, p.run, p.start + at[i] * segment_length(s),
                                  segment_at(s, at[i]), m->f);
        if (cuts[i] == NET_NONE)
            return false;
    }
    builder_unite(b, cut_id(b, cuts[0]), cut_id(b, cuts[1]));
    return true;
}

/* Neighbours of one trail share a corner; they meet elsewhere only when the trail turns
 * back on itself: then it is cut there and at the corner. */
static bool meet_neighbour(struct meeting *m, size_t other)
{
    struct segment s = m->b->pieces.list[m->piece], o = m->b->pieces.list[other];
    double t, u;
    bool back = segment_distance(o, s.a, &u) <= NET_TOUCH;
    if (back && !cut_both(m, other, 0, u))
        return false;
    bool ahead = segment_distance(s, o.b, &t) <= NET_TOUCH;
    if (ahead && !cut_both(m, other, t, 1))
        return false;
    return !(back || ahead) || cut_both(m, other, 1, 0);
}

static bool meet(void *closure, size_t other)
{
    struct meeting *m = closure;
    struct builder *b = m->b;
    if (other <= m->piece)
        return true;
    if (other == m->piece + 1 && b->spots[other].run == b->spots[m->piece].run)
        return meet_neighbour(m, other);
    struct segment s = b->pieces.list[m->piece], o = b->pieces.list[other];
    double t, u;
    if (segment_cross(s, o, &t, &u) && !cut_both(m, other, t, u))
        return false;
    /* Ends that lie on the other, which rounding may just miss; and where they run
     * along each other. */
    for (int end = 0; end < 2; end++) {
        if (segment_distance(s, end ? o.b : o.a, &t) <= NET_TOUCH &&
            !cut_both(m, other, t, end))
            return false;
        if (segment_distance(o, end ? s.b : s.a, &u) <= NET_TOUCH &&
            !cut_both(m, other, end, u))
            return false;
    }
    return true;
}

static bool cut_crossings(struct builder *b, struct fault *f)
{
    for (size_t i = 0; i < b->pieces.count; i++) {
        struct meeting m = { b, i, f };
        if (!near_each(&b->near, box_around(b->pieces.list[i], NET_TOUCH), meet, &m))
            return false;
    }
    return true;
}

static bool cut_ends(struct builder *b, struct fault *f)
{
    for (size_t i = 0; i < b->run_count; i++) {
        struct run *r = &b->runs[i];
        size_t last = r->first + r->count - 1;
        r->begin = builder_add_cut(b, i, 0, b->pieces.list[r->first].a, f);
        if (r->begin == NET_NONE)
            return false;
        r->end = builder_add_cut(b, i, r->length, b->pieces.list[last].b, f);
        if (r->end == NET_NONE)
            return false;
    }
    return true;
}

static bool add_inside(struct builder *b, size_t run, size_t opening,
                       const struct along *a, struct fault *f)
{
    struct inside *list = grow(b->inside, &b->inside_room, b->inside_count, sizeof *list);
    if (!list)
        return fault_no_memory(f);
    b->inside = list;
    list[b->inside_count++] = (struct inside){ a->from, a->to, opening };
    b->runs[run].inside_count++;
    size_t in = builder_add_cut(b, run, a->from, a->begin, f);
    if (in == NET_NONE)
        return false;
    size_t out = builder_add_cut(b, run, a->to, a->end, f);
    if (out == NET_NONE)
        return false;
    builder_unite(b, opening, cut_id(b, in));
    builder_unite(b, opening, cut_id(b, out));
    return true;
}

/* Where a run lies in openings; a piece without length was left out, so the line is told
 * from the pieces. */
static bool cut_run_at_rims(struct builder *b, size_t run, struct point *line,
                            struct fault *f)
{
    struct run *r = &b->runs[run];
    const struct segment *list = b->pieces.list + r->first;
    struct shape_box box = box_around(list[0], 0);
    line[0] = list[0].a;
    for (size_t i = 0; i < r->count; i++) {
        struct shape_box piece = box_around(list[i], 0);
        line[i + 1] = list[i].b;
        box =
            (struct shape_box){ fmin(box.west, piece.west), fmin(box.south, piece.south),
                                fmax(box.east, piece.east),
                                fmax(box.north, piece.north) };
    }
    struct along_list found = { .list = NULL };
    bool ok = true;
    r->first_inside = b->inside_count;
    for (size_t i = 0; ok && i < b->ask->opening_count; i++) {
        if (!boxes_meet(box, b->boxes[i]))
            continue;
        found.count = 0;
        ok = along_inside(line, r->count + 1, b->ask->openings[i], &found, f);
        for (size_t k = 0; ok && k < found.count; k++)
            ok = add_inside(b, run, i, &found.list[k], f);
    }
    along_free(&found);
    return ok;
}

static bool cut_rims(struct builder *b, struct fault *f)
{
    struct point *line = malloc((b->pieces.count + 1) * sizeof *line);
    if (!line)
        return fault_no_memory(f);
    bool ok = true;
    for (size_t i = 0; ok && i < b->run_count; i++)
        ok = cut_run_at_rims(b, i, line, f);
    free(line);
    return ok;
}

bool builder_cut(struct builder *b, struct fault *f)
{
    return cut_ends(b, f) && cut_crossings(b, f) && cut_rims(b, f) &&
           builder_cut_exits(b, f);
}
