/* spread_inner.h: spread.h for any node of the graph, for the other files of this room.
 *
 *     struct spread s;
 *     spread_of_nodes(g, &node, 1, &s, f);
 */
#ifndef SPINNEY_QUANTITY_SPREAD_INNER_H
#define SPINNEY_QUANTITY_SPREAD_INNER_H

#include "quantity/spread.h"

bool spread_of_nodes(const struct graph *g, const uint32_t *nodes, size_t count,
                     struct spread *out, struct fault *f);
size_t spread_node_hangs_on(const struct graph *g, uint32_t node, struct hangs_on *out,
                            size_t most, struct fault *f);
/* What stands behind a node once names and other ways of saying it are looked through. */
uint32_t spread_behind(const struct graph *g, uint32_t node);

#endif
