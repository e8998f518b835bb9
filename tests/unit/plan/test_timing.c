#include "plan_fixture.h"

static void add_limit(struct bench *b, uint32_t act, enum finding_level level,
                      struct yearly days)
{
    plan_add_limit(b->plan, act, "quiet weeks",
                   (struct limit){ .level = level, .days = days });
}

static void an_act_starts_on_the_first_open_day(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    uint32_t act = bench_act(&b, "a/cut", 20);
    b.plan->acts[act].open = window(11, 1, 3, 31);
    schedule(&b);
    const struct plan_act *a = &b.plan->acts[act];
    assert_int_equal(a->state, ACT_PLACED);
    assert_int_equal(a->start.day, on(2026, 11, 1).day);
    assert_int_equal(a->crew, 0);
    bench_close(&b);
}

static void a_soft_limit_is_kept_out_of_while_other_days_are_left(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    uint32_t act = bench_act(&b, "a/cut", 10);
    add_limit(&b, act, FINDING_CAUTION, window(10, 1, 12, 31));
    schedule(&b);
    assert_int_equal(b.plan->acts[act].start.day, on(2027, 1, 1).day);
    assert_false(b.plan->acts[act].limits[0].broken);
    bench_close(&b);
}

static void a_soft_limit_that_leaves_no_day_is_broken_and_told(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    uint32_t act = bench_act(&b, "a/cut", 10);
    b.plan->acts[act].open = window(6, 1, 7, 31);
    add_limit(&b, act, FINDING_CAUTION, window(4, 1, 10, 31));
    schedule(&b);
    assert_int_equal(b.plan->acts[act].state, ACT_PLACED);
    assert_int_equal(b.plan->acts[act].start.day, on(2027, 6, 1).day);
    assert_true(b.plan->acts[act].limits[0].broken);
    bench_close(&b);
}

static void a_hard_limit_that_leaves_no_day_says_so(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    uint32_t act = bench_act(&b, "a/cut", 10);
    b.plan->acts[act].open = window(6, 1, 7, 31);
    add_limit(&b, act, FINDING_STOP, window(4, 1, 10, 31));
    schedule(&b);
    assert_int_equal(b.plan->acts[act].state, ACT_UNPLACED);
    assert_non_null(strstr(b.plan->acts[act].reason, "quiet weeks"));
    bench_close(&b);
}

static void a_fixed_date_is_kept_and_called_forbidden(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    uint32_t act = bench_act(&b, "a/cut", 5);
    add_limit(&b, act, FINDING_STOP, window(4, 1, 7, 31));
    b.plan->acts[act].has_fixed = true;
    b.plan->acts[act].fixed = on(2027, 5, 5);
    schedule(&b);
    assert_int_equal(b.plan->acts[act].start.day, on(2027, 5, 5).day);
    assert_non_null(strstr(b.plan->acts[act].forbidden, "quiet weeks"));
    assert_true(b.plan->acts[act].limits[0].broken);
    bench_close(&b);
}

static void acts_follow_each_other_with_their_lag(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    uint32_t first = bench_act(&b, "a/cut", 10), second = bench_act(&b, "a/mow", 2);
    plan_add_link(b.plan, second, (struct link){ first, 21, -1 });
    schedule(&b);
    const struct plan_act *a = b.plan->acts;
    assert_true(a[second].start.day - a[first].finish.day >= 21);
    bench_close(&b);
}

static void a_notice_is_filed_before_work_starts(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    uint32_t act = bench_act(&b, "a/cut", 5);
    b.plan->acts[act].open = window(1, 15, 3, 1);
    plan_add_notice(b.plan, act, "cutting notice", "county clerk", 14, -1);
    schedule(&b);
    assert_true(b.plan->acts[act].notices[0].placed);
    /* Wis. Stat. 26.03: wait 14 days, expires with the year (practice reference 2.3). */
    assert_int_equal(b.plan->acts[act].start.day, on(2027, 1, 15).day);
    assert_int_equal(b.plan->acts[act].notices[0].file_by.day, on(2027, 1, 1).day);
    bench_close(&b);
}

/* A notice that expires with the year is filed again for what is done after New Year. */
static void a_notice_that_expires_is_filed_again(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    uint32_t act = bench_act(&b, "a/cut", 100);
    b.plan->acts[act].open = window(12, 14, 3, 1);
    plan_add_notice(b.plan, act, "cutting notice", "county clerk", 14, -1);
    schedule(&b);
    const struct plan_act *a = &b.plan->acts[act];
    assert_int_equal(a->start.day, on(2026, 12, 14).day);
    assert_int_equal(a->filing_count, 2);
    assert_int_equal(a->filings[0].by.day, on(2026, 11, 30).day);
    assert_int_equal(a->filings[0].by.day, a->notices[0].file_by.day);
    assert_int_equal(a->filings[1].from.day, on(2027, 1, 1).day);
    assert_true(a->filings[1].by.day >= on(2027, 1, 1).day);
    bench_close(&b);
}

static void a_fallback_is_done_only_when_the_first_cannot_be(void **state)
{
    (void)state;
    for (int blocked = 0; blocked < 2; blocked++) {
        struct bench b;
        bench_open(&b);
        uint32_t act = bench_act(&b, "a/cut", 5), instead = bench_act(&b, "a/mow", 5);
        b.plan->acts[act].fallback = instead;
        b.plan->acts[instead].fallback_of = act;
        if (blocked) add_limit(&b, act, FINDING_STOP, yearly_all());
        schedule(&b);
        assert_int_equal(b.plan->acts[act].state, blocked ? ACT_UNPLACED : ACT_PLACED);
        assert_int_equal(b.plan->acts[instead].state, blocked ? ACT_PLACED : ACT_NOT_NEEDED);
        bench_close(&b);
    }
}

static void what_is_done_stays_where_it_was(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    uint32_t act = bench_act(&b, "a/cut", 500);
    b.plan->acts[act].state = ACT_DONE;
    b.plan->acts[act].start = b.plan->acts[act].finish = on(2026, 10, 20);
    uint32_t next = bench_act(&b, "a/mow", 2);
    plan_add_link(b.plan, next, (struct link){ act, 3, -1 });
    schedule(&b);
    assert_int_equal(b.plan->acts[act].state, ACT_DONE);
    assert_int_equal(b.plan->acts[act].start.day, on(2026, 10, 20).day);
    assert_int_equal(b.plan->acts[next].start.day, on(2026, 10, 23).day);
    bench_close(&b);
}

static void travel_is_taken_from_the_week(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    b.plan->crews[0].travel_hours = 16; /* of 20 a week */
    uint32_t act = bench_act(&b, "a/cut", 12);
    schedule(&b);
    const struct plan_act *a = &b.plan->acts[act];
    assert_true(a->finish.day - a->start.day > 13); /* three weeks of 4 h, not one */
    bench_close(&b);
}

static void days_of_a_crew_are_counted_once(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    /* Two acts of 5 h fall on one day; what is done already counts no day. */
    bench_act(&b, "a/cut", 5);
    bench_act(&b, "a/mow", 5);
    schedule(&b);
    assert_int_equal(b.plan->crews[0].visits, 1);
    assert_true(b.plan->crews[0].planned_hours > 9.99 &&
                b.plan->crews[0].planned_hours < 10.01);
    uint32_t done = bench_act(&b, "a/done", 50);
    b.plan->acts[done].state = ACT_DONE;
    b.plan->acts[done].start = b.plan->acts[done].finish = on(2026, 10, 20);
    schedule(&b);
    assert_int_equal(b.plan->crews[0].visits, 1);
    bench_close(&b);
}

/* 20 h a week of two people: 45 h are three weeks, and another act has what is left. */
static void weeks_tell_the_hours_and_what_the_crew_has(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    uint32_t first = bench_act(&b, "a/cut", 45), second = bench_act(&b, "b/cut", 10);
    uint32_t look = plan_add_act(b.plan, "a/look", "visit", PLAN_NONE, SPAN_NONE);
    b.plan->starts = on(2026, 10, 19); /* a Monday */
    b.plan->acts[first].first = true;
    b.plan->acts[look].nobody = true;
    b.plan->acts[look].span_days = 1;
    schedule(&b);
    const struct plan_act *a = &b.plan->acts[first];
    double hours = 0, of_stretches = 0;
    assert_int_equal(a->week_count, 3);
    for (size_t i = 0; i < a->week_count; i++) {
        assert_int_equal(date_weekday(a->weeks[i].monday), 1);
        assert_true(a->weeks[i].hours > 0 && a->weeks[i].hours <= 20 + 1e-9);
        assert_float_equal(a->weeks[i].there, 20, 1e-9);
        hours += a->weeks[i].hours;
    }
    assert_float_equal(hours, 45, 1e-9);
    for (size_t i = 0; i < a->stretch_count; i++)
        of_stretches += a->stretches[i].hours;
    assert_float_equal(of_stretches, 45, 1e-9);
    const struct plan_act *rest = &b.plan->acts[second];
    assert_true(rest->week_count > 0);
    assert_true(rest->weeks[0].monday.day >= a->weeks[2].monday.day);
    const struct plan_act *seen = &b.plan->acts[look];
    assert_int_equal(seen->week_count, 1);
    assert_true(seen->weeks[0].hours == 0 && seen->weeks[0].there == 0);
    bench_close(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_act_starts_on_the_first_open_day),
        cmocka_unit_test(a_soft_limit_is_kept_out_of_while_other_days_are_left),
        cmocka_unit_test(a_soft_limit_that_leaves_no_day_is_broken_and_told),
        cmocka_unit_test(a_hard_limit_that_leaves_no_day_says_so),
        cmocka_unit_test(a_fixed_date_is_kept_and_called_forbidden),
        cmocka_unit_test(acts_follow_each_other_with_their_lag),
        cmocka_unit_test(a_notice_is_filed_before_work_starts),
        cmocka_unit_test(a_notice_that_expires_is_filed_again),
        cmocka_unit_test(a_fallback_is_done_only_when_the_first_cannot_be),
        cmocka_unit_test(what_is_done_stays_where_it_was),
        cmocka_unit_test(travel_is_taken_from_the_week),
        cmocka_unit_test(days_of_a_crew_are_counted_once),
        cmocka_unit_test(weeks_tell_the_hours_and_what_the_crew_has),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
