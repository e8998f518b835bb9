/* segment.h: straight pieces of lines: how far, where they cross, what lies inside.
 *
 *     double t, u, d = segment_distance(s, p, &t);   // nearest at a + t (b - a)
 *     if (segment_cross(s, other, &t, &u)) ...
 *     if (segment_in_capsule(s, axis, 50, &t, &u))   // from t to u within 50 ft of axis
 *
 * Feet; t and u run from 0 to 1 along a piece. Plain plane geometry; each call costs the
 * same whatever the sizes. */
#ifndef SPINNEY_GROUND_SEGMENT_H
#define SPINNEY_GROUND_SEGMENT_H

#include <stdbool.h>
#include <stddef.h>

#include "ground/shape.h"

struct segment {
    struct point a, b;
};

double point_gap(struct point a, struct point b); /* ft */
double segment_length(struct segment s);
struct point segment_at(struct segment s, double t);
/* From a point to the nearest of the piece; `t` (or NULL) where that is. */
double segment_distance(struct segment s, struct point p, double *t);
/* The least distance of two pieces, 0 when they cross; `t` (or NULL) where on `s`. */
double segment_gap(struct segment s, struct segment o, double *t);
/* Do they cross in one point? Ends count as on the piece; never when parallel. */
bool segment_cross(struct segment s, struct segment o, double *t, double *u);
/* The part of `s` no farther than `radius` from `axis`; false when there is none. */
bool segment_in_capsule(struct segment s, struct segment axis, double radius,
                        double *from, double *to);
/* The part of `s` in a convex outline, corners counterclockwise. */
bool segment_in_convex(struct segment s, const struct point *corners, size_t count,
                       double *from, double *to);

#endif
