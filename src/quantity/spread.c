#include "quantity/spread.h"

#include <math.h>

#include "base/fault.h"
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

/* A range is what was typed: nothing to draw. */
static struct spread typed(const struct graph *g, uint32_t range)
{
    struct range r = graph_range_of(g, range);
    return uncertain(r.likely, (struct percentiles){ r.low, r.likely, r.high, 0 });
}

static bool is_drawn(const struct graph *g, uint32_t node)
{
    return graph_node(g, node)->uncertain &&
           graph_node(g, spread_behind(g, node))->op != OP_RANGE;
}

static bool draw_some(const struct graph *g, const uint32_t *nodes, const size_t *where,
                      size_t count, struct spread *out, struct fault *f)
{
    struct draws *d = draws_of(g, nodes, count, f);
    if (!d)
        return false;
    /* Percentiles once a row; `first` is who asked for the row first. */
    size_t first[TOGETHER];
    for (size_t i = 0; i < count; i++)
        first[i] = SIZE_MAX;
    for (size_t i = 0; i < count; i++) {
        size_t row = draws_row_number(d, i);
        if (first[row] != SIZE_MAX) {
            out[where[i]] = out[first[row]];
            continue;
        }
        first[row] = where[i];
        out[where[i]] = uncertain(graph_node(g, nodes[i])->value,
                                  select_percentiles(draws_row(d, i), SPREAD_DRAWS));
    }
    draws_free(d);
    return true;
}

bool spread_of_nodes(const struct graph *g, const uint32_t *nodes, size_t count,
                     struct spread *out, struct fault *f)
{
    uint32_t drawn[TOGETHER];
    size_t where[TOGETHER], waiting = 0;
    for (size_t i = 0; i < count; i++) {
        uint32_t node = nodes[i];
        if (node == NODE_NONE) {
            out[i] = certain(0);
        } else if (!graph_node(g, node)->uncertain) {
            out[i] = certain(graph_node(g, node)->value);
        } else if (!is_drawn(g, node)) {
            out[i] = typed(g, spread_behind(g, node));
        } else {
            drawn[waiting] = node;
            where[waiting++] = i;
            if (waiting == TOGETHER) {
                if (!draw_some(g, drawn, where, waiting, out, f))
                    return false;
                waiting = 0;
            }
        }
    }
    return waiting == 0 || draw_some(g, drawn, where, waiting, out, f);
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

/* 1 when a is more, 1/2 when they are equal but for rounding, 0 when it is less. */
static double exceeds(double a, double b)
{
    if (a == b || fabs(a - b) <= 1e-12 * fmax(fabs(a), fabs(b)))
        return 0.5;
    return a > b ? 1 : 0;
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
    struct draws *d = draws_of(g, nodes, 2, f);
    if (!d)
        return false;
    const double *left = draws_row(d, 0), *right = draws_row(d, 1);
    double wins = 0, counted = 0;
    for (int i = 0; i < SPREAD_DRAWS; i++) {
        if (isnan(left[i]) || isnan(right[i]))
            continue;
        wins += exceeds(left[i], right[i]);
        counted++;
    }
    *out = counted > 0 ? wins / counted : likely;
    draws_free(d);
    return true;
}
