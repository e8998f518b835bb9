/* graph_fixture.h: a graph and a few words for tests of what is built in it.
 *
 *     IN_GRAPH(hours_of_an_area)      // a test with a fresh graph `g` and `units`
 *     is(labor_by_rate(g, leaf(2, "ac"), leaf(4, "h/ac"), "mowing", &f), 8, "h");
 */
#ifndef SPINNEY_TESTS_WORK_GRAPH_FIXTURE_H
#define SPINNEY_TESTS_WORK_GRAPH_FIXTURE_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/fault.h"
#include "quantity/graph.h"

static struct units *units;
static struct graph *g;

static int graph_make(void **state)
{
    (void)state;
    units = units_new();
    g = units ? graph_new(units) : NULL;
    return g ? 0 : -1;
}

static int graph_drop(void **state)
{
    (void)state;
    graph_free(g);
    units_free(units);
    return 0;
}

#define IN_GRAPH(test) cmocka_unit_test_setup_teardown(test, graph_make, graph_drop)

static inline struct unit_id unit(const char *name)
{
    struct unit_id id = UNIT_NUMBER;
    struct fault f = { 0 };
    assert_true(units_find(units, name, strlen(name), &id, &f));
    return id;
}

static inline struct qty leaf(double value, const char *name)
{
    struct fault f = { 0 };
    struct origin none = { SPAN_NONE, NULL };
    struct unit_id id = name[0] != '\0' ? unit(name) : UNIT_NUMBER;
    struct qty q = graph_leaf(g, value, id, none, &f);
    assert_true(qty_is(q));
    return q;
}

/* The quantity, under collection, is that much in that unit. */
static inline void is(struct qty q, double value, const char *name)
{
    assert_true(qty_is(q));
    graph_collect(g);
    struct unit_id id = name[0] != '\0' ? unit(name) : UNIT_NUMBER;
    assert_true(dim_equal(graph_dim(g, q), unit_dim(units, id)));
    double got = graph_value_in(g, q, id), close = 1e-9 * (value < 0 ? -value : value);
    if (!(got >= value - close && got <= value + close))
        fail_msg("%.12g %s, not %.12g", got, name, value);
}

/* Half a unit of the last decimal that is printed. */
static inline void prints(double value, double printed, int decimals)
{
    double half = 0.5;
    for (int i = 0; i < decimals; i++)
        half /= 10;
    if (!(value >= printed - half - 1e-9 && value <= printed + half + 1e-9))
        fail_msg("%.9g is not printed %.9g", value, printed);
}

#endif
