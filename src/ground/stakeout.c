#include "ground/stakeout.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "ground/bearing.h"

enum { RUN_MOST = 3 };
/* Shorter by less is none: else rounding could turn a change to and fro for ever. */
#define GAIN_LEAST_FT 1e-6

/* The way: places 1 to count hold flags, place 0 the start, which no flag is. After the
 * last comes the start again when the walker returns, else nothing. */
struct way {
    const struct stakeout_ask *ask;
    size_t *flag;
    size_t count;
};

static double apart(const struct flag *a, const struct point *b)
{
    double dx = a->at.x - b->x, dy = a->at.y - b->y;
    return sqrt(dx * dx + dy * dy);
}

/* Between two places of the way; nothing to and from where no one has to walk. */
static double step(const struct way *w, size_t from, size_t to)
{
    const struct flag *flags = w->ask->flags;
    if (from == 0 && to > w->count)
        return 0;
    if (from == 0)
        return w->ask->start ? apart(&flags[w->flag[to]], w->ask->start) : 0;
    if (to > w->count)
        return w->ask->returns ? apart(&flags[w->flag[from]], w->ask->start) : 0;
    return apart(&flags[w->flag[from]], &flags[w->flag[to]].at);
}

static void swap(size_t *a, size_t *b)
{
    size_t kept = *a;
    *a = *b;
    *b = kept;
}

static void reverse(struct way *w, size_t from, size_t to)
{
    for (; from < to; from++, to--)
        swap(&w->flag[from], &w->flag[to]);
}

/* Always to the nearest; without a start from the first of the flags. */
static void nearest_first(struct way *w)
{
    for (size_t i = 1; i <= w->count; i++)
        w->flag[i] = i - 1;
    for (size_t at = 1; at <= w->count; at++) {
        size_t best = at;
        double least = HUGE_VAL;
        for (size_t i = at; i <= w->count; i++) {
            double far = step(w, at - 1, i);
            if (far < least || (far == least && w->flag[i] < w->flag[best])) {
                least = far;
                best = i;
            }
        }
        swap(&w->flag[at], &w->flag[best]);
    }
}

/* From every place the stretch to every later one, walked the other way round. */
static bool turn_stretches(struct way *w)
{
    bool shorter = false;
    for (size_t from = 1; from < w->count; from++)
        for (size_t to = from + 1; to <= w->count; to++) {
            double now = step(w, from - 1, from) + step(w, to, to + 1);
            double then = step(w, from - 1, to) + step(w, from, to + 1);
            if (now - then > GAIN_LEAST_FT) {
                reverse(w, from, to);
                shorter = true;
            }
        }
    return shorter;
}

/* Moves the places [from, from + many) behind place `to`, as they are or turned. */
static void move_run(struct way *w, size_t from, size_t many, size_t to, bool turned)
{
    size_t run[RUN_MOST];
    memcpy(run, w->flag + from, many * sizeof *run);
    size_t at;
    if (to < from) {
        memmove(w->flag + to + 1 + many, w->flag + to + 1, (from - to - 1) * sizeof *run);
        at = to + 1;
    } else {
        size_t behind = from + many;
        memmove(w->flag + from, w->flag + behind, (to + 1 - behind) * sizeof *run);
        at = to + 1 - many;
    }
    for (size_t i = 0; i < many; i++)
        w->flag[at + i] = run[turned ? many - 1 - i : i];
}

static bool move_to_best(struct way *w, size_t from, size_t many)
{
    size_t last = from + many - 1, best = 0;
    bool best_turned = false;
    double saved =
        step(w, from - 1, from) + step(w, last, last + 1) - step(w, from - 1, last + 1);
    double gain = GAIN_LEAST_FT;
    for (size_t to = 0; to <= w->count; to++) {
        if (to + 1 >= from && to <= last)
            continue;
        double open = saved + step(w, to, to + 1);
        for (int turned = 0; turned < 2; turned++) {
            size_t head = turned ? last : from, tail = turned ? from : last;
            double more = step(w, to, head) + step(w, tail, to + 1);
            if (open - more > gain) {
                gain = open - more;
                best = to;
                best_turned = turned == 1;
            }
        }
    }
    if (!(gain > GAIN_LEAST_FT))
        return false;
    move_run(w, from, many, best, best_turned);
    return true;
}

static bool move_runs(struct way *w)
{
    bool shorter = false;
    for (size_t many = 1; many <= RUN_MOST; many++)
        for (size_t from = 1; from + many - 1 <= w->count; from++)
            shorter = move_to_best(w, from, many) || shorter;
    return shorter;
}

static void tell_steps(const struct way *w, struct stakeout *out)
{
    const struct stakeout_ask *ask = w->ask;
    const struct point *before = ask->start;
    for (size_t i = 0; i < w->count; i++) {
        const struct flag *flag = &ask->flags[w->flag[i + 1]];
        struct stake *s = &out->stakes[i];
        *s = (struct stake){ w->flag[i + 1], before == NULL, NAN, NAN, 0, NAN };
        if (before) {
            s->azimuth = bearing_between(*before, flag->at);
            s->magnetic = bearing_magnetic(s->azimuth, ask->declination);
            s->distance_ft = apart(flag, before);
            if (ask->pace_ft > 0)
                s->paces = s->distance_ft / ask->pace_ft;
        }
        out->length_ft += s->distance_ft;
        before = &flag->at;
    }
    if (ask->returns && w->count > 0)
        out->length_ft += step(w, w->count, w->count + 1);
}

static bool check(const struct stakeout_ask *ask, struct fault *f)
{
    if (ask->count > STAKEOUT_FLAGS_MOST) {
        fault_set(f, "stakeout-many", SPAN_NONE, "%zu flags are more than %d", ask->count,
                  (int)STAKEOUT_FLAGS_MOST);
        fault_hint(f, "two plans, each for a part of the stands");
        return false;
    }
    if (!(ask->pace_ft == 0 || (ask->pace_ft >= 1 && ask->pace_ft <= 8)))
        return fault_set(f, "stakeout-pace", SPAN_NONE,
                         "a pace lies between 1 and 8 ft (both feet: some 5)");
    if (ask->returns && !ask->start)
        return fault_set(f, "stakeout-start", SPAN_NONE,
                         "where the walk starts and comes back to is not said");
    return true;
}

bool stakeout_plan(const struct stakeout_ask *ask, struct stakeout *out, struct fault *f)
{
    *out = (struct stakeout){ .stakes = NULL };
    if (!check(ask, f))
        return false;
    struct way w = { ask, calloc(ask->count + 1, sizeof *w.flag), ask->count };
    out->stakes = calloc(ask->count + 1, sizeof *out->stakes);
    out->count = ask->count;
    if (!w.flag || !out->stakes) {
        free(w.flag);
        stakeout_free(out);
        return fault_no_memory(f);
    }
    nearest_first(&w);
    while (turn_stretches(&w) || move_runs(&w))
        continue;
    tell_steps(&w, out);
    free(w.flag);
    return true;
}

void stakeout_free(struct stakeout *s)
{
    free(s->stakes);
    *s = (struct stakeout){ .stakes = NULL };
}
