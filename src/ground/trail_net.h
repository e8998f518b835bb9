/* trail_net.h: trails, openings and exits joined to one net: what leads where.
 *
 *     struct net_ask ask = { .trails = trails, .trail_count = 4, .openings = openings,
 *                            .opening_count = 2, .exits = exits, .exit_count = 3,
 *                            .snap = NET_SNAP };
 *     struct trail_net net;
 *     if (!trail_net_build(&ask, &net, f)) ...
 *     net.stretches[k].a, .b                          // the nodes at its ends
 *     trail_net_free(&net);
 *
 * How lines are joined:
 * - trails that cross are joined where they cross, a trail with itself too;
 * - a trail's end is joined to every trail, to the nearest opening, and to every exit
 *   within `snap`; to a trail's end when that is as near;
 * - a loose end that overshoots the last crossing by `snap` at most (by a third of its
 *   trail for short ones) ends there;
 * - a trail is cut at the rim of an opening: the opening is one node, whatever enters it;
 *   two openings that overlap are one node when a trail runs through both;
 * - a trail reaches an exit where it crosses it, an exit that is a point within `snap`;
 *   an opening within `snap` of an exit reaches it without a trail;
 * - two stretches between the same nodes that keep within `snap` of each other are one
 *   way, walked twice: the first is kept. So is a loop that comes back along itself:
 *   it ends where it turned.
 * Points within NET_TOUCH of each other are one. An exit with `apart` > 0 counts as
 * several outlets: arrivals are one outlet while each lies less than `apart` from the
 * next.
 *
 * Costs n log n for pieces of like length, and the openings' rims times the trails near.
 * The same input gives the same net. Faults: memory. */
#ifndef SPINNEY_GROUND_TRAIL_NET_H
#define SPINNEY_GROUND_TRAIL_NET_H

#include "ground/shape.h"

struct fault;

#define NET_TOUCH 0.01 /* ft */
#define NET_SNAP  10.0 /* ft: a phone's fix is no better; common practice, no source */
#define NET_NONE  ((size_t)-1)

struct net_trail {
    const struct shape *line; /* lines; its parts are joined only where they meet */
    double width;             /* ft */
};

struct net_exit {
    const struct shape *edge; /* points, lines, or an area's rim */
    double apart;             /* ft; 0: one outlet only */
};

struct net_ask {
    const struct net_trail *trails;
    const struct shape *const *openings; /* areas */
    const struct net_exit *exits;
    size_t trail_count, opening_count, exit_count;
    double snap; /* ft, 0 or more */
};

struct net_node {
    struct point at;
    size_t opening; /* NET_NONE: a junction or an end */
};

struct net_stretch {
    size_t a, b;         /* nodes */
    size_t trail, part;  /* whose stretch it is */
    double from, to;     /* ft along that part */
    double width;        /* ft, that of the trail */
    double length;       /* ft, from node to node (to the rim of an opening) */
    size_t first, count; /* its points in `points`, from a to b */
};

struct net_outlet {
    size_t exit;
    struct point at; /* of the first arrival */
};

struct net_link {
    size_t node, outlet;
};

struct trail_net {
    struct net_node *nodes;
    struct net_stretch *stretches;
    struct point *points;
    struct net_outlet *outlets;
    struct net_link *links; /* which nodes reach which outlet */
    size_t *opening_nodes;  /* of each opening */
    size_t node_count, stretch_count, point_count, outlet_count, link_count;
    size_t stretch_room, point_room, outlet_room, link_room;
};

bool trail_net_build(const struct net_ask *ask, struct trail_net *net, struct fault *f);
/* Which stretches meet at each node, a loop twice: ways[starts[node]] up to before
 * ways[starts[node + 1]]. The caller frees both, also on failure. */
bool trail_net_meet(const struct trail_net *net, size_t **starts, size_t **ways,
                    struct fault *f);
void trail_net_free(struct trail_net *net);

#endif
