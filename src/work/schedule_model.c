#include "work/schedule_parts.h"

#include <assert.h>
#include <stdlib.h>

#include "base/fault.h"

int solver_day(const struct solver *s, struct date d)
{
    return d.day - s->base.day;
}

struct date solver_date(const struct solver *s, int day)
{
    return (struct date){ s->base.day + day };
}

size_t job_along(const struct schedule_task *task, size_t job)
{
    const struct schedule_job *j = &task->jobs[job];
    if (!j->has_along)
        return SCHEDULE_NONE;
    const struct schedule_job *other = &task->jobs[j->along];
    bool apart = j->who == SCHEDULE_NOBODY || other->who == SCHEDULE_NOBODY || j->done ||
                 other->done;
    return apart ? SCHEDULE_NONE : j->along;
}

bool job_after(const struct schedule_task *task, size_t job, size_t i,
               struct schedule_after *out)
{
    const struct schedule_job *j = &task->jobs[job];
    if (i < j->after_count) {
        *out = j->after[i];
        return true;
    }
    if (i == j->after_count && j->has_along && job_along(task, job) == SCHEDULE_NONE) {
        *out = (struct schedule_after){ .job = j->along, .least = 0, .most = 1 };
        return true;
    }
    return false;
}

bool notice_is_filed(const struct schedule_notice *n, struct date day)
{
    return n->filed.given && day.day >= n->filed.date.day + n->lead &&
           day.day <= notice_last(n, n->filed.date).day;
}

int notice_first(const struct solver *s, const struct schedule_notice *n)
{
    struct date first = { n->filed.given ? n->filed.date.day + n->lead : INT32_MAX };
    if (first.day < s->task->start.day)
        first = s->task->start;
    int anew = s->begin + n->lead;
    if (!notice_is_filed(n, first))
        return anew;
    int filed = first.day - s->base.day;
    return filed < anew ? filed : anew;
}

void notice_close_days(const struct solver *s, const struct schedule_notice *n,
                       struct dayset *days)
{
    if (n->expires_after > 0 && n->expires_after < n->lead)
        dayset_empty(days); /* run out before its days are over */
    /* Run out, and no new one can hold as yet. */
    if (notice_first(s, n) < s->begin + n->lead) {
        struct date next = { notice_last(n, n->filed.date).day };
        struct date anew = { s->task->start.day + n->lead - 1 };
        if (next.day < anew.day)
            dayset_remove(days, (struct date){ next.day + 1 }, anew);
    }
    if (!n->expires_with_year || n->lead <= 0)
        return;
    int32_t last = s->base.day + s->days - 1;
    struct civil c = date_civil(s->base);
    for (int year = c.year; year <= DATE_LAST_YEAR; year++) {
        struct date jan_1;
        struct fault none = { 0 };
        if (!date_make(year, 1, 1, &jan_1, &none) || jan_1.day > last)
            break;
        dayset_remove(days, jan_1, (struct date){ jan_1.day + n->lead - 1 });
    }
}

struct date notice_last(const struct schedule_notice *n, struct date filed)
{
    struct date last = { INT32_MAX };
    if (n->expires_with_year) {
        struct fault none = { 0 };
        date_make(date_civil(filed).year, 12, 31, &last, &none);
    }
    if (n->expires_after > 0 && filed.day + n->expires_after < last.day)
        last.day = filed.day + n->expires_after;
    return last;
}

struct yearly condition_months(const struct schedule_condition *c)
{
    struct yearly months = yearly_none();
    for (int m = 0; m < 12; m++) {
        struct month_day first = { (int8_t)(m + 1), 1 }, last = first;
        last.day = (int8_t)date_days_in_month(2000, m + 1); /* a year with Feb 29 */
        if (c->chance[m] > 0)
            months = yearly_or(months, yearly_of((struct window){ first, last }));
    }
    return months;
}

void job_open_days(const struct solver *s, const struct schedule_job *job,
                   struct dayset *out, struct dayset *scratch)
{
    struct yearly closed = yearly_none();
    for (size_t i = 0; i < job->limit_count; i++)
        if (!job->limits[i].dated)
            closed = yearly_or(closed, job->limits[i].closed);
    struct yearly most = yearly_all();
    if (job->has_condition)
        most = condition_months(&s->task->conditions[job->condition]);
    closed = yearly_or(closed, yearly_minus(yearly_all(), most));
    dayset_empty(out);
    if (job->opening_count == 0) {
        dayset_add_yearly(out, yearly_minus(job->open, closed));
    } else {
        dayset_add_yearly(out, job->open);
        for (size_t i = 0; i < job->opening_count; i++)
            dayset_add(out, job->openings[i].from, job->openings[i].to);
        dayset_empty(scratch);
        dayset_add_yearly(scratch, yearly_minus(yearly_all(), closed));
        dayset_and(out, scratch);
    }
    for (size_t i = 0; i < job->limit_count; i++)
        if (job->limits[i].dated)
            dayset_remove(out, job->limits[i].from, job->limits[i].to);
}

const struct dayset *group_open(const struct solver *s, const struct group *g)
{
    return &s->opens[g - s->groups];
}

bool solver_open_days(struct solver *s, struct fault *f)
{
    size_t words = dayset_words(s->days);
    s->opens = calloc(s->group_count + 1, sizeof *s->opens);
    s->open_words = calloc(s->group_count * words + 1, sizeof *s->open_words);
    if (!s->opens || !s->open_words)
        return fault_no_memory(f);
    for (size_t i = 0; i < s->group_count; i++) {
        struct dayset *open = &s->opens[i];
        *open = (struct dayset){ s->base, s->days, s->open_words + i * words };
        dayset_add(open, solver_date(s, s->begin), solver_date(s, s->days - 1));
        for (size_t job = s->groups[i].first; job != SCHEDULE_NONE; job = s->next[job]) {
            const struct schedule_job *j = &s->task->jobs[job];
            job_open_days(s, j, &s->scratch, &s->shared);
            dayset_and(open, &s->scratch);
            for (size_t k = 0; k < j->notice_count; k++)
                notice_close_days(s, &j->notices[k], open);
        }
    }
    return true;
}

int season_end(const struct dayset *open, int day)
{
    for (;;) {
        int gap = dayset_next_gap(open, day);
        int again = dayset_next(open, gap);
        if (gap >= open->days)
            return open->days;
        if (again >= open->days)
            /* Too near the end of what is planned to know whether it opens again. */
            return open->days - gap > SCHEDULE_PAUSE ? gap - 1 : open->days;
        if (again - gap > SCHEDULE_PAUSE)
            return gap - 1;
        day = again;
    }
}

static bool crew_init(const struct solver *s, const struct schedule_crew *crew,
                      struct crew_state *out, struct fault *f)
{
    if (!dayset_init(&out->open, s->base, s->days, f))
        return false;
    size_t weeks = (size_t)s->days / 7 + 1;
    out->day_used = calloc((size_t)s->days, sizeof *out->day_used);
    out->week_used = calloc(weeks, sizeof *out->week_used);
    out->day_most = calloc((size_t)s->days, sizeof *out->day_most);
    out->week_most = calloc(weeks, sizeof *out->week_most);
    out->next_free = malloc((weeks + 1) * sizeof *out->next_free);
    if (!out->day_used || !out->week_used || !out->day_most || !out->week_most ||
        !out->next_free)
        return fault_no_memory(f);
    for (size_t week = 0; week <= weeks; week++)
        out->next_free[week] = (int)week;

    dayset_add_yearly(&out->open, yearly_minus(yearly_all(), crew->off));
    for (size_t i = 0; i < crew->day_off_count; i++)
        dayset_remove(&out->open, crew->days_off[i].from, crew->days_off[i].to);
    if (s->begin > 0)
        dayset_remove(&out->open, s->base, solver_date(s, s->begin - 1));
    if (crew->from.given)
        dayset_remove(&out->open, s->base, (struct date){ crew->from.date.day - 1 });
    if (crew->to.given)
        dayset_remove(&out->open, (struct date){ crew->to.date.day + 1 },
                      solver_date(s, s->days - 1));
    crew_hours(crew, out);
    return true;
}

static bool stand_ins(struct solver *s, size_t jobs, struct fault *f)
{
    s->first_for = malloc((jobs + 1) * sizeof *s->first_for);
    s->next_first = malloc((jobs + 1) * sizeof *s->next_first);
    if (!s->first_for || !s->next_first)
        return fault_no_memory(f);
    for (size_t i = 0; i < jobs; i++)
        s->first_for[i] = s->next_first[i] = SCHEDULE_NONE;
    for (size_t i = jobs; i-- > 0;) {
        const struct schedule_job *j = &s->task->jobs[i];
        if (!j->has_otherwise)
            continue;
        assert(j->otherwise < jobs);
        s->next_first[i] = s->first_for[j->otherwise];
        s->first_for[j->otherwise] = i;
    }
    return true;
}

bool solver_init(struct solver *s, const struct schedule_task *task, struct fault *f)
{
    *s = (struct solver){ .task = task, .f = f };
    s->base = date_week_start(task->start);
    s->begin = task->start.day - s->base.day;
    struct date end;
    struct fault past = { 0 };
    if (!date_add_months(task->start, SCHEDULE_YEARS * 12, &end, &past))
        date_make(DATE_LAST_YEAR, 12, 31, &end, f);
    s->days = end.day - s->base.day + 1;

    size_t jobs = task->job_count;
    s->told = calloc(jobs + 1, sizeof *s->told);
    s->crews = calloc(task->crew_count + 1, sizeof *s->crews);
    s->able = calloc(task->crew_count + 1, sizeof *s->able);
    s->best.work = calloc((size_t)s->days, sizeof *s->best.work);
    s->trial.work = calloc((size_t)s->days, sizeof *s->trial.work);
    if (!s->told || !s->crews || !s->able || !s->best.work || !s->trial.work)
        return fault_no_memory(f);
    if (!dayset_init(&s->open, s->base, s->days, f) ||
        !dayset_init(&s->shared, s->base, s->days, f) ||
        !dayset_init(&s->scratch, s->base, s->days, f) ||
        !dayset_init(&s->keep, s->base, s->days, f))
        return false;
    for (size_t i = 0; i < task->crew_count; i++)
        if (!crew_init(s, &task->crews[i], &s->crews[i], f))
            return false;
    return stand_ins(s, jobs, f);
}

void solver_clear(struct solver *s)
{
    for (size_t i = 0; s->crews && i < s->task->crew_count; i++) {
        dayset_clear(&s->crews[i].open);
        free(s->crews[i].day_used);
        free(s->crews[i].week_used);
        free(s->crews[i].day_most);
        free(s->crews[i].week_most);
        free(s->crews[i].next_free);
    }
    for (size_t i = 0; i < s->group_count; i++)
        free(s->groups[i].work);
    dayset_clear(&s->open);
    dayset_clear(&s->shared);
    dayset_clear(&s->scratch);
    dayset_clear(&s->keep);
    free(s->crews);
    free(s->able);
    free(s->best.work);
    free(s->trial.work);
    free(s->group_of);
    free(s->next);
    free(s->first_for);
    free(s->next_first);
    free(s->groups);
    free(s->bounds);
    free(s->opens);
    free(s->open_words);
    free(s->ties);
    free(s->before);
    free(s->before_at);
    free(s->order);
    free(s->place);
}
