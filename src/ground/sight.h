/* sight.h: how far one sees along a trail, standing on it.
 *
 *     struct sight_list found;
 *     if (!sight_find(&net, trails, 75, &found, f)) ...
 *     found.longest, found.list[0].length             // those over 75 ft, longest first
 *     sight_free(&found);
 *
 * A sight line is a straight line that nowhere leaves the trails' width, from a trail on
 * into those joined to it; it ends at the rim of an opening. Widths are those brushed
 * out: what leans in is not known. The line is kept between the two sides of each
 * straight piece (a line through both ends of an oblong stays in it), see passing.h.
 * Started every SIGHT_STEP ft, so a line may be longer than told by that much (by more in
 * a tangle of some hundred stretches), never shorter. Of lines that lie along one another
 * the longest is told. Costs, a foot of trail, the pieces one sees along.
 * Faults: memory. */
#ifndef SPINNEY_GROUND_SIGHT_H
#define SPINNEY_GROUND_SIGHT_H

#include "ground/trail_net.h"

#define SIGHT_STEP 2.0 /* ft */

struct sight_line {
    struct point from, to;
    double length;
    size_t stretch; /* where it starts */
};

struct sight_list {
    struct sight_line *list;
    size_t count, room;
    double longest; /* ft, of all, also when it is short enough */
};

bool sight_find(const struct trail_net *net, const struct net_trail *trails, double most,
                struct sight_list *out, struct fault *f);
void sight_free(struct sight_list *s);

#endif
