/* links.h: which openings and exits may be linked by a trail: neighbours, whose ground
 * touches.
 *
 *     int (*pairs)[2]; size_t count;
 *     if (!links_find(&router, &pairs, &count, f)) ...       // pairs[i][0] < pairs[i][1]
 *
 * Every cell goes to the opening or gate that is cheapest to come to it from (all grown
 * at once: Erwig 2000, "The graph Voronoi diagram", Networks 36). Two that touch are a
 * pair; a shortest net over all pairs is a shortest one over neighbours, when all must be
 * joined (Mehlhorn 1988, Inf. Process. Lett. 27). Two gates are none. O(cells log cells).
 * */
#ifndef SPINNEY_GROUND_LINKS_H
#define SPINNEY_GROUND_LINKS_H

#include "ground/router.h"

/* Pairs a < b, in order; a is an opening, b an opening, or openings + a gate. The caller
 * frees. */
bool links_find(struct router *r, int (**pairs)[2], size_t *count, struct fault *f);
/* Adds the pairs of openings and places that have a neighbour in common, of those
 * openings that are marked. */
bool links_widen(const uint8_t *marked, int openings, int places, int (**pairs)[2],
                 size_t *count, struct fault *f);

#endif
