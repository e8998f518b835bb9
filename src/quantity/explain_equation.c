/* Equations in words: part of explain.h. */
#include "base/buf.h"
#include "base/num.h"
#include "quantity/explain_inner.h"
#include "quantity/fold.h"
#include "quantity/unit_inner.h"

const struct formula_operand *explain_operand(const struct graph *g, uint32_t whole,
                                              uint32_t part)
{
    if (graph_node(g, whole)->op != OP_FORMULA)
        return NULL;
    struct equation e = graph_equation_of(g, whole);
    for (size_t i = 0; i < e.count; i++) {
        if (e.operands[i].node == part)
            return &e.operands[i];
    }
    return NULL;
}

bool explain_handed_as_printed(const struct graph *g, uint32_t whole, uint32_t part)
{
    const struct units *u = graph_units(g);
    const struct formula_operand *o = explain_operand(g, whole, part);
    const struct node *n = graph_node(g, part);
    return !o
           || unit_factor(u, o->in) == unit_factor(u, unit_printed(u, n->unit, n->value));
}

void explain_in(const struct graph *g, struct unit_id unit, double base, struct buf *out)
{
    const struct units *u = graph_units(g);
    double value = base / unit_factor(u, unit);
    num_trade(out, value);
    if (unit.i == 0)
        return;
    buf_putc(out, FOLD_BLANK);
    buf_puts(out, unit_name(u, unit, value == 1));
}

/* What the equation was given, in the units that it works in, so that it can be worked
 * out on paper. */
void explain_equation(const struct graph *g, uint32_t node, struct buf *out)
{
    struct equation e = graph_equation_of(g, node);
    buf_puts(out, e.formula->name);
    for (size_t i = 0; i < e.count; i++) {
        const struct formula_operand *o = &e.operands[i];
        const char *name = o->name;
        uint32_t under = explain_under(g, o->node);
        if (!name && graph_node(g, under)->op == OP_NAME)
            name = graph_node_name(g, under);
        buf_puts(out, i == 0 ? " (" : ", ");
        if (name) {
            explain_plain(name, out);
            buf_putc(out, ' ');
        }
        explain_in(g, o->in, graph_node(g, o->node)->value, out);
    }
    buf_putc(out, ')');
}

double explain_equation_change(const struct graph *g, uint32_t line, uint32_t node)
{
    const struct units *u = graph_units(g);
    const struct node *n = graph_node(g, line);
    return unit_factor(u, graph_node(g, node)->unit)
           / unit_factor(u, unit_printed(u, n->unit, n->value));
}
