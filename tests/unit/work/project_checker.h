/* project_checker.h: whether starts are a schedule of a project, and the best there is by
 * trying every start: from the definition in work/project.h, sharing nothing with the
 * engine.
 *
 *     const char *wrong = project_wrong(&p, starts, horizon);   // NULL: all is kept
 *     int finish = project_try_all(&p, horizon);                // -1: there is none
 */
#ifndef SPINNEY_TESTS_WORK_PROJECT_CHECKER_H
#define SPINNEY_TESTS_WORK_PROJECT_CHECKER_H

#include "work/project.h"

enum { TRIED_MOST = 8 };

/* Unit by unit of time, from 0 to the horizon. */
static inline bool project_overdrawn(const struct project *p, const int *starts,
                                     size_t r, int horizon)
{
    for (int t = 0; t < horizon; t++) {
        long use = 0;
        for (size_t i = 0; i < p->count; i++)
            for (int d = 0; d < p->activities[i].duration; d++)
                if (starts[i] + d == t && p->activities[i].demands)
                    use += p->activities[i].demands[r];
        if (use > (p->resources[r].by_time ? p->resources[r].by_time[t]
                                           : p->resources[r].capacity))
            return true;
    }
    return false;
}

static inline bool project_order_broken(const struct project *p,
                                        const struct project_order *o, const int *starts)
{
    long lag = (long)starts[o->after] - starts[o->before] -
               p->activities[o->before].duration;
    return lag < o->least || lag > o->most;
}

static inline const char *project_wrong(const struct project *p, const int *starts,
                                        int horizon)
{
    for (size_t i = 0; i < p->count; i++) {
        const struct project_activity *a = &p->activities[i];
        if (starts[i] < 0 || starts[i] < a->earliest)
            return "starts too early";
        if (starts[i] + a->duration > horizon ||
            (a->latest != PROJECT_NO_END && starts[i] + a->duration > a->latest))
            return "ends too late";
    }
    for (size_t k = 0; k < p->order_count; k++)
        if (project_order_broken(p, &p->orders[k], starts))
            return "breaks an order";
    for (size_t r = 0; r < p->resource_count; r++)
        if (project_overdrawn(p, starts, r, horizon))
            return "takes more than there is";
    return NULL;
}

static inline int project_finish(const struct project *p, const int *starts)
{
    int finish = 0;
    for (size_t i = 0; i < p->count; i++)
        if (starts[i] + p->activities[i].duration > finish)
            finish = starts[i] + p->activities[i].duration;
    return finish;
}

static inline void project_try(const struct project *p, size_t i, int *starts,
                               int horizon, int *best)
{
    if (i == p->count) {
        int finish = project_finish(p, starts);
        if ((*best < 0 || finish < *best) && !project_wrong(p, starts, horizon))
            *best = finish;
        return;
    }
    for (int t = 0; t + p->activities[i].duration <= horizon; t++) {
        bool broken = *best >= 0 && t + p->activities[i].duration >= *best;
        starts[i] = t;
        for (size_t k = 0; !broken && k < p->order_count; k++)
            if (p->orders[k].before <= i && p->orders[k].after <= i)
                broken = project_order_broken(p, &p->orders[k], starts);
        if (!broken)
            project_try(p, i + 1, starts, horizon, best);
    }
}

/* Of no more than TRIED_MOST activities, with something that runs. */
static inline int project_try_all(const struct project *p, int horizon)
{
    int starts[TRIED_MOST], best = -1;
    project_try(p, 0, starts, horizon, &best);
    return best;
}

#endif
