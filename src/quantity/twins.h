/* twins.h: nodes that are worked out in the same way from the same leaves, so that they
 * have the same draws: four entries of one act make the same figures four times over.
 *
 *     struct twins t = twins_of(g, real, count, &memory);
 *     real[i] = twins_first(&t, i);      // i itself, or a node before it that is its twin
 *
 * `real` is what stands behind each node asked about so far (steps.h); nodes are asked in
 * the order of the graph, operands first. Certain operands are alike when their values
 * are. */
#ifndef SPINNEY_QUANTITY_TWINS_H
#define SPINNEY_QUANTITY_TWINS_H

#include "quantity/graph.h"

struct scratch;

struct twins {
    const struct graph *g;
    const uint32_t *real;
    uint32_t *slots; /* a hash set of nodes, 0 for empty; NULL when memory has failed */
    uint32_t mask;
};

/* `count`: at most so many nodes will be asked about. */
struct twins twins_of(const struct graph *g, const uint32_t *real, size_t count,
                      struct scratch *memory);
/* An uncertain node, neither OP_NAME nor OP_SAY. */
uint32_t twins_first(struct twins *t, uint32_t node);

#endif
