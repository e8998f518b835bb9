/* Draws made ahead change nothing but the time: every question has the same answer. */
#include "../unit.h"

#include <string.h>

#include "base/fault.h"
#include "failing.h"
#include "quantity/ahead.h"
#include "quantity/node.h"
#include "quantity/spread.h"
#include "quantity/spread_inner.h"
#include "quantity/unit_inner.h"

static const struct origin nowhere;

struct kit {
    struct units *u;
    struct graph *g;
    struct fault f;
    struct qty hours, cost, sum, budget, typed;
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

/* False when memory ran out. */
static bool fill(struct kit *k)
{
    struct qty a = range(k, 2, 6, 1), b = range(k, 10, 30, 2), rate = range(k, 40, 60, 3);
    k->hours = graph_multiply(k->g, a, b, &k->f);
    k->cost = graph_multiply(k->g, k->hours, rate, &k->f);
    if (!qty_is(k->cost) || !graph_name(k->g, &k->cost, "cost", nowhere, &k->f))
        return false;
    k->sum = graph_add(k->g, k->cost, b, &k->f);
    k->budget = number(k, 3500);
    k->typed = graph_multiply(k->g, rate, k->budget, &k->f);
    return qty_is(k->typed);
}

static int set_up(void **state)
{
    static struct kit k;
    k = (struct kit){ .u = units_new() };
    k.g = graph_new(k.u);
    *state = &k;
    return fill(&k) ? 0 : 1;
}

static int take_down(void **state)
{
    struct kit *k = *state;
    graph_free(k->g);
    units_free(k->u);
    return 0;
}

enum { ROWS = 8 };
struct answers {
    struct spread spreads[5];
    double chances[3];
    struct hangs_on rows[ROWS];
    size_t count;
};

static struct answers ask(struct kit *k)
{
    struct answers out;
    memset(&out, 0, sizeof out);
    struct qty list[] = { k->hours, k->cost, k->sum, k->budget, k->typed };
    assert_true(spread_of(k->g, list, 5, out.spreads, &k->f));
    assert_true(spread_chance(k->g, k->cost, k->budget, &out.chances[0], &k->f));
    assert_true(spread_chance(k->g, k->budget, k->cost, &out.chances[1], &k->f));
    assert_true(spread_chance(k->g, k->sum, k->cost, &out.chances[2], &k->f));
    out.count = spread_hangs_on(k->g, k->cost, out.rows, ROWS, &k->f);
    return out;
}

static void same(const struct answers *a, const struct answers *b)
{
    for (int i = 0; i < 5; i++) {
        const struct spread *x = &a->spreads[i], *y = &b->spreads[i];
        assert_true(x->value == y->value && x->low == y->low && x->high == y->high);
        assert_true(x->median == y->median && x->uncertain == y->uncertain);
    }
    for (int i = 0; i < 3; i++)
        assert_true(a->chances[i] == b->chances[i]);
    assert_int_equal(a->count, b->count);
    for (size_t i = 0; i < a->count; i++) {
        assert_string_equal(a->rows[i].name, b->rows[i].name);
        assert_true(a->rows[i].share == b->rows[i].share);
    }
}

static bool kept(struct kit *k, struct qty q)
{
    return ahead_row(k->g, spread_behind(k->g, graph_node_of(k->g, q))) != NULL;
}

static void answers_are_the_same_with_draws_made_ahead(void **state)
{
    struct kit *k = *state;
    struct answers plain = ask(k);
    struct qty list[] = { k->cost, k->budget, k->hours, QTY_NONE,
                          k->cost, k->sum,    k->typed };
    for (size_t count = 0; count <= 7; count++) {
        assert_true(spread_ahead(k->g, list, count, &k->f));
        assert_int_equal(kept(k, k->cost), count > 0);
        assert_int_equal(kept(k, k->hours), count > 2);
        struct answers ahead = ask(k), again = ask(k);
        same(&plain, &ahead);
        same(&plain, &again);
    }
}

static void what_moves_drops_the_draws_and_changes_no_answer(void **state)
{
    struct kit *k = *state;
    struct answers plain = ask(k);
    for (int i = 0; i < 10; i++)
        graph_release(k->g, number(k, i)); /* so that there is something to move */
    assert_true(spread_ahead(k->g, (struct qty[]){ k->cost, k->sum }, 2, &k->f));
    struct qty more = graph_add(k->g, k->cost, number(k, 1), &k->f);
    assert_true(kept(k, k->cost) && !kept(k, more)); /* new nodes move nothing */
    graph_collect(k->g);
    assert_false(kept(k, k->cost));
    struct answers after = ask(k);
    same(&plain, &after);
}

static void a_failed_request_is_told_and_gives_all_back(void **state)
{
    (void)state;
    for (long n = 0;; n++) {
        struct failing a = { .left = -1 };
        struct kit k = { .u = units_new_on(failing_memory(&a)) };
        k.g = graph_new(k.u);
        assert_true(fill(&k));
        a.left = n;
        bool done = spread_ahead(k.g, (struct qty[]){ k.cost, k.hours }, 2, &k.f);
        a.left = -1;
        assert_int_equal(done, !fault_is_set(&k.f));
        assert_int_equal(kept(&k, k.cost), done);
        graph_free(k.g);
        units_free(k.u);
        assert_int_equal(a.held, 0);
        if (done)
            break;
        assert_true(n < 100);
    }
}

static void draws_outlive_the_nodes_that_a_page_makes(void **state)
{
    struct kit *k = *state;
    struct qty list[] = { k->cost, k->hours };
    assert_true(spread_ahead(k->g, list, 2, &k->f));
    for (int i = 0; i < 4000; i++)
        graph_release(k->g, number(k, i));
    assert_true(kept(k, k->cost));
    for (int i = 0; i < 100000; i++) /* but not without end */
        graph_release(k->g, number(k, i));
    assert_false(kept(k, k->cost));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(draws_outlive_the_nodes_that_a_page_makes, set_up,
                                        take_down),
        cmocka_unit_test_setup_teardown(answers_are_the_same_with_draws_made_ahead,
                                        set_up, take_down),
        cmocka_unit_test_setup_teardown(what_moves_drops_the_draws_and_changes_no_answer,
                                        set_up, take_down),
        cmocka_unit_test(a_failed_request_is_told_and_gives_all_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
