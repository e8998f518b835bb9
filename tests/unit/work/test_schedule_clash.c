/* The fewest things that cannot be kept together. */
#include "schedule_fixture.h"

/* The reason ends with these words. */
static void clash(size_t job, const char *words)
{
    const struct schedule_result *r = schedule_of(plan, job);
    assert_int_equal(r->state, SCHEDULE_UNPLACED);
    size_t whole = strlen(r->reason), part = strlen(words);
    assert_true(whole >= part);
    assert_string_equal(r->reason + whole - part, words);
}

static void a_window_an_order_and_a_deadline_clash(void **state)
{
    (void)state;
    static const struct schedule_after after = { .job = 0, .least = 21, .most = -1 };
    static struct schedule_limit limit;
    limit = (struct schedule_limit){ .words = "nesting: Apr 15 to Aug 1",
                                     .closed = days_of(4, 15, 8, 1) };
    jobs[0].hours = 10;
    jobs[0].earliest = given(2027, 2, 10);
    jobs[1].hours = 10;
    jobs[1].open = days_of(11, 15, 2, 28);
    jobs[1].open_words = "season dormant";
    jobs[1].latest = given(2027, 3, 20);
    jobs[1].limits = &limit;
    jobs[1].limit_count = 1;
    jobs[1].after = &after;
    jobs[1].after_count = 1;
    solve(2);
    clash(
        1,
        "; it would fit without any one of these: its window, season dormant (Nov 15 to "
        "Feb 28); after `a` (done Feb 10 2027) by at least 3 weeks; done by Mar 20 2027");
    /* Each of the three left out, it does. */
    jobs[1].open = yearly_all();
    solve(2);
    runs(schedule_of(plan, 1), "2027-03-03", "2027-03-03");
    jobs[1].open = days_of(11, 15, 2, 28);
    jobs[1].after_count = 0;
    solve(2);
    runs(schedule_of(plan, 1), "2026-11-15", "2026-11-15");
    jobs[1].after_count = 1;
    jobs[1].latest.given = false;
    solve(2);
    runs(schedule_of(plan, 1), "2027-11-15", "2027-11-15");
}

/* Without the earliest day four clash as well: the three are told. */
static void three_are_told_where_four_clash_too(void **state)
{
    (void)state;
    const struct schedule_limit limits[] = {
        { .words = "rut", .closed = days_of(11, 1, 11, 30) },
        { .words = "late hunt", .closed = days_of(12, 1, 12, 31) },
    };
    crews[OWNER].from.given = false;
    jobs[0].hours = 10;
    jobs[0].open = days_of(11, 1, 3, 31);
    jobs[0].limits = limits;
    jobs[0].limit_count = 2;
    jobs[0].earliest = given(2026, 12, 1);
    jobs[0].latest = given(2026, 12, 31);
    solve(1);
    clash(0, "; these clash, and more stands against it: late hunt; not before Dec 1 2026; "
             "done by Dec 31 2026");
}

static void what_is_too_late_already_is_told_alone(void **state)
{
    (void)state;
    static const struct schedule_after after = { .job = 0, .most = 14 };
    jobs[0].done = true;
    jobs[0].was = (struct schedule_span){ day_of(2026, 9, 1), day_of(2026, 9, 1) };
    jobs[1].hours = 10;
    jobs[1].open = days_of(11, 15, 2, 28);
    jobs[1].after = &after;
    jobs[1].after_count = 1;
    solve(2);
    clash(1, "; this alone leaves no day: within 2 weeks after `a` (done Sep 1 2026)");
}

static void the_other_work_of_a_crew_clashes_with_a_deadline(void **state)
{
    (void)state;
    crews[OWNER].from.given = false;
    jobs[0].hours = jobs[1].hours = 14;
    jobs[0].latest = jobs[1].latest = given(2026, 10, 18);
    solve(2);
    clash(1, "; it would fit without any one of these: done by Oct 18 2026; the other "
             "work of crew owner");
}

static void hours_that_no_week_has_clash_with_one_piece(void **state)
{
    (void)state;
    jobs[0].hours = 25;
    jobs[0].in_one_week = true;
    solve(1);
    /* One thing alone is in the way, which the reason says. */
    clash(0, "crew owner never has the 25 h it takes free in one week, 20 h at most, "
             "in the 16 years planned");
    static struct schedule_limit limit;
    limit = (struct schedule_limit){ .words = "hunting: Dec 10 to Dec 24",
                                     .closed = days_of(12, 10, 12, 24) };
    jobs[0].who = SCHEDULE_NOBODY;
    jobs[0].days = 10; /* nine are left before, and seven after */
    jobs[0].open = days_of(12, 1, 12, 31);
    jobs[0].limits = &limit;
    jobs[0].limit_count = 1;
    solve(1);
    clash(0, "; it would fit without any one of these: its window (Dec 1 to Dec 31); "
             "hunting: Dec 10 to Dec 24; days in a row");
}

static void several_reasons_at_once_are_not_said_to_be_all(void **state)
{
    (void)state;
    /* The deadline lies before the window, and before the notice, too. */
    static const struct schedule_notice notice = { .words = "a notice", .lead = 60 };
    crews[OWNER].from.given = false;
    jobs[0].hours = 4;
    jobs[0].open = days_of(4, 20, 5, 31);
    jobs[0].notices = &notice;
    jobs[0].notice_count = 1;
    jobs[0].latest = given(2026, 11, 1);
    solve(1);
    clash(0, "; these clash, and more stands against it: its window (Apr 20 to May 31); "
             "done by Nov 1 2026");
}

static void jobs_done_together_are_told_apart(void **state)
{
    (void)state;
    jobs[0].hours = jobs[1].hours = 4;
    jobs[0].open = days_of(4, 20, 5, 31);
    jobs[1].has_along = true;
    jobs[1].along = 0;
    jobs[1].latest = given(2026, 12, 1);
    solve(2);
    for (size_t i = 0; i < 2; i++)
        clash(i, "; it would fit without any one of these: `a`: its window (Apr 20 to "
                 "May 31); `b`: done by Dec 1 2026");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        EACH(a_window_an_order_and_a_deadline_clash),
        EACH(three_are_told_where_four_clash_too),
        EACH(what_is_too_late_already_is_told_alone),
        EACH(the_other_work_of_a_crew_clashes_with_a_deadline),
        EACH(hours_that_no_week_has_clash_with_one_piece),
        EACH(several_reasons_at_once_are_not_said_to_be_all),
        EACH(jobs_done_together_are_told_apart),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
