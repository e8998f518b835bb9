/* Memory runs out while things are put into a plan: the plan is failed then, and what it
 * holds is freed with it. */
#include "../page/failing.h"

#include "plan_fixture.h"

#include "plan/outlook.h"
#include "plan/waiting.h"
#include "plan/ways_told.h"

/* As long as there is memory; false once there was none. */
static bool put_act(struct plan *plan, uint32_t stand)
{
    uint32_t act = plan_add_act(plan, "a", "cut", stand, SPAN_NONE);
    if (act == PLAN_NONE)
        return false;
    struct schedule_span days = { on(2026, 11, 2), on(2026, 11, 3) };
    plan_add_limit(plan, act, "quiet weeks", (struct limit){ .days = yearly_all() });
    plan_add_notice(plan, act, "a notice", "the clerk", 14, 0);
    plan_add_link(plan, act, (struct link){ act, 0, -1 });
    plan_add_opening(plan, act, days);
    plan_add_able(plan, act, 0);
    plan_add_day(plan, &plan->acts[act], days.from, 7);
    plan_add_week(plan, &plan->acts[act], (struct act_week){ .hours = 7 });
    plan_add_filing(plan, &plan->acts[act], (struct act_filing){ .notice = 0 });
    return !plan->failed;
}

static bool put_all(struct bench *b)
{
    struct plan *plan = b->plan;
    uint32_t stand = plan_add_stand(plan, "Bench aspen", SPAN_NONE);
    uint32_t crew = plan_add_crew(plan, "hired");
    if (stand == PLAN_NONE || crew == PLAN_NONE || !put_act(plan, stand))
        return false;
    plan_add_crew_hours(plan, crew, (struct schedule_hours){ .week_each = 7 });
    plan_add_day_off(plan, crew,
                     (struct schedule_span){ on(2026, 11, 2), on(2026, 11, 3) });
    plan_add_row(plan, stand, "red oak");
    plan_add_condition(plan, "frozen", (const double[12]){ 0.5 });
    plan_add_finding(plan, FINDING_NOTE, "a rule", "a note");
    plan_set_figure(plan, &plan->totals, "hours", "hours", QTY_NONE);
    outlook_add_time(plan, stand, "in 1 year");
    outlook_add_stage(plan, stand, "a");
    ways_add_row(plan, stand, WAYS_OPENINGS, 0, "an opening");
    struct plan_waiting *w = plan_add_waiting(plan, "fence", "Fence", "look");
    if (w)
        plan_set_figure(plan, &w->figures, "hours", "hours", QTY_NONE);
    return !plan->failed;
}

static void a_plan_is_whole_or_failed(void **state)
{
    (void)state;
    size_t n = 0;
    bool whole = false;
    do {
        struct bench b;
        bench_open(&b);
        failing_seen = false;
        failing_after = n++;
        whole = put_all(&b);
        failing_after = SIZE_MAX;
        assert_int_equal(whole, !failing_seen);
        if (whole) {
            assert_int_equal(b.plan->act_count, 1);
            assert_int_equal(b.plan->waiting_count, 1);
            assert_string_equal(b.plan->waiting[0].visit, "look");
            assert_string_equal(b.plan->acts[0].notices[0].to, "the clerk");
        }
        plan_free(b.plan);
        graph_free(b.graph);
        units_free(b.units);
    } while (!whole);
    assert_true(n > 40);
}

int main(void)
{
    const struct CMUnitTest tests[] = { cmocka_unit_test(a_plan_is_whole_or_failed) };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
