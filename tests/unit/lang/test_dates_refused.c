/* Texts in which a date or a window is refused in words. */
#include "literal_reading.h"

static void dates_that_cannot_be_read_are_refused(void **state)
{
    (void)state;
    static const struct refused_row rows[] = {
        { "walked = Oct 14, 2026", "date-comma", 1, 10,
          "a date is written without a comma", "`Oct 14 2026`" },
        { "walked = { Oct 14 , 2026 }", "date-comma", 1, 12,
          "a date is written without a comma", "`Oct 14 2026`" },
        { "x = 14 Oct 2026", "date-order", 1, 5, "a date begins with the month",
          "`Oct 14 2026`" },
        { "x = 14 October", "date-order", 1, 5, "a date begins with the month",
          "`Oct 14`" },
        { "x = {14 Oct}", "date-order", 1, 6, "a date begins with the month",
          "`Oct 14`" },
        { "x = oct 14 2026", "date-month", 1, 5, "`oct` is not how a month is written",
          "`Oct 14 2026`" },
        { "x = OCTOBER 14", "date-month", 1, 5, "`OCTOBER` is not how a month is written",
          "`Oct 14`" },
        { "x = Sept 14", "date-month", 1, 5, "`Sept` is not how a month is written",
          "`Sep 14`" },
        { "x = Nov 15th 2026", "date-text", 1, 5, "a day of the month is a number alone",
          "`Nov 15`" },
        { "x = Nov 2026", "date-text", 1, 5, "a date wants a day too", "`Nov 1 2026`" },
        { "x = Nov 1.5", "date-text", 1, 9, "`1.5` is not a day of a month",
          "dates are written as `Oct 14 2026`" },
        { "x = Nov 0x1", "date-text", 1, 9, "`0x1` is not a day of a month",
          "dates are written as `Oct 14 2026`" },
        { "x = Nov 31", "date-day", 1, 5, "November has 30 days, not 31",
          "a day from 1 to 30" },
        { "x = Nov 0", "date-day", 1, 5, "November has 30 days, not 0",
          "a day from 1 to 30" },
        { "x = Nov 999", "date-day", 1, 5, "November has 30 days, not 999",
          "a day from 1 to 30" },
        { "x = Feb 29 2027", "date-day", 1, 5, "2027 has no Feb 29",
          "a day from 1 to 28" },
        { "x = Feb 30", "date-day", 1, 5, "February has at most 29 days, not 30",
          "a day from 1 to 29" },
        { "x = Oct 14 1899", "date-year", 1, 5, "the year 1899 is outside the calendar",
          "a year from 1900 to 2200" },
        { "x = Nov 15 26", "date-year", 1, 12,
          "a year has four digits, and no number can follow a date otherwise",
          "dates are written as `Oct 14 2026`" },
        { "x = Nov 15 2026.5", "date-year", 1, 12,
          "a year has four digits, and no number can follow a date otherwise",
          "dates are written as `Oct 14 2026`" },
        { "x = Nov 15 to 20", "window-days", 1, 5,
          "a window goes from one day to another", "`Nov 15 to Nov 20`" },
        { "x = Nov 15 to Mar", "window-days", 1, 5,
          "a window goes from one day to another",
          "windows are written as `Nov 15 to Mar 31`" },
        { "x = Nov 15 to n", "window-days", 1, 5, "a window goes from one day to another",
          "windows are written as `Nov 15 to Mar 31`" },
        { "x = Nov 15 to", "window-days", 1, 5, "a window goes from one day to another",
          "windows are written as `Nov 15 to Mar 31`" },
        { "x = Nov 15 to Mar 32", "date-day", 1, 15, "March has 31 days, not 32",
          "a day from 1 to 31" },
        { "x = Nov 31 to Mar 3", "date-day", 1, 5, "November has 30 days, not 31",
          "a day from 1 to 30" },
        { "x = Nov 15 to mar 31", "date-month", 1, 15,
          "`mar` is not how a month is written", "`Mar 31`" },
        { "x = Nov to Mar", "window-days", 1, 5, "a window goes from one day to another",
          "`Nov 1 to Mar 30`, with the days that are meant" },
        { "x = Oct 14 2026 to Mar 3 2027", "window-year", 1, 5,
          "a window comes round every year, so it has no year", "`Oct 14 to Mar 3`" },
        { "x = Oct 14 to Mar 3 2027", "window-year", 1, 5,
          "a window comes round every year, so it has no year", "`Oct 14 to Mar 3`" },
    };
    reading_refuses(rows, sizeof rows / sizeof rows[0]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(dates_that_cannot_be_read_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
