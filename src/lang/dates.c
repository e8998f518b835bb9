/* Settles what begins with the name of a month: dates, days of any year, windows. A name
 * right before a number is no Lua, so nothing of the author's is lost. */
#include <string.h>

#include "lang/pass.h"

struct day {
    size_t at, month_end, day_at, day_end, end;
    size_t year_at; /* 0 for none */
    int month, day, year;
};

static char fold(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

static bool same_word(const char *name, const char *word, size_t length)
{
    size_t i = 0;
    while (i < length && name[i] != '\0' && fold(name[i]) == fold(word[i]))
        i++;
    return i == length && name[i] == '\0';
}

bool is_month(const char *word, size_t length)
{
    return month_read(word, length) != 0;
}

/* A month in other letters, as `oct`, `OCT` or `Sept`; 0 for none. */
static int near_month(const char *word, size_t length)
{
    for (int month = 1; month <= 12; month++)
        if (same_word(month_name(month), word, length) ||
            same_word(month_abbreviation(month), word, length))
            return month;
    return same_word("Sept", word, length) ? 9 : 0;
}

static bool number_starts(const struct pass *p, size_t at)
{
    return at < p->length && is_digit(p->text[at]);
}

static size_t number_end(const struct pass *p, size_t at)
{
    struct reader r = reader_at(p->text, p->length, at, 1);
    struct token t = token_read(&r);
    return (size_t)t.at + t.length;
}

static bool is_whole(const struct pass *p, size_t at, size_t end)
{
    return numeral_kind(p->text + at, end - at) == NUMERAL_WHOLE;
}

static int whole_value(const struct pass *p, size_t at, size_t end)
{
    int value = 0;
    for (; at < end && value < 100000; at++)
        value = value * 10 + (p->text[at] - '0');
    return value;
}

static bool is_ordinal(const struct pass *p, size_t digits_end, size_t end)
{
    static const char *const endings[] = { "st", "nd", "rd", "th" };
    for (size_t i = 0; i < 4; i++)
        if (end - digits_end == 2 && same_word(endings[i], p->text + digits_end, 2))
            return true;
    return false;
}

/* Refuses what stands where the day of a month should. */
static void refuse_day(struct pass *p, const struct day *d, size_t end)
{
    size_t digits = d->day_at + numeral_start(p->text + d->day_at, end - d->day_at);
    struct fault f = { 0 };
    if (is_ordinal(p, digits, end)) {
        fault_set(&f, "date-text", pass_span(p, d->at, end),
                  "a day of the month is a number alone");
        fault_hint(&f, "`%.*s %.*s`", QUOTED(p, d->at, d->month_end),
                   QUOTED(p, d->day_at, digits));
    } else if (is_whole(p, d->day_at, end) && end - d->day_at == 4) {
        fault_set(&f, "date-text", pass_span(p, d->at, end), "a date wants a day too");
        fault_hint(&f, "`%.*s 1 %.*s`", QUOTED(p, d->at, d->month_end),
                   QUOTED(p, d->day_at, end));
    } else {
        fault_set(&f, "date-text", pass_span(p, d->day_at, end),
                  "`%.*s` is not a day of a month", QUOTED(p, d->day_at, end));
        fault_hint(&f, "dates are written as `Oct 14 2026`");
    }
    pass_refuse(p, &f, d->at, end);
}

/* `Oct 14, 2026`: is there a year behind the comma? */
static bool comma_year(const struct pass *p, const struct day *d, size_t *year,
                       size_t *end)
{
    size_t comma = skip_blanks(p->text, p->length, d->day_end);
    if (comma >= p->length || p->text[comma] != ',')
        return false;
    *year = skip_blanks(p->text, p->length, comma + 1);
    if (!number_starts(p, *year))
        return false;
    *end = number_end(p, *year);
    int value = is_whole(p, *year, *end) ? whole_value(p, *year, *end) : 0;
    struct unit_id unit;
    size_t behind = skip_blanks(p->text, p->length, *end);
    return value >= DATE_FIRST_YEAR && value <= DATE_LAST_YEAR &&
           unit_size(p, behind, &unit) == 0 && !is_range_to(p, behind);
}

static bool refuse_year(struct pass *p, struct day *d, size_t year, size_t end,
                        bool with_comma)
{
    struct fault f = { 0 };
    if (with_comma) {
        fault_set(&f, "date-comma", pass_span(p, d->at, end),
                  "a date is written without a comma");
        fault_hint(&f, "`%.*s %.*s`", QUOTED(p, d->at, d->day_end), QUOTED(p, year, end));
    } else {
        fault_set(&f, "date-year", pass_span(p, year, end),
                  "a year has four digits, and no number can follow a date otherwise");
        fault_hint(&f, "dates are written as `Oct 14 2026`");
    }
    d->end = pass_refuse(p, &f, d->at, end);
    return false;
}

/* Reads `Oct 14` with a year if there is one. False when it was refused: go on at
 * d->end. */
static bool day_read(struct pass *p, size_t at, struct day *d)
{
    size_t month_end = skip_word(p->text, p->length, at);
    *d = (struct day){ .at = at, .month_end = month_end };
    d->month = month_read(p->text + at, month_end - at);
    d->day_at = skip_blanks(p->text, p->length, month_end);
    d->day_end = d->end = number_end(p, d->day_at);
    if (!is_whole(p, d->day_at, d->day_end) || d->day_end - d->day_at > 3) {
        refuse_day(p, d, d->day_end);
        return false;
    }
    d->day = whole_value(p, d->day_at, d->day_end);
    size_t end, year = skip_blanks(p->text, p->length, d->day_end);
    if (number_starts(p, year)) {
        d->end = number_end(p, year);
        if (!is_whole(p, year, d->end) || d->end - year != 4)
            return refuse_year(p, d, year, d->end, false);
        d->year_at = year;
        d->year = whole_value(p, year, d->end);
    } else if (comma_year(p, d, &year, &end)) {
        return refuse_year(p, d, year, end, true);
    }
    return true;
}

/* `oct 14`: not a name of Lua's before a number, so it can be mended in words. */
static size_t refuse_letters(struct pass *p, size_t at, int month)
{
    size_t end = skip_word(p->text, p->length, at);
    size_t day = skip_blanks(p->text, p->length, end);
    size_t stop = number_end(p, day), year = skip_blanks(p->text, p->length, stop);
    if (number_starts(p, year))
        stop = number_end(p, year);
    struct fault f = { 0 };
    fault_set(&f, "date-month", pass_span(p, at, end),
              "`%.*s` is not how a month is written", QUOTED(p, at, end));
    fault_hint(&f, "`%s %.*s`", month_abbreviation(month), QUOTED(p, day, stop));
    return pass_refuse(p, &f, at, stop);
}

size_t refuse_day_first(struct pass *p, const struct amount *day, size_t month_at)
{
    size_t month_end = skip_word(p->text, p->length, month_at), end = month_end;
    size_t year = skip_blanks(p->text, p->length, month_end);
    if (number_starts(p, year))
        end = number_end(p, year);
    struct fault f = { 0 };
    fault_set(&f, "date-order", pass_span(p, day->at, end),
              "a date begins with the month");
    int month = month_read(p->text + month_at, month_end - month_at);
    fault_hint(&f, "`%s %.*s%.*s`", month_abbreviation(month),
               QUOTED(p, day->at, day->number_end), QUOTED(p, month_end, end));
    return pass_refuse(p, &f, day->at, end);
}

static size_t settle_window(struct pass *p, const struct day *from, const struct day *to)
{
    struct fault f = { 0 };
    struct literal made = { .kind = LITERAL_WINDOW };
    if (from->year_at > 0 || to->year_at > 0) {
        fault_set(&f, "window-year", pass_span(p, from->at, to->end),
                  "a window comes round every year, so it has no year");
        fault_hint(&f, "`%.*s to %.*s`", QUOTED(p, from->at, from->day_end),
                   QUOTED(p, to->at, to->day_end));
    } else if (!month_day_make(from->month, from->day, &made.window.from, &f)) {
        f.at = pass_span(p, from->at, from->end);
    } else if (!month_day_make(to->month, to->day, &made.window.to, &f)) {
        f.at = pass_span(p, to->at, to->end);
    }
    if (fault_is_set(&f))
        return pass_refuse(p, &f, from->at, to->end);
    return settle_literal(p, &made, from->at, to->end);
}

/* What stands behind `Nov 15 to` and is no day: refused, or a statement of its own. */
static bool refuse_open_window(struct pass *p, const struct day *from, size_t to,
                               size_t behind, size_t *next)
{
    struct fault f = { 0 };
    size_t end = skip_word(p->text, p->length, behind);
    bool same_line;
    struct token second = pass_next(p, to + 2, &same_line);
    *next = p->length;
    if (!pass_look(p))
        return true;
    bool is_number = second.kind == TOKEN_NUMBER && same_line;
    if (!is_number && !name_is_lost(p, &second))
        return false;
    if (!is_number && is_symbol(&second, SYMBOL1('=')))
        return false; /* a comma is missing: Lua says so of the name */
    if (!same_line || behind == end)
        end = to + 2;
    fault_set(&f, "window-days", pass_span(p, from->at, end),
              "a window goes from one day to another");
    if (is_number)
        fault_hint(&f, "`%.*s to %.*s %.*s`", QUOTED(p, from->at, from->day_end),
                   QUOTED(p, from->at, from->month_end), QUOTED(p, behind, end));
    else
        fault_hint(&f, "windows are written as `Nov 15 to Mar 31`");
    *next = pass_refuse(p, &f, from->at, end);
    return true;
}

static size_t settle_day(struct pass *p, const struct day *d)
{
    struct fault f = { 0 };
    struct literal made = { .kind = d->year_at > 0 ? LITERAL_DATE : LITERAL_DAY };
    bool fine = d->year_at > 0 ? date_make(d->year, d->month, d->day, &made.date, &f)
                               : month_day_make(d->month, d->day, &made.day, &f);
    if (fine)
        return settle_literal(p, &made, d->at, d->end);
    f.at = pass_span(p, d->at, d->end);
    return pass_refuse(p, &f, d->at, d->end);
}

/* A field or a method: `t.Nov`, `t:May`. */
static bool is_field(struct pass *p, size_t at)
{
    size_t before = at;
    while (before > p->script->start && is_blank(p->text[before - 1]))
        before--;
    if (before == p->script->start || strchr(".:", p->text[before - 1]) == NULL)
        return false;
    if (!pass_look(p))
        return true;
    return is_symbol(&p->scope.before[0], SYMBOL1('.')) ||
           is_symbol(&p->scope.before[0], SYMBOL1(':'));
}

size_t settle_name(struct pass *p, size_t at)
{
    size_t end = skip_word(p->text, p->length, at);
    int near = near_month(p->text + at, end - at);
    bool exact = is_month(p->text + at, end - at);
    size_t number = skip_blanks(p->text, p->length, end);
    if (near == 0 || number == end || !number_starts(p, number) || is_field(p, at))
        return end;
    if (!exact)
        return refuse_letters(p, at, near);
    struct day from, until;
    if (!day_read(p, at, &from))
        return from.end;
    size_t to = skip_blanks(p->text, p->length, from.end);
    size_t to_end = skip_word(p->text, p->length, to);
    if (to == from.end || to_end - to != 2 || memcmp(p->text + to, "to", 2) != 0)
        return settle_day(p, &from);
    size_t second = skip_blanks(p->text, p->length, to_end), next;
    size_t second_end = skip_word(p->text, p->length, second);
    size_t day = skip_blanks(p->text, p->length, second_end);
    bool dated = day > second_end && number_starts(p, day);
    near = dated ? near_month(p->text + second, second_end - second) : 0;
    if (near == 0)
        return refuse_open_window(p, &from, to, second, &next) ? next
                                                               : settle_day(p, &from);
    if (!is_month(p->text + second, second_end - second))
        return refuse_letters(p, second, near);
    if (!day_read(p, second, &until))
        return until.end;
    return settle_window(p, &from, &until);
}
