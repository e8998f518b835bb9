/* Of all that is asked of a job that fits nowhere, the fewest things that cannot be kept
 * together, the other jobs lying where they lie: up to four. Where it takes more, none of
 * those told can be left out, but another set may be smaller. */
#include "work/schedule_clash.h"

#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"

enum { MOST_POINTS = 24 }; /* more is asked of no job that a person plans */

struct clash {
    struct solver *s;
    const struct group *g;
    struct point points[MOST_POINTS];
    size_t count;
    bool too_many;
    bool needed[MOST_POINTS]; /* without it, it would fit: it is in all that clash */
    struct dayset open, one, every_day;
    double *no_days, *no_weeks, *whole_weeks; /* of the crew at hand */
    struct crew_state *crews;                 /* as they were */
};

/* ---- what is asked ---- */

static void point_add(struct clash *c, enum point_kind kind, size_t job, size_t index)
{
    if (c->count == MOST_POINTS)
        c->too_many = true;
    else
        c->points[c->count++] = (struct point){ kind, job, index, true };
}

static void points_of_job(struct clash *c, size_t job)
{
    const struct schedule_job *j = &c->s->task->jobs[job];
    struct schedule_after after;
    if (j->opening_count > 0 || !yearly_equal(j->open, yearly_all()))
        point_add(c, POINT_WINDOW, job, 0);
    for (size_t i = 0; i < j->limit_count; i++)
        point_add(c, POINT_LIMIT, job, i);
    if (j->has_condition)
        point_add(c, POINT_GROUND, job, 0);
    for (size_t i = 0; i < j->notice_count; i++)
        point_add(c, POINT_NOTICE, job, i);
    for (size_t i = 0; job_after(c->s->task, job, i, &after); i++) {
        if (c->s->group_of[after.job] == c->s->group_of[job])
            continue;
        point_add(c, POINT_AFTER, job, i);
        if (after.most >= 0)
            point_add(c, POINT_WITHIN, job, i);
    }
    if (j->earliest.given)
        point_add(c, POINT_EARLIEST, job, 0);
    if (j->latest.given)
        point_add(c, POINT_LATEST, job, 0);
}

static void points_find(struct clash *c)
{
    c->count = 0;
    c->too_many = false;
    for (size_t job = c->g->first; job != SCHEDULE_NONE; job = c->s->next[job])
        points_of_job(c, job);
    if (c->g->one_week)
        point_add(c, POINT_IN_ONE, c->g->first, 0);
    if (!c->g->nobody) {
        point_add(c, POINT_AWAY, c->g->first, 0);
        point_add(c, POINT_BUSY, c->g->first, 0);
    }
}

/* ---- does it fit when only those kept are asked? ---- */

/* The days that one point leaves, taken from those open. */
static void close_days(struct clash *c, const struct point *p)
{
    const struct schedule_job *j = &c->s->task->jobs[p->job];
    struct schedule_job only = { .open = yearly_all() };
    switch (p->kind) {
    case POINT_WINDOW:
        only.open = j->open;
        only.openings = j->openings;
        only.opening_count = j->opening_count;
        break;
    case POINT_LIMIT:
        only.limits = &j->limits[p->index];
        only.limit_count = 1;
        break;
    case POINT_GROUND:
        only.has_condition = true;
        only.condition = j->condition;
        break;
    case POINT_NOTICE: notice_close_days(c->s, &j->notices[p->index], &c->open); return;
    case POINT_AFTER:
    case POINT_WITHIN:
    case POINT_EARLIEST:
    case POINT_LATEST:
    case POINT_IN_ONE:
    case POINT_AWAY:
    case POINT_BUSY: return;
    }
    job_open_days(c->s, &only, &c->one, &c->s->scratch);
    dayset_and(&c->open, &c->one);
}

static void lower(int *a, int b)
{
    if (b < *a)
        *a = b;
}

static void narrow(struct clash *c, const struct point *p, struct wish *w)
{
    const struct solver *s = c->s;
    const struct schedule_job *j = &s->task->jobs[p->job];
    struct schedule_after after = { 0 };
    int finish = 0;
    if (p->kind == POINT_AFTER || p->kind == POINT_WITHIN) {
        job_after(s->task, p->job, p->index, &after);
        finish = solver_day(s, s->told[after.job].r.finish);
    }
    switch (p->kind) {
    case POINT_NOTICE: raise_to(&w->from, notice_first(s, &j->notices[p->index])); break;
    case POINT_AFTER: raise_to(&w->from, finish + after.least); break;
    case POINT_WITHIN: lower(&w->latest_start, finish + after.most); break;
    case POINT_EARLIEST: raise_to(&w->from, solver_day(s, j->earliest.date)); break;
    case POINT_LATEST: lower(&w->latest_finish, solver_day(s, j->latest.date)); break;
    case POINT_WINDOW:
    case POINT_LIMIT:
    case POINT_GROUND:
    case POINT_IN_ONE:
    case POINT_AWAY:
    case POINT_BUSY: break;
    }
}

/* Its crews as they would be, were they always there, or had nothing else to do. */
static void loosen_crews(struct clash *c, bool away, bool busy)
{
    struct solver *s = c->s;
    for (size_t i = 0; i < s->able_count; i++) {
        struct crew_state *crew = &s->crews[s->able[i]];
        double *whole = c->whole_weeks + i * ((size_t)s->days / 7 + 1);
        for (int week = 0; !away && week * 7 < s->days; week++)
            whole[week] = crew->whole_week;
        if (!away) {
            crew->open = c->every_day;
            crew->week_most = whole;
        }
        if (!busy) {
            crew->day_used = c->no_days;
            crew->week_used = c->no_weeks;
        }
        crew->stale |= !away || !busy;
    }
}

static bool fits(struct clash *c)
{
    struct solver *s = c->s;
    struct group g = *c->g;
    bool away = false, busy = false;
    struct wish w = {
        .group = &g, .from = s->begin, .latest_start = s->days, .latest_finish = s->days
    };
    g.one_week = false;
    dayset_copy(&c->open, &c->every_day);
    for (size_t i = 0; i < c->count; i++) {
        const struct point *p = &c->points[i];
        if (!p->kept)
            continue;
        close_days(c, p);
        narrow(c, p, &w);
        away |= p->kind == POINT_AWAY;
        busy |= p->kind == POINT_BUSY;
        g.one_week |= p->kind == POINT_IN_ONE;
    }
    memcpy(c->crews, s->crews, s->task->crew_count * sizeof *c->crews);
    loosen_crews(c, away, busy);
    bool fit = fit_group(s, &w, &c->open, &s->best);
    memcpy(s->crews, c->crews, s->task->crew_count * sizeof *c->crews);
    return fit;
}

/* ---- the fewest that clash ---- */

static void keep_all(struct clash *c, bool kept)
{
    for (size_t i = 0; i < c->count; i++)
        c->points[i].kept = kept;
}

/* One or two that leave no place by themselves. */
static bool few_clash(struct clash *c)
{
    keep_all(c, false);
    for (size_t i = 0; i < c->count; i++) {
        c->points[i].kept = true;
        if (!fits(c))
            return true;
        c->points[i].kept = false;
    }
    for (size_t i = 0; i < c->count; i++)
        for (size_t k = i + 1; k < c->count; k++) {
            c->points[i].kept = c->points[k].kept = true;
            if (!fits(c))
                return true;
            c->points[i].kept = c->points[k].kept = false;
        }
    return false;
}

/* Leaves out one after another whatever is not needed for there to be no place. */
static void thin_out(struct clash *c)
{
    keep_all(c, true);
    for (size_t i = c->count; i-- > 0;) {
        c->points[i].kept = false;
        c->points[i].kept = fits(c);
    }
}

static size_t count_kept(const struct clash *c)
{
    size_t kept = 0;
    for (size_t i = 0; i < c->count; i++)
        kept += c->points[i].kept;
    return kept;
}

/* Of those kept; how many they are. */
static size_t find_needed(struct clash *c)
{
    bool among[MOST_POINTS];
    size_t needed = 0;
    for (size_t i = 0; i < c->count; i++)
        among[i] = c->points[i].kept;
    keep_all(c, true);
    for (size_t i = 0; i < c->count; i++) {
        c->points[i].kept = false;
        c->needed[i] = among[i] && fits(c);
        c->points[i].kept = true;
        needed += c->needed[i];
    }
    for (size_t i = 0; i < c->count; i++)
        c->points[i].kept = among[i];
    return needed;
}

/* Keeps the needed ones, and `more` others from `first` on that leave no place with them. */
static bool clash_with(struct clash *c, size_t first, size_t more)
{
    if (more == 0)
        return !fits(c);
    for (size_t i = first; i < c->count; i++) {
        if (c->needed[i])
            continue;
        c->points[i].kept = true;
        if (clash_with(c, i + 1, more - 1))
            return true;
        c->points[i].kept = false;
    }
    return false;
}

/* Three in place of those kept, which are more, where three will do. */
static void try_three(struct clash *c)
{
    bool among[MOST_POINTS];
    size_t needed = find_needed(c);
    if (needed > 3)
        return;
    for (size_t i = 0; i < c->count; i++) {
        among[i] = c->points[i].kept;
        c->points[i].kept = c->needed[i];
    }
    if (clash_with(c, 0, 3 - needed))
        return;
    for (size_t i = 0; i < c->count; i++)
        c->points[i].kept = among[i];
}

static void find_fewest(struct clash *c)
{
    if (few_clash(c))
        return;
    thin_out(c);
    if (count_kept(c) > 3)
        try_three(c);
}

/* Would it fit, were one of those that clash left out and all else kept? */
static bool each_would_do(struct clash *c)
{
    bool among[MOST_POINTS], would = true;
    for (size_t i = 0; i < c->count; i++)
        among[i] = c->points[i].kept;
    keep_all(c, true);
    for (size_t i = 0; i < c->count && would; i++) {
        c->points[i].kept = !among[i];
        would = !among[i] || fits(c);
        c->points[i].kept = true;
    }
    for (size_t i = 0; i < c->count; i++)
        c->points[i].kept = among[i];
    return would;
}

/* ---- in words ---- */

static void clash_words(struct clash *c, size_t kept, struct buf *out)
{
    bool several = c->s->next[c->g->first] != SCHEDULE_NONE;
    size_t told = 0;
    if (kept == 1)
        buf_puts(out, "; this alone leaves no day: ");
    else
        buf_puts(out, each_would_do(c) ? "; it would fit without any one of these: "
                                       : "; these clash, and more stands against it: ");
    for (size_t i = 0; i < c->count; i++) {
        const struct point *p = &c->points[i];
        if (!p->kept)
            continue;
        if (told > 0)
            buf_puts(out, "; ");
        if (several && p->kind < POINT_IN_ONE)
            buf_printf(out, "`%s`: ", c->s->task->jobs[p->job].name);
        point_words(c->s, p, out);
        told++;
    }
}

/* Is it one thing alone, and one that the reason does not say to be alone? */
static bool one_job_alone(const struct clash *c, size_t kept)
{
    for (size_t i = 0; i < c->count && kept == 1; i++)
        if (c->points[i].kept)
            return c->points[i].kind == POINT_AFTER || c->points[i].kind == POINT_WITHIN;
    return false;
}

static bool clash_tell(struct clash *c)
{
    struct solver *s = c->s;
    const char *reason = s->told[c->g->first].r.reason;
    points_find(c);
    if (c->too_many || !reason)
        return true;
    keep_all(c, false);
    if (!fits(c))
        return true; /* whatever is asked: nothing clashes */
    keep_all(c, true);
    if (fits(c))
        return true; /* it would fit now: another has made room since */
    find_fewest(c);
    size_t kept = count_kept(c);
    if (kept < 2 && !one_job_alone(c, kept))
        return true;
    struct buf words;
    buf_init(&words);
    buf_puts(&words, reason);
    clash_words(c, kept, &words);
    bool fine = true;
    enum schedule_why why = s->told[c->g->first].r.why;
    for (size_t job = c->g->first; job != SCHEDULE_NONE; job = s->next[job])
        fine = fine && reason_set(s, job, why, &words);
    buf_clear(&words);
    return fine;
}

static bool is_to_tell(const struct solver *s, const struct group *g)
{
    const struct schedule_result *r = &s->told[g->first].r;
    return r->state == SCHEDULE_UNPLACED &&
           (r->why == SCHEDULE_DEADLINE || r->why == SCHEDULE_NO_HOURS ||
            r->why == SCHEDULE_LAG);
}

static bool clash_init(struct clash *c, struct solver *s, struct fault *f)
{
    size_t weeks = (size_t)s->days / 7 + 1, crews = s->task->crew_count + 1;
    *c = (struct clash){ .s = s };
    c->no_days = calloc((size_t)s->days, sizeof *c->no_days);
    c->no_weeks = calloc(weeks, sizeof *c->no_weeks);
    c->whole_weeks = calloc(weeks * crews, sizeof *c->whole_weeks);
    c->crews = calloc(crews, sizeof *c->crews);
    if (!c->no_days || !c->no_weeks || !c->whole_weeks || !c->crews)
        return fault_no_memory(f);
    if (!dayset_init(&c->open, s->base, s->days, f) ||
        !dayset_init(&c->one, s->base, s->days, f) ||
        !dayset_init(&c->every_day, s->base, s->days, f))
        return false;
    dayset_add(&c->every_day, solver_date(s, s->begin), solver_date(s, s->days - 1));
    return true;
}

static void clash_clear(struct clash *c)
{
    dayset_clear(&c->open);
    dayset_clear(&c->one);
    dayset_clear(&c->every_day);
    free(c->no_days);
    free(c->no_weeks);
    free(c->whole_weeks);
    free(c->crews);
}

bool clashes_find(struct solver *s, struct fault *f)
{
    struct clash c = { .s = NULL };
    bool fine = true;
    for (size_t k = 0; fine && k < s->group_count; k++) {
        if (!is_to_tell(s, &s->groups[k]))
            continue;
        fine = c.s != NULL || clash_init(&c, s, f);
        c.g = &s->groups[k];
        if (fine && !c.g->nobody)
            crews_able(s, c.g);
        fine = fine && clash_tell(&c);
    }
    clash_clear(&c);
    return fine;
}
