#include "plan_fixture.h"

static void figures_keep_their_order_and_the_last_word(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    struct qty two = measure(&b, 2, "h"), three = measure(&b, 3, "h");
    struct figures *totals = &b.plan->totals;
    plan_set_figure(b.plan, totals, "hours", "hours of work", two);
    plan_set_figure(b.plan, totals, "cost", "cost", three);
    plan_set_figure(b.plan, totals, "hours", "all hours", three);
    assert_int_equal(totals->count, 2);
    assert_string_equal(totals->list[0].key, "hours");
    assert_string_equal(totals->list[0].words, "all hours");
    assert_true(graph_value(b.graph, plan_figure(totals, "hours")) == 180);
    assert_false(qty_is(plan_figure(totals, "fuel")));
    graph_release(b.graph, two);
    graph_release(b.graph, three);
    bench_close(&b);
}

static void figures_outlive_the_hands_that_set_them(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    uint32_t act = bench_act(&b, "a/cut", 20);
    graph_collect(b.graph);
    struct qty hours = plan_figure(&b.plan->acts[act].figures, "hours");
    assert_true(graph_value(b.graph, hours) == 20 * 60);
    bench_close(&b);
}

static void a_stop_is_found_among_findings(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    char rule[] = "wet ground", says[] = "freeze first";
    assert_non_null(plan_add_finding(b.plan, FINDING_CAUTION, rule, says));
    assert_false(plan_has_stop(b.plan));
    assert_non_null(plan_add_finding(b.plan, FINDING_STOP, rule, says));
    rule[0] = 'X'; /* texts are copied */
    assert_true(plan_has_stop(b.plan));
    assert_int_equal(plan_count_level(b.plan, FINDING_CAUTION), 1);
    assert_string_equal(b.plan->findings[1].rule, "wet ground");
    assert_string_equal(finding_level_word(FINDING_STOP), "stop");
    bench_close(&b);
}

static void many_of_everything_fit(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    for (int i = 0; i < 100; i++) {
        uint32_t stand = plan_add_stand(b.plan, "stand", SPAN_NONE);
        assert_int_equal(stand, i);
        struct stand_row *row = plan_add_row(b.plan, stand, "aspen");
        assert_non_null(row);
        uint32_t act = bench_act(&b, "act", 1);
        assert_int_equal(act, i);
        for (uint32_t k = 0; k < 20; k++)
            plan_add_link(b.plan, act, (struct link){ k % (act + 1), 0, -1 });
        assert_int_equal(b.plan->acts[act].link_count, 20);
    }
    bench_close(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(figures_keep_their_order_and_the_last_word),
        cmocka_unit_test(figures_outlive_the_hands_that_set_them),
        cmocka_unit_test(a_stop_is_found_among_findings),
        cmocka_unit_test(many_of_everything_fit),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
