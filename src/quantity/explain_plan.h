/* explain_plan.h: the lines that `why` will have, between their choice (explain.c) and
 * their words (explain_line.c).
 *
 *     explain_line(&plan, &plan.lines[i], &text);
 */
#ifndef SPINNEY_QUANTITY_EXPLAIN_PLAN_H
#define SPINNEY_QUANTITY_EXPLAIN_PLAN_H

#include "quantity/explain.h"
#include "quantity/node.h"
#include "quantity/spread.h"

struct buf;
struct scratch;

enum line_kind {
    LINE_PART,    /* name and figure */
    LINE_FORMULA, /* of the part above */
    LINE_REST,    /* of a long sum */
    LINE_ENOUGH   /* LINES_MOST was reached */
};

struct line {
    enum line_kind kind;
    int depth;
    uint32_t node;  /* part: whose figure; formula: the part that it belongs to */
    uint32_t whole; /* part: what it is a direct part of; formula: its compound */
    double times;   /* part of a long sum: how often */
    bool above, cut;
    double rest;
    size_t rest_count;
    struct spread spread;
};

struct plan {
    const struct graph *g;
    const struct sources *sources;
    struct explain_look look;
    struct scratch *memory;
    struct line *lines;
    size_t count;
    bool *shown; /* by node, names and all */
};

static inline enum op explain_op(const struct plan *p, uint32_t node)
{
    return (enum op)graph_node(p->g, node)->op;
}

static inline bool explain_is_leaf(const struct plan *p, uint32_t node)
{
    return explain_op(p, node) == OP_LEAF || node_is_drawn(graph_node(p->g, node));
}

void explain_line(const struct plan *p, const struct line *line, struct buf *out);
/* That not all draws of the first line can be worked out, and why. */
void explain_lost(const struct plan *p, struct buf *out);

#endif
