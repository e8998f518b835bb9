#include "ground/stakeout.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "ground/bearing.h"

enum { MOVED_MOST = 3 };
/* Shorter by less is none: else rounding could turn a change to and fro for ever. */
#define GAIN_LEAST_FT 1e-6

/* Flags that are walked one after the other, either way. */
struct run {
    size_t first, last; /* of the flags */
    bool turned;        /* from the last to the first */
};

/* The way: places 1 to count hold runs, place 0 the start, which no flag is. After the
 * last comes the start again when the walker returns, else nothing. */
struct way {
    const struct stakeout_ask *ask;
    struct run *run;
    size_t count;
};

/* Where the run is come to when it is walked so. */
static const struct point *end_of(const struct way *w, const struct run *r, bool turned)
{
    return &w->ask->flags[turned ? r->last : r->first].at;
}

/* Where a place is come to, and where it is left; nothing where no one has to walk. */
static const struct point *enter(const struct way *w, size_t place)
{
    if (place > w->count)
        return w->ask->returns ? w->ask->start : NULL;
    return place == 0 ? w->ask->start : end_of(w, &w->run[place], w->run[place].turned);
}

static const struct point *leave(const struct way *w, size_t place)
{
    if (place == 0 || place > w->count)
        return enter(w, place);
    return end_of(w, &w->run[place], !w->run[place].turned);
}

static double apart(const struct point *a, const struct point *b)
{
    if (!a || !b)
        return 0;
    double dx = a->x - b->x, dy = a->y - b->y;
    return sqrt(dx * dx + dy * dy);
}

static double step(const struct way *w, size_t from, size_t to)
{
    return apart(leave(w, from), enter(w, to));
}

static void swap(struct run *a, struct run *b)
{
    struct run kept = *a;
    *a = *b;
    *b = kept;
}

static void reverse(struct way *w, size_t from, size_t to)
{
    for (size_t i = from; i <= to; i++)
        w->run[i].turned = !w->run[i].turned;
    for (; from < to; from++, to--)
        swap(&w->run[from], &w->run[to]);
}

static void find_runs(struct way *w)
{
    const struct flag *flags = w->ask->flags;
    for (size_t i = 0; i < w->ask->count; i++) {
        bool goes_on = i > 0 && flags[i].run > 0 && flags[i].run == flags[i - 1].run;
        if (goes_on)
            w->run[w->count].last = i;
        else
            w->run[++w->count] = (struct run){ i, i, false };
    }
}

/* Always to the nearest end; without a start from the first of the flags. */
static void nearest_first(struct way *w)
{
    for (size_t at = 1; at <= w->count; at++) {
        size_t best = at;
        double least = HUGE_VAL;
        for (size_t i = at; i <= w->count; i++) {
            double head = apart(leave(w, at - 1), end_of(w, &w->run[i], false));
            double tail = apart(leave(w, at - 1), end_of(w, &w->run[i], true));
            double far = fmin(head, tail);
            if (far < least ||
                (far == least && w->run[i].first < w->run[best].first)) {
                least = far;
                best = i;
                w->run[i].turned = tail < head;
            }
        }
        swap(&w->run[at], &w->run[best]);
    }
}

/* From every place the stretch to every later one, walked the other way round. */
static bool turn_stretches(struct way *w)
{
    bool shorter = false;
    for (size_t from = 1; from <= w->count; from++)
        for (size_t to = from; to <= w->count; to++) {
            double now = step(w, from - 1, from) + step(w, to, to + 1);
            double then = apart(leave(w, from - 1), leave(w, to)) +
                          apart(enter(w, from), enter(w, to + 1));
            if (now - then > GAIN_LEAST_FT) {
                reverse(w, from, to);
                shorter = true;
            }
        }
    return shorter;
}

/* Moves the places [from, from + many) behind place `to`, as they are or turned. */
static void move_runs_to(struct way *w, size_t from, size_t many, size_t to, bool turned)
{
    struct run run[MOVED_MOST];
    if (turned)
        reverse(w, from, from + many - 1);
    memcpy(run, w->run + from, many * sizeof *run);
    size_t at;
    if (to < from) {
        memmove(w->run + to + 1 + many, w->run + to + 1, (from - to - 1) * sizeof *run);
        at = to + 1;
    } else {
        size_t behind = from + many;
        memmove(w->run + from, w->run + behind, (to + 1 - behind) * sizeof *run);
        at = to + 1 - many;
    }
    memcpy(w->run + at, run, many * sizeof *run);
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
            const struct point *head = turned ? leave(w, last) : enter(w, from);
            const struct point *tail = turned ? enter(w, from) : leave(w, last);
            double more = apart(leave(w, to), head) + apart(tail, enter(w, to + 1));
            if (open - more > gain) {
                gain = open - more;
                best = to;
                best_turned = turned == 1;
            }
        }
    }
    if (!(gain > GAIN_LEAST_FT))
        return false;
    move_runs_to(w, from, many, best, best_turned);
    return true;
}

static bool move_runs(struct way *w)
{
    bool shorter = false;
    for (size_t many = 1; many <= MOVED_MOST; many++)
        for (size_t from = 1; from + many - 1 <= w->count; from++)
            shorter = move_to_best(w, from, many) || shorter;
    return shorter;
}

/* The way to a flag from the one before, or from the start. */
static void tell_step(const struct stakeout_ask *ask, size_t flag,
                      const struct point *before, struct stake *s)
{
    const struct point *at = &ask->flags[flag].at;
    *s = (struct stake){ flag, before == NULL, NAN, NAN, 0, NAN };
    if (!before)
        return;
    s->azimuth = bearing_between(*before, *at);
    s->magnetic = bearing_magnetic(s->azimuth, ask->declination);
    s->distance_ft = apart(before, at);
    if (ask->pace_ft > 0)
        s->paces = s->distance_ft / ask->pace_ft;
}

static void tell_steps(const struct way *w, struct stakeout *out)
{
    const struct stakeout_ask *ask = w->ask;
    const struct point *before = ask->start;
    size_t told = 0;
    for (size_t i = 1; i <= w->count; i++) {
        const struct run *r = &w->run[i];
        for (size_t k = 0; k <= r->last - r->first; k++) {
            struct stake *s = &out->stakes[told++];
            tell_step(ask, r->turned ? r->last - k : r->first + k, before, s);
            out->length_ft += s->distance_ft;
            before = &ask->flags[s->flag].at;
        }
    }
    if (ask->returns && told > 0)
        out->length_ft += apart(before, ask->start);
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
    struct way w = { ask, calloc(ask->count + 1, sizeof *w.run), 0 };
    out->stakes = calloc(ask->count + 1, sizeof *out->stakes);
    out->count = ask->count;
    if (!w.run || !out->stakes) {
        free(w.run);
        stakeout_free(out);
        return fault_no_memory(f);
    }
    find_runs(&w);
    nearest_first(&w);
    while (turn_stretches(&w) || move_runs(&w))
        continue;
    tell_steps(&w, out);
    free(w.run);
    return true;
}

void stakeout_free(struct stakeout *s)
{
    free(s->stakes);
    *s = (struct stakeout){ .stakes = NULL };
}
