/* Products, quotients, powers, least and most, rounding, and saying in another unit. */
#include <math.h>

#include "base/fault.h"
#include "quantity/graph_inner.h"
#include "quantity/unit_inner.h"

struct qty graph_add(struct graph *g, struct qty a, struct qty b, struct fault *f)
{
    return graph_add_signed(g, a, b, 1, "add", f);
}

struct qty graph_subtract(struct graph *g, struct qty a, struct qty b, struct fault *f)
{
    return graph_add_signed(g, a, b, -1, "subtract", f);
}

/* A result said in `unit`, or nothing when it is no number that can be counted with. */
static struct qty result(struct graph *g, struct node *n, struct unit_id unit,
                         const char *verb, struct fault *f)
{
    if (!graph_finite(g, n->value, verb, n->a, n->b, f))
        return QTY_NONE;
    n->unit = unit;
    n->kind = unit_kind(g->units, unit);
    return graph_done(g);
}

struct qty graph_multiply(struct graph *g, struct qty a, struct qty b, struct fault *f)
{
    struct unit_id unit;
    if (!qty_is(a) || !qty_is(b) || !graph_room(g, f))
        return QTY_NONE;
    uint32_t x = graph_index(g, a), y = graph_index(g, b);
    const struct node *p = &g->nodes[x], *q = &g->nodes[y];
    if (!unit_product(g->units, p->unit, q->unit, 1, &unit, f))
        return QTY_NONE;
    struct node *n = graph_next(g);
    *n = (struct node){ .value = p->value * q->value, .a = x, .b = y, .op = OP_MULTIPLY,
                   .uncertain = p->uncertain || q->uncertain };
    return result(g, n, unit, "multiply", f);
}

struct qty graph_divide(struct graph *g, struct qty a, struct qty b, struct fault *f)
{
    struct unit_id unit;
    if (!qty_is(a) || !qty_is(b) || !graph_room(g, f))
        return QTY_NONE;
    uint32_t x = graph_index(g, a), y = graph_index(g, b);
    const struct node *p = &g->nodes[x], *q = &g->nodes[y];
    if (!unit_product(g->units, p->unit, q->unit, -1, &unit, f))
        return QTY_NONE;
    struct node *n = graph_next(g);
    *n = (struct node){ .value = p->value / q->value, .a = x, .b = y, .op = OP_DIVIDE,
                   .uncertain = p->uncertain || q->uncertain };
    return result(g, n, unit, "divide", f);
}

struct qty graph_negate(struct graph *g, struct qty a, struct fault *f)
{
    if (!qty_is(a) || !graph_room(g, f))
        return QTY_NONE;
    uint32_t x = graph_index(g, a);
    const struct node *p = &g->nodes[x];
    struct node *n = graph_next(g);
    *n = (struct node){ .value = -p->value, .a = x, .op = OP_SUM, .numerator = -1,
                   .uncertain = p->uncertain };
    return result(g, n, p->unit, "subtract", f);
}

struct qty graph_scale(struct graph *g, struct qty a, double by, struct fault *f)
{
    if (!qty_is(a))
        return QTY_NONE;
    struct origin nowhere = { { 0, 0, 0 }, NULL };
    struct qty number = graph_leaf(g, by, UNIT_NUMBER, nowhere, f);
    struct qty scaled = graph_multiply(g, number, a, f);
    graph_release(g, number);
    return scaled;
}

static double raised(double value, int numerator, int denominator)
{
    /* pow is not rounded alike by all libraries; products and square roots are. */
    double root = denominator == 2 ? sqrt(value) : denominator == 3 ? cbrt(value) : value;
    double product = 1;
    for (int i = 0; i < (numerator < 0 ? -numerator : numerator); i++)
        product *= root;
    return numerator < 0 ? 1 / product : product;
}

struct qty graph_power(struct graph *g, struct qty a, int numerator, int denominator,
                       struct fault *f)
{
    struct unit_id unit;
    if (!qty_is(a) || !graph_room(g, f))
        return QTY_NONE;
    uint32_t x = graph_index(g, a);
    const struct node *p = &g->nodes[x];
    if (denominator < 1 || denominator > 3 || numerator < -6 || numerator > 6) {
        fault_set(f, "dimension-power", SPAN_NONE,
                  "only whole powers from -6 to 6, square roots and cube roots");
        return QTY_NONE;
    }
    if (p->value < 0 && denominator == 2) {
        fault_set(f, "value-not-finite", SPAN_NONE,
                  "there is no square root of a number below zero");
        return QTY_NONE;
    }
    if (p->value == 0 && numerator < 0) {
        fault_set(f, "divide-by-zero", SPAN_NONE, "cannot divide by zero");
        return QTY_NONE;
    }
    if (!unit_raise(g->units, p->unit, numerator, denominator, &unit, f))
        return QTY_NONE;
    struct node *n = graph_next(g);
    *n = (struct node){ .value = raised(p->value, numerator, denominator), .a = x,
                   .op = OP_POWER, .uncertain = p->uncertain,
                   .numerator = (int8_t)numerator, .denominator = (int8_t)denominator };
    return result(g, n, unit, "raise", f);
}

static struct qty either_of(struct graph *g, struct qty a, struct qty b, enum op op,
                            struct fault *f)
{
    if (!qty_is(a) || !qty_is(b) || !graph_fits(g, a, b, "compare", f)
        || !graph_room(g, f))
        return QTY_NONE;
    uint32_t x = graph_index(g, a), y = graph_index(g, b);
    const struct node *p = &g->nodes[x], *q = &g->nodes[y];
    bool first = op == OP_MIN ? p->value <= q->value : p->value >= q->value;
    struct node *n = graph_next(g);
    *n = (struct node){ .value = first ? p->value : q->value, .a = x, .b = y,
                   .op = (uint8_t)op, .uncertain = p->uncertain || q->uncertain };
    return result(g, n, p->unit, "compare", f);
}

struct qty graph_min(struct graph *g, struct qty a, struct qty b, struct fault *f)
{
    return either_of(g, a, b, OP_MIN, f);
}

struct qty graph_max(struct graph *g, struct qty a, struct qty b, struct fault *f)
{
    return either_of(g, a, b, OP_MAX, f);
}

double graph_whole(double value, double factor, bool up)
{
    double count = value / factor, nearest = round(count);
    if (fabs(count - nearest) > 1e-9)
        nearest = up ? ceil(count) : floor(count);
    return nearest * factor;
}

static struct qty to_whole(struct graph *g, struct qty a, struct unit_id unit, enum op op,
                           struct fault *f)
{
    if (!qty_is(a) || !graph_room(g, f))
        return QTY_NONE;
    uint32_t x = graph_index(g, a);
    const struct node *p = &g->nodes[x];
    if (!graph_says_in(g, x, unit, f))
        return QTY_NONE;
    struct node *n = graph_next(g);
    *n = (struct node){ .value = graph_whole(p->value, unit_factor(g->units, unit),
                                          op == OP_CEIL),
                   .a = x, .op = (uint8_t)op, .uncertain = p->uncertain };
    return result(g, n, unit, "round", f);
}

struct qty graph_ceil(struct graph *g, struct qty a, struct unit_id unit, struct fault *f)
{
    return to_whole(g, a, unit, OP_CEIL, f);
}

struct qty graph_floor(struct graph *g, struct qty a, struct unit_id unit,
                       struct fault *f)
{
    return to_whole(g, a, unit, OP_FLOOR, f);
}

struct qty graph_say_in(struct graph *g, struct qty a, struct unit_id unit,
                        struct fault *f)
{
    if (!qty_is(a) || !graph_room(g, f))
        return QTY_NONE;
    uint32_t x = graph_index(g, a);
    const struct node *p = &g->nodes[x];
    if (!graph_says_in(g, x, unit, f))
        return QTY_NONE;
    if (p->unit.i == unit.i)
        return graph_hand_out(g, x);
    struct node *n = graph_next(g);
    *n = (struct node){ .value = p->value, .a = x, .op = OP_SAY,
                        .uncertain = p->uncertain };
    return result(g, n, unit, "say", f);
}
