/* covered.h: how much of an area lies under strips and other areas, overlaps once.
 *
 *     struct strip trail = { piece, 3 };              // 6 ft wide
 *     if (!covered_area(&ask, &found, f)) ...
 *     found.covered / found.whole                     // the share opened
 *
 * By scan lines `step` ft apart, each exact along itself; they run askew to the frame, so
 * that a straight trail is not by chance along them. Off by far less than `step` times
 * the length of what is covered: in tests under 1 in 500 at an eighth of the strips'
 * width. Strips have round ends. Costs the lines times what each crosses.
 * Faults: memory. */
#ifndef SPINNEY_GROUND_COVERED_H
#define SPINNEY_GROUND_COVERED_H

#include "ground/segment.h"

struct fault;

struct strip {
    struct segment axis;
    double radius; /* ft: half the width */
};

struct covered_ask {
    const struct shape *ground; /* the area that counts */
    const struct strip *strips;
    size_t strip_count;
    const struct shape *const *areas;
    size_t area_count;
    double step; /* ft */
};

struct covered {
    double whole, covered; /* ft2, by the same lines */
};

bool covered_area(const struct covered_ask *ask, struct covered *out, struct fault *f);

#endif
