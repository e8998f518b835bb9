/* date.h: days of the Gregorian calendar, 1900 to 2200, no clock, no time zone.
 *
 *     struct date d;
 *     if (!date_make(2026, 10, 14, &d, f)) return false;
 *     date_print(d, DATE_PAPER, &out);    // Oct 14 2026
 *     date_print(d, DATE_DATA, &out);     // 2026-10-14 (ISO 8601)
 */
#ifndef SPINNEY_CALENDAR_DATE_H
#define SPINNEY_CALENDAR_DATE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct buf;
struct fault;

enum { DATE_FIRST_YEAR = 1900, DATE_LAST_YEAR = 2200 };

/* Days since Jan 1 1900. Compare with < and ==; subtract to get days. */
struct date {
    int32_t day;
};

struct civil {
    int year, month, day; /* month 1..12, day 1..31 */
};

/* Faults: date-year, date-month, date-day ("November has 30 days", "2027 has no Feb 29"). */
bool date_make(int year, int month, int day, struct date *out, struct fault *f);
struct civil date_civil(struct date d);
/* 1 Monday .. 7 Sunday (ISO 8601). */
int date_weekday(struct date d);
/* The Monday on or before d. */
struct date date_week_start(struct date d);
/* ISO week number and the year it belongs to. */
int date_iso_week(struct date d, int *iso_year);
bool date_is_leap(int year);
int date_days_in_month(int year, int month);
/* The same day of a later month, or the last of that month where it has no such day
 * (Jan 31 + 1 month is Feb 28 or 29). False outside 1900 to 2200. */
bool date_add_months(struct date d, int months, struct date *out, struct fault *f);
bool date_add_days(struct date d, int days, struct date *out, struct fault *f);

enum date_style { DATE_PAPER, DATE_DATA };
void date_print(struct date d, enum date_style style, struct buf *out);
/* "Jan" .. "Dec"; month 1..12. */
const char *month_abbreviation(int month);
const char *month_name(int month);
/* Reads an English month name or its three letters; 0 when it is none. Case matters:
 * "May", "Sept" no. */
int month_read(const char *text, size_t length);
/* ISO 8601 "2026-10-14". Faults: date-text and those of date_make. */
bool date_read_data(const char *text, size_t length, struct date *out, struct fault *f);

#endif
