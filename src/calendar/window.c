#include "calendar/window.h"

#include "base/buf.h"
#include "base/fault.h"

enum { DAYS = 366, FEB_29 = 59 };

/* Days of a leap year before each month: the place of a month-day in the set. */
static const int16_t days_before[13] = { 0,   31,  60,  91,  121, 152, 182,
                                         213, 244, 274, 305, 335, 366 };

static int index_of(int month, int day)
{
    return days_before[month - 1] + day - 1;
}

static struct month_day month_day_of(int index)
{
    int month = 1;
    while (index >= days_before[month])
        month++;
    return (struct month_day){ (int8_t)month,
                               (int8_t)(index - days_before[month - 1] + 1) };
}

bool month_day_make(int month, int day, struct month_day *out, struct fault *f)
{
    if (month < 1 || month > 12) {
        fault_set(f, "date-month", SPAN_NONE, "there is no month %d", month);
        fault_hint(f, "a month from 1 to 12");
        return false;
    }
    int days = days_before[month] - days_before[month - 1];
    if (day < 1 || day > days) {
        fault_set(f, "date-day", SPAN_NONE, "%s has %s%d days, not %d", month_name(month),
                  month == 2 ? "at most " : "", days, day);
        fault_hint(f, "a day from 1 to %d", days);
        return false;
    }
    *out = (struct month_day){ (int8_t)month, (int8_t)day };
    return true;
}

void month_day_print(struct month_day d, struct buf *out)
{
    buf_printf(out, "%s %d", month_abbreviation(d.month), d.day);
}

void window_print(struct window w, struct buf *out)
{
    month_day_print(w.from, out);
    if (w.from.month == w.to.month && w.from.day == w.to.day)
        return;
    buf_puts(out, " to ");
    month_day_print(w.to, out);
}

struct yearly yearly_none(void)
{
    return (struct yearly){ { 0 } };
}

/* Sets the month-days first to last, both included, first <= last. */
static void set_days(struct yearly *a, int first, int last)
{
    for (int i = first / 64; i <= last / 64; i++) {
        uint64_t word = ~UINT64_C(0);
        if (i == first / 64)
            word &= ~UINT64_C(0) << (first % 64);
        if (i == last / 64)
            word &= ~UINT64_C(0) >> (63 - last % 64);
        a->bits[i] |= word;
    }
}

struct yearly yearly_all(void)
{
    struct yearly a = yearly_none();
    set_days(&a, 0, DAYS - 1);
    return a;
}

struct yearly yearly_of(struct window w)
{
    struct yearly a = yearly_none();
    int first = index_of(w.from.month, w.from.day), last = index_of(w.to.month, w.to.day);
    if (first <= last) {
        set_days(&a, first, last);
    } else {
        set_days(&a, first, DAYS - 1);
        set_days(&a, 0, last);
    }
    return a;
}

struct yearly yearly_or(struct yearly a, struct yearly b)
{
    for (int i = 0; i < 6; i++)
        a.bits[i] |= b.bits[i];
    return a;
}

struct yearly yearly_and(struct yearly a, struct yearly b)
{
    for (int i = 0; i < 6; i++)
        a.bits[i] &= b.bits[i];
    return a;
}

struct yearly yearly_minus(struct yearly a, struct yearly b)
{
    for (int i = 0; i < 6; i++)
        a.bits[i] &= ~b.bits[i];
    return a;
}

bool yearly_is_none(struct yearly a)
{
    return yearly_equal(a, yearly_none());
}

bool yearly_equal(struct yearly a, struct yearly b)
{
    for (int i = 0; i < 6; i++)
        if (a.bits[i] != b.bits[i])
            return false;
    return true;
}

static bool has_index(const struct yearly *a, int index)
{
    return (a->bits[index / 64] >> (index % 64) & 1) != 0;
}

bool yearly_has(struct yearly a, struct date d)
{
    struct civil c = date_civil(d);
    return has_index(&a, index_of(c.month, c.day));
}

bool yearly_has_day(struct yearly a, struct month_day d)
{
    return has_index(&a, index_of(d.month, d.day));
}

int yearly_in_year(struct yearly a, int year, uint64_t days[6])
{
    for (int i = 0; i < 6; i++)
        days[i] = a.bits[i];
    if (date_is_leap(year))
        return DAYS;
    /* Feb 29 goes, and what is behind it moves up by a day. */
    uint64_t before = (UINT64_C(1) << FEB_29) - 1;
    for (int i = 0; i < 6; i++) {
        uint64_t moved = a.bits[i] >> 1 | (i < 5 ? a.bits[i + 1] << 63 : 0);
        days[i] = i == 0 ? (moved & ~before) | (a.bits[0] & before) : moved;
    }
    return DAYS - 1;
}

/* The first index from `index` on whose bit is `wanted`; DAYS when there is none. */
static int find(const struct yearly *a, int index, bool wanted)
{
    for (int i = index / 64; index < DAYS; i++, index = i * 64) {
        uint64_t word = wanted ? a->bits[i] : ~a->bits[i];
        word &= ~UINT64_C(0) << (index % 64);
        if (word != 0) {
            int found = i * 64 + __builtin_ctzll(word);
            return found < DAYS ? found : DAYS;
        }
    }
    return DAYS;
}

/* As find, but passes over Feb 29 in a year that has none. */
static int find_in_year(const struct yearly *a, int year, int index, bool wanted)
{
    int found = find(a, index, wanted);
    if (found == FEB_29 && !date_is_leap(year))
        found = find(a, FEB_29 + 1, wanted);
    return found;
}

static struct date date_at(int year, int index)
{
    struct month_day d = month_day_of(index);
    struct date out = { 0 };
    struct fault none = { 0 }; /* the caller has seen to it that the day is there */
    date_make(year, d.month, d.day, &out, &none);
    return out;
}

bool yearly_next(struct yearly a, struct date from, struct date *out)
{
    struct civil c = date_civil(from);
    int index = index_of(c.month, c.day);
    for (int year = c.year; year <= c.year + 8 && year <= DATE_LAST_YEAR;
         year++, index = 0) {
        int found = find_in_year(&a, year, index, true);
        if (found < DAYS) {
            *out = date_at(year, found);
            return true;
        }
    }
    return false;
}

bool yearly_run_end(struct yearly a, struct date from, struct date *out)
{
    if (!yearly_has(a, from))
        return false;
    struct civil c = date_civil(from);
    int index = index_of(c.month, c.day);
    for (int year = c.year; year <= DATE_LAST_YEAR; year++, index = 0) {
        int found = find_in_year(&a, year, index, false);
        if (found < DAYS) {
            *out = (struct date){ date_at(year, found).day - 1 };
            return true;
        }
    }
    *out = date_at(DATE_LAST_YEAR, DAYS - 1);
    return true;
}

/* Days of the set among the month-days first to last of a year. */
static int count_in_year(const struct yearly *a, int year, int first, int last)
{
    struct yearly cut = yearly_none();
    set_days(&cut, first, last);
    if (!date_is_leap(year))
        cut.bits[FEB_29 / 64] &= ~(UINT64_C(1) << (FEB_29 % 64));
    int count = 0;
    for (int i = 0; i < 6; i++)
        count += __builtin_popcountll(cut.bits[i] & a->bits[i]);
    return count;
}

int yearly_count(struct yearly a, struct date from, struct date to)
{
    if (to.day < from.day)
        return 0;
    struct civil first = date_civil(from), last = date_civil(to);
    int count = 0;
    for (int year = first.year; year <= last.year; year++) {
        int low = year == first.year ? index_of(first.month, first.day) : 0;
        int high = year == last.year ? index_of(last.month, last.day) : DAYS - 1;
        count += count_in_year(&a, year, low, high);
    }
    return count;
}

int yearly_weeks_open(struct yearly a, struct date from, struct date to)
{
    int weeks = 0;
    struct date open;
    while (from.day <= to.day && yearly_next(a, from, &open) && open.day <= to.day) {
        weeks++;
        from.day = date_week_start(open).day + 7;
    }
    return weeks;
}

void yearly_print(struct yearly a, struct buf *out)
{
    if (yearly_is_none(a)) {
        buf_puts(out, "never");
        return;
    }
    if (yearly_equal(a, yearly_all())) {
        buf_puts(out, "all year");
        return;
    }
    /* A run over New Year is told once, at its start in the old year. */
    bool wraps = has_index(&a, 0) && has_index(&a, DAYS - 1);
    int head_end = wraps ? find(&a, 0, false) - 1 : -1;
    bool first = true;
    for (int start = find(&a, head_end + 1, true); start < DAYS;) {
        int next = find(&a, start, false);
        int end = next == DAYS && wraps ? head_end : next - 1;
        if (!first)
            buf_puts(out, ", ");
        first = false;
        window_print((struct window){ month_day_of(start), month_day_of(end) }, out);
        start = next == DAYS ? DAYS : find(&a, next, true);
    }
}
