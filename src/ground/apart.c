#include "ground/apart.h"

#include <math.h>

#include "ground/pieces.h"
#include "ground/segment.h"

static inline double less(double a, double b)
{
    return a < b ? a : b;
}

static inline double more(double a, double b)
{
    return a > b ? a : b;
}

static struct shape_box piece_box(struct segment s)
{
    return (struct shape_box){ less(s.a.x, s.b.x), less(s.a.y, s.b.y),
                               more(s.a.x, s.b.x), more(s.a.y, s.b.y) };
}

/* Are the boxes farther apart than so many feet? Then so are the pieces in them. */
static bool is_beyond(struct shape_box a, struct shape_box b, double ft)
{
    double x = more(0, more(a.west - b.east, b.west - a.east));
    double y = more(0, more(a.south - b.north, b.south - a.north));
    return x * x + y * y >= ft * ft;
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
        struct shape_box own = piece_box(a->list[i]);
        if (is_beyond(own, box, least))
            continue;
        for (size_t k = 0; k < b->count; k++)
            if (!is_beyond(piece_box(b->list[k]), own, least))
                least = less(least, segment_gap(a->list[i], b->list[k], NULL));
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
