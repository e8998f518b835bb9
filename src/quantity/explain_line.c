/* The words of the lines of `why`: part of explain.h. */
#include <math.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/num.h"
#include "quantity/explain_inner.h"
#include "quantity/explain_plan.h"
#include "quantity/fold.h"
#include "quantity/unit_inner.h"

static bool same_origin(struct origin a, struct origin b)
{
    return a.at.source == b.at.source && a.at.at == b.at.at
           && (a.words == b.words
               || (a.words && b.words && strcmp(a.words, b.words) == 0));
}

/* Where a leaf came from, and the name above it where that is another place. */
static void put_leaf_origin(const struct plan *p, uint32_t part, struct buf *out)
{
    uint32_t under = explain_under(p->g, part);
    struct origin name = graph_origin(p->g, under), leaf = name;
    if (explain_op(p, under) == OP_NAME)
        leaf = graph_origin(p->g, explain_under(p->g, graph_node(p->g, under)->a));
    bool said = explain_origin(p->sources, leaf, ", from ", out);
    if (!same_origin(name, leaf))
        explain_origin(p->sources, name, said ? "; " : ", from ", out);
}

/* The part in the unit of the sum or the choice that it is a part of, or in the one that
 * an equation takes it in. */
static void put_in_unit_of(const struct plan *p, uint32_t part, uint32_t whole,
                           struct buf *out)
{
    const struct units *u = graph_units(p->g);
    const struct node *n = graph_node(p->g, whole);
    struct unit_id unit = unit_printed(u, n->unit, n->value);
    const struct formula_operand *o = explain_operand(p->g, whole, part);
    buf_puts(out, ", that is ");
    if (o) {
        explain_in(p->g, o->in, graph_node(p->g, part)->value, out);
        return;
    }
    num_trade(out, graph_node(p->g, part)->value / unit_factor(u, unit));
    buf_putc(out, FOLD_BLANK);
    buf_puts(out, unit_name(u, unit, false));
}

/* What is rounded to a whole number must not look whole before: "2,314 plants, more
 * exactly 2,314.13" are 2,315. As many decimals as it takes, up to the 9 that count. */
static void put_fraction(const struct plan *p, uint32_t part, uint32_t whole,
                         struct buf *out)
{
    enum op op = explain_op(p, whole);
    double size = unit_factor(graph_units(p->g), graph_node(p->g, whole)->unit);
    double value = graph_node(p->g, part)->value / size;
    double from_whole = fabs(value - nearbyint(value));
    if ((op != OP_CEIL && op != OP_FLOOR) || fabs(value) < 100 || from_whole <= 1e-9)
        return; /* below 100, figures show their decimals */
    buf_puts(out, ", more exactly ");
    num_fixed(out, value, from_whole >= 0.005 ? 2 : from_whole >= 0.00005 ? 4 : 9, true);
}

/* What the equation calls it, where it does not bear that name itself. */
static void put_operand_name(const struct plan *p, const struct line *line,
                             const char *own, struct buf *out)
{
    const struct formula_operand *o = explain_operand(p->g, line->whole, line->node);
    if (!o || !o->name || (own && strcmp(own, o->name) == 0))
        return;
    explain_plain(o->name, out);
    buf_puts(out, " = ");
}

static void put_part(const struct plan *p, const struct line *line, struct buf *out)
{
    uint32_t under = explain_under(p->g, line->node);
    bool named = explain_op(p, under) == OP_NAME;
    uint32_t body = named ? explain_under(p->g, graph_node(p->g, under)->a) : under;
    if (line->times < 0)
        buf_puts(out, "less ");
    put_operand_name(p, line, named ? graph_node_name(p->g, under) : NULL, out);
    if (named) {
        explain_plain(graph_node_name(p->g, under), out);
        buf_puts(out, " = ");
    }
    explain_node_figure(p->g, line->node, &line->spread, FOLD_BLANK, out);
    if (!explain_in_unit(p->g, line->whole, line->node))
        put_in_unit_of(p, line->node, line->whole, out);
    put_fraction(p, line->node, line->whole, out);
    if (fabs(line->times) != 1) {
        buf_puts(out, ", times ");
        num_trade(out, fabs(line->times));
    }
    if (line->above)
        buf_puts(out, " (above)");
    else if (line->cut)
        buf_puts(out, ", worked out from parts not shown");
    else if (explain_is_leaf(p, body))
        put_leaf_origin(p, line->node, out);
}

static void put_formula(const struct plan *p, const struct line *line, struct buf *out)
{
    buf_puts(out, "= ");
    explain_formula(p->g, line->node, line->whole, out);
    struct origin how = graph_origin(p->g, explain_under(p->g, line->node));
    bool said = false;
    if (explain_op(p, line->whole) == OP_FORMULA) {
        struct origin own = graph_origin(p->g, line->whole);
        said = explain_origin(p->sources, own, " [", out);
        if (same_origin(how, own))
            how = (struct origin){ SPAN_NONE, NULL };
    }
    if (explain_origin(p->sources, how, said ? "; " : " [", out) || said)
        buf_putc(out, ']');
}

void explain_line(const struct plan *p, const struct line *line, struct buf *out)
{
    switch (line->kind) {
    case LINE_PART: put_part(p, line, out); break;
    case LINE_FORMULA: put_formula(p, line, out); break;
    case LINE_REST:
        buf_printf(out, "and %zu more, in all ", line->rest_count);
        explain_value(p->g, graph_node(p->g, line->whole)->unit, line->rest, FOLD_BLANK,
                      out);
        break;
    case LINE_ENOUGH: buf_puts(out, "and further parts, not shown"); break;
    }
}

static bool holds_equation(const struct plan *p)
{
    for (size_t i = 0; i < p->count; i++) {
        const struct line *line = &p->lines[i];
        if (line->kind == LINE_FORMULA && explain_op(p, line->whole) == OP_FORMULA)
            return true;
    }
    return false;
}

void explain_lost(const struct plan *p, struct buf *out)
{
    buf_puts(out, "cannot be worked out in ");
    num_trade(out, p->lines[0].spread.lost * 100);
    buf_puts(out, " percent of the draws (");
    if (holds_equation(p))
        buf_puts(out, "where an equation does not reach, ");
    buf_puts(out, "the root of less than nothing, or nothing divided by nothing): those "
                  "are left out of the low and the high");
}
