#include "work/project.h"

#include <stdarg.h>
#include <stdio.h>

#include "base/buf.h"

/* For what is said once: false. */
__attribute__((format(printf, 2, 3)))
static bool breach(struct buf *out, const char *format, ...)
{
    char words[160];
    va_list args;
    va_start(args, format);
    vsnprintf(words, sizeof words, format, args);
    va_end(args);
    if (out)
        buf_puts(out, words);
    return false;
}

static bool check_times(const struct project *p, const int *starts, struct buf *out)
{
    for (size_t i = 0; i < p->count; i++) {
        const struct project_activity *a = &p->activities[i];
        int finish = starts[i] + a->duration;
        if (starts[i] < 0)
            return breach(out, "number %zu is not placed", i);
        if (starts[i] < a->earliest)
            return breach(out, "number %zu starts at %d, not before %d", i, starts[i],
                          a->earliest);
        if (a->latest != PROJECT_NO_END && finish > a->latest)
            return breach(out, "number %zu finishes at %d, after %d", i, finish,
                          a->latest);
        if (p->horizon > 0 && finish > p->horizon)
            return breach(out, "number %zu finishes at %d, past the horizon", i, finish);
    }
    return true;
}

static bool check_order(const struct project *p, const int *starts, struct buf *out)
{
    for (size_t i = 0; i < p->order_count; i++) {
        const struct project_order *o = &p->orders[i];
        int finish = starts[o->before] + p->activities[o->before].duration;
        int lag = starts[o->after] - finish;
        if (lag < o->least || (o->most != PROJECT_NO_END && lag > o->most))
            return breach(out, "number %zu starts %d after number %zu", o->after, lag,
                          o->before);
    }
    return true;
}

/* What runs in a unit of time changes only where something starts, and capacities, where
 * they change, are looked at unit by unit. */
static bool check_use(const struct project *p, const int *starts, size_t r, int t,
                      struct buf *out)
{
    const struct project_resource *s = &p->resources[r];
    long long use = 0;
    for (size_t i = 0; i < p->count; i++) {
        const struct project_activity *a = &p->activities[i];
        if (a->demands && starts[i] <= t && t < starts[i] + a->duration)
            use += a->demands[r];
    }
    int has = s->by_time ? s->by_time[t] : s->capacity;
    return use <= has ||
           breach(out, "resource %zu has %d and gives %lld in unit %d", r, has, use, t);
}

static bool check_resource(const struct project *p, const int *starts, size_t r,
                           struct buf *out)
{
    for (size_t i = 0; i < p->count; i++) {
        const struct project_activity *a = &p->activities[i];
        int units = p->resources[r].by_time ? a->duration : a->duration > 0;
        for (int t = starts[i]; t < starts[i] + units; t++)
            if (a->demands && a->demands[r] > 0 && !check_use(p, starts, r, t, out))
                return false;
    }
    return true;
}

bool project_check(const struct project *p, const int *starts, struct buf *out)
{
    if (!check_times(p, starts, out) || !check_order(p, starts, out))
        return false;
    for (size_t r = 0; r < p->resource_count; r++)
        if (!check_resource(p, starts, r, out))
            return false;
    return true;
}
