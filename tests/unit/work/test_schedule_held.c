/* What holds jobs back, and the days before which they cannot be done. */
#include "schedule_fixture.h"

static const struct schedule_hold *held(size_t job)
{
    return &schedule_of(plan, job)->held;
}

static struct schedule_goal goal(enum schedule_goals which)
{
    return schedule_outcome(plan).goals[which];
}

static void a_job_that_nothing_holds_starts_with_the_plan(void **state)
{
    (void)state;
    crews[OWNER].from.given = false;
    jobs[0].hours = 4;
    solve(1);
    assert_int_equal(held(0)->by, SCHEDULE_HELD_NOT);
    assert_false(held(0)->waits_for_open);
    assert_false(held(0)->crew_away);
    assert_int_equal(held(0)->busy, SCHEDULE_NONE);
    assert_int_equal(held(0)->beside, SCHEDULE_NONE);
}

static void a_crew_that_comes_later_is_away(void **state)
{
    (void)state;
    jobs[0].hours = 4;
    solve(1);
    assert_int_equal(held(0)->by, SCHEDULE_HELD_NOT);
    assert_true(held(0)->crew_away);
    is_day(schedule_of(plan, 0)->start, "2026-11-02");
}

static void a_crew_that_is_busy_names_what_it_does_first(void **state)
{
    (void)state;
    jobs[0].hours = 50;
    jobs[1].hours = 10;
    solve(2);
    runs(schedule_of(plan, 1), "2026-11-16", "2026-11-16");
    assert_int_equal(held(1)->by, SCHEDULE_HELD_NOT);
    assert_int_equal(held(1)->busy, 0);
    assert_false(held(1)->crew_away);
}

/* The window opens on Nov 1: what closes November is told, not it. */
static void what_closes_the_days_is_named(void **state)
{
    (void)state;
    const struct schedule_limit limits[] = {
        { .words = "the hunt", .closed = days_of(11, 10, 11, 30) },
        { .words = "leave",
          .dated = true,
          .from = given(2026, 11, 12).date,
          .to = given(2026, 11, 20).date },
    };
    crews[OWNER].from.given = false;
    jobs[0].hours = jobs[1].hours = 4;
    jobs[0].open = days_of(11, 1, 3, 31);
    jobs[0].earliest = given(2026, 11, 12);
    jobs[0].limits = limits;
    jobs[0].limit_count = 2;
    jobs[1].open = days_of(12, 1, 3, 31);
    solve(2);
    is_day(schedule_of(plan, 0)->start, "2026-12-01");
    assert_true(held(0)->waits_for_open);
    assert_string_equal(schedule_of(plan, 0)->closed_by, "the hunt");
    assert_string_equal(schedule_of(plan, 1)->closed_by,
                        "outside its window (Dec 1 to Mar 31)");
}

static void an_order_a_notice_and_a_date_are_told_apart(void **state)
{
    (void)state;
    static const struct schedule_after after = { .job = 0, .least = 21, .most = -1 };
    static const struct schedule_notice notice = { .words = "a notice", .lead = 30 };
    jobs[0].hours = jobs[1].hours = jobs[2].hours = jobs[3].hours = 2;
    jobs[1].after = &after;
    jobs[1].after_count = 1;
    jobs[2].notices = &notice;
    jobs[2].notice_count = 1;
    jobs[3].earliest = given(2026, 12, 1);
    jobs[3].notices = &notice;
    jobs[3].notice_count = 1;
    jobs[4].fixed = given(2027, 1, 4);
    jobs[4].hours = 2;
    solve(5);
    assert_int_equal(held(1)->by, SCHEDULE_HELD_AFTER);
    assert_int_equal(held(1)->job, 0);
    is_day(held(1)->from, "2026-11-23");
    assert_int_equal(held(2)->by, SCHEDULE_HELD_NOTICE);
    assert_int_equal(held(2)->job, 2);
    assert_int_equal(held(2)->notice, 0);
    is_day(held(2)->from, "2026-11-13");
    assert_int_equal(held(3)->by, SCHEDULE_HELD_EARLIEST);
    is_day(held(3)->from, "2026-12-01");
    assert_int_equal(held(4)->by, SCHEDULE_HELD_DATE);
}

static void a_notice_filed_anew_each_year_is_told_not_the_crew(void **state)
{
    (void)state;
    /* The crew comes on Jan 4; a notice of this year covers no day of the next. */
    static const struct schedule_notice notices[] = {
        { .words = "a dig notice", .lead = 5 },
        { .words = "a cutting notice", .lead = 14, .expires_with_year = true },
    };
    crews[OWNER].from = given(2027, 1, 4);
    jobs[0].hours = jobs[1].hours = jobs[2].hours = 4;
    jobs[0].open = days_of(12, 1, 3, 31);
    jobs[0].notices = jobs[1].notices = jobs[2].notices = notices;
    jobs[0].notice_count = jobs[1].notice_count = 2;
    jobs[2].notice_count = 1;
    jobs[1].open = days_of(1, 10, 3, 31);
    solve(3);
    is_day(schedule_of(plan, 0)->start, "2027-01-15");
    assert_int_equal(held(0)->renewed_job, 0);
    assert_int_equal(held(0)->renewed, 1);
    assert_false(held(0)->crew_away);
    /* Its window opens on the 10th: its days are closed until then, not until the 15th. */
    assert_int_equal(held(1)->renewed, 1);
    assert_false(held(1)->waits_for_open);
    /* Without such a notice the crew is what is waited for. */
    is_day(schedule_of(plan, 2)->start, "2027-01-04");
    assert_int_equal(held(2)->renewed, SCHEDULE_NONE);
    assert_true(held(2)->crew_away);
}

static void a_window_missed_tells_when_it_had_closed(void **state)
{
    (void)state;
    static const struct schedule_after after = { .job = 0, .least = 0, .most = -1 };
    jobs[0].hours = 4;
    jobs[0].open = days_of(3, 20, 4, 30);
    jobs[1].hours = 4;
    jobs[1].open = days_of(12, 1, 3, 15);
    jobs[1].after = &after;
    jobs[1].after_count = 1;
    solve(2);
    assert_true(held(0)->waits_for_open);
    assert_false(held(0)->was_open);
    is_day(held(0)->opens, "2027-03-20");
    assert_int_equal(held(1)->by, SCHEDULE_HELD_AFTER);
    assert_true(held(1)->waits_for_open);
    assert_true(held(1)->was_open);
    is_day(held(1)->closed, "2027-03-15");
    is_day(held(1)->opens, "2027-12-01");
}

static void a_season_too_short_is_told(void **state)
{
    (void)state;
    jobs[0].hours = 80;
    jobs[0].open = days_of(12, 1, 3, 31);
    jobs[0].earliest = given(2027, 3, 20);
    solve(1);
    assert_int_equal(held(0)->by, SCHEDULE_HELD_EARLIEST);
    assert_true(held(0)->too_short);
    assert_false(held(0)->waits_for_open);
}

static void what_is_pushed_names_its_follower(void **state)
{
    (void)state;
    static const struct schedule_after after = { .job = 0, .least = 14, .most = 21 };
    jobs[0].hours = 6;
    jobs[0].open = days_of(7, 15, 9, 15);
    jobs[1].hours = 6;
    jobs[1].open = days_of(8, 20, 9, 15);
    jobs[1].after = &after;
    jobs[1].after_count = 1;
    solve(2);
    runs(schedule_of(plan, 0), "2027-07-30", "2027-07-30");
    assert_int_equal(held(0)->by, SCHEDULE_HELD_FOLLOWER);
    assert_int_equal(held(0)->job, 1);
    is_day(held(1)->opens, "2027-08-20");
}

static void a_job_drawn_out_names_what_is_done_beside_it(void **state)
{
    (void)state;
    /* A fixed date takes two of the weeks that the job would have gone on in. */
    jobs[0].hours = 60;
    jobs[1].hours = 40;
    jobs[1].fixed = given(2026, 11, 9);
    solve(2);
    runs(schedule_of(plan, 0), "2026-11-02", "2026-11-30");
    assert_int_equal(held(0)->beside, 1);
    is_day(held(0)->alone, "2026-11-16");
}

static void no_day_can_be_beaten_by_hours_alone(void **state)
{
    (void)state;
    /* Three jobs of thirty hours at twenty a week from Nov 2: ninety take four weeks and a
     * half, whatever the order; each alone would be done in the second. */
    for (size_t i = 0; i < 3; i++)
        jobs[i].hours = 30;
    jobs[1].first = true;
    solve(3);
    is_day(goal(SCHEDULE_ALL).finish, "2026-11-30");
    is_day(goal(SCHEDULE_ALL).bound, "2026-11-30");
    assert_int_equal(goal(SCHEDULE_ALL).jobs, 3);
    is_day(goal(SCHEDULE_MARKED_FIRST).finish, "2026-11-09");
    is_day(goal(SCHEDULE_MARKED_FIRST).bound, "2026-11-09");
    is_day(schedule_of(plan, 2)->soonest, "2026-11-09");
}

static void crews_that_share_the_work_are_counted_together(void **state)
{
    (void)state;
    /* Two crews, 20 and 80 h a week; the second cannot do the third job. */
    static const size_t owner = OWNER;
    task.crew_count = 2;
    crews[OWNER].from.given = false;
    task.start = day_of(2026, 11, 2);
    jobs[0].hours = jobs[1].hours = 80;
    jobs[2].hours = 60;
    jobs[2].who = SCHEDULE_LISTED;
    jobs[2].crews = &owner;
    jobs[2].crew_count = 1;
    solve(3);
    /* The owner alone needs Nov 2, 9 and 16 for the third. All of it, 220 h at 100 a
     * week, takes until the third week, too: twenty hours are left for its Monday. */
    is_day(goal(SCHEDULE_ALL).bound, "2026-11-16");
    assert_true(goal(SCHEDULE_ALL).finish.day >= goal(SCHEDULE_ALL).bound.day);
}

static void the_longest_path_goes_through_windows_and_lags(void **state)
{
    (void)state;
    static struct schedule_after after[2];
    after[0] = (struct schedule_after){ .job = 0, .least = 10, .most = -1 };
    after[1] = (struct schedule_after){ .job = 1, .least = 400, .most = -1 };
    jobs[0].hours = jobs[1].hours = jobs[2].hours = 10;
    jobs[0].open = days_of(12, 1, 3, 31);
    jobs[1].open = days_of(8, 1, 8, 31);
    jobs[1].after = &after[0];
    jobs[2].after = &after[1];
    jobs[1].after_count = jobs[2].after_count = 1;
    solve(3);
    is_day(schedule_of(plan, 2)->soonest, "2028-09-04"); /* Aug 1 2027 and 400 days */
    is_day(goal(SCHEDULE_ALL).bound, "2028-09-04");
    is_day(goal(SCHEDULE_FIRST_YEAR).bound, "2027-08-01");
    assert_int_equal(goal(SCHEDULE_FIRST_YEAR).jobs, 2);
    assert_int_equal(goal(SCHEDULE_MARKED_FIRST).jobs, 0);
}

static void a_date_before_the_plan_is_its_finish(void **state)
{
    (void)state;
    jobs[0].hours = 4;
    jobs[0].fixed = given(2026, 10, 5);
    solve(1);
    is_day(schedule_of(plan, 0)->finish, "2026-10-05");
    is_day(goal(SCHEDULE_ALL).finish, "2026-10-05");
    is_day(goal(SCHEDULE_ALL).bound, "2026-10-05");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        EACH(a_job_that_nothing_holds_starts_with_the_plan),
        EACH(a_crew_that_comes_later_is_away),
        EACH(a_crew_that_is_busy_names_what_it_does_first),
        EACH(what_closes_the_days_is_named),
        EACH(an_order_a_notice_and_a_date_are_told_apart),
        EACH(a_notice_filed_anew_each_year_is_told_not_the_crew),
        EACH(a_window_missed_tells_when_it_had_closed),
        EACH(a_season_too_short_is_told),
        EACH(what_is_pushed_names_its_follower),
        EACH(a_job_drawn_out_names_what_is_done_beside_it),
        EACH(no_day_can_be_beaten_by_hours_alone),
        EACH(crews_that_share_the_work_are_counted_together),
        EACH(a_date_before_the_plan_is_its_finish),
        EACH(the_longest_path_goes_through_windows_and_lags),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
