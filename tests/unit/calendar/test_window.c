#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/buf.h"
#include "base/fault.h"
#include "calendar/window.h"

static struct date day_of(int year, int month, int day)
{
    struct date d = { 0 };
    struct fault f = { 0 };
    assert_true(date_make(year, month, day, &d, &f));
    return d;
}

static struct window window_of(int m1, int d1, int m2, int d2)
{
    struct window w = { { 0, 0 }, { 0, 0 } };
    struct fault f = { 0 };
    assert_true(month_day_make(m1, d1, &w.from, &f));
    assert_true(month_day_make(m2, d2, &w.to, &f));
    return w;
}

static struct yearly days_of(int m1, int d1, int m2, int d2)
{
    return yearly_of(window_of(m1, d1, m2, d2));
}

static void prints_as(struct yearly a, const char *wanted)
{
    struct buf b;
    buf_init(&b);
    yearly_print(a, &b);
    assert_string_equal(b.data, wanted);
    buf_clear(&b);
}

static uint64_t random_state;

static uint64_t next_random(void)
{
    random_state ^= random_state << 13;
    random_state ^= random_state >> 7;
    random_state ^= random_state << 17;
    return random_state;
}

static int below(int n)
{
    return (int)(next_random() % (uint64_t)n);
}

static struct window random_window(void)
{
    struct window w;
    struct fault f = { 0 };
    while (!month_day_make(1 + below(12), 1 + below(31), &w.from, &f))
        fault_clear(&f);
    while (!month_day_make(1 + below(12), 1 + below(31), &w.to, &f))
        fault_clear(&f);
    if (below(6) == 0)
        w.to = w.from;
    return w;
}

/* The definition, month-day by month-day: from <= d <= to, or over New Year. */
static bool holds(struct window w, int month, int day)
{
    int from = w.from.month * 100 + w.from.day, to = w.to.month * 100 + w.to.day;
    int d = month * 100 + day;
    return from <= to ? from <= d && d <= to : d >= from || d <= to;
}

static void a_window_holds_both_its_ends_and_wraps(void **state)
{
    (void)state;
    random_state = 7;
    for (int round = 0; round < 2000; round++) {
        struct window w = random_window();
        struct yearly a = yearly_of(w);
        for (int month = 1; month <= 12; month++) {
            for (int day = 1; day <= 31; day++) {
                struct month_day d;
                struct fault f = { 0 };
                if (!month_day_make(month, day, &d, &f))
                    continue;
                if (yearly_has_day(a, d) != holds(w, month, day))
                    fail_msg("%d-%d to %d-%d: %d-%d", w.from.month, w.from.day,
                             w.to.month, w.to.day, month, day);
            }
        }
    }
}

static void nov_15_to_nov_10_is_all_but_four_days(void **state)
{
    (void)state;
    struct yearly a = days_of(11, 15, 11, 10);
    assert_int_equal(yearly_count(a, day_of(2027, 1, 1), day_of(2027, 12, 31)), 361);
    assert_int_equal(yearly_count(a, day_of(2028, 1, 1), day_of(2028, 12, 31)), 362);
    assert_true(yearly_has(a, day_of(2027, 11, 10)));
    for (int day = 11; day <= 14; day++)
        assert_false(yearly_has(a, day_of(2027, 11, day)));
    assert_true(yearly_has(a, day_of(2027, 11, 15)));
    prints_as(a, "Nov 15 to Nov 10");
}

static void feb_29_is_a_day_that_three_years_in_four_have_not_got(void **state)
{
    (void)state;
    struct yearly a = days_of(2, 29, 2, 29);
    struct date next;
    assert_true(yearly_next(a, day_of(2025, 1, 1), &next));
    assert_int_equal(next.day, day_of(2028, 2, 29).day);
    assert_true(yearly_next(a, day_of(2096, 3, 1), &next));
    assert_int_equal(next.day, day_of(2104, 2, 29).day);
    assert_false(yearly_next(a, day_of(2196, 3, 1), &next));
    assert_true(yearly_run_end(a, day_of(2028, 2, 29), &next));
    assert_int_equal(next.day, day_of(2028, 2, 29).day);
    assert_int_equal(yearly_count(a, day_of(2025, 1, 1), day_of(2028, 12, 31)), 1);
    prints_as(a, "Feb 29");
    /* A run across it is unbroken in years that have no Feb 29. */
    struct yearly but = yearly_minus(yearly_all(), a);
    assert_true(yearly_run_end(but, day_of(2025, 2, 28), &next));
    assert_int_equal(next.day, day_of(2028, 2, 28).day);
    prints_as(but, "Mar 1 to Feb 28");
}

static void days_that_no_year_has_are_refused(void **state)
{
    (void)state;
    struct month_day d;
    struct fault f = { 0 };
    assert_false(month_day_make(11, 31, &d, &f));
    assert_string_equal(f.id, "date-day");
    assert_string_equal(f.message, "November has 30 days, not 31");
    fault_clear(&f);
    assert_false(month_day_make(2, 30, &d, &f));
    assert_string_equal(f.message, "February has at most 29 days, not 30");
    fault_clear(&f);
    assert_false(month_day_make(0, 1, &d, &f));
    assert_string_equal(f.id, "date-month");
    fault_clear(&f);
    assert_true(month_day_make(2, 29, &d, &f));
}

static void unions_intersections_and_differences_are_exact(void **state)
{
    (void)state;
    random_state = 99;
    struct date first = day_of(2027, 1, 1), last = day_of(2028, 12, 31);
    for (int round = 0; round < 300; round++) {
        struct window v = random_window(), w = random_window();
        struct yearly a = yearly_of(v), b = yearly_of(w);
        struct yearly either = yearly_or(a, b), both = yearly_and(a, b);
        struct yearly rest = yearly_minus(a, b);
        for (struct date d = first; d.day <= last.day; d.day++) {
            struct civil c = date_civil(d);
            bool in_a = holds(v, c.month, c.day), in_b = holds(w, c.month, c.day);
            assert_int_equal(yearly_has(either, d), in_a || in_b);
            assert_int_equal(yearly_has(both, d), in_a && in_b);
            assert_int_equal(yearly_has(rest, d), in_a && !in_b);
        }
        assert_true(yearly_equal(yearly_or(both, rest), a));
        assert_true(yearly_is_none(yearly_and(rest, b)));
    }
}

/* next, run_end, count and weeks against walking day by day. */
static void questions_about_days_agree_with_walking(void **state)
{
    (void)state;
    random_state = 4711;
    struct date base = day_of(2094, 1, 1);
    for (int round = 0; round < 1500; round++) {
        struct yearly a = yearly_of(random_window());
        for (int more = below(3); more > 0; more--)
            a = yearly_or(a, yearly_of(random_window()));
        if (below(3) == 0)
            a = yearly_minus(a, yearly_of(random_window()));
        struct date from = { base.day + below(4000) };
        struct date to = { from.day + below(900) - 20 };

        struct date walk = from, next, end;
        while (walk.day < from.day + 8 * 366 && !yearly_has(a, walk))
            walk.day++;
        bool found = walk.day < from.day + 8 * 366;
        assert_int_equal(yearly_next(a, from, &next), found);
        if (found)
            assert_int_equal(next.day, walk.day);

        assert_int_equal(yearly_run_end(a, from, &end), yearly_has(a, from));
        if (yearly_has(a, from) && !yearly_equal(a, yearly_all())) {
            for (walk = from; yearly_has(a, (struct date){ walk.day + 1 });)
                walk.day++;
            assert_int_equal(end.day, walk.day);
        }

        int count = 0, weeks = 0, last_week = -1;
        for (walk = from; walk.day <= to.day; walk.day++) {
            if (!yearly_has(a, walk))
                continue;
            count++;
            if (date_week_start(walk).day != last_week)
                weeks++;
            last_week = date_week_start(walk).day;
        }
        assert_int_equal(yearly_count(a, from, to), count);
        assert_int_equal(yearly_weeks_open(a, from, to), weeks);
    }
}

static void open_all_year_runs_to_the_end_of_the_calendar(void **state)
{
    (void)state;
    struct date end;
    assert_true(yearly_run_end(yearly_all(), day_of(2026, 5, 1), &end));
    assert_int_equal(end.day, day_of(2200, 12, 31).day);
    assert_false(yearly_next(yearly_none(), day_of(2026, 5, 1), &end));
    assert_int_equal(
        yearly_weeks_open(yearly_all(), day_of(2200, 12, 31), day_of(2200, 12, 31)), 1);
    assert_int_equal(yearly_count(yearly_all(), day_of(1900, 1, 1), day_of(2200, 12, 31)),
                     day_of(2200, 12, 31).day + 1);
}

static void sets_read_as_a_person_would_say_them(void **state)
{
    (void)state;
    struct buf b;
    buf_init(&b);
    window_print(window_of(11, 15, 3, 31), &b);
    assert_string_equal(b.data, "Nov 15 to Mar 31");
    b.length = 0;
    window_print(window_of(11, 15, 11, 15), &b);
    assert_string_equal(b.data, "Nov 15");
    b.length = 0;
    month_day_print(window_of(2, 29, 2, 29).from, &b);
    assert_string_equal(b.data, "Feb 29");
    buf_clear(&b);

    prints_as(yearly_none(), "never");
    prints_as(yearly_all(), "all year");
    prints_as(days_of(11, 15, 3, 31), "Nov 15 to Mar 31");
    prints_as(yearly_or(days_of(4, 1, 7, 31), days_of(9, 1, 9, 14)),
              "Apr 1 to Jul 31, Sep 1 to Sep 14");
    /* Two windows that meet at New Year, or anywhere, are one stretch. */
    prints_as(yearly_or(days_of(11, 15, 12, 31), days_of(1, 1, 3, 31)),
              "Nov 15 to Mar 31");
    prints_as(yearly_or(days_of(1, 1, 6, 30), days_of(7, 1, 12, 31)), "all year");
    prints_as(yearly_or(days_of(6, 1, 6, 30), days_of(12, 25, 1, 6)),
              "Jun 1 to Jun 30, Dec 25 to Jan 6");
    prints_as(yearly_minus(yearly_all(), days_of(4, 15, 7, 15)), "Jul 16 to Apr 14");
    prints_as(days_of(1, 1, 1, 1), "Jan 1");
    prints_as(days_of(12, 31, 12, 31), "Dec 31");
    prints_as(days_of(12, 31, 1, 1), "Dec 31 to Jan 1");
    prints_as(days_of(1, 1, 12, 30), "Jan 1 to Dec 30");
    prints_as(days_of(2, 1, 12, 31), "Feb 1 to Dec 31");
}

static void the_days_of_one_year_are_those_of_the_set(void **state)
{
    (void)state;
    random_state = 4711;
    for (int round = 0; round < 300; round++) {
        struct yearly a = yearly_or(yearly_of(random_window()), yearly_of(random_window()));
        a = yearly_minus(a, yearly_of(random_window()));
        int year = 1900 + below(301);
        uint64_t days[6];
        int count = yearly_in_year(a, year, days);
        assert_int_equal(count, date_is_leap(year) ? 366 : 365);
        struct date first = day_of(year, 1, 1);
        for (int i = 0; i < 6 * 64; i++) {
            bool has = (days[i / 64] >> (i % 64) & 1) != 0;
            bool wanted = i < count && yearly_has(a, (struct date){ first.day + i });
            assert_int_equal(has, wanted);
        }
    }
}

/* What is printed, read as windows again, is the same set. */
static void printed_sets_say_exactly_their_days(void **state)
{
    (void)state;
    random_state = 31337;
    for (int round = 0; round < 500; round++) {
        struct yearly a = yearly_of(random_window());
        for (int more = below(4); more > 0; more--)
            a = below(2) ? yearly_or(a, yearly_of(random_window()))
                         : yearly_minus(a, yearly_of(random_window()));
        if (yearly_is_none(a) || yearly_equal(a, yearly_all()))
            continue;
        struct buf b;
        buf_init(&b);
        yearly_print(a, &b);
        struct yearly back = yearly_none();
        for (const char *at = b.data; *at != '\0';) {
            struct window w;
            w.from.month = (int8_t)month_read(at, 3);
            w.from.day = 0;
            for (at += 4; *at >= '0' && *at <= '9'; at++)
                w.from.day = (int8_t)(w.from.day * 10 + (*at - '0'));
            w.to = w.from;
            if (strncmp(at, " to ", 4) == 0) {
                at += 4;
                w.to.month = (int8_t)month_read(at, 3);
                w.to.day = 0;
                for (at += 4; *at >= '0' && *at <= '9'; at++)
                    w.to.day = (int8_t)(w.to.day * 10 + (*at - '0'));
            }
            back = yearly_or(back, yearly_of(w));
            if (strncmp(at, ", ", 2) == 0)
                at += 2;
        }
        assert_true(yearly_equal(a, back));
        buf_clear(&b);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_window_holds_both_its_ends_and_wraps),
        cmocka_unit_test(nov_15_to_nov_10_is_all_but_four_days),
        cmocka_unit_test(feb_29_is_a_day_that_three_years_in_four_have_not_got),
        cmocka_unit_test(days_that_no_year_has_are_refused),
        cmocka_unit_test(unions_intersections_and_differences_are_exact),
        cmocka_unit_test(questions_about_days_agree_with_walking),
        cmocka_unit_test(open_all_year_runs_to_the_end_of_the_calendar),
        cmocka_unit_test(sets_read_as_a_person_would_say_them),
        cmocka_unit_test(the_days_of_one_year_are_those_of_the_set),
        cmocka_unit_test(printed_sets_say_exactly_their_days),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
