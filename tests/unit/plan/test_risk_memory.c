/* Memory runs out while dates are found and their chances: it is told, and nothing leaks.
 * At each asking in turn at first; then, when the same draws go on, at some. */
#include "../page/failing.h"

#include "plan_fixture.h"

#include "plan/risk.h"

/* Two acts in a season that is too short for them, so that everything is tried. */
static void open_pressed(struct bench *b)
{
    bench_open(b);
    b->plan->starts = on(2026, 11, 2);
    b->plan->crews[0].people = 1;
    b->plan->crews[0].hours_each_week = 7;
    for (uint32_t i = 0; i < 2; i++) {
        struct fault f = { 0 };
        struct unit_id h;
        assert_true(units_find(b->units, "h", 1, &h, &f));
        struct qty hours = graph_range(b->graph, 8, 14, 24, h, i + 1,
                                       (struct origin){ SPAN_NONE, NULL }, &f);
        uint32_t act = plan_add_act(b->plan, "a", "job", PLAN_NONE, SPAN_NONE);
        plan_set_figure(b->plan, &b->plan->acts[act].figures, "hours", "hours", hours);
        graph_release(b->graph, hours);
        plan_add_able(b->plan, act, 0);
        b->plan->acts[act].open = window(11, 2, 11, 29);
    }
    static const double frozen[12] = { [10] = 0.7 };
    b->plan->acts[1].condition = (int)plan_add_condition(b->plan, "frozen", frozen);
}

static void dates_are_whole_or_refused(void **state)
{
    (void)state;
    struct bench b;
    open_pressed(&b);
    schedule(&b);
    double chance = b.plan->acts[1].chance;
    size_t helps = b.plan->acts[1].help_count;
    assert_true(chance > 0 && chance < RISK_LOW);
    bench_close(&b);
    size_t n = 0;
    do {
        struct fault f = { 0 };
        open_pressed(&b);
        failing_seen = false;
        failing_after = n;
        n += 1 + n / 40;
        bool fine = plan_schedule(b.plan, &f) && plan_tell_risk(b.plan, &f);
        failing_after = SIZE_MAX;
        if (fine) {
            assert_true(b.plan->acts[1].chance == chance);
            assert_int_equal(b.plan->acts[1].help_count, helps);
        } else {
            assert_string_equal(f.id, "memory");
        }
        plan_free(b.plan);
        graph_free(b.graph);
        units_free(b.units);
    } while (failing_seen);
    assert_true(n > 100);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(dates_are_whole_or_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
