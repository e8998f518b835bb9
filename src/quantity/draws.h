/* draws.h: thousands of draws of any nodes of the graph, worked out together: what
 * spread.c, explain.c and the tests of this room read percentiles from.
 *
 *     struct draws *d = draws_of(g, (uint32_t[]){ hours, cost }, 2, f);
 *     const double *row = draws_row(d, 1);      // SPREAD_DRAWS of cost
 *     draws_free(d);
 *
 * A Latin hypercube: each leaf takes the middles of SPREAD_DRAWS equal parts of its
 * distribution (normal.h), once each, in an order that follows from its key alone
 * (shuffle.h); a shared leaf takes the sum of its causes' scores, each cause in an order
 * of its own. Only uncertain nodes below what is asked are worked out, operands first, a
 * block at a time (steps.h); certain parts count at their value. Draw n of one node goes
 * with draw n of every other.
 */
#ifndef SPINNEY_QUANTITY_DRAWS_H
#define SPINNEY_QUANTITY_DRAWS_H

#include "quantity/spread.h"

struct draws;

/* NULL when memory runs out (fault set). Nodes may be certain, or asked twice. */
struct draws *draws_of(const struct graph *g, const uint32_t *nodes, size_t count,
                       struct fault *f);
void draws_free(struct draws *d);
/* By place in the list asked for; borrowed until draws_free. Draws that cannot be worked
 * out (the root of less than nothing, nothing by nothing) are NAN; a division by zero is
 * endless. */
const double *draws_row(const struct draws *d, size_t i);
/* Which row that is, from 0 up, less than `count`: two names of one thing share one. */
size_t draws_row_number(const struct draws *d, size_t i);

/* The SPREAD_DRAWS middles of parts, ascending, in standard deviations. */
void draws_table(double *table);

/* The i-th operand of a node, NODE_NONE for the part of a sum that is kept as a total;
 * false past the last. */
bool draws_operand(const struct graph *g, uint32_t index, size_t i, uint32_t *out);
/* Spreads the marks of nodes up to `top` to everything below them; `marks` has top + 1
 * places. */
void draws_reach(const struct graph *g, uint32_t top, bool *marks);

#endif
