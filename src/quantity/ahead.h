/* ahead.h: draws made once for all that a page asks of them: its figures, a chance, what a
 * total hangs on. Kept by the graph until nodes move (graph_collect) or other draws are
 * made ahead.
 *
 *     if (!ahead_draw(g, nodes, count, f)) ...
 *     const double *row = ahead_row(g, node);        // NULL: not among them
 *
 * Only speed: whoever finds nothing here draws for himself, and gets the same. */
#ifndef SPINNEY_QUANTITY_AHEAD_H
#define SPINNEY_QUANTITY_AHEAD_H

#include "quantity/select.h"
#include "quantity/spread.h"

/* Of more than SPREAD_AHEAD nodes the first ones. False when memory runs out. */
bool ahead_draw(struct graph *g, const uint32_t *nodes, size_t count, struct fault *f);
void ahead_drop(struct graph *g);
/* Borrowed until the next ahead_draw or ahead_drop. */
const double *ahead_row(const struct graph *g, uint32_t node);
bool ahead_percentiles(const struct graph *g, uint32_t node, struct percentiles *out);

#endif
