#include "ground/apart.h"

#include <math.h>

#include "ground/pieces.h"
#include "ground/segment.h"

static double outside(double at, double low, double high)
{
    return at < low ? low - at : at > high ? at - high : 0;
}

/* From the piece's box to the other box: never more than from piece to piece. */
static double box_gap(struct segment s, struct shape_box box)
{
    double x = fmin(outside(s.a.x, box.west, box.east), outside(s.b.x, box.west, box.east));
    double y =
        fmin(outside(s.a.y, box.south, box.north), outside(s.b.y, box.south, box.north));
    bool over_x = (s.a.x < box.west) != (s.b.x < box.west);
    bool over_y = (s.a.y < box.south) != (s.b.y < box.south);
    return hypot(over_x ? 0 : x, over_y ? 0 : y);
}

static struct shape_box piece_box(struct segment s)
{
    return (struct shape_box){ fmin(s.a.x, s.b.x), fmin(s.a.y, s.b.y),
                               fmax(s.a.x, s.b.x), fmax(s.a.y, s.b.y) };
}

/* Does a part of `a` lie in `b`, whole? Parts that cross its rim are found by the rims. */
static bool part_within(const struct shape *a, const struct shape *b)
{
    if (b->kind != SHAPE_AREAS)
        return false;
    for (size_t i = 0; i < a->part_count; i++)
        if (a->parts[i].count > 0 && shape_has(b, a->points[a->parts[i].first]))
            return true;
    return false;
}

static double pieces_apart(const struct pieces *a, const struct pieces *b,
                           struct shape_box box)
{
    double least = HUGE_VAL;
    for (size_t i = 0; i < a->count && least > 0; i++) {
        if (box_gap(a->list[i], box) >= least)
            continue;
        struct shape_box own = piece_box(a->list[i]);
        for (size_t k = 0; k < b->count; k++)
            if (box_gap(b->list[k], own) < least)
                least = fmin(least, segment_gap(a->list[i], b->list[k], NULL));
    }
    return least;
}

bool shape_apart(const struct shape *a, const struct shape *b, double *ft,
                 struct fault *f)
{
    *ft = HUGE_VAL;
    if (shape_is_empty(a) || shape_is_empty(b))
        return true;
    if (part_within(a, b) || part_within(b, a)) {
        *ft = 0;
        return true;
    }
    struct pieces of_a = { .list = NULL }, of_b = { .list = NULL };
    bool ok = pieces_add(&of_a, a, f) && pieces_add(&of_b, b, f);
    if (ok)
        *ft = pieces_apart(&of_a, &of_b, shape_box(b));
    pieces_free(&of_a);
    pieces_free(&of_b);
    return ok;
}
