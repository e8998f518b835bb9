/* dayset.h: the days of a stretch of years as bits, for the schedule.
 *
 *     struct dayset open;
 *     if (!dayset_init(&open, monday, 5480, f)) return false;
 *     dayset_add_yearly(&open, dormant);
 *     dayset_remove(&open, quiet_from, quiet_to);
 *     int next = dayset_next(&open, 0); // open.days when there is none
 *
 * Days are counted from `first`, which is day 0. Dates outside the stretch are passed
 * over. */
#ifndef SPINNEY_WORK_DAYSET_H
#define SPINNEY_WORK_DAYSET_H

#include <stddef.h>

#include "calendar/window.h"

struct fault;

struct dayset {
    struct date first;
    int days;
    uint64_t *words;
};

/* Words that so many days take, for sets whose words are the caller's. */
size_t dayset_words(int days);
bool dayset_init(struct dayset *a, struct date first, int days, struct fault *f);
void dayset_clear(struct dayset *a);
/* No day at all. */
void dayset_empty(struct dayset *a);
void dayset_add_yearly(struct dayset *a, struct yearly days);
void dayset_add(struct dayset *a, struct date from, struct date to);
void dayset_remove(struct dayset *a, struct date from, struct date to);
/* Both sets must hold the same stretch. */
void dayset_copy(struct dayset *to, const struct dayset *from);
void dayset_and(struct dayset *a, const struct dayset *b);
void dayset_or(struct dayset *a, const struct dayset *b);
bool dayset_has(const struct dayset *a, int day);
/* The first day of the set (not of the set) from `day` on; `days` when there is none. */
int dayset_next(const struct dayset *a, int day);
/* The first day from `day` on, 0 or more, that is in both: each day of each job that is
 * placed in each schedule that is tried. */
static inline int dayset_next_both(const struct dayset *a, const struct dayset *b,
                                   int day)
{
    unsigned days = (unsigned)a->days, i = (unsigned)day / 64;
    uint64_t from = ~UINT64_C(0) << ((unsigned)day % 64);
    for (; i * 64 < days; i++) {
        uint64_t word = a->words[i] & b->words[i] & from;
        if (word != 0) {
            unsigned found = i * 64 + (unsigned)__builtin_ctzll(word);
            return (int)(found < days ? found : days);
        }
        from = ~UINT64_C(0);
    }
    return a->days;
}
int dayset_next_gap(const struct dayset *a, int day);
/* Days of the set from `from` to `to`, both included. */
int dayset_count(const struct dayset *a, int from, int to);
/* Those of the seven from day 7 * `week` on. */
int dayset_week(const struct dayset *a, int week);

#endif
