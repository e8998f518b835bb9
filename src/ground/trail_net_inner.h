/* trail_net_inner.h: how a net is built, in parts: trail_net_cuts.c finds where trails
 * are cut, trail_net_exits.c where they leave, trail_net_join.c which cuts are one node,
 * trail_net.c makes the net, trail_net_once.c leaves out what is in it twice.
 *
 *     struct builder b;
 *     if (builder_open(&b, ask, f) && builder_cut(&b, f) && builder_join(&b, f)) ...
 *     builder_close(&b);
 */
#ifndef SPINNEY_GROUND_TRAIL_NET_INNER_H
#define SPINNEY_GROUND_TRAIL_NET_INNER_H

#include "ground/along.h"
#include "ground/near.h"
#include "ground/pieces.h"
#include "ground/trail_net.h"

/* One part of a trail: its pieces are run.first and on, each of some length. */
struct run {
    size_t trail, part, first, count;
    double length;
    size_t begin, end;                 /* the cuts at its ends */
    size_t first_inside, inside_count; /* its stretches in openings, in `inside` */
    size_t first_cut, cut_count;       /* once sorted */
};

struct spot { /* of a piece */
    size_t run;
    double start; /* ft along the run */
};

struct cut {
    size_t run, id;
    double along;
    struct point at;
};

struct arrival {
    size_t cut, opening; /* one of them; the other is NET_NONE */
    size_t exit;
    struct point at;
    size_t outlet; /* once grouped */
};

struct inside {
    double from, to;
    size_t opening;
};

struct builder {
    const struct net_ask *ask;
    struct pieces pieces;
    struct spot *spots;
    struct near near;
    struct shape_box *boxes; /* of the openings */
    struct run *runs;
    struct cut *cuts;
    struct arrival *arrivals;
    struct inside *inside;
    /* Openings first, then cuts: what is one node has one root. */
    size_t *roots;
    size_t run_count, cut_count, arrival_count, inside_count, root_count;
    size_t run_room, cut_room, arrival_room, inside_room, root_room, spot_room;
};

bool builder_open(struct builder *b, const struct net_ask *ask, struct fault *f);
void builder_close(struct builder *b);
/* Every place where a trail is cut: ends, crossings, rims of openings, exits. */
bool builder_cut(struct builder *b, struct fault *f);
/* Ends snapped, cuts that are one place made one. */
bool builder_join(struct builder *b, struct fault *f);
/* Where trails, and openings without one, reach exits. */
bool builder_cut_exits(struct builder *b, struct fault *f);
bool builder_openings_at_exits(struct builder *b, struct fault *f);
/* Leaves out the second of two stretches that are one way, and ways back of loops. */
bool trail_net_once(struct trail_net *net, double snap, struct fault *f);

size_t builder_root(struct builder *b, size_t id);
void builder_unite(struct builder *b, size_t id, size_t other);
/* NET_NONE when out of memory. */
size_t builder_add_cut(struct builder *b, size_t run, double along, struct point at,
                       struct fault *f);
bool builder_arrive(struct builder *b, struct arrival a, struct fault *f);
static inline size_t cut_id(const struct builder *b, size_t cut)
{
    return b->ask->opening_count + cut;
}
static inline bool boxes_meet(struct shape_box a, struct shape_box b)
{
    return a.west <= b.east && b.west <= a.east && a.south <= b.north &&
           b.south <= a.north;
}
static inline struct shape_box box_around(struct segment s, double reach)
{
    double west = s.a.x < s.b.x ? s.a.x : s.b.x, east = s.a.x < s.b.x ? s.b.x : s.a.x;
    double south = s.a.y < s.b.y ? s.a.y : s.b.y, north = s.a.y < s.b.y ? s.b.y : s.a.y;
    return (struct shape_box){ west - reach, south - reach, east + reach, north + reach };
}

#endif
