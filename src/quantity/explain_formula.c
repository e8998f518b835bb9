/* Formulas in words: part of explain.h. */
#include <math.h>

#include "base/buf.h"
#include "base/num.h"
#include "quantity/draws.h"
#include "quantity/explain_inner.h"
#include "quantity/fold.h"
#include "quantity/unit_inner.h"

enum {
    INSIDE_PARTS = 4, /* an unnamed part with more parts than this stands by itself */
    INSIDE_DEPTH = 3  /* or with more steps than this one inside the other */
};

/* How tightly the parts of a formula hold together. */
enum tie { TIE_LOOSE, TIE_SUM, TIE_PRODUCT, TIE_ONE };

uint32_t explain_under(const struct graph *g, uint32_t node)
{
    while (graph_node(g, node)->op == OP_SAY)
        node = graph_node(g, node)->a;
    return node;
}

double explain_unit_size(const struct graph *g, uint32_t node)
{
    const struct units *u = graph_units(g);
    const struct node *n = graph_node(g, node);
    if (dim_is_number(unit_dim(u, n->unit)) && !unit_is_per_land(u, n->unit))
        return 1;
    return unit_factor(u, unit_printed(u, n->unit, n->value));
}

static bool same_size(double a, double b)
{
    return fabs(a - b) <= 1e-9 * fabs(b);
}

static bool is_leaf_or_name(const struct graph *g, uint32_t node)
{
    enum op op = (enum op)graph_node(g, node)->op;
    return op == OP_LEAF || op == OP_RANGE || op == OP_SHARED || op == OP_NAME;
}

/* What an unnamed part would be inside a formula. */
struct inside {
    int parts;
    double size; /* of the units that its printed figures come out in */
    bool fits;
};

static const struct inside too_much = { INSIDE_PARTS + 1, 1, false };

static struct inside inside_of(const struct graph *g, uint32_t node, int depth);

/* Sums and choices stay inside only where every figure is in the unit of the whole:
 * otherwise the reader could not add them up. */
static struct inside inside_alike(const struct graph *g, uint32_t node, int depth)
{
    struct inside all = { 0, explain_unit_size(g, node), true };
    uint32_t operand;
    for (size_t i = 0; all.fits && draws_operand(g, node, i, &operand); i++) {
        if (operand == NODE_NONE)
            return too_much;
        struct inside one = inside_of(g, operand, depth);
        all.parts += one.parts;
        all.fits = one.fits && all.parts <= INSIDE_PARTS && same_size(one.size, all.size);
    }
    return all;
}

static struct inside inside_of(const struct graph *g, uint32_t node, int depth)
{
    uint32_t under = explain_under(g, node);
    const struct node *n = graph_node(g, under);
    if (is_leaf_or_name(g, under))
        return (struct inside){ 1, explain_unit_size(g, node), true };
    if (depth <= 0 || under != node)
        return too_much; /* said in another unit: its own line shows it */
    struct inside a, b;
    switch ((enum op)n->op) {
    case OP_MULTIPLY:
    case OP_DIVIDE:
        a = inside_of(g, n->a, depth - 1);
        b = inside_of(g, n->b, depth - 1);
        return (struct inside){ a.parts + b.parts,
                                n->op == OP_MULTIPLY ? a.size * b.size : a.size / b.size,
                                a.fits && b.fits && a.parts + b.parts <= INSIDE_PARTS };
    case OP_POWER:
        a = inside_of(g, n->a, depth - 1);
        a.size = pow(a.size, (double)n->numerator / n->denominator);
        return a;
    case OP_SUM:
    case OP_MIN:
    case OP_MAX:
    case OP_CEIL:
    case OP_FLOOR:
        return inside_alike(g, node, depth - 1);
    case OP_FORMULA: /* reads best on a line of its own */
    case OP_LEAF:
    case OP_RANGE:
    case OP_SHARED:
    case OP_SAY:
    case OP_NAME:
        break; /* above */
    }
    return too_much;
}

static bool is_product(const struct graph *g, uint32_t node)
{
    enum op op = (enum op)graph_node(g, node)->op;
    return op == OP_MULTIPLY || op == OP_DIVIDE || op == OP_POWER;
}

bool explain_in_unit(const struct graph *g, uint32_t whole, uint32_t part)
{
    if (graph_node(g, whole)->op == OP_FORMULA)
        return explain_handed_as_printed(g, whole, part);
    return is_product(g, whole)
           || same_size(explain_unit_size(g, whole), explain_unit_size(g, part));
}

/* Operands of a formula may stand inside it when they are short, and, in a sum or a
 * choice, only in the unit of the whole. */
static bool stands_inside(const struct graph *g, uint32_t whole, uint32_t operand)
{
    if (is_leaf_or_name(g, explain_under(g, operand))
        || graph_node(g, whole)->op == OP_FORMULA)
        return false;
    struct inside one = inside_of(g, operand, INSIDE_DEPTH);
    return one.fits
           && (is_product(g, whole) || same_size(one.size, explain_unit_size(g, whole)));
}

static void put_part(const struct graph *g, uint32_t whole, uint32_t operand,
                     enum tie tie, struct buf *out);

static void put_atom(const struct graph *g, uint32_t node, struct buf *out)
{
    uint32_t under = explain_under(g, node);
    const struct node *n = graph_node(g, node);
    if (graph_node(g, under)->op == OP_NAME) {
        explain_plain(graph_node_name(g, under), out);
        return;
    }
    if (n->value < 0)
        buf_putc(out, '(');
    explain_value(g, n->unit, n->value, FOLD_BLANK, out);
    if (n->value < 0)
        buf_putc(out, ')');
}

/* "a + 3 x b - c" */
static void put_sum(const struct graph *g, uint32_t node, struct buf *out)
{
    struct term t;
    for (size_t i = 0; graph_term(g, node, i, &t); i++) {
        double times = fabs(t.times);
        buf_puts(out, t.times < 0 ? (i > 0 ? " - " : "minus ") : i > 0 ? " + " : "");
        if (times != 1) {
            num_trade(out, times);
            buf_puts(out, " x ");
        }
        if (t.node == NODE_NONE) {
            explain_value(g, graph_node(g, node)->unit, t.rest, FOLD_BLANK, out);
            continue;
        }
        put_part(g, node, t.node, times != 1 || t.times < 0 ? TIE_PRODUCT : TIE_SUM, out);
    }
}

static void put_power(const struct graph *g, uint32_t node, struct buf *out)
{
    const struct node *n = graph_node(g, node);
    if (n->numerator == 1 && (n->denominator == 2 || n->denominator == 3)) {
        buf_puts(out, n->denominator == 2 ? "square root of " : "cube root of ");
        put_part(g, node, n->a, TIE_ONE, out);
        return;
    }
    put_part(g, node, n->a, TIE_ONE, out);
    if (n->denominator == 1 && (n->numerator == 2 || n->numerator == 3))
        buf_puts(out, n->numerator == 2 ? " squared" : " cubed");
    else if (n->denominator == 1)
        buf_printf(out, " to the power %d", n->numerator);
    else
        buf_printf(out, " to the power %d/%d", n->numerator, n->denominator);
}

static void put_whole(const struct graph *g, uint32_t node, struct buf *out)
{
    const struct node *n = graph_node(g, node);
    put_part(g, node, n->a, TIE_SUM, out);
    buf_printf(out, ", rounded %s to ", n->op == OP_CEIL ? "up" : "down");
    if (n->unit.i == 0)
        buf_puts(out, "a whole number");
    else
        buf_printf(out, "whole %s", unit_name(graph_units(g), n->unit, false));
}

static enum tie tie_of(const struct graph *g, uint32_t node)
{
    switch ((enum op)graph_node(g, node)->op) {
    case OP_SUM: return TIE_SUM;
    case OP_MULTIPLY:
    case OP_DIVIDE: return TIE_PRODUCT;
    case OP_POWER:
    case OP_MIN:
    case OP_MAX:
    case OP_CEIL:
    case OP_FLOOR: return TIE_LOOSE;
    case OP_FORMULA:
    case OP_LEAF:
    case OP_RANGE:
    case OP_SHARED:
    case OP_SAY:
    case OP_NAME: break;
    }
    return TIE_ONE;
}

static void put_node(const struct graph *g, uint32_t node, struct buf *out)
{
    const struct node *n = graph_node(g, node);
    switch ((enum op)n->op) {
    case OP_SUM: put_sum(g, node, out); break;
    case OP_MULTIPLY:
        put_part(g, node, n->a, TIE_PRODUCT, out);
        buf_puts(out, " x ");
        /* A quotient on the right would read as if it went on from the left. */
        put_part(g, node, n->b,
                 graph_node(g, n->b)->op == OP_MULTIPLY ? TIE_PRODUCT : TIE_ONE, out);
        break;
    case OP_DIVIDE:
        put_part(g, node, n->a, TIE_PRODUCT, out);
        buf_puts(out, " / ");
        put_part(g, node, n->b, TIE_ONE, out);
        break;
    case OP_POWER: put_power(g, node, out); break;
    case OP_MIN:
    case OP_MAX:
        buf_puts(out, n->op == OP_MIN ? "the smaller of " : "the larger of ");
        put_part(g, node, n->a, TIE_SUM, out);
        buf_puts(out, " and ");
        put_part(g, node, n->b, TIE_SUM, out);
        break;
    case OP_CEIL:
    case OP_FLOOR: put_whole(g, node, out); break;
    case OP_FORMULA: explain_equation(g, node, out); break;
    case OP_LEAF:
    case OP_RANGE:
    case OP_SHARED:
    case OP_SAY:
    case OP_NAME: put_atom(g, node, out); break;
    }
}

static void put_part(const struct graph *g, uint32_t whole, uint32_t operand,
                     enum tie tie, struct buf *out)
{
    if (!stands_inside(g, whole, operand)) {
        put_atom(g, operand, out);
        return;
    }
    bool apart = tie_of(g, operand) < tie;
    if (apart)
        buf_putc(out, '(');
    put_node(g, operand, out);
    if (apart)
        buf_putc(out, ')');
}

/* A sum or a choice that its line gives in another unit is a part of its own: what it is
 * made of adds up only in its own unit. */
static bool stands_apart(const struct graph *g, uint32_t line, uint32_t node)
{
    return !is_product(g, node) && graph_node(g, node)->op != OP_FORMULA
           && !same_size(explain_unit_size(g, line), explain_unit_size(g, node));
}

/* What the printed figures have to be multiplied by to come out in the printed unit. */
static double unit_change(const struct graph *g, uint32_t line, uint32_t node)
{
    const struct node *n = graph_node(g, node);
    double size = explain_unit_size(g, line);
    if (n->op == OP_FORMULA)
        return explain_equation_change(g, line, node);
    if (!is_product(g, node))
        return explain_unit_size(g, node) / size;
    double sizes[2] = { 1, 1 };
    uint32_t operand;
    for (size_t i = 0; draws_operand(g, node, i, &operand); i++)
        sizes[i] = stands_inside(g, node, operand)
                       ? inside_of(g, operand, INSIDE_DEPTH).size
                       : explain_unit_size(g, operand);
    if (n->op == OP_POWER)
        return pow(sizes[0], (double)n->numerator / n->denominator) / size;
    return (n->op == OP_MULTIPLY ? sizes[0] * sizes[1] : sizes[0] / sizes[1]) / size;
}

size_t explain_terms(const struct graph *g, uint32_t sum)
{
    struct term t;
    size_t count = 0;
    for (size_t i = 0; graph_term(g, sum, i, &t); i++)
        count += t.node == NODE_NONE ? t.rest_count : 1;
    return count;
}

void explain_formula(const struct graph *g, uint32_t line, uint32_t node, struct buf *out)
{
    bool apart = stands_apart(g, line, node);
    if (explain_is_long(g, line, node)) {
        buf_printf(out, "sum of %zu parts, the largest first", explain_terms(g, node));
        return;
    }
    if (apart)
        put_atom(g, node, out);
    else
        put_node(g, node, out);
    double change = unit_change(g, line, node);
    if (same_size(change, 1))
        return;
    buf_puts(out, change >= 1 ? " x " : " / ");
    num_trade(out, change >= 1 ? change : 1 / change);
    buf_puts(out, " (change of units)");
}

bool explain_is_long(const struct graph *g, uint32_t line, uint32_t node)
{
    return graph_node(g, node)->op == OP_SUM && !stands_apart(g, line, node)
           && explain_terms(g, node) > EXPLAIN_TERMS;
}

static void parts_inside(const struct graph *g, uint32_t node,
                         void (*see)(void *with, uint32_t whole, uint32_t part),
                         void *with)
{
    uint32_t operand;
    for (size_t i = 0; draws_operand(g, node, i, &operand); i++) {
        if (operand == NODE_NONE)
            continue;
        if (stands_inside(g, node, operand))
            parts_inside(g, operand, see, with);
        else
            see(with, node, operand);
    }
}

void explain_parts(const struct graph *g, uint32_t line, uint32_t node,
                   void (*see)(void *with, uint32_t whole, uint32_t part), void *with)
{
    if (stands_apart(g, line, node))
        see(with, node, node);
    else
        parts_inside(g, node, see, with);
}
