/* Where jobs are placed. */
#include "schedule_fixture.h"

static void work_fills_the_first_open_weeks(void **state)
{
    (void)state;
    jobs[0].hours = 70;
    jobs[0].open = days_of(11, 15, 3, 31);
    const struct schedule_result *r = solve(1);
    /* Nov 15 2026 is a Sunday: twenty hours that day, then a week's twenty on each
     * Monday, and the ten that are left. */
    runs(r, "2026-11-15", "2026-11-30");
    assert_int_equal(r->week_count, 4);
    is_day(r->weeks[0].day, "2026-11-09");
    assert_float_equal(r->weeks[0].hours, 20, 1e-9);
    assert_float_equal(r->weeks[3].hours, 10, 1e-9);
    assert_int_equal(r->crew, OWNER);
    assert_int_equal(r->weeks_left, 18); /* the rest of that week to the week of Mar 29 */
    assert_false(r->carried_over);
}

static void a_week_with_days_off_has_fewer_hours(void **state)
{
    (void)state;
    static struct schedule_span away;
    away = (struct schedule_span){ day_of(2026, 11, 2), day_of(2026, 11, 5) };
    crews[OWNER].days_off = &away;
    crews[OWNER].day_off_count = 1;
    jobs[0].hours = 20;
    jobs[0].earliest = given(2026, 11, 2);
    const struct schedule_result *r = solve(1);
    /* Three of seven days are left of the week of Nov 2. */
    runs(r, "2026-11-06", "2026-11-09");
    assert_float_equal(r->weeks[0].hours, 20.0 * 3 / 7, 1e-9);
}

static void nobody_works_more_than_ten_hours_a_day(void **state)
{
    (void)state;
    crews[OWNER].hours_each = 40;
    jobs[0].hours = 50;
    jobs[0].earliest = given(2026, 11, 2);
    const struct schedule_result *r = solve(1);
    runs(r, "2026-11-02", "2026-11-04");
    assert_float_equal(r->days[0].hours, 20, 1e-9);
    assert_float_equal(r->days[2].hours, 10, 1e-9);
}

static void two_jobs_share_the_hours_of_a_crew(void **state)
{
    (void)state;
    jobs[0].hours = 30;
    jobs[1].hours = 30;
    solve(2);
    runs(schedule_of(plan, 0), "2026-11-02", "2026-11-09");
    runs(schedule_of(plan, 1), "2026-11-09", "2026-11-16");
}

static void a_crew_of_the_list_that_is_a_week_earlier_is_taken(void **state)
{
    (void)state;
    static const size_t able[] = { OWNER, HIRED };
    task.crew_count = 2;
    task.tries = 1; /* as it is placed; a second could be for evener weeks */
    jobs[0].hours = 8;
    jobs[0].who = SCHEDULE_LISTED;
    jobs[0].crews = able;
    jobs[0].crew_count = 2;
    solve(1);
    assert_int_equal(schedule_of(plan, 0)->crew,
                     HIRED); /* the owner begins in November */
    jobs[0].earliest = given(2026, 11, 3);
    solve(1);
    assert_int_equal(schedule_of(plan, 0)->crew, OWNER);
}

static void the_order_of_the_plan_gives_way_to_what_comes_before(void **state)
{
    (void)state;
    static struct schedule_after after[] = { { .job = 1, .least = 21, .most = 42 } };
    jobs[0].after = after;
    jobs[0].after_count = 1;
    jobs[0].hours = 10;
    jobs[1].hours = 10;
    solve(2);
    runs(schedule_of(plan, 1), "2026-11-02", "2026-11-02");
    runs(schedule_of(plan, 0), "2026-11-23", "2026-11-23");
}

static void what_must_follow_soon_pushes_the_first_one_later(void **state)
{
    (void)state;
    /* Spray two to three weeks after mowing, in a window that opens Aug 20. */
    static struct schedule_after after[] = { { .job = 0, .least = 14, .most = 21 } };
    jobs[0].hours = 6;
    jobs[0].open = days_of(7, 15, 9, 15);
    jobs[1].hours = 6;
    jobs[1].open = days_of(8, 20, 9, 15);
    jobs[1].after = after;
    jobs[1].after_count = 1;
    solve(2);
    runs(schedule_of(plan, 0), "2027-07-30", "2027-07-30");
    runs(schedule_of(plan, 1), "2027-08-20", "2027-08-20");
}

/* What could never follow soon enough leaves what it follows where that lay, however long
 * it pushed, and leaves others room to push. */
static void what_is_pushed_in_vain_goes_back(void **state)
{
    (void)state;
    static struct schedule_after never[] = { { .job = 0, .least = 21, .most = 14 } };
    static struct schedule_after late[] = { { .job = 2, .least = 0, .most = 14 } };
    jobs[0].hours = jobs[1].hours = jobs[2].hours = jobs[3].hours = 5;
    jobs[1].after = never;
    jobs[1].after_count = 1;
    jobs[3].after = late;
    jobs[3].after_count = 1;
    jobs[3].open = days_of(8, 20, 9, 15);
    solve(4);
    runs(schedule_of(plan, 0), "2026-11-02", "2026-11-02");
    assert_int_equal(schedule_of(plan, 1)->why, SCHEDULE_LAG);
    runs(schedule_of(plan, 2), "2027-08-06", "2027-08-06");
    runs(schedule_of(plan, 3), "2027-08-20", "2027-08-20");
    /* b comes three weeks after a, c after b and soon after a: it pushes a, and with it b,
     * until its deadline has passed, or, without one, until the years planned are over. */
    static struct schedule_after three[] = { { .job = 0, .least = 21, .most = -1 } };
    static struct schedule_after both[] = { { .job = 0, .least = 0, .most = 14 },
                                            { .job = 1, .least = 0, .most = -1 } };
    jobs[1].after = three;
    jobs[2].after = both;
    jobs[2].after_count = 2;
    for (int i = 0; i < 2; i++) {
        jobs[2].latest.given = i == 0;
        jobs[2].latest.date = day_of(2027, 1, 15);
        solve(3);
        runs(schedule_of(plan, 0), "2026-11-02", "2026-11-02");
        assert_int_equal(schedule_of(plan, 2)->state, SCHEDULE_UNPLACED);
    }
    /* A chain: c pushes b, and b pushes a; in vain, both go back. */
    static struct schedule_after first[] = { { .job = 0, .least = 0, .most = 7 } };
    static struct schedule_after second[] = { { .job = 1, .least = 0, .most = 7 } };
    jobs[1].after = first;
    jobs[2].after = second;
    jobs[2].after_count = 1;
    jobs[2].open = days_of(4, 1, 4, 30);
    jobs[0].latest = given(2027, 2, 1);
    solve(3);
    runs(schedule_of(plan, 0), "2026-11-02", "2026-11-02");
    runs(schedule_of(plan, 1), "2026-11-02", "2026-11-02");
    assert_int_equal(schedule_of(plan, 2)->why, SCHEDULE_LAG);
}

static void what_fits_nowhere_where_it_pushed_to_leaves_no_trace(void **state)
{
    (void)state;
    /* 20 h a week: with `a` in the same week, `b` has not got its 15 h by Dec 11, a
     * Friday. */
    static struct schedule_after after[] = { { .job = 0, .least = 0, .most = 3 } };
    jobs[0].hours = 10;
    jobs[1].hours = 15;
    jobs[1].open = days_of(12, 10, 12, 31);
    jobs[1].latest = given(2026, 12, 11);
    jobs[1].after = after;
    jobs[1].after_count = 1;
    runs(solve(2), "2026-11-02", "2026-11-02");
    assert_int_equal(schedule_of(plan, 1)->state, SCHEDULE_UNPLACED);
    jobs[0].hours = 5;
    runs(solve(2), "2026-12-07", "2026-12-07");
    runs(schedule_of(plan, 1), "2026-12-10", "2026-12-10");
}

static void stumps_are_treated_on_the_days_of_the_cut(void **state)
{
    (void)state;
    jobs[0].hours = 45;
    jobs[0].open = days_of(11, 15, 3, 31);
    jobs[1].hours = 15;
    jobs[1].open = days_of(7, 15, 2, 28);
    jobs[1].has_along = true;
    jobs[1].along = 0;
    solve(2);
    runs(schedule_of(plan, 0), "2026-11-15", "2026-11-23");
    const struct schedule_result *treat = schedule_of(plan, 1);
    runs(treat, "2026-11-15", "2026-11-23");
    assert_float_equal(treat->weeks[0].hours, 5, 1e-9);
    /* Windows that never meet are told for both, each by its job. */
    jobs[1].open = days_of(7, 15, 10, 31);
    solve(2);
    unplaced(0, SCHEDULE_WINDOWS,
             "`a`: its window (Nov 15 to Mar 31) and `b`: its window (Jul 15 to Oct 31) "
             "leave no day between them");
}

static void a_loggers_cut_takes_days_and_no_crew(void **state)
{
    (void)state;
    task.crew_count = 0;
    jobs[0].who = SCHEDULE_NOBODY;
    jobs[0].days = 20;
    jobs[0].open = days_of(12, 15, 3, 10);
    solve(1);
    runs(schedule_of(plan, 0), "2026-12-15", "2027-01-03");
    jobs[0].days = 90; /* more than the 86 days of a season: it goes on in the next */
    solve(1);
    assert_true(schedule_of(plan, 0)->carried_over);
    runs(schedule_of(plan, 0), "2026-12-15", "2027-12-18");
    jobs[0].in_one_week = true;
    solve(1);
    unplaced(0, SCHEDULE_NO_HOURS,
             "it takes 90 open days in a row, which it has not got in the 16 years "
             "planned; it would fit without any one of these: its window (Dec 15 to Mar "
             "10); days in a row");
}

static void work_too_late_for_its_season_waits_for_the_next(void **state)
{
    (void)state;
    jobs[0].hours = 80;
    jobs[0].open = days_of(12, 1, 3, 31);
    jobs[0].earliest = given(2027, 3, 20);
    const struct schedule_result *r = solve(1);
    runs(r, "2027-12-01", "2027-12-20");
    assert_false(r->carried_over);
}

static void a_cutting_notice_is_filed_fourteen_days_ahead_in_the_same_year(void **state)
{
    (void)state;
    /* Wis. Stat. 26.03: tell the county clerk 14 days before cutting; expires Dec 31. */
    static const struct schedule_notice notice = {
        .words = "cutting notice to the county clerk",
        .lead = 14,
        .expires_with_year = true
    };
    jobs[0].hours = 10;
    jobs[0].open = days_of(1, 1, 3, 31);
    jobs[0].notices = &notice;
    jobs[0].notice_count = 1;
    const struct schedule_result *r = solve(1);
    /* Filed in the old year it would have expired: Jan 15 is the first day there is. */
    runs(r, "2027-01-15", "2027-01-15");
    assert_int_equal(r->filing_count, 1);
    is_day(r->filings[0].from, "2027-01-01");
    is_day(r->filings[0].by, "2027-01-01");

    /* Over New Year it pauses for the two weeks and is filed twice. */
    jobs[0].open = days_of(12, 20, 3, 31);
    jobs[0].hours = 80;
    r = solve(1);
    runs(r, "2026-12-20", "2027-01-15");
    assert_int_equal(r->filing_count, 2);
    is_day(r->filings[0].from, "2026-10-14");
    is_day(r->filings[0].by, "2026-12-06");
    is_day(r->filings[0].last, "2026-12-28");
    is_day(r->filings[1].by, "2027-01-01");
}

static void a_notice_that_was_filed_is_not_filed_again(void **state)
{
    (void)state;
    static struct schedule_notice notice;
    notice = (struct schedule_notice){ .words = "cutting notice",
                                       .lead = 30,
                                       .filed = given(2026, 9, 20) };
    task.start = day_of(2026, 11, 2);
    jobs[0].hours = 30;
    jobs[0].notices = &notice;
    jobs[0].notice_count = 1;
    solve(1);
    runs(schedule_of(plan, 0), "2026-11-02", "2026-11-09");
    assert_int_equal(schedule_of(plan, 0)->filing_count, 0);
    /* It runs out on Nov 4: the rest waits for a new one, thirty days after the start. */
    notice.expires_after = 45;
    solve(1);
    runs(schedule_of(plan, 0), "2026-11-02", "2026-12-02");
    assert_int_equal(schedule_of(plan, 0)->filing_count, 1);
    assert_int_equal(schedule_of(plan, 0)->filings[0].by.day, day_of(2026, 11, 2).day);
    /* It has run out before: as if it had not been filed. */
    notice.expires_after = 35;
    solve(1);
    runs(schedule_of(plan, 0), "2026-12-02", "2026-12-07");
    /* Filed lately, it holds sooner than one that is filed now. */
    notice.expires_after = 0;
    notice.filed = given(2026, 10, 24);
    solve(1);
    runs(schedule_of(plan, 0), "2026-11-23", "2026-11-30");
}

static void a_ticket_that_lapses_is_taken_again(void **state)
{
    (void)state;
    /* Michigan dig notice, PA 174 of 2013: 3 business days, valid 21 days. */
    static const struct schedule_notice notice = { .words = "dig notice",
                                                   .lead = 3,
                                                   .expires_after = 21 };
    jobs[0].who = SCHEDULE_NOBODY;
    jobs[0].days = 30;
    jobs[0].open = days_of(4, 20, 6, 1);
    jobs[0].notices = &notice;
    jobs[0].notice_count = 1;
    const struct schedule_result *r = solve(1);
    runs(r, "2027-04-20", "2027-05-19");
    assert_int_equal(r->filing_count, 2);
    is_day(r->filings[0].by, "2027-04-17");
    is_day(r->filings[0].from, "2027-04-17");
    is_day(r->filings[0].last, "2027-05-08");
    is_day(r->filings[1].by, "2027-05-06");
}

static void dated_openings_add_to_a_window(void **state)
{
    (void)state;
    static struct schedule_span opening;
    opening = (struct schedule_span){ day_of(2026, 11, 20), day_of(2026, 11, 22) };
    jobs[0].hours = 10;
    jobs[0].open = days_of(1, 10, 2, 10);
    jobs[0].openings = &opening;
    jobs[0].opening_count = 1;
    runs(solve(1), "2026-11-20", "2026-11-20");
    jobs[0].open = yearly_none();
    jobs[0].earliest = given(2026, 12, 1);
    solve(1);
    unplaced(0, SCHEDULE_DEADLINE,
             "it is open on no day from Dec 1 2026 in the 16 years planned; it would fit "
             "without any one of these: its window (Nov 20 2026 to Nov 22 2026); not "
             "before Dec 1 2026");
}

static void what_was_done_is_followed_from_its_day(void **state)
{
    (void)state;
    static const struct schedule_after after = { .job = 0, .least = 365, .most = -1 };
    jobs[0].done = true;
    jobs[0].hours = 11;
    jobs[0].was = (struct schedule_span){ day_of(2026, 3, 1), day_of(2026, 3, 12) };
    jobs[1].after = &after;
    jobs[1].after_count = 1;
    solve(2);
    runs(schedule_of(plan, 0), "2026-03-01", "2026-03-12");
    runs(schedule_of(plan, 1), "2027-03-12", "2027-03-12");
}

static void entries_over_the_years_follow_by_their_lags(void **state)
{
    (void)state;
    static struct schedule_after after[3];
    for (size_t i = 0; i < 4; i++) {
        jobs[i].hours = 30;
        jobs[i].open = days_of(12, 15, 3, 10);
        if (i == 0)
            continue;
        after[i - 1] =
            (struct schedule_after){ .job = i - 1, .least = 4 * 365, .most = -1 };
        jobs[i].after = &after[i - 1];
        jobs[i].after_count = 1;
    }
    solve(4);
    runs(schedule_of(plan, 0), "2026-12-15", "2026-12-21");
    runs(schedule_of(plan, 1), "2030-12-20", "2030-12-23");
    runs(schedule_of(plan, 2), "2034-12-22", "2034-12-25");
    runs(schedule_of(plan, 3), "2038-12-24", "2038-12-27");
}

static void the_same_crew_comes_back(void **state)
{
    (void)state;
    static const struct schedule_after after = { .job = 0, .most = 1, .same_crew = true };
    static const size_t only_owner = OWNER, only_hired = HIRED;
    task.crew_count = 2;
    jobs[0].hours = 4;
    jobs[0].who = SCHEDULE_LISTED;
    jobs[0].crews = &only_owner;
    jobs[0].crew_count = 1;
    jobs[1].hours = 4;
    jobs[1].after = &after;
    jobs[1].after_count = 1;
    solve(2);
    assert_int_equal(schedule_of(plan, 1)->crew, OWNER);
    jobs[1].who = SCHEDULE_LISTED;
    jobs[1].crews = &only_hired;
    jobs[1].crew_count = 1;
    solve(2);
    unplaced(1, SCHEDULE_NO_CREW,
             "it is for the crew that does `a`, and owner cannot do it");
}

/* Twenty hours, all that two people have in a day: each needs a crew of its own. */
static void crews_are_chosen_so_that_stated_dates_are_kept(void **state)
{
    (void)state;
    static const size_t both[] = { OWNER, HIRED }, owner[] = { OWNER };
    task.crew_count = 2;
    for (size_t i = 0; i < 2; i++) {
        jobs[i].hours = 20;
        jobs[i].fixed = given(2026, 11, 3);
        jobs[i].who = SCHEDULE_LISTED;
    }
    jobs[0].crews = both;
    jobs[0].crew_count = 2;
    jobs[1].crews = owner;
    jobs[1].crew_count = 1;
    solve(2);
    for (size_t i = 0; i < 2; i++) {
        runs(schedule_of(plan, i), "2026-11-03", "2026-11-03");
        assert_null(schedule_of(plan, i)->conflict);
    }
    assert_int_equal(schedule_of(plan, 0)->crew, HIRED);
    /* Alone it is done by whom it costs least. */
    static const size_t hired_first[] = { HIRED, OWNER };
    crews[HIRED].rate = 30;
    jobs[0].crews = hired_first;
    solve(1);
    assert_int_equal(schedule_of(plan, 0)->crew, OWNER);
    assert_true(schedule_outcome(plan).proven);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        EACH(work_fills_the_first_open_weeks),
        EACH(a_week_with_days_off_has_fewer_hours),
        EACH(nobody_works_more_than_ten_hours_a_day),
        EACH(two_jobs_share_the_hours_of_a_crew),
        EACH(a_crew_of_the_list_that_is_a_week_earlier_is_taken),
        EACH(the_order_of_the_plan_gives_way_to_what_comes_before),
        EACH(what_must_follow_soon_pushes_the_first_one_later),
        EACH(what_is_pushed_in_vain_goes_back),
        EACH(what_fits_nowhere_where_it_pushed_to_leaves_no_trace),
        EACH(stumps_are_treated_on_the_days_of_the_cut),
        EACH(a_loggers_cut_takes_days_and_no_crew),
        EACH(work_too_late_for_its_season_waits_for_the_next),
        EACH(a_cutting_notice_is_filed_fourteen_days_ahead_in_the_same_year),
        EACH(a_notice_that_was_filed_is_not_filed_again),
        EACH(a_ticket_that_lapses_is_taken_again),
        EACH(dated_openings_add_to_a_window),
        EACH(what_was_done_is_followed_from_its_day),
        EACH(entries_over_the_years_follow_by_their_lags),
        EACH(crews_are_chosen_so_that_stated_dates_are_kept),
        EACH(the_same_crew_comes_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
