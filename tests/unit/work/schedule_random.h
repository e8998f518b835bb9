/* schedule_random.h: plans made by chance, of any number of jobs and up to three crews,
 * with every kind of limit; the same for the same `random_state` on every machine.
 *
 *     random_state = 20261014;
 *     make_task(1 + below(24), false);   // fills `task`, `jobs`, `crews`
 *     struct schedule *s = solve_and_check(round);
 */
#ifndef SPINNEY_TESTS_WORK_SCHEDULE_RANDOM_H
#define SPINNEY_TESTS_WORK_SCHEDULE_RANDOM_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/buf.h"
#include "base/fault.h"
#include "work/schedule.h"

enum { MOST_JOBS = 64, MOST_CREWS = 3 };

static uint64_t random_state;

static inline int below(int n)
{
    random_state ^= random_state << 13;
    random_state ^= random_state >> 7;
    random_state ^= random_state << 17;
    return (int)(random_state % (uint64_t)n);
}

static struct schedule_job jobs[MOST_JOBS];
static struct schedule_after afters[MOST_JOBS][2];
static struct schedule_limit limits[MOST_JOBS][2];
static struct schedule_notice notices[MOST_JOBS];
static struct schedule_span openings[MOST_JOBS];
static size_t able[MOST_JOBS][MOST_CREWS];
static char names[MOST_JOBS][16];
static struct schedule_crew crews[MOST_CREWS];
static struct schedule_span off[MOST_CREWS];
static struct schedule_condition frozen;
static struct schedule_task task;

static inline struct date from_start(int days)
{
    return (struct date){ task.start.day + days };
}

/* The order in which an initializer calls functions is the compiler's: every number
 * by chance is drawn in a statement of its own, so that all make the same plans. */
static inline struct yearly some_window(int longest)
{
    static const int month_days[] = { 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31 };
    int m = below(12);
    int n = (m + below(longest)) % 12;
    int from = 1 + below(month_days[m]);
    int to = 1 + below(month_days[n]);
    struct window w = { { (int8_t)(m + 1), (int8_t)from },
                        { (int8_t)(n + 1), (int8_t)to } };
    return yearly_of(w);
}

/* Begins within `within` days from `first` on, ends within `longest` after those. */
static inline struct schedule_span some_span(int first, int within, int longest)
{
    struct schedule_span span;
    span.from = from_start(first + below(within));
    span.to = from_start(first + within + below(longest));
    return span;
}

static inline void make_crews(int count)
{
    static const char *const crew_names[] = { "owner", "hired", "neighbour" };
    for (int i = 0; i < count; i++) {
        crews[i] = (struct schedule_crew){ .name = crew_names[i], .off = yearly_none() };
        crews[i].people = 1 + below(3);
        crews[i].hours_each = below(5) == 0 ? 0.5 : 4 + below(40);
        if (below(3) == 0)
            crews[i].from =
                (struct schedule_day_given){ true, from_start(below(400) - 30) };
        if (below(4) == 0)
            crews[i].to =
                (struct schedule_day_given){ true, from_start(300 + below(3000)) };
        if (below(2) == 0)
            crews[i].off = some_window(2);
        off[i] = some_span(0, 500, 60);
        crews[i].days_off = &off[i];
        crews[i].day_off_count = (size_t)below(2);
    }
    task.crews = crews;
    task.crew_count = (size_t)count;
}

static inline void make_limits(int i, struct schedule_job *j)
{
    j->limits = limits[i];
    j->limit_count = (size_t)below(3);
    for (size_t k = 0; k < j->limit_count; k++) {
        limits[i][k] = (struct schedule_limit){ .words = "a closed time" };
        if (below(3) == 0) {
            limits[i][k].dated = true;
            limits[i][k].from = from_start(below(400));
            limits[i][k].to = from_start(400 + below(200));
        } else {
            limits[i][k].closed = some_window(4);
        }
    }
}

static inline void make_ties(int i, struct schedule_job *j, bool rings)
{
    j->after = afters[i];
    int others = rings ? (int)task.job_count : i;
    for (int k = 0; others > 0 && k < below(3); k++) {
        struct schedule_after *a = &afters[i][k];
        a->least = below(3) == 0 ? below(400) : below(5);
        a->job = (size_t)below(others);
        a->most = below(3) == 0 ? a->least + below(40) : -1;
        a->same_crew = below(5) == 0;
        j->after_count = (size_t)k + 1;
    }
    if (others > 0 && below(8) == 0) {
        j->has_along = true;
        j->along = (size_t)below(others);
    }
    if (below(10) == 0 && i + 1 < (int)task.job_count) {
        j->has_otherwise = true;
        j->otherwise = (size_t)(i + 1 + below((int)task.job_count - i - 1));
    }
}

static inline void make_job(int i, bool rings)
{
    struct schedule_job *j = &jobs[i];
    snprintf(names[i], sizeof names[i], "job %d", i);
    *j = (struct schedule_job){ .name = names[i] };
    j->days = 1 + below(20);
    j->hours = below(4) == 0 ? 0 : below(1200) / 10.0;
    j->open = below(3) == 0 ? yearly_all() : some_window(6);
    make_limits(i, j);
    make_ties(i, j, rings);
    j->in_one_week = below(8) == 0;
    if (below(6) == 0) {
        j->who = SCHEDULE_NOBODY;
    } else if (below(2) == 0) {
        j->who = SCHEDULE_LISTED;
        j->crews = able[i];
        for (size_t c = 0; c < task.crew_count; c++)
            if (below(4) != 0)
                able[i][j->crew_count++] = task.crew_count - 1 - c;
    }
    if (below(8) == 0)
        j->earliest = (struct schedule_day_given){ true, from_start(below(1500) - 50) };
    if (below(8) == 0)
        j->latest = (struct schedule_day_given){ true, from_start(below(2500)) };
    if (below(12) == 0)
        j->fixed = (struct schedule_day_given){ true, from_start(below(1500) - 20) };
    if (below(30) == 0) {
        j->done = true;
        j->was = some_span(-200, 10, 100);
    }
    if (below(5) == 0) {
        int lead = below(30);
        notices[i] = (struct schedule_notice){ .words = "a notice", .lead = lead };
        notices[i].expires_with_year = below(2) == 0;
        notices[i].expires_after = below(3) == 0 ? below(60) + 1 : 0;
        notices[i].filed.given = below(3) == 0;
        notices[i].filed.date.day = task.start.day + below(120) - 60;
        j->notices = &notices[i];
        j->notice_count = 1;
    }
    if (below(6) == 0) {
        openings[i] = some_span(0, 700, 20);
        j->openings = &openings[i];
        j->opening_count = 1;
    }
    j->has_condition = below(8) == 0;
}

static inline void make_task(int job_count, bool rings)
{
    struct fault f = { 0 };
    int year = 1900 + below(301);
    int month = 1 + below(12);
    int day = 1 + below(28);
    assert_true(date_make(year, month, day, &task.start, &f));
    frozen = (struct schedule_condition){ .words = "frozen ground" };
    for (int m = 0; m < 12; m++)
        frozen.chance[m] = m < 3 || m == 11 ? 0.25 + 0.25 * below(4) : 0;
    task.conditions = &frozen;
    task.condition_count = 1;
    task.jobs = jobs;
    task.job_count = (size_t)job_count;
    make_crews(below(MOST_CREWS + 1));
    for (int i = 0; i < job_count; i++)
        make_job(i, rings);
}

static inline struct schedule *solve_and_check(int round)
{
    struct fault f = { 0 };
    struct schedule *s = schedule_new(&task, &f);
    assert_non_null(s);
    struct buf breach;
    buf_init(&breach);
    if (!schedule_check(&task, s, &breach))
        fail_msg("round %d: %s", round, breach.data);
    buf_clear(&breach);
    return s;
}

#endif
