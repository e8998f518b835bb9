/* window.h: stretches of the year that come round every year, and the days they leave open.
 *
 *     struct window dormant = { { 11, 15 }, { 3, 31 } };      // Nov 15 to Mar 31
 *     struct yearly days = yearly_of(dormant);
 *     days = yearly_minus(days, yearly_of(quiet));
 *     if (yearly_next(days, from, &start)) ...
 *
 * A window holds both its ends and wraps over New Year when it must: Nov 15 to Nov 10 is
 * all year but Nov 11 to 14. A set of days is a bit for each of the 366 month-days, so
 * union, intersection and difference are exact by construction; Feb 29 is a day like any
 * other that three years in four have not got. */
#ifndef SPINNEY_CALENDAR_WINDOW_H
#define SPINNEY_CALENDAR_WINDOW_H

#include "calendar/date.h"

struct month_day {
    int8_t month, day;
};

struct window {
    struct month_day from, to;
};

struct yearly {
    uint64_t bits[6]; /* month-days 0 (Jan 1) to 365 (Dec 31), Feb 29 is 59 */
};

/* A day of any year; Feb 29 is one. Faults: date-month, date-day. */
bool month_day_make(int month, int day, struct month_day *out, struct fault *f);
void month_day_print(struct month_day d, struct buf *out); /* Nov 15 */
void window_print(struct window w, struct buf *out);       /* Nov 15 to Mar 31 */

struct yearly yearly_none(void);
struct yearly yearly_all(void);
struct yearly yearly_of(struct window w);
struct yearly yearly_or(struct yearly a, struct yearly b);
struct yearly yearly_and(struct yearly a, struct yearly b);
struct yearly yearly_minus(struct yearly a, struct yearly b);
bool yearly_is_none(struct yearly a);
bool yearly_equal(struct yearly a, struct yearly b);
bool yearly_has(struct yearly a, struct date d);
bool yearly_has_day(struct yearly a, struct month_day d);
/* The days of one year as bits, Jan 1 first and none left out: bit 59 is Mar 1 where there
 * is no Feb 29. Returns how many days the year has. */
int yearly_in_year(struct yearly a, int year, uint64_t days[6]);
/* The first day of the set on or after `from`; false when there is none within 8 years
 * (only Feb 29 alone can take that long) or before the calendar ends. */
bool yearly_next(struct yearly a, struct date from, struct date *out);
/* The last day of the unbroken run of days of the set that holds `from`. A set of all days
 * answers the last day of the calendar. */
bool yearly_run_end(struct yearly a, struct date from, struct date *out);
/* Days of the set from a to b, both included. */
int yearly_count(struct yearly a, struct date from, struct date to);
/* Weeks (Monday to Sunday) that hold at least one open day between the two dates. */
int yearly_weeks_open(struct yearly a, struct date from, struct date to);
/* "Nov 15 to Mar 31", "Apr 1 to Jul 31, Sep 1 to Sep 14", "all year", "never". */
void yearly_print(struct yearly a, struct buf *out);

#endif
