/* graph_text.h: a quantity with all it is made of as one line of text, for comparing.
 *
 *     graph_text(g, graph_node_of(g, a), 6, &out);     // "(9 + name:x(2*4 ...))"
 */
#ifndef SPINNEY_TESTS_QUANTITY_GRAPH_TEXT_H
#define SPINNEY_TESTS_QUANTITY_GRAPH_TEXT_H

#include "base/buf.h"
#include "base/num.h"
#include "quantity/node.h"

/* A figure that has a low and a high, with its key or its causes. */
static inline void graph_text_range(const struct graph *g, uint32_t index,
                                    struct buf *out)
{
    struct range r = graph_range_of(g, index);
    buf_printf(out, "#%u ", (unsigned)r.key);
    num_data(out, r.low);
    buf_putc(out, ' ');
    num_data(out, r.high);
    if (graph_node(g, index)->op != OP_SHARED)
        return;
    struct causes c = graph_causes_of(g, index);
    for (size_t i = 0; i < c.count; i++) {
        buf_printf(out, " %u*", (unsigned)c.list[i].key);
        num_data(out, c.list[i].weight);
    }
}

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
    if (node_is_drawn(n))
        graph_text_range(g, index, out);
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
    if (n->op == OP_FORMULA) {
        struct equation e = graph_equation_of(g, index);
        buf_puts(out, e.formula->name);
        for (size_t i = 0; i < e.with_count; i++) {
            buf_putc(out, ' ');
            num_data(out, e.with[i]);
        }
        for (size_t i = 0; i < e.count; i++) {
            buf_printf(out, " %s ", e.operands[i].name ? e.operands[i].name : "");
            buf_puts(out, unit_name(graph_units(g), e.operands[i].in, false));
            graph_text(g, e.operands[i].node, depth - 1, out);
        }
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
