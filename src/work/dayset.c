#include "work/dayset.h"

#include <stdlib.h>
#include <string.h>

#include "base/fault.h"

size_t dayset_words(int days)
{
    return ((size_t)days + 63) / 64;
}

static size_t words_of(const struct dayset *a)
{
    return dayset_words(a->days);
}

bool dayset_init(struct dayset *a, struct date first, int days, struct fault *f)
{
    *a = (struct dayset){ .first = first, .days = days };
    a->words = calloc(words_of(a) + 1, sizeof *a->words);
    return a->words != NULL || fault_no_memory(f);
}

void dayset_clear(struct dayset *a)
{
    free(a->words);
    *a = (struct dayset){ .words = NULL };
}

void dayset_empty(struct dayset *a)
{
    memset(a->words, 0, words_of(a) * sizeof *a->words);
}

static void put(struct dayset *a, int from, int to, bool on)
{
    if (from < 0)
        from = 0;
    if (to >= a->days)
        to = a->days - 1;
    if (from > to)
        return;
    for (int i = from / 64; i <= to / 64; i++) {
        uint64_t word = ~UINT64_C(0);
        if (i == from / 64)
            word &= ~UINT64_C(0) << (from % 64);
        if (i == to / 64)
            word &= ~UINT64_C(0) >> (63 - to % 64);
        if (on)
            a->words[i] |= word;
        else
            a->words[i] &= ~word;
    }
}

void dayset_add(struct dayset *a, struct date from, struct date to)
{
    put(a, from.day - a->first.day, to.day - a->first.day, true);
}

void dayset_remove(struct dayset *a, struct date from, struct date to)
{
    put(a, from.day - a->first.day, to.day - a->first.day, false);
}

/* Adds 64 days from `at` on, which may lie before the first day. */
static void add_word(struct dayset *a, int at, uint64_t word)
{
    if (at < 0) {
        word = at > -64 ? word >> -at : 0;
        at = 0;
    }
    if (at >= a->days)
        return;
    a->words[at / 64] |= word << (at % 64);
    if (at % 64 != 0 && (size_t)at / 64 + 1 < words_of(a))
        a->words[at / 64 + 1] |= word >> (64 - at % 64);
}

void dayset_add_yearly(struct dayset *a, struct yearly days)
{
    struct date start;
    struct fault past_the_calendar = { 0 };
    int year = date_civil(a->first).year;
    while (date_make(year, 1, 1, &start, &past_the_calendar) &&
           start.day < a->first.day + a->days) {
        uint64_t words[6];
        yearly_in_year(days, year++, words);
        for (int i = 0; i < 6; i++)
            add_word(a, start.day - a->first.day + 64 * i, words[i]);
    }
    if (a->days % 64 != 0)
        a->words[words_of(a) - 1] &= (UINT64_C(1) << (a->days % 64)) - 1;
}

void dayset_copy(struct dayset *to, const struct dayset *from)
{
    memcpy(to->words, from->words, words_of(to) * sizeof *to->words);
}

void dayset_and(struct dayset *a, const struct dayset *b)
{
    for (size_t i = 0; i < words_of(a); i++)
        a->words[i] &= b->words[i];
}

void dayset_or(struct dayset *a, const struct dayset *b)
{
    for (size_t i = 0; i < words_of(a); i++)
        a->words[i] |= b->words[i];
}

bool dayset_has(const struct dayset *a, int day)
{
    return day >= 0 && day < a->days && (a->words[day / 64] >> (day % 64) & 1) != 0;
}

static int find(const struct dayset *a, int day, bool wanted)
{
    if (day < 0)
        day = 0;
    for (int i = day / 64; day < a->days; i++, day = i * 64) {
        uint64_t word = wanted ? a->words[i] : ~a->words[i];
        word &= ~UINT64_C(0) << (day % 64);
        if (word != 0) {
            int found = i * 64 + __builtin_ctzll(word);
            return found < a->days ? found : a->days;
        }
    }
    return a->days;
}

int dayset_next(const struct dayset *a, int day)
{
    return find(a, day, true);
}

int dayset_next_gap(const struct dayset *a, int day)
{
    return find(a, day, false);
}

int dayset_count(const struct dayset *a, int from, int to)
{
    int count = 0;
    if (from < 0)
        from = 0;
    if (to >= a->days)
        to = a->days - 1;
    for (int i = from / 64; from <= to && i <= to / 64; i++) {
        uint64_t word = a->words[i];
        if (i == from / 64)
            word &= ~UINT64_C(0) << (from % 64);
        if (i == to / 64)
            word &= ~UINT64_C(0) >> (63 - to % 64);
        count += __builtin_popcountll(word);
    }
    return count;
}

int dayset_week(const struct dayset *a, int week)
{
    enum { WHOLE = 0x7f };
    if (week * 7 + 7 > a->days) /* bits past the last day mean nothing */
        return dayset_count(a, week * 7, a->days - 1);
    size_t at = (size_t)week * 7, i = at / 64, shift = at % 64;
    uint64_t bits = a->words[i] >> shift;
    if (shift > 64 - 7)
        bits |= a->words[i + 1] << (64 - shift);
    bits &= WHOLE;
    return bits == WHOLE ? 7 : __builtin_popcountll(bits);
}
