/* outline.h: the outline of an opening as it is cut: round the size that was asked, never
 * a circle.
 *
 *     struct point rim[OUTLINE_POINTS];
 *     outline_make(center, 40, 0, &chance, rim);       // 40 ft across, on the mean
 *     double farthest = outline_reach(center, rim);    // ft from the centre to the rim
 *
 * A circle with waves of two to five around it, strength and turn by chance. Its width is
 * what a tape says that is laid across the centre, the mean of all directions: the waves
 * have no part in it, so it is the asked one (of the many-cornered rim: to 1 in 1,000).
 * Its area is that of the circle and up to 4 percent more. With an area (ft2) as well, it
 * is as long as the area needs at that width across, and the area is met to rounding. */
#ifndef SPINNEY_GROUND_OUTLINE_H
#define SPINNEY_GROUND_OUTLINE_H

#include <stdint.h>

#include "ground/shape.h"

enum { OUTLINE_POINTS = 32 };

/* At most this times half the width (or half the length) from the centre to the rim. */
#define OUTLINE_MOST 1.3

/* Counter-clockwise. area 0: that of the width. */
void outline_make(struct point center, double width, double area, uint64_t *chance,
                  struct point rim[OUTLINE_POINTS]);
double outline_reach(struct point center, const struct point rim[OUTLINE_POINTS]);
double outline_area(const struct point *rim, size_t count); /* ft2; minus if clockwise */
/* Where the line from inside to outside crosses the ring first; `inside` when it does
 * not. */
struct point outline_crossing(const struct point *rim, size_t count, struct point inside,
                              struct point outside);
bool outline_has(const struct point *rim, size_t count, struct point p);

#endif
