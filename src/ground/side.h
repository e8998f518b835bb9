/* side.h: the ground on one side of a line, an area or a point: "north of the two-track".
 *
 *     struct side_ask ask = { .of = &track, .side = SIDE_NORTH, .ground = &stand,
 *                             .name = "two-track" };
 *     struct sided north;
 *     if (!side_of(&ask, &north, f)) ...
 *     overlay_intersection(&stand, &north.area, &part, f);
 *     sided_free(&north);
 *
 * A line is made one: parts whose ends lie within SIDE_JOIN_FT of each other are joined
 * straight, others that stay away from the ground are left out; loops, where it crosses
 * its own way, are cut out. Its ends are carried straight on, each in the direction of its
 * last SIDE_END_FT; from an end that lies off the ground's box, straight away from it. So
 * it parts the plane in two, and which of them lies to the north is told by the way it
 * runs over the ground's box (over all of it, when it never comes there). One that comes
 * back to its start counts as the area inside.
 *
 * Of an area, north is what lies beyond its northern rim, from its westernmost to its
 * easternmost point, carried on from these due west and east (of points within
 * SIDE_LEVEL_FT of the westernmost, from the one farthest north). Of a point, what lies beyond
 * an east-west line through it. The other sides likewise.
 *
 * Which lengths and angles: common practice, no source. Exact but for rounding. Costs the
 * square of the points of a line (most pairs by a look at their boxes), n log n of none.
 * Faults: side-along (the line runs north and south: it has no northern side), side-pieces
 * (its parts do not hang together), side-many (more than one point or area), side-empty,
 * and memory. */
#ifndef SPINNEY_GROUND_SIDE_H
#define SPINNEY_GROUND_SIDE_H

#include <stdbool.h>

#include "ground/shape.h"

struct fault;

#define SIDE_JOIN_FT 60.0
#define SIDE_END_FT  100.0
#define SIDE_LEVEL_FT 1.0
/* A line has a northern side when for each foot north it goes this many east: 15 degrees. */
#define SIDE_SLANT 0.268

enum side { SIDE_NORTH, SIDE_EAST, SIDE_SOUTH, SIDE_WEST };

struct side_ask {
    const struct shape *of; /* a line of any number of parts, else of one part */
    enum side side;
    const struct shape *ground; /* an area, not empty: what will be parted */
    const char *name;           /* of the line, for faults; NULL for none */
};

struct sided {
    struct shape area;    /* reaches well beyond `of` and the ground */
    struct shape carried; /* lines: where a line's own ends were carried on */
    double loops;         /* ft of the line that were cut out with its loops */
};

/* All is freed, and `out` empty, on failure. */
bool side_of(const struct side_ask *ask, struct sided *out, struct fault *f);
void sided_free(struct sided *s);

#endif
