/* project.h: the shortest schedule of activities that share renewable resources, with a
 * lower bound beside it.
 *
 *     struct project p = { .activities = a, .count = 30, .resources = r,
 *                          .resource_count = 4, .orders = o, .order_count = 40 };
 *     struct project_ask ask = { .schedules = 50000, .seed = 1, .steps = 20000 };
 *     struct project_answer out;
 *     if (!project_solve(&p, &ask, &out, f)) ...          // input faults, memory
 *     if (out.state == PROJECT_FOUND)
 *         printf("finishes %d, cannot finish before %d", out.finish, out.bounds.best);
 *     project_answer_free(&out);
 *
 * The resource-constrained project scheduling problem: an activity runs `duration` units
 * of time without a pause and takes its demand of every resource while it runs; at no
 * time may the demands of those that run exceed a capacity. Time is whole units from 0:
 * an activity with start s and duration d runs in the units s .. s + d - 1 and has its
 * finish at s + d. Orders are finish to start, with a least and, if wanted, a most lag,
 * each of which may be negative (generalised precedence). Activities may have an earliest
 * start and a latest finish, resources a capacity for every unit of time. Demands and
 * capacities are whole numbers from 0 to PROJECT_MOST_DEMAND.
 *
 * Objective: the least finish of the last activity, all limits kept. Found by priority
 * rules and the search over lists (project_improve.h); proven by lower bounds
 * (project_bound.h) and, as far as `steps` go, by branch and bound (project_exact.h).
 *
 * What it is for here: plans are scheduled by schedule.h, and by the same search
 * (search.h); this is the model of the literature, for which sets with known answers are
 * published, so that the search can be measured on them (tests/bench/rcpsp.c). What
 * places a thing, bounds, checks and proves is each model's own: a plan has seasons,
 * hours that a crew does not have every day, and seven aims; a project has units of time
 * that are all alike, several resources at once, and one aim.
 *
 * Same project, same ask: same answer; the clock is never looked at. */
#ifndef SPINNEY_WORK_PROJECT_H
#define SPINNEY_WORK_PROJECT_H

#include <limits.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct buf;
struct fault;

enum {
    PROJECT_MOST_DEMAND = 32767,
    PROJECT_MOST_ACTIVITIES = 20000,
    PROJECT_MOST_TIME = 1000000,
    PROJECT_NO_END = INT_MAX, /* of a most lag, of a latest finish */
    PROJECT_NOWHERE = -1      /* the start of an activity that is not placed */
};

struct project_activity {
    int duration;       /* 0 or more */
    const int *demands; /* one a resource; NULL: takes none */
    int earliest;       /* of the start; 0 or more */
    int latest;         /* of the finish; PROJECT_NO_END when there is none */
};

struct project_resource {
    int capacity;
    const int *by_time; /* NULL, or the capacity of each unit below `horizon` */
};

/* least <= start of `after` - finish of `before` <= most. */
struct project_order {
    size_t before, after;
    int least, most;
};

struct project {
    const struct project_activity *activities;
    size_t count;
    const struct project_resource *resources;
    size_t resource_count;
    const struct project_order *orders;
    size_t order_count;
    int horizon; /* nothing runs at or after it; 0: wide enough for one after another */
};

/* No schedule finishes before any of these. */
struct project_bounds {
    int path;    /* orders and earliest starts alone: the critical path */
    int energy;  /* demand times duration against each capacity */
    int apart;   /* sets of which no more than one, two, three can run together */
    int windows; /* earlier finishes refuted by propagation of time windows */
    int best;    /* the largest, and what branch and bound has proven */
};

struct project_ask {
    size_t schedules; /* budget of the heuristics, in schedules built; at least 1 is */
    uint64_t seed;
    size_t steps;     /* budget of branch and bound, in nodes; 0: none */
};

enum project_state {
    PROJECT_NOT_FOUND, /* none found within the budgets */
    PROJECT_FOUND,
    PROJECT_IMPOSSIBLE /* proven: no schedule keeps all limits */
};

struct project_answer {
    enum project_state state;
    bool optimal; /* found, and proven that none finishes earlier */
    int *starts;  /* of each activity; when not found the nearest there was, or NULL */
    int finish;
    struct project_bounds bounds;
    size_t schedules, steps; /* used */
};

/* Faults: "project-number" (a number out of its range), "project-demand" (an activity
 * that no resource can ever serve), "project-cycle" (activities that wait for each other,
 * or lags that contradict each other), memory. */
bool project_solve(const struct project *p, const struct project_ask *ask,
                   struct project_answer *out, struct fault *f);
void project_answer_free(struct project_answer *a);

/* Checks starts from the definition above, without what made them. True when all holds,
 * else appends the first breach to `out` (which may be NULL). */
bool project_check(const struct project *p, const int *starts, struct buf *out);

#endif
