/* Nodes that are worked out alike share their draws, and multiples their percentiles. */
#include "../unit.h"

#include <math.h>

#include "base/fault.h"
#include "quantity/draws.h"
#include "quantity/node.h"
#include "quantity/select.h"
#include "quantity/spread.h"

static const struct origin nowhere;

struct kit {
    struct units *u;
    struct graph *g;
    struct fault f;
    struct qty a, b; /* two ranges */
};

static struct qty range(struct kit *k, double low, double high, uint64_t key)
{
    return graph_range(k->g, low, (low + high) / 2, high, UNIT_NUMBER, key, nowhere,
                       &k->f);
}

static struct qty number(struct kit *k, double value)
{
    return graph_leaf(k->g, value, UNIT_NUMBER, nowhere, &k->f);
}

static int set_up(void **state)
{
    static struct kit k;
    k = (struct kit){ .u = units_new() };
    k.g = graph_new(k.u);
    k.a = range(&k, 2, 6, 1);
    k.b = range(&k, 10, 30, 2);
    *state = &k;
    return qty_is(k.b) ? 0 : 1;
}

static int take_down(void **state)
{
    struct kit *k = *state;
    graph_free(k->g);
    units_free(k->u);
    return 0;
}

/* Do the two share a row of draws? Their draws are the same then, or not. */
static bool twins(struct kit *k, struct qty x, struct qty y)
{
    assert_false(fault_is_set(&k->f));
    uint32_t nodes[2] = { graph_node_of(k->g, x), graph_node_of(k->g, y) };
    assert_int_not_equal(nodes[0], nodes[1]);
    struct draws *d = draws_of(k->g, nodes, 2, &k->f);
    assert_non_null(d);
    bool share = draws_row_number(d, 0) == draws_row_number(d, 1), same = true;
    for (size_t i = 0; i < SPREAD_DRAWS; i++)
        same = same && draws_row(d, 0)[i] == draws_row(d, 1)[i];
    draws_free(d);
    assert_int_equal(share, same);
    return share;
}

static void the_same_operation_on_the_same_operands_is_drawn_once(void **state)
{
    struct kit *k = *state;
    struct graph *g = k->g;
    struct fault *f = &k->f;
    for (int way = 0; way < 4; way++) {
        struct qty made[2];
        for (int i = 0; i < 2; i++) {
            made[i] = way == 0   ? graph_multiply(g, k->a, k->b, f)
                      : way == 1 ? graph_divide(g, k->a, k->b, f)
                      : way == 2 ? graph_min(g, k->a, k->b, f)
                                 : graph_max(g, k->a, k->b, f);
            assert_true(graph_name(g, &made[i], i == 0 ? "one" : "other", nowhere, f));
        }
        assert_true(twins(k, made[0], made[1]));
    }
}

static void what_is_made_of_twins_is_a_twin(void **state)
{
    struct kit *k = *state;
    struct qty made[2];
    for (int i = 0; i < 2; i++) {
        struct qty each = graph_multiply(k->g, k->a, number(k, 4), &k->f);
        struct qty sum = graph_add(k->g, each, k->b, &k->f);
        made[i] = graph_power(k->g, sum, 1, 2, &k->f);
    }
    assert_true(twins(k, made[0], made[1]));
}

static void another_operand_or_order_or_number_is_drawn_by_itself(void **state)
{
    struct kit *k = *state;
    struct graph *g = k->g;
    struct fault *f = &k->f;
    struct qty by = graph_divide(g, k->a, k->b, f);
    assert_false(twins(k, by, graph_divide(g, k->b, k->a, f)));
    assert_false(twins(k, by, graph_multiply(g, k->a, k->b, f)));
    assert_false(twins(k, graph_multiply(g, k->a, number(k, 4), f),
                       graph_multiply(g, k->a, number(k, 5), f)));
    assert_false(twins(k, graph_add(g, k->a, k->b, f), graph_subtract(g, k->a, k->b, f)));
    assert_false(twins(k, graph_power(g, k->a, 2, 1, f), graph_power(g, k->a, 3, 1, f)));
    assert_false(twins(k, graph_ceil(g, k->a, UNIT_NUMBER, f),
                       graph_floor(g, k->a, UNIT_NUMBER, f)));
    struct qty three[] = { k->a, k->b, number(k, 1) };
    assert_false(twins(k, graph_sum(g, three, 3, f), graph_sum(g, three, 2, f)));
}

static void ranges_are_twins_by_key_and_numbers(void **state)
{
    struct kit *k = *state;
    assert_true(twins(k, k->a, range(k, 2, 6, 1)));
    assert_false(twins(k, k->a, range(k, 2, 6, 3)));
    assert_false(twins(k, k->a, range(k, 2, 7, 1)));
}

/* ---- multiples ---- */

static struct spread spread(struct kit *k, struct qty q)
{
    struct spread s;
    assert_false(fault_is_set(&k->f));
    assert_true(spread_of(k->g, &q, 1, &s, &k->f));
    return s;
}

/* What the percentiles of its own draws are. */
static struct percentiles drawn(struct kit *k, struct qty q)
{
    uint32_t node = graph_node_of(k->g, q);
    struct draws *d = draws_of(k->g, &node, 1, &k->f);
    assert_non_null(d);
    struct percentiles p = select_percentiles(draws_row(d, 0), SPREAD_DRAWS);
    draws_free(d);
    return p;
}

static void so_many_times_a_range_is_exactly_as_wide(void **state)
{
    struct kit *k = *state;
    struct qty times = graph_multiply(k->g, number(k, 3), k->a, &k->f);
    struct spread s = spread(k, times);
    assert_true(s.value == 12 && s.low == 6 && s.median == 12 && s.high == 18);
    s = spread(k, graph_divide(k->g, times, number(k, -4), &k->f));
    assert_true(s.value == -3 && s.low == -4.5 && s.high == -1.5);
}

static void multiples_have_the_percentiles_of_their_own_draws(void **state)
{
    struct kit *k = *state;
    struct graph *g = k->g;
    struct fault *f = &k->f;
    struct qty product = graph_multiply(g, k->a, k->b, f);
    struct qty list[] = {
        graph_multiply(g, product, number(k, 7.3), f),
        graph_multiply(g, number(k, -0.2), product, f),
        graph_divide(g, graph_multiply(g, product, number(k, 1e-3), f), number(k, -9), f),
        graph_divide(g, number(k, 5), product, f),
        graph_multiply(g, product, number(k, 0), f),
        graph_divide(g, product, number(k, 0), f),
    };
    fault_clear(f); /* nothing is divided by nothing */
    for (size_t i = 0; i < sizeof list / sizeof list[0]; i++) {
        if (!qty_is(list[i]))
            continue;
        struct spread s = spread(k, list[i]);
        struct percentiles p = drawn(k, list[i]);
        double near = 1e-12 * fmax(fabs(p.low), fabs(p.high));
        assert_true(fabs(s.low - p.low) <= near && fabs(s.high - p.high) <= near);
        assert_true(fabs(s.median - p.median) <= near && s.low <= s.high);
        assert_true(s.value == graph_value(g, list[i]));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(
            the_same_operation_on_the_same_operands_is_drawn_once, set_up, take_down),
        cmocka_unit_test_setup_teardown(what_is_made_of_twins_is_a_twin, set_up,
                                        take_down),
        cmocka_unit_test_setup_teardown(
            another_operand_or_order_or_number_is_drawn_by_itself, set_up, take_down),
        cmocka_unit_test_setup_teardown(ranges_are_twins_by_key_and_numbers, set_up,
                                        take_down),
        cmocka_unit_test_setup_teardown(so_many_times_a_range_is_exactly_as_wide, set_up,
                                        take_down),
        cmocka_unit_test_setup_teardown(multiples_have_the_percentiles_of_their_own_draws,
                                        set_up, take_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
