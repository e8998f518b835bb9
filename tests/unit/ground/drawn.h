/* drawn.h: shapes drawn by hand and by chance, for tests of the ground. */
#ifndef SPINNEY_TESTS_DRAWN_H
#define SPINNEY_TESTS_DRAWN_H

#include "../unit.h"

#include <math.h>

#include "base/fault.h"
#include "ground/shape.h"

#define DRAW(shape, ...)                               \
    drawn_part(shape, (const double[]){ __VA_ARGS__ }, \
               sizeof((const double[]){ __VA_ARGS__ }) / sizeof(double) / 2)

/* x and y by turns: one more part. */
static inline void drawn_part(struct shape *s, const double *xy, size_t count)
{
    struct point points[256];
    struct fault f = { .id = NULL };
    assert_true(count <= 256);
    for (size_t i = 0; i < count; i++)
        points[i] = (struct point){ xy[2 * i], xy[2 * i + 1] };
    assert_true(shape_add_part(s, points, count, false, &f));
}

static inline void drawn_square(struct shape *s, double x, double y, double half)
{
    s->kind = SHAPE_AREAS;
    DRAW(s, x - half, y - half, x + half, y - half, x + half, y + half, x - half,
         y + half);
}

/* A wavy ring round a middle. */
static inline void drawn_blob(struct shape *s, double x, double y, double radius,
                              double wave, int corners)
{
    double xy[512];
    s->kind = SHAPE_AREAS;
    for (int i = 0; i < corners; i++) {
        double turn = 6.283185307179586 * i / corners;
        double r = radius * (1 + wave * sin(3 * turn) + wave / 2 * cos(7 * turn));
        xy[2 * i] = x + r * cos(turn);
        xy[2 * i + 1] = y + r * sin(turn);
    }
    drawn_part(s, xy, (size_t)corners);
}

/* The same chance on every machine. */
static inline unsigned drawn_chance(unsigned *seed)
{
    *seed = *seed * 1664525u + 1013904223u;
    return *seed >> 8;
}

static inline double drawn_between(unsigned *seed, double low, double high)
{
    return low + (high - low) * drawn_chance(seed) / 16777216.0;
}

#define assert_near(a, b, by)                                     \
    do {                                                          \
        double near_a = (a), near_b = (b);                        \
        if (!(fabs(near_a - near_b) <= (by)))                     \
            fail_msg("%s is %.9g, not %.9g", #a, near_a, near_b); \
    } while (0)

#endif
