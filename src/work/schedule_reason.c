#include "work/schedule_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/num.h"

enum { CREWS_SHOWN = 4 };

static const char *name_of(const struct solver *s, size_t job)
{
    return s->task->jobs[job].name;
}

bool reason_set(struct solver *s, size_t job, enum schedule_why why, struct buf *words)
{
    struct job_told *told = &s->told[job];
    char *copy = words->failed ? NULL : malloc(words->length + 1);
    if (!copy)
        return fault_no_memory(s->f);
    memcpy(copy, words->data, words->length + 1);
    free(told->reason);
    told->reason = copy;
    told->r.reason = copy;
    told->r.why = why;
    return true;
}

/* Nobody will read of a schedule that is only tried. */
static bool unsaid(struct solver *s, const struct group *g, enum schedule_why why)
{
    for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job])
        s->told[job].r.why = why;
    return true;
}

/* The same words to all jobs of a group; clears them. */
static bool reason_group(struct solver *s, const struct group *g, enum schedule_why why,
                         struct buf *words)
{
    bool fine = true;
    for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job])
        fine = fine && reason_set(s, job, why, words);
    buf_clear(words);
    return fine;
}

bool reason_other(struct solver *s, const struct group *g, size_t other, enum other_is is)
{
    enum schedule_why why = is == OTHER_UNPLACED ? SCHEDULE_PREDECESSOR : SCHEDULE_FITS;
    if (is != OTHER_UNPLACED)
        for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job])
            s->told[job].r.state = SCHEDULE_NOT_NEEDED;
    if (s->quiet)
        return unsaid(s, g, why);
    struct buf words;
    buf_init(&words);
    bool not_needed = s->told[other].r.state == SCHEDULE_NOT_NEEDED;
    const char *state = not_needed ? "not needed" : "placed";
    switch (is) {
    case OTHER_UNPLACED:
        buf_printf(&words, "it waits for `%s`, which is not placed", name_of(s, other));
        break;
    case OTHER_NOT_NEEDED:
        buf_printf(&words, "it follows `%s`, which is not needed", name_of(s, other));
        break;
    case OTHER_STOOD_IN_FOR:
        buf_printf(&words, "it stands in for `%s`, which is %s", name_of(s, other),
                   state);
        break;
    }
    return reason_group(s, g, why, &words);
}

bool reason_no_crew(struct solver *s, const struct group *g)
{
    if (s->quiet)
        return unsaid(s, g, SCHEDULE_NO_CREW);
    struct buf words;
    buf_init(&words);
    reason_no_crew_words(s, g, &words);
    return reason_group(s, g, SCHEDULE_NO_CREW, &words);
}

void span_words(int days, struct buf *out)
{
    if (days >= 2 * 365.2425)
        buf_printf(out, "%d.%d years", (int)(days / 365.2425),
                   (int)(days / 36.52425) % 10);
    else if (days >= 14 && days % 7 == 0)
        buf_printf(out, "%d weeks", days / 7);
    else
        buf_printf(out, "%d day%s", days, days == 1 ? "" : "s");
}

bool reason_lag(struct solver *s, const struct wish *w, int first)
{
    if (s->quiet)
        return unsaid(s, w->group, SCHEDULE_LAG);
    struct buf words;
    buf_init(&words);
    buf_puts(&words, "it must start within ");
    span_words(w->lag_most, &words);
    buf_printf(&words, " after `%s` (finished ", name_of(s, w->lag_after));
    date_print(s->told[w->lag_after].r.finish, DATE_PAPER, &words);
    buf_puts(&words, "), and the first day it could is ");
    date_print(solver_date(s, first), DATE_PAPER, &words);
    return reason_group(s, w->group, SCHEDULE_LAG, &words);
}

/* Hours that a crew still has free on the days it and the group are open; `most` gets the
 * most of them in one week. */
static double free_hours(struct solver *s, const struct wish *w,
                         const struct crew_state *c, int *open_days, double *most)
{
    dayset_copy(&s->shared, &s->keep);
    dayset_and(&s->shared, &c->open);
    double total = 0;
    *most = 0;
    *open_days = 0;
    for (int d = dayset_next(&s->shared, w->from);
         d < s->days && d <= w->latest_finish;) {
        int week = d / 7;
        double days = 0, in_week = c->week_most[week] - c->week_used[week];
        for (; d < s->days && d <= w->latest_finish && d / 7 == week;
             d = dayset_next(&s->shared, d + 1)) {
            days += c->day_used[d] < c->day_most[d] ? c->day_most[d] - c->day_used[d] : 0;
            ++*open_days;
        }
        double here = days < in_week ? days : in_week;
        if (here > 0)
            total += here;
        if (here > *most)
            *most = here;
    }
    return total;
}

/* Of those days, when it takes days whole, the ones not taken by other work. */
static int free_days(const struct solver *s, const struct wish *w,
                     const struct crew_state *c, int open_days)
{
    for (int d = dayset_next(&s->shared, w->from);
         group_takes_days(w->group) && d < s->days && d <= w->latest_finish;
         d = dayset_next(&s->shared, d + 1))
        open_days -= c->day_used[d] > FIT_NO_TIME;
    return open_days;
}

static void hours_print(struct buf *out, double hours)
{
    num_trade(out, hours);
    buf_puts(out, " h");
}

/* Free hours, down to tenths. */
static double free_told(double there)
{
    return floor(there * 10 + 1e-6) / 10;
}

/* The hours it takes, to the nearest tenth, but never so that "20 h of the 20 h" is said
 * of 19.96: then up. */
static double taken_told(double taken, double there)
{
    double near = round(taken * 10) / 10;
    return near > free_told(there) ? near : ceil(taken * 10 - 1e-6) / 10;
}

static void until_print(const struct solver *s, const struct wish *w, struct buf *out)
{
    if (w->latest_finish < s->days) {
        buf_puts(out, " until ");
        date_print(solver_date(s, w->latest_finish), DATE_PAPER, out);
    } else {
        buf_printf(out, " in the %d years planned", SCHEDULE_YEARS);
    }
}

static bool reason_hours(struct solver *s, const struct wish *w)
{
    struct buf words;
    buf_init(&words);
    const struct group *g = w->group;
    if (g->nobody)
        buf_printf(&words, "it takes %d open days%s", g->days,
                   g->one_week ? " in a row, which it has not got"
                               : ", which it has not got");
    for (size_t i = 0; !g->nobody && i < s->able_count && i < CREWS_SHOWN; i++) {
        const struct crew_state *c = &s->crews[s->able[i]];
        int open_days;
        double most, total = free_hours(s, w, c, &open_days, &most);
        if (i > 0)
            buf_puts(&words, "; ");
        buf_printf(&words, "crew %s ", s->task->crews[s->able[i]].name);
        if (open_days == 0) {
            buf_puts(&words, "is not at work on any day it could be done");
        } else if (g->hours > 0 && g->one_week && total >= g->hours) {
            buf_puts(&words, "never has the ");
            hours_print(&words, taken_told(g->hours, most));
            buf_puts(&words, " it takes free in one week, ");
            hours_print(&words, free_told(most));
            buf_puts(&words, " at most,");
        } else if (g->hours > 0) {
            buf_puts(&words, "has ");
            hours_print(&words, free_told(total));
            buf_puts(&words, " free of the ");
            hours_print(&words, taken_told(g->hours, total));
            buf_puts(&words, " it takes, on the days it could be done");
        } else {
            buf_printf(&words,
                       "is at work and free on %d of the days it could be done, and it "
                       "takes %d",
                       free_days(s, w, c, open_days), g->days);
        }
    }
    if (!g->nobody && s->able_count > CREWS_SHOWN)
        buf_printf(&words, "; %zu more crews likewise", s->able_count - CREWS_SHOWN);
    until_print(s, w, &words);
    return reason_group(s, g, SCHEDULE_NO_HOURS, &words);
}

/* The notice that keeps the group from starting before `day`, NULL for none. */
static const struct schedule_notice *notice_behind(const struct solver *s,
                                                   const struct group *g, int day)
{
    for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job]) {
        const struct schedule_job *j = &s->task->jobs[job];
        for (size_t i = 0; i < j->notice_count; i++)
            if (j->notices[i].lead > 0 && notice_first(s, &j->notices[i]) == day)
                return &j->notices[i];
    }
    return NULL;
}

/* It is to be finished before it could start at all. */
static bool reason_too_late(struct solver *s, const struct wish *w)
{
    struct buf words;
    buf_init(&words);
    const struct schedule_notice *n = notice_behind(s, w->group, w->from);
    if (n)
        buf_printf(&words, "the notice (%s) needs %d day%s, so work cannot start before ",
                   n->words, n->lead, n->lead == 1 ? "" : "s");
    else
        buf_puts(&words, "it cannot start before ");
    date_print(solver_date(s, w->from), DATE_PAPER, &words);
    buf_puts(&words, ", and it is to be finished by ");
    date_print(solver_date(s, w->latest_finish), DATE_PAPER, &words);
    return reason_group(s, w->group, SCHEDULE_DEADLINE, &words);
}

static bool reason_past_the_plan(struct solver *s, const struct wish *w)
{
    struct buf words;
    buf_init(&words);
    buf_printf(&words, "it comes only after the %d years planned", SCHEDULE_YEARS);
    return reason_group(s, w->group, SCHEDULE_DEADLINE, &words);
}

static bool reason_deadline(struct solver *s, const struct wish *w)
{
    struct buf words;
    buf_init(&words);
    int next = dayset_next(&s->keep, w->from);
    buf_puts(&words, "it is open on no day from ");
    date_print(solver_date(s, w->from), DATE_PAPER, &words);
    until_print(s, w, &words);
    if (next < s->days) {
        buf_puts(&words, "; the next open day is ");
        date_print(solver_date(s, next), DATE_PAPER, &words);
    }
    return reason_group(s, w->group, SCHEDULE_DEADLINE, &words);
}

bool reason_unfit(struct solver *s, const struct wish *w)
{
    if (s->quiet)
        return unsaid(s, w->group, SCHEDULE_NO_HOURS);
    /* s->keep still holds the days open to the group. */
    if (dayset_next(&s->keep, s->begin) >= s->days) {
        struct buf words;
        buf_init(&words);
        return reason_windows_words(s, w->group, &words)
                   ? reason_group(s, w->group, SCHEDULE_WINDOWS, &words)
                   : (buf_clear(&words), false);
    }
    if (w->from > w->latest_finish)
        return w->latest_finish < s->days ? reason_too_late(s, w)
                                          : reason_past_the_plan(s, w);
    if (w->from >= s->days)
        return reason_past_the_plan(s, w);
    int next = dayset_next(&s->keep, w->from);
    if (next >= s->days || next > w->latest_finish)
        return reason_deadline(s, w);
    return reason_hours(s, w);
}
