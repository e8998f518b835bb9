/* ways.h: how many routes lead out of each opening, each to another exit.
 *
 *     struct ways w;
 *     struct one_ground ground;
 *     if (!ways_ground(&net, &ground, f)) ...         // once for a net
 *     if (!ways_find(&net, &ground, opening_count, false, &w, f)) ...
 *     w.openings[0].routes                            // that share no stretch of trail
 *     w.cuts[w.openings[0].first]                     // and what holds them to so few
 *     ways_free(&w);
 *
 * Routes that share no stretch may meet in a junction or an opening, and one may go on
 * past another's exit to its own. Asked to be apart, they share no junction and no
 * opening either: then one tree that falls on a junction shuts one way only.
 * What holds them (the bottleneck) is a smallest set of stretches, exits, and, when
 * apart, junctions and openings, whose loss shuts all ways; the one nearest the opening.
 * Its size is the number of routes (Menger; see max_flow.h).
 * Stretches that share ground (one_ground.h) are one: as in a layout, a route that goes
 * over one of them leaves none for another.
 * Costs, an opening, at most (routes + 1) times the stretches; as many times over as there
 * are choices of what shares ground. Faults: memory. */
#ifndef SPINNEY_GROUND_WAYS_H
#define SPINNEY_GROUND_WAYS_H

#include "ground/one_ground.h"
#include "ground/trail_net.h"

enum ways_kind { WAYS_STRETCH, WAYS_JUNCTION, WAYS_OPENING, WAYS_OUTLET };

struct ways_cut {
    enum ways_kind kind;
    size_t index; /* of a stretch, node, opening or outlet of the net */
};

struct ways_of {
    size_t routes;
    size_t first, count; /* its cuts */
};

struct ways {
    struct ways_of *openings;
    struct ways_cut *cuts;
    size_t opening_count, cut_count, cut_room;
};

/* Which stretches of the net share ground; the caller frees it. */
bool ways_ground(const struct trail_net *net, struct one_ground *g, struct fault *f);
bool ways_find(const struct trail_net *net, struct one_ground *ground,
               size_t opening_count, bool apart, struct ways *out, struct fault *f);
void ways_free(struct ways *w);

#endif
