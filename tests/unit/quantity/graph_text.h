/* graph_text.h: a quantity with all it is made of as one line of text, for comparing.
 *
 *     graph_text(g, graph_node_of(g, a), 6, &out);     // "(9 + name:x(2*4 ...))"
 */
#ifndef SPINNEY_TESTS_QUANTITY_GRAPH_TEXT_H
#define SPINNEY_TESTS_QUANTITY_GRAPH_TEXT_H

#include "base/buf.h"
#include "base/num.h"
#include "quantity/node.h"

static inline void graph_text(const struct graph *g, uint32_t index, int depth,
                              struct buf *out)
{
    const struct node *n = graph_node(g, index);
    struct origin from = graph_origin(g, index);
    buf_printf(out, "%d:", n->op);
    num_data(out, n->value);
    buf_puts(out, unit_name(graph_units(g), n->unit, false));
    if (from.at.source)
        buf_printf(out, "@%u.%u", from.at.source, from.at.at);
    if (from.words)
        buf_printf(out, "`%s`", from.words);
    if (n->op == OP_NAME)
        buf_printf(out, "=%s", graph_node_name(g, index));
    if (n->op == OP_RANGE) {
        struct range r = graph_range_of(g, index);
        buf_printf(out, "#%u ", (unsigned)r.key);
        num_data(out, r.low);
        buf_putc(out, ' ');
        num_data(out, r.high);
    }
    if (depth == 0)
        return;
    buf_putc(out, '(');
    struct term term;
    for (size_t i = 0; n->op == OP_SUM && graph_term(g, index, i, &term); i++) {
        num_data(out, term.times);
        buf_putc(out, '*');
        if (term.node)
            graph_text(g, term.node, depth - 1, out);
        else
            num_data(out, term.rest);
    }
    if (n->op != OP_SUM && n->a)
        graph_text(g, n->a, depth - 1, out);
    if (n->op != OP_SUM && n->b) {
        buf_putc(out, ',');
        graph_text(g, n->b, depth - 1, out);
    }
    buf_putc(out, ')');
}

#endif
