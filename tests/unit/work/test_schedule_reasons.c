/* What is told of jobs that fit nowhere, and of dates that something stands against. */
#include "schedule_fixture.h"

static void what_can_never_follow_soon_enough_is_told(void **state)
{
    (void)state;
    static struct schedule_after after[] = { { .job = 0, .least = 0, .most = 14 } };
    jobs[0].hours = 6;
    jobs[0].open = days_of(1, 1, 3, 31);
    jobs[1].hours = 6;
    jobs[1].open = days_of(6, 1, 7, 31);
    jobs[1].after = after;
    jobs[1].after_count = 1;
    solve(2);
    runs(schedule_of(plan, 0), "2027-01-01", "2027-01-01"); /* and lies where it lay */
    unplaced(1, SCHEDULE_LAG,
             "it must start within 2 weeks after `a` (finished Jan 1 2027), and the "
             "first day it could is Jun 1 2027; it would fit without any one of these: "
             "its window (Jun 1 to Jul 31); within 2 weeks after `a` (done Jan 1 2027)");
}

static void windows_that_never_meet_are_named(void **state)
{
    (void)state;
    static struct schedule_limit limits[3];
    limits[0] = (struct schedule_limit){ .words = "quiet weeks: Sep 1 to Nov 30",
                                         .closed = days_of(9, 1, 11, 30) };
    limits[1] = (struct schedule_limit){ .words = "oak wilt: Apr 1 to Jul 31",
                                         .closed = days_of(4, 1, 7, 31) };
    limits[2] = (struct schedule_limit){ .words = "nesting: Apr 15 to Aug 1",
                                         .closed = days_of(4, 15, 8, 1) };
    jobs[0].hours = 10;
    jobs[0].open = days_of(4, 20, 6, 30);
    jobs[0].limits = limits;
    jobs[0].limit_count = 2;
    solve(1);
    unplaced(0, SCHEDULE_WINDOWS,
             "its window (Apr 20 to Jun 30) and oak wilt: Apr 1 to Jul 31 "
             "leave no day between them");
    jobs[0].limit_count = 3; /* either would do: one is told */
    solve(1);
    unplaced(0, SCHEDULE_WINDOWS,
             "its window (Apr 20 to Jun 30) and oak wilt: Apr 1 to Jul 31 "
             "leave no day between them");
    jobs[0].open = days_of(4, 1, 11, 30);
    jobs[0].open_words = "season growing";
    limits[1].words = "grouse: Aug 1 to Aug 31";
    limits[1].closed = days_of(8, 1, 8, 31);
    limits[2].words = "nesting: Mar 1 to Jul 31";
    limits[2].closed = days_of(3, 1, 7, 31);
    solve(1);
    unplaced(
        0, SCHEDULE_WINDOWS,
        "its window, season growing (Apr 1 to Nov 30); quiet weeks: Sep 1 to Nov 30; "
        "grouse: Aug 1 to Aug 31 and nesting: Mar 1 to Jul 31 leave no day between them");
}

static void a_crew_without_hours_is_told(void **state)
{
    (void)state;
    crews[OWNER].to = given(2026, 12, 31);
    jobs[0].hours = 300;
    solve(1);
    /* Eight whole weeks and four days of the last. */
    unplaced(0, SCHEDULE_NO_HOURS,
             "crew owner has 171 h free of the 300 h it takes, on the "
             "days it could be done in the 16 years planned");
    jobs[0].hours = 10;
    jobs[0].open = days_of(3, 1, 3, 31);
    solve(1);
    unplaced(0, SCHEDULE_NO_HOURS,
             "crew owner is not at work on any day it could be done in the 16 years "
             "planned; it would fit without any one of these: its window (Mar 1 to Mar "
             "31); the days that crew owner does not come");
    crews[OWNER].to.given = false;
    jobs[0].open = yearly_all();
    jobs[0].hours = 25;
    jobs[0].in_one_week = true;
    solve(1);
    unplaced(0, SCHEDULE_NO_HOURS,
             "crew owner never has the 25 h it takes free in one week, 20 h at most, "
             "in the 16 years planned");
}

static void a_skill_that_nobody_has_is_told(void **state)
{
    (void)state;
    jobs[0].hours = 4;
    jobs[0].who = SCHEDULE_LISTED;
    jobs[0].needs = "herbicide licence";
    solve(1);
    unplaced(0, SCHEDULE_NO_CREW, "no crew has the skill it needs: herbicide licence");
    task.crew_count = 0;
    jobs[0].who = SCHEDULE_ANY;
    solve(1);
    unplaced(0, SCHEDULE_NO_CREW, "the plan has no crew");
    /* A fixed date is kept all the same, and this is told against it. */
    jobs[0].fixed = given(2026, 12, 15);
    solve(1);
    runs(schedule_of(plan, 0), "2026-12-15", "2026-12-15");
    assert_string_equal(schedule_of(plan, 0)->conflict, "the plan has no crew");
}

static void a_deadline_before_the_window_is_told(void **state)
{
    (void)state;
    jobs[0].hours = 4;
    jobs[0].open = days_of(4, 20, 5, 31);
    jobs[0].latest = given(2027, 3, 1);
    solve(1);
    unplaced(0, SCHEDULE_DEADLINE,
             "it is open on no day from Oct 14 2026 until Mar 1 2027; the next open day "
             "is Apr 20 2027; it would fit without any one of these: its window (Apr 20 "
             "to May 31); done by Mar 1 2027");
}

static void a_notice_too_late_for_the_deadline_is_told(void **state)
{
    (void)state;
    static struct schedule_notice notice;
    notice =
        (struct schedule_notice){ .words = "cutting notice to the clerk", .lead = 14 };
    jobs[0].hours = 4;
    jobs[0].notices = &notice;
    jobs[0].notice_count = 1;
    jobs[0].latest = given(2026, 10, 20);
    solve(1);
    unplaced(0, SCHEDULE_DEADLINE,
             "the notice (cutting notice to the clerk) needs 14 days, so work cannot "
             "start before Oct 28 2026, and it is to be finished by Oct 20 2026; these "
             "clash, and more stands against it: cutting notice to the clerk (14 days "
             "ahead); done by Oct 20 2026");
    jobs[0].earliest = given(2026, 11, 2); /* now it is not the notice */
    solve(1);
    unplaced(0, SCHEDULE_DEADLINE,
             "it cannot start before Nov 2 2026, and it is to be finished by Oct 20 "
             "2026; these clash, and more stands against it: cutting notice to the clerk "
             "(14 days ahead); done by Oct 20 2026");
}

static void what_starts_past_the_years_planned_is_told(void **state)
{
    (void)state;
    jobs[0].hours = 4;
    jobs[0].earliest = given(2050, 1, 1);
    solve(1);
    unplaced(0, SCHEDULE_DEADLINE, "it comes only after the 16 years planned");
    jobs[0].latest = given(2051, 1, 1);
    solve(1);
    unplaced(0, SCHEDULE_DEADLINE, "it comes only after the 16 years planned");
}

static void what_waits_for_the_unplaced_is_not_placed(void **state)
{
    (void)state;
    static struct schedule_after after[] = { { .job = 0, .least = 0, .most = -1 } };
    jobs[0].open = yearly_none();
    jobs[1].after = after;
    jobs[1].after_count = 1;
    solve(2);
    unplaced(0, SCHEDULE_WINDOWS, "its window (never) leaves no day");
    unplaced(1, SCHEDULE_PREDECESSOR, "it waits for `a`, which is not placed");
}

static void jobs_done_together_name_two_that_no_crew_can_do(void **state)
{
    (void)state;
    static const size_t owner[] = { OWNER }, hired[] = { HIRED };
    task.crew_count = 2;
    for (size_t i = 0; i < 3; i++) {
        jobs[i].hours = 5;
        jobs[i].who = SCHEDULE_LISTED;
        jobs[i].crews = i < 2 ? hired : owner;
        jobs[i].crew_count = 1;
        jobs[i].needs = i < 2 ? "climbing" : "saw";
        jobs[i].has_along = i > 0;
    }
    solve(3);
    for (size_t i = 0; i < 3; i++)
        unplaced(
            i, SCHEDULE_NO_CREW,
            "`a` (climbing) and `c` (saw) are done together, and no crew can do both");
}

static void a_ring_is_told_as_a_chain_of_names(void **state)
{
    (void)state;
    static struct schedule_after after[4];
    for (size_t i = 0; i < 4; i++)
        after[i] = (struct schedule_after){ .job = i < 2 ? i + 1 : 0, .most = -1 };
    for (size_t i = 0; i < 4; i++) {
        jobs[i].after = &after[i];
        jobs[i].after_count = 1;
        jobs[i].hours = 1;
    }
    jobs[4].hours = 1;
    solve(5);
    for (size_t i = 0; i < 3; i++)
        unplaced(i, SCHEDULE_CYCLE,
                 "it waits for itself: `a` waits for `b`, `b` waits for `c`, "
                 "`c` waits for `a`");
    unplaced(3, SCHEDULE_PREDECESSOR, "it waits for `a`, which is not placed");
    assert_int_equal(schedule_of(plan, 4)->state, SCHEDULE_PLACED);
}

static void rings_of_every_shape_are_found(void **state)
{
    (void)state;
    static struct schedule_after after[2];
    after[0] = (struct schedule_after){ .job = 0, .most = -1 };
    jobs[0].after = after; /* after itself */
    jobs[0].after_count = 1;
    solve(1);
    unplaced(0, SCHEDULE_CYCLE, "it waits for itself: `a` waits for `a`");

    jobs[0].after_count = 0; /* along with one another */
    jobs[0].has_along = jobs[1].has_along = true;
    jobs[0].along = 1;
    jobs[1].along = 0;
    solve(2);
    unplaced(0, SCHEDULE_CYCLE,
             "it waits for itself: `a` goes along with `b`, `b` goes along "
             "with `a`");
    jobs[0].along = 0;
    jobs[1].has_along = false;
    solve(1);
    unplaced(0, SCHEDULE_CYCLE, "it waits for itself: `a` goes along with `a`");

    jobs[0].has_along =
        false; /* through a mate: b goes along with a, a waits for c, c for b */
    jobs[1].has_along = true;
    jobs[1].along = 0;
    after[0].job = 2;
    after[1] = (struct schedule_after){ .job = 1, .most = -1 };
    jobs[0].after = &after[0];
    jobs[0].after_count = 1;
    jobs[2].after = &after[1];
    jobs[2].after_count = 1;
    solve(3);
    unplaced(2, SCHEDULE_CYCLE,
             "it waits for itself: `b` is done along with `a`, which waits "
             "for `c`, `c` waits for `b`");

    jobs[1].has_along = false; /* a stands in for itself */
    jobs[0].after_count = jobs[2].after_count = 0;
    jobs[0].has_otherwise = true;
    jobs[0].otherwise = 0;
    solve(1);
    unplaced(0, SCHEDULE_CYCLE, "it waits for itself: `a` stands in for `a`");
}

static void a_fixed_date_that_a_rule_forbids_is_kept_and_called_so(void **state)
{
    (void)state;
    static struct schedule_limit limit;
    limit = (struct schedule_limit){ .words = "oak wilt: Apr 15 to Jul 15",
                                     .closed = days_of(4, 15, 7, 15) };
    jobs[0].hours = 10;
    jobs[0].limits = &limit;
    jobs[0].limit_count = 1;
    jobs[0].fixed = given(2027, 4, 15);
    const struct schedule_result *r = solve(1);
    runs(r, "2027-04-15", "2027-04-15");
    assert_string_equal(r->forbidden, "oak wilt: Apr 15 to Jul 15");
    assert_null(r->conflict);
    jobs[0].fixed = given(2027, 4, 14);
    r = solve(1);
    runs(r, "2027-04-14", "2027-04-14");
    assert_null(r->forbidden);
    assert_null(r->conflict);
}

static void a_fixed_date_takes_its_hours_before_the_others(void **state)
{
    (void)state;
    jobs[0].hours = 40;
    jobs[0].earliest = given(2026, 11, 2);
    jobs[1].hours = 20;
    jobs[1].fixed = given(2026, 11, 9);
    solve(2);
    runs(schedule_of(plan, 0), "2026-11-02", "2026-11-16");
    runs(schedule_of(plan, 1), "2026-11-09", "2026-11-09");
    assert_null(schedule_of(plan, 1)->conflict);
}

static void what_else_is_against_a_fixed_date_is_told(void **state)
{
    (void)state;
    static const struct schedule_after after = { .job = 0, .least = 7, .most = -1 };
    static const struct schedule_notice notice = { .words = "cutting notice",
                                                   .lead = 14,
                                                   .expires_with_year = true };
    jobs[0].hours = 40;
    jobs[1].hours = 20;
    jobs[1].fixed = given(2026, 11, 5);
    jobs[1].after = &after;
    jobs[1].after_count = 1;
    solve(2);
    assert_string_equal(
        schedule_of(plan, 1)->conflict,
        "`a` is finished Nov 16 2026, and it may start 7 days after that");
    jobs[1].after_count = 0;
    jobs[1].notices = &notice;
    jobs[1].notice_count = 1;
    jobs[1].fixed = given(2026, 10, 20);
    solve(2);
    assert_string_equal(
        schedule_of(plan, 1)->forbidden,
        "cutting notice: to be filed 14 days ahead, by Oct 6 2026, which has "
        "gone by");
    assert_string_equal(schedule_of(plan, 1)->conflict,
                        "crew owner is not free that day and begins Nov 2 2026");
    jobs[1].fixed = given(2027, 1, 10);
    solve(2);
    assert_string_equal(
        schedule_of(plan, 1)->forbidden,
        "cutting notice: to be filed 14 days ahead, by Dec 27 2026, and it "
        "expires with that year");
    jobs[1].fixed = given(2026, 9, 1);
    solve(2);
    assert_string_equal(schedule_of(plan, 1)->conflict,
                        "it lies before the first day of the plan, Oct 14 2026");
}

static void a_notice_that_runs_out_before_it_counts_is_told(void **state)
{
    (void)state;
    static const struct schedule_notice notice = { .words = "a ticket",
                                                   .lead = 10,
                                                   .expires_after = 5 };
    jobs[0].hours = 4;
    jobs[0].notices = &notice;
    jobs[0].notice_count = 1;
    solve(1);
    unplaced(0, SCHEDULE_WINDOWS,
             "a ticket (expires 5 days after filing, and is filed 10 days "
             "ahead) leaves no day");
    jobs[0].fixed = given(2026, 11, 9);
    solve(1);
    assert_string_equal(
        schedule_of(plan, 0)->forbidden,
        "a ticket: to be filed 10 days ahead, by Oct 30 2026, and it expires "
        "before that");
}

static void what_stands_in_is_placed_only_when_the_first_cannot_be(void **state)
{
    (void)state;
    static const struct schedule_after after = { .job = 1, .least = 1, .most = -1 };
    static struct schedule_condition frozen = { .words = "frozen ground" };
    frozen.chance[0] = 0.9;
    frozen.chance[1] = 0.7;
    task.conditions = &frozen;
    task.condition_count = 1;
    jobs[0].hours = 20;
    jobs[0].has_condition = true;
    jobs[0].has_otherwise = true;
    jobs[0].otherwise = 1;
    jobs[1].hours = 10;
    jobs[2].hours = 5; /* follows the stand-in */
    jobs[2].after = &after;
    jobs[2].after_count = 1;
    solve(3);
    const struct schedule_result *r = schedule_of(plan, 0);
    runs(r, "2027-01-01", "2027-01-01");
    /* From Jan 1 to Feb 28: 31 days at 0.9 and 28 at 0.7. */
    assert_float_equal(r->usable, (31 * 0.9 + 28 * 0.7) / 59, 1e-9);
    assert_int_equal(r->weeks_left, 9);
    assert_int_equal(schedule_of(plan, 1)->state, SCHEDULE_NOT_NEEDED);
    assert_string_equal(schedule_of(plan, 1)->reason,
                        "it stands in for `a`, which is placed");
    assert_int_equal(schedule_of(plan, 2)->state, SCHEDULE_NOT_NEEDED);
    assert_string_equal(schedule_of(plan, 2)->reason,
                        "it follows `b`, which is not needed");

    jobs[0].open = days_of(4, 1, 10, 31);
    solve(3);
    unplaced(0, SCHEDULE_WINDOWS,
             "its window (Apr 1 to Oct 31) and frozen ground (Jan 1 to "
             "Feb 29) leave no day between them");
    runs(schedule_of(plan, 1), "2026-11-02", "2026-11-02");
    assert_int_equal(schedule_of(plan, 2)->state, SCHEDULE_PLACED);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        EACH(what_can_never_follow_soon_enough_is_told),
        EACH(windows_that_never_meet_are_named),
        EACH(a_crew_without_hours_is_told),
        EACH(a_skill_that_nobody_has_is_told),
        EACH(a_deadline_before_the_window_is_told),
        EACH(a_notice_too_late_for_the_deadline_is_told),
        EACH(what_starts_past_the_years_planned_is_told),
        EACH(what_waits_for_the_unplaced_is_not_placed),
        EACH(jobs_done_together_name_two_that_no_crew_can_do),
        EACH(a_ring_is_told_as_a_chain_of_names),
        EACH(rings_of_every_shape_are_found),
        EACH(a_fixed_date_that_a_rule_forbids_is_kept_and_called_so),
        EACH(a_fixed_date_takes_its_hours_before_the_others),
        EACH(what_else_is_against_a_fixed_date_is_told),
        EACH(a_notice_that_runs_out_before_it_counts_is_told),
        EACH(what_stands_in_is_placed_only_when_the_first_cannot_be),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
