/* near.h: many straight pieces, kept in square cells so that near ones are found fast.
 *
 *     struct near n;
 *     if (!near_build(&n, pieces, count, f)) ...
 *     double d = near_distance(&n, p, &which);        // HUGE_VAL: there are no pieces
 *     near_each(&n, box, see, closure);               // all whose boxes meet the box
 *     near_free(&n);
 *
 * Building costs n log n at most for pieces of like length; a search costs a few cells.
 * The pieces are borrowed. Faults: memory. */
#ifndef SPINNEY_GROUND_NEAR_H
#define SPINNEY_GROUND_NEAR_H

#include "ground/segment.h"

struct fault;

struct near {
    const struct segment *pieces;
    size_t count;
    double west, south, size; /* of the cells, ft */
    long columns, rows;
    size_t *starts; /* of each cell in `held`; one more at the end */
    size_t *held;
};

bool near_build(struct near *n, const struct segment *pieces, size_t count,
                struct fault *f);
void near_free(struct near *n);
/* To the nearest piece; `which` (or NULL) its number, the lowest of those as near. */
double near_distance(const struct near *n, struct point p, size_t *which);
/* Calls `see` once for each piece whose box meets the box, until it says false; the order
 * is always the same. Returns what the last call said. */
bool near_each(const struct near *n, struct shape_box box,
               bool (*see)(void *closure, size_t piece), void *closure);

#endif
