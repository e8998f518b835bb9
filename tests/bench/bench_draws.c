/* bench_draws: draws through the graph against plain C.
 *
 * The bar: SPREAD_DRAWS draws over a graph of 1,000 nodes of + and * take at most 1.5
 * times a plain C loop that does the same operations over one array of SPREAD_DRAWS
 * doubles a node. The time of the graph is of the whole thing as a caller meets it:
 * memory, laying out the steps, drawing the leaves, and the draws; the plain loop finds
 * its arrays there and its leaves filled. Leaves and percentiles are reported beside it
 * once more by themselves. Medians of RUNS, taken in turns. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "base/fault.h"
#include "quantity/draws.h"
#include "quantity/node.h"
#include "quantity/normal.h"
#include "quantity/select.h"
#include "quantity/shuffle.h"

enum { LEAVES = 40, OPERATIONS = 1000, PERCENTILES = 100, RUNS = 31 };

struct operation {
    int a, b; /* places: leaves first, then operations */
    bool times;
};

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e3 + (double)t.tv_nsec / 1e6;
}

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return x < y ? -1 : x > y;
}

static double median(double *times)
{
    qsort(times, RUNS, sizeof *times, by_size);
    return times[RUNS / 2];
}

/* Sums and products by turns, each of the one before and of another part: of one of the
 * thirty before it (sums) or of a leaf (products: leaves are near 1/2, so that no value
 * runs away). Nothing is idle: the last operation needs all. */
static void make_operations(struct operation *list)
{
    unsigned seed = 7;
    for (int i = 0; i < OPERATIONS; i++) {
        seed = seed * 1664525u + 1013904223u;
        int back = LEAVES + i - 1 - (int)((seed >> 8) % 30u);
        list[i].a = i == 0 ? 0 : LEAVES + i - 1;
        list[i].times = i % 2 == 1;
        list[i].b = list[i].times || back < LEAVES ? i * 7 % LEAVES : back;
    }
}

static struct qty leaf(struct graph *g, int i, struct fault *f)
{
    struct origin nowhere = { SPAN_NONE, NULL };
    return graph_range(g, 0.49, 0.5, 0.51 + i * 0.0001, UNIT_NUMBER,
                       graph_key("leaf", (uint32_t)i, 0), nowhere, f);
}

/* Sums of unnamed sums grow into one long sum: each sum here gets a name, as the parts of
 * a plan have, so that it stays a node of two operands. */
static void make_graph(struct graph *g, const struct operation *list, struct qty *q,
                       struct fault *f)
{
    struct origin nowhere = { SPAN_NONE, NULL };
    for (int i = 0; i < LEAVES; i++)
        q[i] = leaf(g, i, f);
    for (int i = 0; i < OPERATIONS; i++) {
        struct qty *out = &q[LEAVES + i], a = q[list[i].a], b = q[list[i].b];
        *out = list[i].times ? graph_multiply(g, a, b, f) : graph_add(g, a, b, f);
        if (!list[i].times)
            graph_name(g, out, "part", nowhere, f);
    }
}

/* One array a node, in order, as somebody would write it who had no graph. The arrays of
 * the leaves are filled beforehand and not timed. */
static double plain(const struct operation *list, double **array)
{
    double start = now();
    for (int i = 0; i < OPERATIONS; i++) {
        const double *restrict a = array[list[i].a], *restrict b = array[list[i].b];
        double *restrict out = array[LEAVES + i];
        if (list[i].times) {
            for (int k = 0; k < SPREAD_DRAWS; k++)
                out[k] = a[k] * b[k];
        } else {
            for (int k = 0; k < SPREAD_DRAWS; k++)
                out[k] = a[k] + b[k];
        }
    }
    return now() - start;
}

static double drawn(struct graph *g, uint32_t node, double *last, struct fault *f)
{
    double start = now();
    struct draws *d = draws_of(g, &node, 1, f);
    double time = now() - start;
    if (d)
        *last = draws_row(d, 0)[SPREAD_DRAWS - 1];
    draws_free(d);
    return time;
}

static double only_leaves(struct graph *g, const struct qty *q, struct fault *f)
{
    uint32_t nodes[LEAVES];
    for (int i = 0; i < LEAVES; i++)
        nodes[i] = graph_node_of(g, q[i]);
    double start = now();
    draws_free(draws_of(g, nodes, LEAVES, f));
    return now() - start;
}

/* Of the last PERCENTILES quantities, for one. */
static double percentiles(double **array, double *sum)
{
    double start = now();
    for (int i = OPERATIONS - PERCENTILES; i < OPERATIONS; i++) {
        struct percentiles p = select_percentiles(array[LEAVES + i], SPREAD_DRAWS);
        *sum += p.low + p.median + p.high;
    }
    return (now() - start) / PERCENTILES;
}

static bool run(struct graph *g, struct fault *f)
{
    static struct operation list[OPERATIONS];
    static struct qty q[LEAVES + OPERATIONS];
    static double *array[LEAVES + OPERATIONS];
    double graph_times[RUNS], plain_times[RUNS], leaf_times[RUNS], select_times[RUNS];
    double last = 0, sum = 0;
    make_operations(list);
    make_graph(g, list, q, f);
    double *all = malloc(sizeof *all * (LEAVES + OPERATIONS) * SPREAD_DRAWS);
    if (!all || fault_is_set(f)) {
        free(all);
        return false;
    }
    for (int i = 0; i < LEAVES + OPERATIONS; i++)
        array[i] = all + (size_t)i * SPREAD_DRAWS;
    for (int i = 0; i < LEAVES; i++) {
        uint32_t node = graph_node_of(g, q[i]);
        struct draws *d = draws_of(g, &node, 1, f);
        for (int k = 0; d && k < SPREAD_DRAWS; k++)
            array[i][k] = draws_row(d, 0)[k];
        draws_free(d);
    }
    uint32_t top = graph_node_of(g, q[LEAVES + OPERATIONS - 1]);
    plain(list, array); /* the first touch of its memory is not counted against it */
    for (int i = 0; i < RUNS; i++) {
        graph_times[i] = drawn(g, top, &last, f);
        plain_times[i] = plain(list, array);
        leaf_times[i] = only_leaves(g, q, f);
        select_times[i] = percentiles(array, &sum);
    }
    double theirs = array[LEAVES + OPERATIONS - 1][SPREAD_DRAWS - 1];
    double ratio = median(graph_times) / median(plain_times);
    printf("graph of %d nodes of + and *, %d leaves, %d draws: %.3f ms\n", OPERATIONS,
           LEAVES, SPREAD_DRAWS, median(graph_times));
    printf("plain C loop over one array a node:               %.3f ms\n",
           median(plain_times));
    printf("ratio: %.2f (bar: 1.5)\n", ratio);
    printf("beside it: drawing the %d leaves %.3f ms (%.1f us a leaf), three percentiles "
           "of a quantity %.1f us\n", LEAVES, median(leaf_times),
           median(leaf_times) * 1e3 / LEAVES, median(select_times) * 1e3);
    bool same = fabs(last - theirs) <= 1e-12 * fabs(theirs);
    printf("last draw of both: %s\n", same ? "the same" : "DIFFERENT");
    free(all);
    return same && isfinite(sum) && ratio <= 1.5;
}

/* A plan of the usual size: acts of ten quantities each (area, trees, hours, cost ...), a
 * share of them uncertain, 300 printed. */
static bool usual_plan(struct graph *g, struct fault *f)
{
    enum { ACTS = 100, STEPS = 26, RATES = 100, PRINTED = 300 };
    static struct qty printed[PRINTED];
    static struct spread spreads[PRINTED];
    struct qty rates[RATES];
    struct origin nowhere = { SPAN_NONE, NULL };
    double times[RUNS];
    size_t before = graph_nodes(g);
    for (int i = 0; i < RATES; i++)
        rates[i] = graph_range(g, 0.9, 1, 1.2, UNIT_NUMBER,
                               graph_key("rate", (uint32_t)i, 0), nowhere, f);
    for (int act = 0; act < ACTS; act++) {
        struct qty at = graph_range(g, 0.8, 1, 1.3, UNIT_NUMBER,
                                    graph_key("area", (uint32_t)act, 0), nowhere, f);
        for (int i = 0; i < STEPS; i++) {
            struct qty rate = rates[(act * 3 + i) % RATES];
            at = i % 3 == 2 ? graph_add(g, at, rate, f) : graph_multiply(g, at, rate, f);
            if (i % 9 == 8)
                graph_name(g, &at, "part", nowhere, f);
            if (i % 9 == 8 && act * 3 + i / 9 < PRINTED)
                printed[act * 3 + i / 9] = at;
        }
        if (!qty_is(printed[act * 3 + 2]))
            printed[act * 3 + 2] = at;
    }
    for (int i = 0; i < RUNS && !fault_is_set(f); i++) {
        double start = now();
        spread_of(g, printed, PRINTED, spreads, f);
        times[i] = now() - start;
    }
    if (fault_is_set(f))
        return false;
    printf("a plan of %zu nodes with %d uncertain leaves, %d quantities printed: %.2f "
           "ms\n", graph_nodes(g) - before, RATES + ACTS, PRINTED, median(times));
    return true;
}

int main(void)
{
    struct fault f;
    fault_clear(&f);
    struct units *u = units_new();
    struct graph *g = u ? graph_new(u) : NULL;
    bool good = g && run(g, &f) && usual_plan(g, &f);
    if (fault_is_set(&f))
        printf("%s\n", f.message);
    graph_free(g);
    units_free(u);
    return good ? 0 : 1;
}
