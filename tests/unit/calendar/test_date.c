#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <cmocka.h>

#include "base/buf.h"
#include "base/fault.h"
#include "calendar/date.h"

static struct date day_of(int year, int month, int day)
{
    struct date d = { 0 };
    struct fault f = { 0 };
    assert_true(date_make(year, month, day, &d, &f));
    return d;
}

static void print_is(struct date d, enum date_style style, const char *wanted)
{
    struct buf b;
    buf_init(&b);
    date_print(d, style, &b);
    assert_string_equal(b.data, wanted);
    buf_clear(&b);
}

/* Every day of the calendar: the C library's own gmtime and strftime say the same. */
static void every_day_of_three_centuries_agrees_with_gmtime(void **state)
{
    (void)state;
    int32_t unix_epoch = day_of(1970, 1, 1).day;
    int32_t last = day_of(2200, 12, 31).day;
    assert_int_equal(day_of(1900, 1, 1).day, 0);
    for (int32_t n = 0; n <= last; n++) {
        time_t seconds = (time_t)(n - unix_epoch) * 86400;
        struct tm tm;
        assert_non_null(gmtime_r(&seconds, &tm));
        struct date d = { n };
        struct civil c = date_civil(d);
        if (c.year != tm.tm_year + 1900 || c.month != tm.tm_mon + 1 ||
            c.day != tm.tm_mday)
            fail_msg("day %d comes out as %d-%d-%d", (int)n, c.year, c.month, c.day);
        if (day_of(c.year, c.month, c.day).day != n)
            fail_msg("day %d does not come back", (int)n);
        int weekday = tm.tm_wday == 0 ? 7 : tm.tm_wday;
        if (date_weekday(d) != weekday)
            fail_msg("day %d is weekday %d, not %d", (int)n, weekday, date_weekday(d));
        if (date_week_start(d).day != n - (weekday - 1))
            fail_msg("the week of day %d starts on %d", (int)n,
                     (int)date_week_start(d).day);
        char text[16];
        strftime(text, sizeof text, "%G-%V", &tm);
        int iso_year, week = date_iso_week(d, &iso_year);
        if (atoi(text) != iso_year || atoi(text + 5) != week)
            fail_msg("day %d is week %d-%d, not %s", (int)n, iso_year, week, text);
    }
}

static void only_days_that_exist_are_made(void **state)
{
    (void)state;
    for (int year = 1899; year <= 2201; year++) {
        for (int month = 0; month <= 13; month++) {
            for (int day = 0; day <= 32; day++) {
                /* timegm is no part of POSIX; a tm put through mktime in UTC moves a day
                 * that is not there to the one it would be, so it comes back changed. */
                struct tm tm = { .tm_year = year - 1900,
                                 .tm_mon = month - 1,
                                 .tm_mday = day,
                                 .tm_hour = 12,
                                 .tm_isdst = 0 };
                struct tm back = tm;
                mktime(&back);
                bool there = back.tm_year == tm.tm_year && back.tm_mon == tm.tm_mon &&
                             back.tm_mday == tm.tm_mday && year >= 1900 && year <= 2200;
                struct date d;
                struct fault f = { 0 };
                if (date_make(year, month, day, &d, &f) != there)
                    fail_msg("%d-%d-%d: there %d", year, month, day, there);
                assert_int_equal(fault_is_set(&f), !there);
            }
        }
    }
}

static void fault_is(int year, int month, int day, const char *id, const char *message)
{
    struct date d;
    struct fault f = { 0 };
    assert_false(date_make(year, month, day, &d, &f));
    assert_string_equal(f.id, id);
    assert_string_equal(f.message, message);
    assert_true(f.hint[0] != '\0');
}

static void days_that_are_not_there_are_told_in_words(void **state)
{
    (void)state;
    fault_is(2026, 11, 31, "date-day", "November has 30 days, not 31");
    fault_is(2027, 2, 29, "date-day", "2027 has no Feb 29");
    fault_is(2100, 2, 29, "date-day", "2100 has no Feb 29");
    fault_is(2028, 2, 30, "date-day", "February has 29 days, not 30");
    fault_is(2026, 1, 0, "date-day", "January has 31 days, not 0");
    fault_is(2026, 13, 1, "date-month", "there is no month 13");
    fault_is(1899, 12, 31, "date-year", "the year 1899 is outside the calendar");
    fault_is(2201, 1, 1, "date-year", "the year 2201 is outside the calendar");
}

static void dates_print_for_papers_and_for_data(void **state)
{
    (void)state;
    print_is(day_of(2026, 10, 14), DATE_PAPER, "Oct 14 2026");
    print_is(day_of(2026, 10, 14), DATE_DATA, "2026-10-14");
    print_is(day_of(1900, 1, 1), DATE_DATA, "1900-01-01");
    print_is(day_of(2200, 12, 31), DATE_PAPER, "Dec 31 2200");
}

static void months_later_keep_the_day_or_take_the_last(void **state)
{
    (void)state;
    static const struct {
        int from[3], months, to[3];
    } rows[] = {
        { { 2026, 1, 31 }, 1, { 2026, 2, 28 } },
        { { 2028, 1, 31 }, 1, { 2028, 2, 29 } },
        { { 2026, 10, 14 }, 12, { 2027, 10, 14 } },
        { { 2028, 2, 29 }, 12, { 2029, 2, 28 } },
        { { 2026, 3, 31 }, -1, { 2026, 2, 28 } },
        { { 2026, 12, 31 }, 2, { 2027, 2, 28 } },
        { { 2026, 1, 15 }, -1, { 2025, 12, 15 } },
        { { 2026, 5, 31 }, 0, { 2026, 5, 31 } },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct date from = day_of(rows[i].from[0], rows[i].from[1], rows[i].from[2]), out;
        struct fault f = { 0 };
        assert_true(date_add_months(from, rows[i].months, &out, &f));
        assert_int_equal(out.day,
                         day_of(rows[i].to[0], rows[i].to[1], rows[i].to[2]).day);
    }
}

static void sums_that_leave_the_calendar_are_refused(void **state)
{
    (void)state;
    static const int months[] = { 1, INT32_MAX, INT32_MIN };
    struct date last = day_of(2200, 12, 31), out;
    for (size_t i = 0; i < 3; i++) {
        struct fault f = { 0 };
        assert_false(date_add_months(last, months[i], &out, &f));
        assert_string_equal(f.id, "date-year");
        fault_clear(&f);
        assert_false(date_add_days(last, months[i], &out, &f));
        assert_string_equal(f.id, "date-year");
    }
    struct fault f = { 0 };
    assert_false(date_add_days(day_of(1900, 1, 1), -1, &out, &f));
    fault_clear(&f);
    assert_true(date_add_days(last, -1, &out, &f));
    print_is(out, DATE_DATA, "2200-12-30");
}

static void iso_dates_are_read_and_nothing_else(void **state)
{
    (void)state;
    struct date d;
    struct fault f = { 0 };
    assert_true(date_read_data("2026-10-14", 10, &d, &f));
    assert_int_equal(d.day, day_of(2026, 10, 14).day);
    static const char *const bad[] = { "",           "2026-1-14",
                                       "2026/10/14", "2026-10-14 ",
                                       "26-10-14",   "2026-1x-14",
                                       "+026-10-14", "2026-10--1" };
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        fault_clear(&f);
        assert_false(date_read_data(bad[i], strlen(bad[i]), &d, &f));
        assert_string_equal(f.id, "date-text");
    }
    fault_clear(&f);
    assert_false(date_read_data("2026-11-31", 10, &d, &f));
    assert_string_equal(f.message, "November has 30 days, not 31");
}

static void months_are_read_whole_or_by_three_letters(void **state)
{
    (void)state;
    for (int m = 1; m <= 12; m++) {
        assert_int_equal(month_read(month_name(m), strlen(month_name(m))), m);
        assert_int_equal(month_read(month_abbreviation(m), 3), m);
    }
    static const char *const none[] = { "Sept", "may", "MAY", "Octo", "", "Ma", "Mayor" };
    for (size_t i = 0; i < sizeof none / sizeof none[0]; i++)
        assert_int_equal(month_read(none[i], strlen(none[i])), 0);
}

int main(void)
{
    setenv("TZ", "UTC0", 1); /* mktime reads it */
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_day_of_three_centuries_agrees_with_gmtime),
        cmocka_unit_test(only_days_that_exist_are_made),
        cmocka_unit_test(days_that_are_not_there_are_told_in_words),
        cmocka_unit_test(dates_print_for_papers_and_for_data),
        cmocka_unit_test(months_later_keep_the_day_or_take_the_last),
        cmocka_unit_test(sums_that_leave_the_calendar_are_refused),
        cmocka_unit_test(iso_dates_are_read_and_nothing_else),
        cmocka_unit_test(months_are_read_whole_or_by_three_letters),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
