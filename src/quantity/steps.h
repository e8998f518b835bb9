/* steps.h: the part of a graph that a set of nodes needs, laid out as steps over blocks
 * of draws: worked out once, then run for each block.
 *
 *     struct steps s;
 *     if (steps_lay_out(g, needs, &memory, &s))
 *         steps_run(&s, table, results);        // a row of SPREAD_DRAWS for each asked
 *
 * Steps stand in the order of the nodes, operands first. Leaves are put off until they
 * are wanted, and a buffer is taken back once its last reader is past, so that a sum over
 * any number of ranges needs three buffers. A cause that shared leaves lean on is drawn
 * once a block, and its buffer goes back when the last of them is past. */
#ifndef SPINNEY_QUANTITY_STEPS_H
#define SPINNEY_QUANTITY_STEPS_H

#include "quantity/graph.h"

struct equation_draw;
struct leaf_draw;
struct operand_draw;
struct scratch;
struct step;

/* `asked`: uncertain nodes, each once, none of them OP_NAME or OP_SAY. `real[n]` is the
 * node that stands behind n once those two are looked through, the first of its twins
 * (twins.h), NODE_NONE where nothing asked for needs n; it has top + 1 places. */
struct needs {
    const uint32_t *asked;
    size_t count;
    const uint32_t *real;
    uint32_t top;
};

struct steps {
    struct step *step;
    struct leaf_draw *leaf;
    struct equation_draw *equation;
    struct operand_draw *operand;
    double *buffers;
    size_t steps, leaves, equations, operands, buffers_count;
};

/* Lives in `memory`; false when that failed. */
bool steps_lay_out(const struct graph *g, struct needs needs, struct scratch *memory,
                   struct steps *out);
void steps_run(const struct steps *s, const double *table, double *results);

#endif
