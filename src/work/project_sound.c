#include "work/project_inner.h"

#include <stdlib.h>

#include "base/fault.h"

static bool bad_number(const char *what, size_t i, struct fault *f)
{
    return fault_set(f, "project-number", SPAN_NONE, "%s of number %zu is out of range",
                     what, i);
}

static bool check_activities(const struct project *p, struct fault *f)
{
    for (size_t i = 0; i < p->count; i++) {
        const struct project_activity *a = &p->activities[i];
        if (a->duration < 0 || a->duration > PROJECT_MOST_TIME)
            return bad_number("the duration", i, f);
        if (a->earliest < 0 || a->earliest > PROJECT_MOST_TIME)
            return bad_number("the earliest start", i, f);
        if (a->latest < 0)
            return bad_number("the latest finish", i, f);
        for (size_t r = 0; a->demands && r < p->resource_count; r++)
            if (a->demands[r] < 0 || a->demands[r] > PROJECT_MOST_DEMAND)
                return bad_number("a demand", i, f);
    }
    return true;
}

static bool check_resources(const struct project *p, struct fault *f)
{
    for (size_t r = 0; r < p->resource_count; r++) {
        const struct project_resource *s = &p->resources[r];
        if (s->by_time && p->horizon == 0)
            return bad_number("the horizon of the capacities", r, f);
        for (int t = 0; t < (s->by_time ? p->horizon : 1); t++) {
            int has = s->by_time ? s->by_time[t] : s->capacity;
            if (has < 0 || has > PROJECT_MOST_DEMAND)
                return bad_number("a capacity", r, f);
        }
    }
    return true;
}

static bool check_orders(const struct project *p, struct fault *f)
{
    for (size_t i = 0; i < p->order_count; i++) {
        const struct project_order *o = &p->orders[i];
        if (o->before >= p->count || o->after >= p->count)
            return bad_number("the activity of an order", i, f);
        if (abs(o->least) > PROJECT_MOST_TIME || o->most < o->least ||
            (o->most != PROJECT_NO_END && o->most > PROJECT_MOST_TIME))
            return bad_number("the lag of an order", i, f);
    }
    return true;
}

static int capacity_most(const struct project *p, size_t r)
{
    const struct project_resource *s = &p->resources[r];
    int most = s->by_time ? 0 : s->capacity;
    for (int t = 0; s->by_time && t < p->horizon; t++)
        most = s->by_time[t] > most ? s->by_time[t] : most;
    return most;
}

static bool check_demands(const struct project *p, struct fault *f)
{
    for (size_t r = 0; r < p->resource_count; r++) {
        int most = capacity_most(p, r);
        for (size_t i = 0; i < p->count; i++) {
            const struct project_activity *a = &p->activities[i];
            if (a->demands && a->duration > 0 && a->demands[r] > most)
                return fault_set(f, "project-demand", SPAN_NONE,
                                 "number %zu takes %d of a resource that has %d", i,
                                 a->demands[r], most);
        }
    }
    return true;
}

bool project_is_sound(const struct project *p, struct fault *f)
{
    if (p->count > PROJECT_MOST_ACTIVITIES)
        return fault_set(f, "project-number", SPAN_NONE, "%zu activities are too many",
                         p->count);
    if (p->horizon < 0 || p->horizon > PROJECT_MOST_TIME)
        return fault_set(f, "project-number", SPAN_NONE, "the horizon is out of range");
    return check_activities(p, f) && check_resources(p, f) && check_orders(p, f) &&
           check_demands(p, f);
}
