#include "calendar/date.h"

#include <string.h>

#include "base/buf.h"
#include "base/fault.h"

/* Jan 1 1900 was a Monday, so day 0 begins a week. */
enum { DAYS_BEFORE_1900 = 693595 }; /* Jan 1 of the year 1 to Jan 1 1900 */

static const char *const names[12] = { "January",   "February", "March",    "April",
                                       "May",       "June",     "July",     "August",
                                       "September", "October",  "November", "December" };
static const char *const short_names[12] = { "Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                             "Jul", "Aug", "Sep", "Oct", "Nov", "Dec" };
/* Days of a common year before each month. */
static const int16_t days_before[13] = { 0,   31,  59,  90,  120, 151, 181,
                                         212, 243, 273, 304, 334, 365 };

bool date_is_leap(int year)
{
    return year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
}

int date_days_in_month(int year, int month)
{
    if (month == 2)
        return date_is_leap(year) ? 29 : 28;
    return days_before[month] - days_before[month - 1];
}

static int32_t year_start(int year)
{
    int past = year - 1;
    return past * 365 + past / 4 - past / 100 + past / 400 - DAYS_BEFORE_1900;
}

static struct date date_of(int year, int month, int day)
{
    int32_t n = year_start(year) + days_before[month - 1] + day - 1;
    if (month > 2 && date_is_leap(year))
        n++;
    return (struct date){ n };
}

static bool year_fits(int year, struct fault *f)
{
    if (year >= DATE_FIRST_YEAR && year <= DATE_LAST_YEAR)
        return true;
    fault_set(f, "date-year", SPAN_NONE, "the year %d is outside the calendar", year);
    fault_hint(f, "a year from %d to %d", DATE_FIRST_YEAR, DATE_LAST_YEAR);
    return false;
}

bool date_make(int year, int month, int day, struct date *out, struct fault *f)
{
    if (!year_fits(year, f))
        return false;
    if (month < 1 || month > 12) {
        fault_set(f, "date-month", SPAN_NONE, "there is no month %d", month);
        fault_hint(f, "a month from 1 to 12");
        return false;
    }
    int days = date_days_in_month(year, month);
    if (day >= 1 && day <= days) {
        *out = date_of(year, month, day);
        return true;
    }
    if (month == 2 && day == 29)
        fault_set(f, "date-day", SPAN_NONE, "%d has no Feb 29", year);
    else
        fault_set(f, "date-day", SPAN_NONE, "%s has %d days, not %d", names[month - 1],
                  days, day);
    fault_hint(f, "a day from 1 to %d", days);
    return false;
}

struct civil date_civil(struct date d)
{
    /* A guess from the mean length of a year, put right by at most one. */
    int year = DATE_FIRST_YEAR + (int)((int64_t)d.day * 400 / 146097);
    if (year_start(year) > d.day)
        year--;
    else if (year_start(year + 1) <= d.day)
        year++;
    int left = d.day - year_start(year);
    int leap = date_is_leap(year) ? 1 : 0;
    int month = left / 31 + 1; /* never past the month, at most one short of it */
    int before = days_before[month] + (month >= 2 ? leap : 0);
    if (left >= before)
        month++;
    left -= days_before[month - 1] + (month > 2 ? leap : 0);
    return (struct civil){ year, month, left + 1 };
}

int date_weekday(struct date d)
{
    return d.day % 7 + 1;
}

struct date date_week_start(struct date d)
{
    return (struct date){ d.day - d.day % 7 };
}

int date_iso_week(struct date d, int *iso_year)
{
    /* A week belongs to the year that holds its Thursday. */
    int32_t thursday = date_week_start(d).day + 3;
    int year = date_civil((struct date){ thursday }).year;
    if (iso_year)
        *iso_year = year;
    return (thursday - year_start(year)) / 7 + 1;
}

bool date_add_months(struct date d, int months, struct date *out, struct fault *f)
{
    struct civil c = date_civil(d);
    int64_t total = (int64_t)c.year * 12 + c.month - 1 + months;
    if (total < DATE_FIRST_YEAR * 12 || total >= (DATE_LAST_YEAR + 1) * 12) {
        fault_set(f, "date-year", SPAN_NONE,
                  "%d months from %s %d %d is outside the calendar", months,
                  short_names[c.month - 1], c.day, c.year);
        fault_hint(f, "the calendar holds the years %d to %d", DATE_FIRST_YEAR,
                   DATE_LAST_YEAR);
        return false;
    }
    int year = (int)(total / 12), month = (int)(total % 12) + 1;
    int days = date_days_in_month(year, month);
    *out = date_of(year, month, c.day < days ? c.day : days);
    return true;
}

bool date_add_days(struct date d, int days, struct date *out, struct fault *f)
{
    int64_t day = (int64_t)d.day + days;
    if (day < 0 || day >= year_start(DATE_LAST_YEAR + 1)) {
        struct civil c = date_civil(d);
        fault_set(f, "date-year", SPAN_NONE,
                  "%d days from %s %d %d is outside the calendar", days,
                  short_names[c.month - 1], c.day, c.year);
        fault_hint(f, "the calendar holds the years %d to %d", DATE_FIRST_YEAR,
                   DATE_LAST_YEAR);
        return false;
    }
    *out = (struct date){ (int32_t)day };
    return true;
}

void date_print(struct date d, enum date_style style, struct buf *out)
{
    struct civil c = date_civil(d);
    if (style == DATE_PAPER)
        buf_printf(out, "%s %d %d", short_names[c.month - 1], c.day, c.year);
    else
        buf_printf(out, "%04d-%02d-%02d", c.year, c.month, c.day);
}

const char *month_abbreviation(int month)
{
    return short_names[month - 1];
}

const char *month_name(int month)
{
    return names[month - 1];
}

int month_read(const char *text, size_t length)
{
    for (int m = 0; m < 12; m++) {
        if (length == 3 && memcmp(text, short_names[m], 3) == 0)
            return m + 1;
        if (length == strlen(names[m]) && memcmp(text, names[m], length) == 0)
            return m + 1;
    }
    return 0;
}

/* Exactly `count` digits, as a number; -1 when one of them is none. */
static int digits(const char *text, int count)
{
    int value = 0;
    for (int i = 0; i < count; i++) {
        if (text[i] < '0' || text[i] > '9')
            return -1;
        value = value * 10 + (text[i] - '0');
    }
    return value;
}

bool date_read_data(const char *text, size_t length, struct date *out, struct fault *f)
{
    if (length == 10 && text[4] == '-' && text[7] == '-') {
        int year = digits(text, 4), month = digits(text + 5, 2),
            day = digits(text + 8, 2);
        if (year >= 0 && month >= 0 && day >= 0)
            return date_make(year, month, day, out, f);
    }
    int shown = length < 40 ? (int)length : 40;
    fault_set(f, "date-text", SPAN_NONE, "`%.*s` is not a date", shown, text);
    fault_hint(f, "year, month and day, as in 2026-10-14");
    return false;
}
