#include "ground/trail_net_inner.h"

static bool cut_at(struct builder *b, size_t piece, double t, size_t exit,
                   struct fault *f)
{
    struct segment s = b->pieces.list[piece];
    struct spot p = b->spots[piece];
    struct point at = segment_at(s, t);
    size_t cut = builder_add_cut(b, p.run, p.start + t * segment_length(s), at, f);
    return cut != NET_NONE &&
           builder_arrive(b, (struct arrival){ cut, NET_NONE, exit, at, 0 }, f);
}

struct leaving {
    struct builder *b;
    struct segment edge; /* of the exit */
    size_t exit;
    struct fault *f;
};

static bool leave(void *closure, size_t piece)
{
    struct leaving *l = closure;
    double t, u;
    if (segment_cross(l->b->pieces.list[piece], l->edge, &t, &u))
        return cut_at(l->b, piece, t, l->exit, l->f);
    return true;
}

/* The trails that pass a point: each is cut where it is nearest. */
static bool pass(void *closure, size_t piece)
{
    struct leaving *l = closure;
    double t;
    if (segment_distance(l->b->pieces.list[piece], l->edge.a, &t) <= l->b->ask->snap)
        return cut_at(l->b, piece, t, l->exit, l->f);
    return true;
}

bool builder_cut_exits(struct builder *b, struct fault *f)
{
    struct pieces edge = { .list = NULL };
    bool ok = true;
    for (size_t i = 0; ok && i < b->ask->exit_count; i++) {
        const struct shape *s = b->ask->exits[i].edge;
        bool point = s->kind == SHAPE_POINTS;
        edge.count = 0;
        ok = pieces_add(&edge, s, f);
        for (size_t k = 0; ok && k < edge.count; k++) {
            struct leaving l = { b, edge.list[k], i, f };
            ok = near_each(&b->near, box_around(edge.list[k], point ? b->ask->snap : 0),
                           point ? pass : leave, &l);
        }
    }
    pieces_free(&edge);
    return ok;
}

/* From the rim of an opening to an exit; `at` where on the exit. */
static double rim_gap(const struct pieces *all, size_t rim, double best, struct point *at)
{
    for (size_t m = 0; m < rim; m++)
        for (size_t n = rim; n < all->count; n++) {
            double t;
            if (!boxes_meet(box_around(all->list[m], best), box_around(all->list[n], 0)))
                continue;
            double gap = segment_gap(all->list[n], all->list[m], &t);
            if (gap < best) {
                best = gap;
                *at = segment_at(all->list[n], t);
            }
        }
    return best;
}

static bool opening_at_exit(struct builder *b, size_t opening, size_t exit,
                            struct fault *f)
{
    struct pieces all = { .list = NULL };
    struct point at = { 0, 0 };
    double too_far = b->ask->snap + NET_TOUCH, gap = too_far;
    bool ok = pieces_add(&all, b->ask->openings[opening], f);
    size_t rim = all.count;
    ok = ok && pieces_add(&all, b->ask->exits[exit].edge, f);
    if (ok)
        gap = rim_gap(&all, rim, too_far, &at);
    pieces_free(&all);
    return ok &&
           (gap >= too_far ||
            builder_arrive(b, (struct arrival){ NET_NONE, opening, exit, at, 0 }, f));
}

bool builder_openings_at_exits(struct builder *b, struct fault *f)
{
    for (size_t k = 0; k < b->ask->exit_count; k++) {
        const struct shape *edge = b->ask->exits[k].edge;
        if (shape_is_empty(edge))
            continue;
        struct shape_box box = shape_box(edge);
        struct segment corners = { { box.west, box.south }, { box.east, box.north } };
        box = box_around(corners, b->ask->snap);
        for (size_t i = 0; i < b->ask->opening_count; i++)
            if (boxes_meet(box, b->boxes[i]) && !opening_at_exit(b, i, k, f))
                return false;
    }
    return true;
}
