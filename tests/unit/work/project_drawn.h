/* project_drawn.h: projects by chance, of every kind the engine takes.
 *
 *     struct drawn_project d;
 *     struct drawn_kind k = { .count = 5, .duration = 3, .horizon = 12, .most = true };
 *     drawn_project(&d, &k, &chance);
 *     ... d.p
 */
#ifndef SPINNEY_TESTS_WORK_PROJECT_DRAWN_H
#define SPINNEY_TESTS_WORK_PROJECT_DRAWN_H

#include "base/chance.h"
#include "work/project_inner.h"

enum { DRAWN_COUNT = 40, DRAWN_RESOURCES = 6, DRAWN_ORDERS = 120, DRAWN_TIME = 200 };

struct drawn_kind {
    int count, duration; /* the most of either */
    int horizon;         /* 0: none stated, and so no capacities by time */
    bool lags, most, dates, by_time;
};

struct drawn_project {
    struct project p;
    struct project_activity activities[DRAWN_COUNT];
    struct project_resource resources[DRAWN_RESOURCES];
    struct project_order orders[DRAWN_ORDERS];
    int demands[DRAWN_COUNT][DRAWN_RESOURCES];
    int by_time[DRAWN_RESOURCES][DRAWN_TIME];
};

static inline int drawn_below(uint64_t *chance, int n)
{
    return (int)chance_below(chance, (size_t)n);
}

static inline void drawn_resource(struct drawn_project *d, const struct drawn_kind *k,
                                  size_t r, uint64_t *chance)
{
    struct project_resource *s = &d->resources[r];
    *s = (struct project_resource){ 3 + drawn_below(chance, 5), NULL };
    if (!k->by_time || k->horizon == 0 || drawn_below(chance, 3) == 0)
        return;
    int has = s->capacity;
    for (int t = 0; t < k->horizon; t++) {
        if (drawn_below(chance, 4) == 0)
            has = drawn_below(chance, s->capacity + 1);
        d->by_time[r][t] = has;
    }
    d->by_time[r][drawn_below(chance, k->horizon)] = s->capacity;
    s->by_time = d->by_time[r];
}

static inline void drawn_activity(struct drawn_project *d, const struct drawn_kind *k,
                                  size_t i, uint64_t *chance)
{
    struct project_activity *a = &d->activities[i];
    *a = (struct project_activity){ .latest = PROJECT_NO_END, .demands = d->demands[i] };
    a->duration = drawn_below(chance, 8) == 0 ? 0 : 1 + drawn_below(chance, k->duration);
    for (size_t r = 0; r < d->p.resource_count; r++)
        d->demands[i][r] = drawn_below(chance, 2) * drawn_below(chance, 4);
    if (k->dates && drawn_below(chance, 4) == 0)
        a->earliest = drawn_below(chance, 1 + k->duration * 2);
    if (k->dates && drawn_below(chance, 4) == 0)
        a->latest = a->earliest + a->duration + drawn_below(chance, 3 * k->duration);
}

static inline void drawn_order(struct drawn_project *d, const struct drawn_kind *k,
                               size_t before, size_t after, uint64_t *chance)
{
    struct project_order *o = &d->orders[d->p.order_count++];
    *o = (struct project_order){ before, after, 0, PROJECT_NO_END };
    if (k->lags && drawn_below(chance, 3) == 0)
        o->least = drawn_below(chance, 3);
    if (k->most && drawn_below(chance, 6) == 0)
        o->least = -drawn_below(chance, 4);
    if (k->most && drawn_below(chance, 3) == 0)
        o->most = o->least + drawn_below(chance, 4);
}

static inline void drawn_project(struct drawn_project *d, const struct drawn_kind *k,
                                 uint64_t *chance)
{
    d->p = (struct project){ .activities = d->activities, .resources = d->resources,
                             .orders = d->orders, .horizon = k->horizon };
    d->p.count = 1 + chance_below(chance, (size_t)k->count);
    d->p.resource_count = chance_below(chance, DRAWN_RESOURCES + 1);
    for (size_t r = 0; r < d->p.resource_count; r++)
        drawn_resource(d, k, r, chance);
    int dense = 2 + drawn_below(chance, 8);
    for (size_t i = 0; i < d->p.count; i++)
        drawn_activity(d, k, i, chance);
    for (size_t i = 0; i < d->p.count; i++)
        for (size_t j = i + 1; j < d->p.count; j++)
            if (d->p.order_count < DRAWN_ORDERS && drawn_below(chance, dense) == 0)
                drawn_order(d, k, i, j, chance);
}

#endif
