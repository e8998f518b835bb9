#include "work/schedule_parts.h"
#include "work/search.h"

enum { SEASON_DAYS = 300 }; /* so much later is another season */

/* Is something placed that stands in for the job, or for what stands in for it? */
static bool is_replaced(const struct solver *s, size_t job)
{
    for (size_t steps = 0; steps <= s->task->job_count; steps++) {
        const struct schedule_job *j = &s->task->jobs[job];
        if (!j->has_otherwise)
            return false;
        job = j->otherwise;
        if (s->told[job].r.state == SCHEDULE_PLACED)
            return true;
    }
    return false;
}

bool group_is_first(const struct solver *s, const struct group *g)
{
    for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job])
        if (s->task->jobs[job].first)
            return true;
    return false;
}

/* A fixed date is nobody's merit. */
static bool is_free(const struct solver *s, const struct group *g)
{
    return !g->fixed && !s->task->jobs[g->first].done;
}

/* Its date is stated, and its crew does not begin on it. */
static bool misses_date(const struct solver *s, const struct group *g)
{
    bool in_plan = g->fixed_day >= s->begin && g->fixed_day < s->days;
    return g->fixed && g->placed && !g->nobody && in_plan &&
           (g->work_count == 0 || g->work[0].day != g->fixed_day);
}

/* No crew that may do it is at work on its date. */
static bool has_to_miss(const struct solver *s, const struct group *g, uint64_t crews)
{
    bool in_plan = g->fixed_day >= s->begin && g->fixed_day < s->days;
    if (!g->fixed || g->nobody || !in_plan || s->task->crew_count > 64)
        return false;
    for (size_t c = 0; c < s->task->crew_count; c++)
        if ((crews >> c & 1) && dayset_has(&s->crews[c].open, g->fixed_day))
            return false;
    return true;
}

struct score score_of(const struct solver *s, const struct bound *bounds)
{
    struct score score = { { 0 } };
    double *of = score.of;
    for (size_t job = 0; job < s->task->job_count; job++)
        if (s->told[job].r.state == SCHEDULE_UNPLACED)
            of[is_replaced(s, job) ? SCORE_REPLACED : SCORE_UNPLACED] += 1;
    for (size_t k = 0; k < s->group_count; k++) {
        const struct group *g = &s->groups[k];
        if (!g->placed || s->task->jobs[g->first].done)
            continue;
        of[SCORE_REPLACED] += misses_date(s, g);
        if (g->crew != SCHEDULE_NONE)
            of[SCORE_COST] += g->hours * s->task->crews[g->crew].rate;
        if (!is_free(s, g))
            continue;
        of[SCORE_PAUSED] += g->carried_over;
        of[SCORE_FINISH] += g->finish - s->begin;
        if (group_is_first(s, g))
            of[SCORE_FIRST] += g->finish - s->begin;
        if (bounds[k].possible)
            of[SCORE_LATE] += (g->start - bounds[k].start) / SEASON_DAYS;
        if (g->crew == SCHEDULE_NONE)
            continue;
        const struct crew_state *c = &s->crews[g->crew];
        /* A week that several share is counted by each for its own part of it. */
        for (size_t i = 0; i < g->work_count && c->whole_week > 0; i++)
            of[SCORE_UNEVEN] += g->work[i].hours / c->whole_week *
                                c->week_used[g->work[i].day / 7] / c->whole_week;
    }
    return score;
}

struct score score_bound(const struct solver *s, const struct bound *bounds)
{
    struct score score = { { 0 } };
    for (size_t k = 0; k < s->group_count; k++) {
        const struct group *g = &s->groups[k];
        bool replaced = false;
        double jobs = 0;
        for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job]) {
            replaced |= s->task->jobs[job].has_otherwise;
            jobs++;
        }
        if (bounds[k].needless || s->task->jobs[g->first].done)
            continue;
        score.of[SCORE_COST] += bounds[k].cost;
        if (!is_free(s, g)) {
            score.of[SCORE_REPLACED] += has_to_miss(s, g, bounds[k].crews);
            continue;
        }
        if (!bounds[k].possible) {
            score.of[replaced ? SCORE_REPLACED : SCORE_UNPLACED] += jobs;
            continue;
        }
        score.of[SCORE_PAUSED] += bounds[k].pauses;
        if (group_is_first(s, g))
            score.of[SCORE_FIRST] += bounds[k].finish - s->begin;
    }
    return score;
}

int score_compare(const struct score *a, const struct score *b)
{
    return search_compare(a->of, b->of, SCORES, SCORE_ALIKE);
}
