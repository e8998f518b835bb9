/* reach.h: the point of the cover that is farthest from any trail or opening.
 *
 *     struct reach_ask ask = { &cover, lines, 3, openings, 2 };
 *     struct reach far;
 *     if (!reach_farthest(&ask, &far, f)) ...
 *     far.at, far.distance                            // ft
 *
 * Distances go to the middle line of a trail and to the rim of an opening, straight.
 * Found by squares: a square whose middle is d ft away holds no point farther than d and
 * half its diagonal; the most promising is quartered first, until none can beat the best
 * by REACH_CLOSE. Without a trail or an opening the distance is HUGE_VAL. Costs some
 * thousand looks at the nearest trail, whatever the acres. Faults: memory. */
#ifndef SPINNEY_GROUND_REACH_H
#define SPINNEY_GROUND_REACH_H

#include "ground/shape.h"

struct fault;

#define REACH_CLOSE 0.1 /* ft */

struct reach_ask {
    const struct shape *cover;
    const struct shape *const *lines; /* the trails */
    size_t line_count;
    const struct shape *const *openings;
    size_t opening_count;
};

struct reach {
    struct point at;
    double distance; /* ft; 0 for a cover without ground */
};

bool reach_farthest(const struct reach_ask *ask, struct reach *out, struct fault *f);

#endif
