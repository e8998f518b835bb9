/* What keeps each placed job from starting sooner, found afterwards from where all lie. */
#include "work/schedule_parts.h"

#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"

enum {
    DRAWN_OUT = 7
}; /* days by which a job is later than it would be alone, to be told */

struct idle {
    double *days, *weeks; /* no hours taken on any day, or week */
};

static void wait_until(struct schedule_hold *h, int *from, int day, enum schedule_held by,
                       size_t job, size_t notice)
{
    if (day <= *from)
        return;
    *from = day;
    h->by = by;
    h->job = job;
    h->notice = notice;
}

/* The latest of what it has to wait for, and when that is over. */
static int find_wait(const struct solver *s, const struct group *g,
                     struct schedule_hold *h)
{
    int from = s->begin;
    size_t stood_in_for = SCHEDULE_NONE;
    h->by = SCHEDULE_HELD_NOT;
    for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job]) {
        const struct schedule_job *j = &s->task->jobs[job];
        if (s->first_for[job] != SCHEDULE_NONE)
            stood_in_for = s->first_for[job];
        if (j->earliest.given)
            wait_until(h, &from, solver_day(s, j->earliest.date), SCHEDULE_HELD_EARLIEST,
                       SCHEDULE_NONE, SCHEDULE_NONE);
        for (size_t i = 0; i < j->notice_count; i++)
            wait_until(h, &from, notice_first(s, &j->notices[i]), SCHEDULE_HELD_NOTICE,
                       job, i);
        struct schedule_after after;
        for (size_t i = 0; job_after(s->task, job, i, &after); i++) {
            const struct schedule_result *r = &s->told[after.job].r;
            if (s->group_of[after.job] == s->group_of[job] || r->state != SCHEDULE_PLACED)
                continue;
            int day = solver_day(s, r->finish) + after.least;
            /* What comes before is told rather than a date that is no later. */
            if (day == from && from > s->begin)
                from--;
            wait_until(h, &from, day, SCHEDULE_HELD_AFTER, after.job, SCHEDULE_NONE);
        }
    }
    if (g->bound > 0 && g->pusher != SCHEDULE_NONE)
        wait_until(h, &from, g->bound, SCHEDULE_HELD_FOLLOWER, s->groups[g->pusher].first,
                   SCHEDULE_NONE);
    if (h->by == SCHEDULE_HELD_NOT && stood_in_for != SCHEDULE_NONE) {
        h->by = SCHEDULE_HELD_STANDS_IN;
        h->job = stood_in_for;
    }
    return from;
}

/* The last open day before `day`, -1 when there is none. */
static int open_before(const struct solver *s, const struct dayset *open, int day)
{
    for (int d = day - 1; d >= s->begin; d--)
        if (dayset_has(open, d))
            return d;
    return -1;
}

/* Of the groups that the crew works on from `from` to `to`, the one that is at it last. */
static size_t busy_with(const struct solver *s, const struct group *g, int from, int to)
{
    size_t found = SCHEDULE_NONE;
    int last = -1;
    for (size_t k = 0; k < s->group_count; k++) {
        const struct group *other = &s->groups[k];
        if (other == g || !other->placed || other->crew != g->crew || other->start > to ||
            other->finish < from)
            continue;
        for (size_t i = other->work_count; i-- > 0;) {
            int day = other->work[i].day;
            if (day > to)
                continue;
            if (day >= from && day > last) {
                last = day;
                found = other->first;
            }
            break;
        }
    }
    return found;
}

/* The group with most of the crew's hours while g lasts. */
static size_t most_hours(const struct solver *s, const struct group *g)
{
    size_t found = SCHEDULE_NONE;
    double most = 0;
    for (size_t k = 0; k < s->group_count; k++) {
        const struct group *other = &s->groups[k];
        double hours = 0;
        if (other == g || !other->placed || other->crew != g->crew)
            continue;
        for (size_t i = 0; i < other->work_count; i++) {
            int day = other->work[i].day;
            if (day >= g->start - g->start % 7 && day < g->finish)
                hours += other->work[i].hours;
        }
        if (hours > most) {
            most = hours;
            found = other->first;
        }
    }
    return found;
}

/* It could start on `day`, and starts later. */
static void find_crew(struct solver *s, const struct group *g, int day,
                      struct schedule_hold *h)
{
    const struct dayset *open = group_open(s, g);
    if (g->crew == SCHEDULE_NONE) {
        h->too_short = true;
        return;
    }
    const struct dayset *there = &s->crews[g->crew].open;
    int first = day;
    while (first < g->start && !(dayset_has(open, first) && dayset_has(there, first)))
        first++;
    h->crew_away = first >= g->start;
    if (h->crew_away)
        return;
    /* Who was at work before it; else who takes the hours of the week it starts in. */
    int from = first - first % 7, to = g->start - g->start % 7 + 6;
    h->busy = busy_with(s, g, from, g->start - 1);
    if (h->busy == SCHEDULE_NONE)
        h->busy = busy_with(s, g, from, to);
    /* What is left of a season may be too short whoever else is at work. */
    h->too_short = season_end(open, first) < g->start;
}

/* Puts into s->keep the days open to a group were no notice filed anew each year; false
 * when none is. */
static bool open_without_renewal(struct solver *s, const struct group *g)
{
    bool renewed = false;
    dayset_empty(&s->keep);
    dayset_add(&s->keep, solver_date(s, s->begin), solver_date(s, s->days - 1));
    for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job]) {
        const struct schedule_job *j = &s->task->jobs[job];
        for (size_t i = 0; i < j->notice_count; i++)
            renewed |= j->notices[i].expires_with_year && j->notices[i].lead > 0;
        job_open_days(s, j, &s->scratch, &s->shared);
        dayset_and(&s->keep, &s->scratch);
    }
    return renewed;
}

/* The notice that closes a day. */
static void find_renewed(struct solver *s, const struct group *g, int day,
                         struct schedule_hold *h)
{
    for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job]) {
        const struct schedule_job *j = &s->task->jobs[job];
        for (size_t i = 0; i < j->notice_count; i++) {
            dayset_empty(&s->scratch);
            dayset_add(&s->scratch, solver_date(s, s->begin),
                       solver_date(s, s->days - 1));
            notice_close_days(s, &j->notices[i], &s->scratch);
            if (dayset_has(&s->scratch, day))
                continue;
            h->renewed_job = job;
            h->renewed = i;
            return;
        }
    }
}

/* The last days before the start on which it could have been done: did only a notice that
 * has to be filed anew stand against them? */
static void find_renewal(struct solver *s, const struct group *g, int from,
                         struct schedule_hold *h)
{
    if (!open_without_renewal(s, g))
        return;
    const struct dayset *there =
        g->crew == SCHEDULE_NONE ? &s->keep : &s->crews[g->crew].open;
    int day = g->start - 1;
    while (day >= from && !(dayset_has(&s->keep, day) && dayset_has(there, day)))
        day--;
    if (day < from || dayset_has(group_open(s, g), day))
        return;
    find_renewed(s, g, day, h);
    h->crew_away = h->waits_for_open = false; /* neither is what it waits for last */
}

/* When it would be finished if its crew had nothing else to do from its start on. */
static void find_beside(struct solver *s, const struct group *g, const struct idle *idle,
                        struct schedule_hold *h)
{
    if (g->crew == SCHEDULE_NONE || g->hours <= 0 || g->start + DRAWN_OUT > g->finish)
        return; /* none, or not drawn out at all */
    struct crew_state *c = &s->crews[g->crew], was = *c;
    struct wish w = {
        .group = g, .from = g->start, .latest_start = g->start, .latest_finish = s->days
    };
    int start, finish;
    c->day_used = idle->days;
    c->week_used = idle->weeks;
    c->stale = true; /* the weeks that are full are so no more */
    bool fits = fit_soonest(s, &w, group_open(s, g), &g->crew, 1,
                            g->carried_over ? s->days : SCHEDULE_PAUSE, &start, &finish);
    *c = was;
    if (!fits || finish + DRAWN_OUT > g->finish)
        return;
    h->beside = most_hours(s, g);
    h->alone = solver_date(s, finish);
}

static struct schedule_hold held_by_date(void)
{
    return (struct schedule_hold){ .by = SCHEDULE_HELD_DATE,
                                   .job = SCHEDULE_NONE,
                                   .notice = SCHEDULE_NONE,
                                   .renewed_job = SCHEDULE_NONE,
                                   .renewed = SCHEDULE_NONE,
                                   .busy = SCHEDULE_NONE,
                                   .beside = SCHEDULE_NONE };
}

static struct schedule_hold hold_of(struct solver *s, const struct group *g,
                                    const struct idle *idle)
{
    struct schedule_hold h = held_by_date();
    h.from = h.opens = solver_date(s, g->start);
    h.alone = solver_date(s, g->finish);
    if (g->fixed)
        return h;
    int from = find_wait(s, g, &h);
    const struct dayset *open = group_open(s, g);
    int first = dayset_next(open, from);
    h.from = solver_date(s, from);
    h.opens = solver_date(s, first);
    h.waits_for_open = first > from;
    if (h.waits_for_open) {
        int closed = open_before(s, open, from);
        h.was_open = closed >= 0;
        if (h.was_open)
            h.closed = solver_date(s, closed);
    }
    if (first < g->start)
        find_crew(s, g, first, &h);
    find_renewal(s, g, from, &h);
    find_beside(s, g, idle, &h);
    return h;
}

static bool tell_closed(struct solver *s, size_t job, const struct buf *words)
{
    struct job_told *told = &s->told[job];
    free(told->closed_by);
    told->closed_by = NULL;
    told->r.closed_by = NULL;
    if (words->length == 0)
        return true;
    told->r.closed_by = told->closed_by = strdup(words->data);
    return told->closed_by || fault_no_memory(s->f);
}

static bool tell_hold(struct solver *s, size_t k, struct schedule_hold h)
{
    const struct group *g = &s->groups[k];
    struct buf words;
    buf_init(&words);
    bool fine = !h.waits_for_open ||
                closed_words(s, g, solver_day(s, h.from), solver_day(s, h.opens) - 1, &words);
    for (size_t job = g->first; fine && job != SCHEDULE_NONE; job = s->next[job]) {
        struct schedule_result *r = &s->told[job].r;
        r->held = h;
        r->soonest =
            s->bounds[k].possible ? solver_date(s, s->bounds[k].finish) : r->finish;
        fine = tell_closed(s, job, &words);
    }
    buf_clear(&words);
    return fine;
}

bool held_find(struct solver *s, struct fault *f)
{
    struct idle idle = { calloc((size_t)s->days, sizeof *idle.days),
                         calloc((size_t)s->days / 7 + 1, sizeof *idle.weeks) };
    bool fine = (idle.days && idle.weeks) || fault_no_memory(f);
    for (size_t k = 0; fine && k < s->group_count; k++) {
        const struct group *g = &s->groups[k];
        fine = tell_hold(s, k, g->placed ? hold_of(s, g, &idle) : held_by_date());
    }
    free(idle.days);
    free(idle.weeks);
    return fine;
}
