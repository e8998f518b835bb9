/* overlay.h: shapes made of shapes: what lies within so many feet, in either, in both, in
 * one and not in the other.
 *
 *     struct shape strip, rest;
 *     overlay_buffer(&creek, 66, OVERLAY_ROUND, &strip, f);
 *     overlay_difference(&stand, &strip, &rest, f);
 *
 * `out` is made here and is the caller's to free; on failure it is empty. Areas come back
 * with rings that wind to the left, holes to the right. Shapes that only touch have
 * nothing in common. An arc is drawn with 90 straight pieces a quarter turn, which lie
 * inside it: a round buffer of a point is smaller than its circle by 1 part in 20,000.
 * Cost: n log n in the points and crossings.
 * Faults: shape-failed, shape-slow, shape-kind, shape-broken (a point lies nowhere), and out
 * of memory. */
#ifndef SPINNEY_GROUND_OVERLAY_H
#define SPINNEY_GROUND_OVERLAY_H

#include <stdbool.h>
#include <stddef.h>

struct fault;
struct shape;

enum overlay_ends {
    OVERLAY_ROUND,
    OVERLAY_FLAT /* lines: the strip stops at the line's very ends */
};

/* What lies within `by` ft, always areas. Below zero only for areas: what lies deeper in
 * than that. */
bool overlay_buffer(const struct shape *s, double by, enum overlay_ends ends,
                    struct shape *out, struct fault *f);
/* All of one kind. Overlaps are counted once. */
bool overlay_union(const struct shape *const *list, size_t count, struct shape *out,
                   struct fault *f);
/* Of the lower kind of the two: lines in an area are lines. */
bool overlay_intersection(const struct shape *a, const struct shape *b, struct shape *out,
                          struct fault *f);
/* What of `a` is not in `b`: of a's kind. `b` may be of a lower kind, and takes nothing
 * from an area then. */
bool overlay_difference(const struct shape *a, const struct shape *b, struct shape *out,
                        struct fault *f);

#endif
