/* Each group by itself, with all crews idle and what it waits for as early as can be. */
#include "work/schedule_parts.h"

#include <stdlib.h>

#include "base/fault.h"

/* What the group waits for, at the earliest; false when some of it cannot be. */
static bool wish_alone(const struct solver *s, const struct group *g,
                       const struct bound *bounds, struct wish *w)
{
    *w = (struct wish){
        .group = g, .from = s->begin, .latest_start = s->days, .latest_finish = s->days
    };
    for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job]) {
        const struct schedule_job *j = &s->task->jobs[job];
        int from = j->earliest.given ? solver_day(s, j->earliest.date) : 0;
        if (j->latest.given && solver_day(s, j->latest.date) < w->latest_finish)
            w->latest_finish = solver_day(s, j->latest.date);
        for (size_t i = 0; i < j->notice_count; i++)
            if (notice_first(s, &j->notices[i]) > from)
                from = notice_first(s, &j->notices[i]);
        struct schedule_after after;
        for (size_t i = 0; job_after(s->task, job, i, &after); i++) {
            size_t other = s->group_of[after.job];
            if (&s->groups[other] == g)
                continue;
            if (!bounds[other].possible)
                return false;
            if (bounds[other].finish + after.least > from)
                from = bounds[other].finish + after.least;
        }
        if (from > w->from)
            w->from = from;
    }
    return true;
}

static void bound_done(const struct solver *s, const struct group *g, struct bound *b)
{
    const struct schedule_job *j = &s->task->jobs[g->first];
    *b = (struct bound){ .possible = true,
                         .start = solver_day(s, j->was.from),
                         .finish = solver_day(s, j->was.to) };
}

/* The crews that are listed for all of a group's jobs. */
static size_t crews_listed(const struct solver *s, const struct group *g, size_t *crews)
{
    size_t count = 0;
    for (size_t c = 0; c < s->task->crew_count; c++) {
        bool listed = true;
        for (size_t job = g->first; job != SCHEDULE_NONE && listed; job = s->next[job]) {
            const struct schedule_job *j = &s->task->jobs[job];
            bool in = j->who != SCHEDULE_LISTED;
            for (size_t i = 0; i < j->crew_count && !in; i++)
                in = j->crews[i] == c;
            listed = in;
        }
        if (listed)
            crews[count++] = c;
    }
    return count;
}

/* By the cheapest of the crews. */
static double least_cost(const struct solver *s, const struct group *g,
                         const size_t *crews, size_t count)
{
    if (g->nobody || count == 0)
        return 0;
    double least = s->task->crews[crews[0]].rate;
    for (size_t i = 1; i < count; i++)
        if (s->task->crews[crews[i]].rate < least)
            least = s->task->crews[crews[i]].rate;
    return g->hours * least;
}

static void bound_group(struct solver *s, const struct group *g, struct bound *bounds,
                        size_t *crews)
{
    struct bound *b = &bounds[g - s->groups];
    struct wish w;
    *b = (struct bound){ .possible = false };
    if (s->told[g->first].r.why == SCHEDULE_CYCLE)
        return;
    if (s->task->jobs[g->first].done) {
        bound_done(s, g, b);
        return;
    }
    size_t count = crews_listed(s, g, crews);
    uint64_t set = 0;
    for (size_t i = 0; i < count && s->task->crew_count <= 64 && !g->nobody; i++)
        set |= UINT64_C(1) << crews[i];
    if (g->fixed) {
        *b = (struct bound){ .possible = true,
                             .start = g->fixed_day,
                             .finish = g->fixed_day,
                             .cost = least_cost(s, g, crews, count),
                             .crews = set };
        return;
    }
    if (!wish_alone(s, g, bounds, &w))
        return;
    int start, finish;
    const struct dayset *open = group_open(s, g);
    b->pauses = !fit_soonest(s, &w, open, crews, count, SCHEDULE_PAUSE, &start, &finish);
    b->possible = fit_soonest(s, &w, open, crews, count, s->days, &b->start, &b->finish);
    if (!b->possible)
        return;
    b->cost = least_cost(s, g, crews, count);
    b->crews = set;
}

/* Whether what stands in for something is done hangs on that; so does what follows it. */
static bool may_be_needless(const struct solver *s, size_t g, const struct bound *bounds)
{
    for (size_t job = s->groups[g].first; job != SCHEDULE_NONE; job = s->next[job]) {
        struct schedule_after after;
        if (s->first_for[job] != SCHEDULE_NONE)
            return true;
        for (size_t i = 0; job_after(s->task, job, i, &after); i++)
            if (s->group_of[after.job] != g && bounds[s->group_of[after.job]].needless)
                return true;
    }
    return false;
}

bool bounds_find(struct solver *s, struct bound *bounds, struct fault *f)
{
    size_t *crews = malloc((s->task->crew_count + 1) * sizeof *crews);
    if (!crews)
        return fault_no_memory(f);
    for (size_t k = 0; k < s->group_count; k++)
        bound_group(s, &s->groups[s->order[k]], bounds, crews);
    for (size_t k = 0; k < s->group_count; k++)
        bounds[s->order[k]].needless = may_be_needless(s, s->order[k], bounds);
    free(crews);
    return true;
}
