/* The days before which several jobs cannot all be done: by the longest path through
 * windows and lags (schedule_bound.c), and by the hours of crews. */
#include "work/schedule_parts.h"

#include <limits.h>
#include <math.h>
#include <stdlib.h>

#include "base/fault.h"

/* Sets of crews and first days that are looked at, at most: each alone is a bound, so that
 * fewer are only less sharp. */
enum { CREW_SETS = 16, FIRST_DAYS = 16 };

struct pool {
    struct solver *s;
    size_t *groups; /* those of the goal that take hours, by first day, latest first */
    size_t count;
    struct dayset open; /* days on which any of those looked at may be done */
};

static bool is_of_goal(const struct solver *s, size_t g, enum schedule_goals goal)
{
    const struct group *group = &s->groups[g];
    if (!group->placed || !s->bounds[g].possible)
        return false;
    switch (goal) {
    case SCHEDULE_FIRST_YEAR:
        return !group->nobody && s->bounds[g].start < s->begin + 365;
    case SCHEDULE_MARKED_FIRST: return group_is_first(s, group);
    case SCHEDULE_ALL:
    case SCHEDULE_GOALS: break;
    }
    return true;
}

/* The hours that the crews of a set can have worked on the days of the pool up to `day`,
 * in the week that it lies in. */
static double week_hours(struct pool *p, uint64_t set, int from, int day)
{
    const struct solver *s = p->s;
    double hours = 0;
    int monday = day - day % 7;
    for (size_t c = 0; c < s->task->crew_count; c++) {
        if (!(set >> c & 1))
            continue;
        double days = 0;
        for (int d = monday > from ? monday : from; d <= day; d++)
            if (dayset_has(&p->open, d) && dayset_has(&s->crews[c].open, d))
                days += s->crews[c].day_most[d];
        hours += fmin(s->crews[c].week_most[monday / 7], days);
    }
    return hours;
}

/* The first day on which the crews may have worked so many hours. */
static int day_of_hours(struct pool *p, uint64_t set, int from, double hours)
{
    double before = 0;
    hours -= 1e-6; /* sums of doubles */
    for (int d = dayset_next(&p->open, from); d < p->s->days;) {
        int sunday = d - d % 7 + 6;
        double week = week_hours(p, set, from, sunday);
        if (before + week >= hours) {
            while (before + week_hours(p, set, from, d) < hours)
                d = dayset_next(&p->open, d + 1);
            return d;
        }
        before += week;
        d = dayset_next(&p->open, sunday + 1);
    }
    return p->s->days - 1;
}

/* The groups that only these crews can do, from each of some first days on. */
static int bound_of_set(struct pool *p, uint64_t set)
{
    const struct solver *s = p->s;
    double hours = 0;
    int latest = 0;
    size_t step = p->count / FIRST_DAYS + 1;
    dayset_empty(&p->open);
    for (size_t i = 0; i < p->count; i++) {
        size_t g = p->groups[i];
        const struct bound *b = &s->bounds[g];
        if ((b->crews & ~set) == 0) {
            hours += s->groups[g].hours;
            dayset_or(&p->open, group_open(s, &s->groups[g]));
        }
        bool last = i + 1 == p->count;
        if (hours <= 0 ||
            (!last && (i % step != 0 || s->bounds[p->groups[i + 1]].start == b->start)))
            continue;
        int day = day_of_hours(p, set, b->start, hours);
        latest = day > latest ? day : latest;
    }
    return latest;
}

static int bound_of_hours(struct pool *p)
{
    uint64_t seen[CREW_SETS];
    size_t sets = 0;
    int latest = 0;
    for (size_t i = 0; i < p->count && sets < CREW_SETS; i++) {
        uint64_t set = p->s->bounds[p->groups[i]].crews;
        bool again = false;
        for (size_t k = 0; k < sets && !again; k++)
            again = seen[k] == set;
        if (again)
            continue;
        seen[sets++] = set;
        int day = bound_of_set(p, set);
        latest = day > latest ? day : latest;
    }
    return latest;
}

struct row {
    int start;
    size_t group;
};

static int by_start_latest_first(const void *a, const void *b)
{
    const struct row *x = a, *y = b;
    if (x->start != y->start)
        return x->start > y->start ? -1 : 1;
    return x->group < y->group ? -1 : x->group > y->group;
}

static void goal_find(struct pool *p, struct row *rows, enum schedule_goals which)
{
    struct solver *s = p->s;
    struct schedule_goal *goal = &s->outcome.goals[which];
    int bound = INT_MIN, finish = INT_MIN; /* a stated date may lie before the plan */
    size_t jobs = 0;
    p->count = 0;
    for (size_t g = 0; g < s->group_count; g++) {
        const struct group *group = &s->groups[g];
        if (s->task->jobs[group->first].done || !is_of_goal(s, g, which))
            continue;
        for (size_t job = group->first; job != SCHEDULE_NONE; job = s->next[job])
            jobs++;
        finish = group->finish > finish ? group->finish : finish;
        bound = s->bounds[g].finish > bound ? s->bounds[g].finish : bound;
        if (!group->fixed && group->hours > 0 && s->bounds[g].crews != 0)
            rows[p->count++] = (struct row){ s->bounds[g].start, g };
    }
    qsort(rows, p->count, sizeof *rows, by_start_latest_first);
    for (size_t i = 0; i < p->count; i++)
        p->groups[i] = rows[i].group;
    int by_hours = p->count > 0 ? bound_of_hours(p) : INT_MIN;
    if (jobs == 0)
        bound = finish = 0;
    goal->jobs = jobs;
    goal->finish = solver_date(s, finish);
    goal->bound = solver_date(s, by_hours > bound ? by_hours : bound);
}

bool goals_find(struct solver *s, struct fault *f)
{
    struct pool p = { .s = s };
    struct row *rows = malloc((s->group_count + 1) * sizeof *rows);
    p.groups = malloc((s->group_count + 1) * sizeof *p.groups);
    bool fine =
        rows && p.groups ? dayset_init(&p.open, s->base, s->days, f) : fault_no_memory(f);
    for (int goal = 0; fine && goal < SCHEDULE_GOALS; goal++)
        goal_find(&p, rows, (enum schedule_goals)goal);
    dayset_clear(&p.open);
    free(p.groups);
    free(rows);
    return fine;
}
