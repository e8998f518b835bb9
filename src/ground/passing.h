/* passing.h: the straight lines that pass between the sides of every gate so far.
 *
 *     struct passing l = passing_all(half);        // from a start so wide to each side
 *     while (passing_gate(&frame, &l, &gate)) ...  // fewer with each; false: none left
 *
 * A line is its slope against the trail at the start and where it starts across it: a
 * point of a plane, where each side of a gate cuts off what would leave the trail there.
 * What is left is convex, kept by its corners. */
#ifndef SPINNEY_GROUND_PASSING_H
#define SPINNEY_GROUND_PASSING_H

#include "ground/shape.h"

/* With more corners no line passes: told too short, on a trail that nobody can walk. */
enum { PASSING_CORNERS = 64 };
#define PASSING_STEEPEST 4.0

struct passing {
    double slope[PASSING_CORNERS], start[PASSING_CORNERS];
    int count;
};

struct passing_frame { /* of the start: two unit vectors */
    struct point origin, along, across;
};

/* A cross-section of the trail, to be passed between its sides. */
struct passing_gate {
    struct point at, along; /* its middle, and the way through */
    double half;            /* half the width, ft */
};

struct passing passing_all(double half);
/* Keeps the lines that pass; when none does, leaves them as they were. */
bool passing_gate(const struct passing_frame *f, struct passing *l,
                  const struct passing_gate *g);
/* The longest of them from the start to a gate: its ends; 0 when there is none. */
double passing_longest(const struct passing_frame *f, const struct passing *l,
                       const struct passing_gate *last, struct point *from,
                       struct point *to);
struct point point_moved(struct point p, struct point along, double ft);
struct point point_left_of(struct point along);

#endif
