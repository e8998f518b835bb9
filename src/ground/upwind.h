/* upwind.h: which stretches of a line lie upwind of an area.
 *
 *     struct wind west = { 270, 30 };                 // from the west, 30 each way
 *     if (!along_upwind(line, count, &bedding, west, 300, &found, f)) ...
 *
 * A point lies upwind of an area when some of the area is within the distance of it and
 * in the sector that the wind may blow to: its scent goes there. In the area counts as
 * upwind. Turned round: the area's rim, spread by that sector reversed; each piece of the
 * rim with each slice of the sector makes a convex figure. The round side of a sector is
 * drawn by corners about UPWIND_ARC degrees apart: it is nowhere off by more than 1 in
 * 2,000 of the distance. Costs the pieces of the line times those of the rim. Faults:
 * memory. */
#ifndef SPINNEY_GROUND_UPWIND_H
#define SPINNEY_GROUND_UPWIND_H

#include "ground/along.h"

#define UPWIND_ARC 3 /* degrees */

struct wind {
    double from;   /* the bearing it blows from, degrees from north by east */
    double spread; /* how far it turns, degrees to each side, 0 to 180 */
};

/* Appends in order, as along_near does; distances are to the rim, 0 inside. A point is a
 * line of two equal points. */
bool along_upwind(const struct point *line, size_t count, const struct shape *area,
                  struct wind wind, double distance, struct along_list *out,
                  struct fault *f);

#endif
