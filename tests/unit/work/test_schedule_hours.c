/* Hours of crews that change with the season and on certain dates, longest days, travel:
 * by hand for a few weeks, then by chance, each schedule before the checker. */
#include "schedule_fixture.h"

static double worked(const struct schedule_result *r, const char *monday)
{
    for (size_t i = 0; i < r->week_count; i++) {
        struct buf b;
        buf_init(&b);
        date_print(r->weeks[i].day, DATE_DATA, &b);
        bool same = strcmp(b.data, monday) == 0;
        buf_clear(&b);
        if (same)
            return r->weeks[i].hours;
    }
    return 0;
}

static void near(double a, double b)
{
    if (!(a - b < 1e-9 && b - a < 1e-9))
        fail_msg("%.12g is not %.12g", a, b);
}

static void a_season_has_hours_of_its_own(void **state)
{
    (void)state;
    /* 20 h a week between two, 60 from Dec 1 on; Nov 30 2026 is a Monday. */
    static struct schedule_hours winter[1];
    winter[0] = (struct schedule_hours){ .days = days_of(12, 1, 2, 28),
                                         .week_each = 30,
                                         .day_each = -1 };
    crews[OWNER].hours = winter;
    crews[OWNER].hours_count = 1;
    jobs[0].hours = 200;
    jobs[0].earliest = given(2026, 11, 23);
    const struct schedule_result *r = solve(1);
    near(worked(r, "2026-11-23"), 20);
    /* one day of the old hours, six of the new: 2 x (10 + 6 x 30) / 7 */
    near(worked(r, "2026-11-30"), 2 * (10.0 + 6 * 30) / 7);
    near(worked(r, "2026-12-07"), 60);
}

static void dates_come_before_the_season_and_the_last_before_all(void **state)
{
    (void)state;
    static struct schedule_hours rows[3];
    rows[0] = (struct schedule_hours){ .days = yearly_all(), .week_each = 5, .day_each = -1 };
    rows[1] = (struct schedule_hours){ .dated = true,
                                       .dates = { day_of(2027, 1, 4), day_of(2027, 1, 17) },
                                       .week_each = 40,
                                       .day_each = 8 };
    rows[2] = (struct schedule_hours){ .dated = true,
                                       .dates = { day_of(2027, 1, 11), day_of(2027, 1, 17) },
                                       .week_each = 0,
                                       .day_each = -1 };
    crews[OWNER].hours = rows;
    crews[OWNER].hours_count = 3;
    jobs[0].hours = 100;
    jobs[0].earliest = given(2026, 12, 28);
    const struct schedule_result *r = solve(1);
    near(worked(r, "2026-12-28"), 10);
    near(worked(r, "2027-01-04"), 80);
    near(worked(r, "2027-01-11"), 0);
    near(worked(r, "2027-01-18"), 10);
    /* 80 h at 16 a day: five days of that week */
    size_t days = 0;
    for (size_t i = 0; i < r->day_count; i++)
        days += r->days[i].hours > 15.99 && r->days[i].hours < 16.01;
    assert_int_equal(days, 5);
}

static void a_season_of_two_hour_days_spreads_the_work(void **state)
{
    (void)state;
    crews[OWNER].day_each = 2;
    jobs[0].hours = 20;
    runs(solve(1), "2026-11-02", "2026-11-06"); /* 4 h a day of the two */
    crews[OWNER].day_each = 0;
    runs(solve(1), "2026-11-02", "2026-11-02");
}

static void a_visit_takes_its_travel_off_the_day_and_the_week(void **state)
{
    (void)state;
    /* 20 h a week, 8 h a day of the two: three visits of 2 h are 6 h of it; a day 6 h. */
    crews[OWNER].day_each = 4;
    crews[OWNER].travel = 2;
    jobs[0].hours = 28;
    const struct schedule_result *r = solve(1);
    near(worked(r, "2026-11-02"), 14);
    near(worked(r, "2026-11-09"), 14);
    near(r->days[0].hours, 6);
    assert_int_equal(r->day_count, 6);
}

static void nobody_comes_for_less_than_the_way_there_takes(void **state)
{
    (void)state;
    /* 20.2 h a week, 10 h a day of the two, 3 h on the road: a third day has 0.2 h. */
    crews[OWNER].hours_each = 10.1;
    crews[OWNER].day_each = 5;
    crews[OWNER].travel = 3;
    jobs[0].hours = 28;
    const struct schedule_result *r = solve(1);
    near(worked(r, "2026-11-02"), 14); /* 20 h of two days less 6, not 20.2 less 9 */
    near(worked(r, "2026-11-09"), 14);
    near(r->weeks[0].there, 14);
}

static void a_week_holds_no_more_than_its_days(void **state)
{
    (void)state;
    /* 80 h a week, but 2 x 4 h a day, and 2 x 2 h on Tuesday. */
    static struct schedule_hours rows[1];
    crews[OWNER].hours_each = 40;
    crews[OWNER].day_each = 4;
    jobs[0].hours = 60;
    near(solve(1)->weeks[0].there, 56);
    rows[0] = (struct schedule_hours){ .dated = true,
                                       .dates = { day_of(2026, 11, 3), day_of(2026, 11, 3) },
                                       .week_each = -1,
                                       .day_each = 2 };
    crews[OWNER].hours = rows;
    crews[OWNER].hours_count = 1;
    near(solve(1)->weeks[0].there, 52);
    /* Who comes on the short day brings 1 h: 7 visits, 3 h each on the road. */
    crews[OWNER].travel = 3;
    near(solve(1)->weeks[0].there, 6 * (8 - 3) + (4 - 3));
    crews[OWNER].travel = 4.5; /* and then nothing */
    near(solve(1)->weeks[0].there, 6 * (8 - 4.5));
}

static void short_days_and_weeks_are_worked_too(void **state)
{
    (void)state;
    /* Two people, 15 minutes a day each: less than the hour that a visit mostly brings. */
    crews[OWNER].day_each = 0.25;
    jobs[0].hours = 3;
    runs(solve(1), "2026-11-02", "2026-11-07");
    /* An hour a week, of which 36 minutes go on the road. */
    crews[OWNER].day_each = 8;
    crews[OWNER].hours_each = 0.5;
    crews[OWNER].travel = 0.6;
    jobs[0].hours = 2;
    runs(solve(1), "2026-11-02", "2026-11-30");
}

static void a_crew_whose_day_goes_on_the_road_does_nothing(void **state)
{
    (void)state;
    crews[OWNER].travel = 20;
    jobs[0].hours = 5;
    solve(1);
    assert_int_equal(schedule_of(plan, 0)->state, SCHEDULE_UNPLACED);
    assert_int_equal(schedule_of(plan, 0)->why, SCHEDULE_NO_HOURS);
}

static void the_checker_knows_too_long_a_day_and_week(void **state)
{
    (void)state;
    jobs[0].hours = 20;
    solve(1); /* all of it on one day */
    crews[OWNER].day_each = 9;
    assert_false(schedule_check(&task, plan, NULL));
    crews[OWNER].day_each = 0;
    assert_true(schedule_check(&task, plan, NULL));
    crews[OWNER].travel = 1;
    assert_false(schedule_check(&task, plan, NULL));
    crews[OWNER].travel = 0;
    static struct schedule_hours less[1];
    less[0] = (struct schedule_hours){ .dated = true,
                                       .dates = { day_of(2026, 11, 4), day_of(2026, 11, 4) },
                                       .week_each = 5,
                                       .day_each = -1 };
    crews[OWNER].hours = less;
    crews[OWNER].hours_count = 1;
    assert_false(schedule_check(&task, plan, NULL));
}

static uint64_t random_state = 88172645463325252u;

static int below(int n)
{
    random_state ^= random_state << 13;
    random_state ^= random_state >> 7;
    random_state ^= random_state << 17;
    return (int)(random_state % (uint64_t)n);
}

static struct schedule_hours some_hours(void)
{
    struct schedule_hours h = { .week_each = below(4) ? below(50) : -1 };
    h.day_each = below(3) ? 1 + below(10) : -1;
    h.dated = below(2) == 0;
    int first = below(700), length = below(200), month = below(12);
    h.dates.from = (struct date){ task.start.day + first };
    h.dates.to = (struct date){ task.start.day + first + length };
    h.days = days_of(month + 1, 1, (month + below(5)) % 12 + 1, 28);
    return h;
}

static void every_schedule_by_chance_keeps_the_hours(void **state)
{
    static struct schedule_hours rows[2][3];
    size_t placed = 0;
    for (int round = 0; round < 400; round++) {
        tidy(state);
        fresh(state);
        task.crew_count = 2;
        for (int c = 0; c < 2; c++) {
            crews[c].hours = rows[c];
            crews[c].hours_count = (size_t)below(4);
            crews[c].day_each = below(2) ? 1 + below(11) : 0;
            crews[c].travel = below(2) ? below(9) / 2.0 : 0;
            for (int i = 0; i < 3; i++)
                rows[c][i] = some_hours();
        }
        for (int i = 0; i < 5; i++)
            jobs[i].hours = 1 + below(120);
        solve(5); /* holds it against the checker */
        for (size_t i = 0; i < 5; i++)
            placed += schedule_of(plan, i)->state == SCHEDULE_PLACED;
    }
    assert_true(placed > 1500); /* of 2,000: the check is of something */
}

static void a_crew_that_works_by_days_is_at_one_place_a_day(void **state)
{
    (void)state;
    for (size_t i = 0; i < 3; i++) {
        jobs[i].days = 5;
        jobs[i].earliest = given(2026, 11, 2);
    }
    jobs[2].hours = 30; /* twenty in a day, of two: and the week's twenty as well */
    solve(3);
    runs(schedule_of(plan, 0), "2026-11-02", "2026-11-06");
    runs(schedule_of(plan, 1), "2026-11-07", "2026-11-11");
    runs(schedule_of(plan, 2), "2026-11-12", "2026-11-16");
    /* Without a number of days it takes one, and other things are done on it. */
    jobs[0].days = jobs[1].days = 0;
    solve(3);
    for (size_t i = 0; i < 3; i++)
        is_day(schedule_of(plan, i)->start, "2026-11-02");
}

static void days_taken_whole_are_told_where_no_others_are_left(void **state)
{
    (void)state;
    jobs[0].days = jobs[1].days = 8;
    jobs[0].open = jobs[1].open = days_of(11, 2, 11, 13);
    jobs[1].latest = given(2026, 11, 13);
    crews[OWNER].from.given = false;
    crews[OWNER].to = given(2026, 12, 31);
    solve(2);
    assert_int_equal(schedule_of(plan, 1)->state, SCHEDULE_UNPLACED);
    assert_string_equal(
        schedule_of(plan, 1)->reason,
        "crew owner is at work and free on 4 of the days it could be done, and it takes 8 "
        "until Nov 13 2026; these clash, and more stands against it: its window (Nov 2 to "
        "Nov 13); done by Nov 13 2026; the other work of crew owner");
}

static void the_checker_knows_a_crew_at_two_places(void **state)
{
    (void)state;
    jobs[0].days = jobs[1].days = 0;
    solve(2);
    jobs[0].days = jobs[1].days = 1;
    assert_false(schedule_check(&task, plan, NULL));
    jobs[1].days = 0;
    assert_true(schedule_check(&task, plan, NULL));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        EACH(a_season_has_hours_of_its_own),
        EACH(dates_come_before_the_season_and_the_last_before_all),
        EACH(a_season_of_two_hour_days_spreads_the_work),
        EACH(a_visit_takes_its_travel_off_the_day_and_the_week),
        EACH(nobody_comes_for_less_than_the_way_there_takes),
        EACH(a_week_holds_no_more_than_its_days),
        EACH(short_days_and_weeks_are_worked_too),
        EACH(a_crew_whose_day_goes_on_the_road_does_nothing),
        EACH(the_checker_knows_too_long_a_day_and_week),
        EACH(a_crew_that_works_by_days_is_at_one_place_a_day),
        EACH(days_taken_whole_are_told_where_no_others_are_left),
        EACH(the_checker_knows_a_crew_at_two_places),
        EACH(every_schedule_by_chance_keeps_the_hours),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
