/* side_inner.h: what the parts of side.h share: rows of points that grow, and lines made
 * one of their parts. */
#ifndef SPINNEY_GROUND_SIDE_INNER_H
#define SPINNEY_GROUND_SIDE_INNER_H

#include "ground/side.h"

struct row {
    struct point *list;
    size_t count, room;
};

/* Tells no fault: false when out of memory. */
bool row_add(struct row *row, struct point p);
void row_free(struct row *row);
void row_turn_round(struct row *row); /* last point first */

/* How far a line goes east and north inside a box, ft; and how long it is in there. */
struct crossing {
    double east, north, length;
};
struct crossing row_crossing(const struct point *list, size_t count,
                             const struct shape_box *box);

/* The parts of a line as one row, those that matter in the box. Faults: side-pieces. */
bool row_join(const struct shape *line, const struct shape_box *box, const char *name,
              struct row *out, struct fault *f);
/* Does a line come back to its start? */
bool row_is_ring(const struct row *row);
/* In place of a ring its northern rim, from its westernmost to its easternmost point; of
 * one point, itself. False when out of memory. */
bool row_take_rim(struct row *row);
/* Cuts out the loops of a row; how many ft they were. False when out of memory. */
bool row_without_loops(struct row *row, double *loops);

#endif
