#include "quantity/spread.h"

#include <math.h>

#include "base/fault.h"
#include "quantity/ahead.h"
#include "quantity/draws.h"
#include "quantity/node.h"
#include "quantity/scratch.h"
#include "quantity/select.h"
#include "quantity/spread_inner.h"

_Static_assert((int)SPREAD_DRAWS <= (int)SELECT_MOST, "percentiles of all draws at once");

/* Rows are 32 KB each: more than this many are drawn in turns. */
enum { TOGETHER = 512 };

uint32_t spread_behind(const struct graph *g, uint32_t node)
{
    const struct node *n = graph_node(g, node);
    while (n->op == OP_NAME || n->op == OP_SAY) {
        node = n->a;
        n = graph_node(g, node);
    }
    return node;
}

static struct spread certain(double value)
{
    return (struct spread){ value, value, value, value, 0, false, false };
}

static struct spread uncertain(double value, struct percentiles p)
{
    if (p.lost == SPREAD_DRAWS)
        p.low = p.median = p.high = value;
    struct spread s = {
        .value = value,
        .low = p.low,
        .median = p.median,
        .high = p.high,
        .lost = (double)p.lost / SPREAD_DRAWS,
        .uncertain = true,
    };
    double width = p.high - p.low;
    double scale = isfinite(width) ? fmax(fabs(value), width) : fabs(value);
    s.skewed = fabs(p.median - value) > 0.03 * scale;
    return s;
}

/* A node that is so many times another has its percentiles too. */
struct multiple {
    uint32_t of;
    double times;
};

static bool steps_down(const struct graph *g, struct multiple *m)
{
    m->of = spread_behind(g, m->of);
    const struct node *n = graph_node(g, m->of);
    if (n->op != OP_MULTIPLY && n->op != OP_DIVIDE)
        return false;
    const struct node *a = graph_node(g, n->a), *b = graph_node(g, n->b);
    double times = n->op == OP_DIVIDE ? m->times / b->value
                   : b->uncertain     ? m->times * a->value
                                      : m->times * b->value;
    bool one_certain =
        a->uncertain != b->uncertain && (n->op == OP_MULTIPLY || a->uncertain);
    if (!one_certain || times == 0 || !isfinite(times))
        return false;
    *m = (struct multiple){ a->uncertain ? n->a : n->b, times };
    return true;
}

static struct multiple multiple_of(const struct graph *g, uint32_t node)
{
    struct multiple m = { node, 1 };
    while (steps_down(g, &m))
        ;
    return m;
}

static struct percentiles multiplied(struct percentiles p, double times)
{
    struct percentiles out = { p.low * times, p.median * times, p.high * times, p.lost };
    if (times < 0) {
        out.low = p.high * times;
        out.high = p.low * times;
    }
    return out;
}

/* A range is what was typed: nothing to draw. */
static struct percentiles typed(const struct graph *g, uint32_t range)
{
    struct range r = graph_range_of(g, range);
    return (struct percentiles){ r.low, r.likely, r.high, 0 };
}

/* Which of the spreads asked for is drawn. */
struct wanted {
    size_t place; /* in the list of them */
    double value;
    double times; /* what is drawn */
};

static bool draw_some(const struct graph *g, const uint32_t *nodes,
                      const struct wanted *wanted, size_t count, struct spread *out,
                      struct fault *f)
{
    struct draws *d = draws_of(g, nodes, count, f);
    if (!d)
        return false;
    /* Percentiles once a row. */
    struct percentiles found[TOGETHER];
    bool known[TOGETHER] = { false };
    for (size_t i = 0; i < count; i++) {
        size_t row = draws_row_number(d, i);
        if (!known[row])
            found[row] = select_percentiles(draws_row(d, i), SPREAD_DRAWS);
        known[row] = true;
        out[wanted[i].place] =
            uncertain(wanted[i].value, multiplied(found[row], wanted[i].times));
    }
    draws_free(d);
    return true;
}

bool spread_of_nodes(const struct graph *g, const uint32_t *nodes, size_t count,
                     struct spread *out, struct fault *f)
{
    uint32_t drawn[TOGETHER];
    struct wanted wanted[TOGETHER];
    size_t waiting = 0;
    for (size_t i = 0; i < count; i++) {
        if (nodes[i] == NODE_NONE) {
            out[i] = certain(0);
            continue;
        }
        double value = graph_node(g, nodes[i])->value;
        if (!graph_node(g, nodes[i])->uncertain) {
            out[i] = certain(value);
            continue;
        }
        struct multiple m = multiple_of(g, nodes[i]);
        if (node_is_drawn(graph_node(g, m.of))) {
            out[i] = uncertain(value, multiplied(typed(g, m.of), m.times));
            continue;
        }
        struct percentiles known;
        if (ahead_percentiles(g, m.of, &known)) {
            out[i] = uncertain(value, multiplied(known, m.times));
            continue;
        }
        drawn[waiting] = m.of;
        wanted[waiting++] = (struct wanted){ i, value, m.times };
        if (waiting == TOGETHER) {
            if (!draw_some(g, drawn, wanted, waiting, out, f))
                return false;
            waiting = 0;
        }
    }
    return waiting == 0 || draw_some(g, drawn, wanted, waiting, out, f);
}

bool spread_of(struct graph *g, const struct qty *what, size_t count, struct spread *out,
               struct fault *f)
{
    struct scratch memory = scratch_of(g);
    uint32_t *nodes = scratch_get(&memory, count, sizeof *nodes);
    bool done = false;
    if (!nodes)
        fault_no_memory(f);
    else {
        for (size_t i = 0; i < count; i++)
            nodes[i] = qty_is(what[i]) ? graph_node_of(g, what[i]) : NODE_NONE;
        done = spread_of_nodes(g, nodes, count, out, f);
    }
    scratch_clear(&memory);
    return done;
}

bool spread_ahead(struct graph *g, const struct qty *what, size_t count, struct fault *f)
{
    struct scratch memory = scratch_of(g);
    uint32_t *nodes = scratch_get(&memory, count, sizeof *nodes);
    size_t drawn = 0;
    if (!nodes)
        fault_no_memory(f);
    for (size_t i = 0; nodes && i < count; i++) {
        if (!qty_is(what[i]) || !graph_is_uncertain(g, what[i]))
            continue;
        struct multiple m = multiple_of(g, graph_node_of(g, what[i]));
        if (!node_is_drawn(graph_node(g, m.of)))
            nodes[drawn++] = m.of;
    }
    bool done = nodes && ahead_draw(g, nodes, drawn, f);
    scratch_clear(&memory);
    return done;
}

/* 1 when a is more, 1/2 when they are equal but for rounding, 0 when it is less. */
static double exceeds(double a, double b)
{
    if (a == b || fabs(a - b) <= 1e-12 * fmax(fabs(a), fabs(b)))
        return 0.5;
    return a > b ? 1 : 0;
}

/* A side of a comparison: its draws, or its value when it has none. */
struct side {
    const double *row;
    double value;
};

static double side_at(struct side s, int i)
{
    return s.row ? s.row[i] : s.value;
}

/* Is all that it takes drawn already? */
static bool side_ahead(const struct graph *g, uint32_t node, struct side *out)
{
    *out = (struct side){ NULL, graph_node(g, node)->value };
    if (!graph_node(g, node)->uncertain)
        return true;
    out->row = ahead_row(g, spread_behind(g, node));
    return out->row != NULL;
}

static double chance_of(struct side a, struct side b, double otherwise)
{
    double wins = 0, counted = 0;
    for (int i = 0; i < SPREAD_DRAWS; i++) {
        double left = side_at(a, i), right = side_at(b, i);
        if (isnan(left) || isnan(right))
            continue;
        wins += exceeds(left, right);
        counted++;
    }
    return counted > 0 ? wins / counted : otherwise;
}

bool spread_chance(struct graph *g, struct qty a, struct qty b, double *out,
                   struct fault *f)
{
    if (!qty_is(a) || !qty_is(b) || !graph_fits(g, a, b, "compare", f))
        return false;
    uint32_t nodes[2] = { graph_node_of(g, a), graph_node_of(g, b) };
    double likely = exceeds(graph_value(g, a), graph_value(g, b));
    if (!graph_is_uncertain(g, a) && !graph_is_uncertain(g, b)) {
        *out = likely;
        return true;
    }
    struct side left, right;
    if (side_ahead(g, nodes[0], &left) && side_ahead(g, nodes[1], &right)) {
        *out = chance_of(left, right, likely);
        return true;
    }
    struct draws *d = draws_of(g, nodes, 2, f);
    if (!d)
        return false;
    *out = chance_of((struct side){ draws_row(d, 0), 0 },
                     (struct side){ draws_row(d, 1), 0 }, likely);
    draws_free(d);
    return true;
}
