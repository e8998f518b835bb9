/* The search over orders of placing and crews (search.h), for a plan. A schedule is made
 * from a list of groups, each placed in turn as early as it can be (serial generation:
 * Kolisch 1996, from memory), by the crew that is chosen for it or by any. The order of
 * the plan is the first rule, so that it stands where nothing is gained.
 *
 * Putting a schedule's groups in the order of their starts or finishes and placing them
 * again, which betters projects, was tried and does not pay here: what a list says of
 * groups in seasons to come is lost, and the tries are better spent on other lists. */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "work/schedule_search.h"

/* Shows the schedule at hand to the test that asked for it; under the sanitizers it
 * stands before the checker. */
static bool be_watched(struct solver *s, struct fault *f)
{
    struct schedule shown = { .told = s->told, .count = s->task->job_count };
    if (!IS_WATCHED(s))
        return true;
    if (!solver_tell(s, f))
        return false;
    assert(schedule_check(s->task, &shown, NULL));
    if (s->task->watch)
        s->task->watch(s->task->watcher, s->task, &shown);
    return true;
}

static bool make(void *of, struct search_pick *pick, size_t *left, struct fault *f)
{
    struct plan_search *a = of;
    struct solver *s = a->s;
    for (size_t k = 0; k < s->group_count; k++) {
        size_t g = s->order[k] = pick->list[k];
        s->place[g] = k;
        s->groups[g].wanted = a->crews[a->crew_at[g] + pick->choice[g]];
    }
    s->outcome.tries++;
    --*left;
    if (!solver_place(s, f) || !be_watched(s, f))
        return false;
    struct score score = score_of(s, s->bounds);
    memcpy(pick->score, score.of, sizeof score.of);
    return true;
}

static bool begin(void *of, struct search_pick *pick, int *value, size_t *left,
                  bool *made, struct fault *f)
{
    struct plan_search *a = of;
    *made = false;
    while (a->begun < RULES * THRIFTS && !*made) {
        int k = a->begun++;
        *made = keys_crews(a, (enum thrift)(k / RULES), pick->choice);
        if (*made && !keys_values(a, (enum rule)(k % RULES), value, f))
            return false;
    }
    if (!*made)
        return true;
    lists_by_value(a->lists, value, pick->list);
    a->s->quiet = a->s->outcome.tries > 0 && !IS_WATCHED(a->s); /* the first may stay */
    return make(a, pick, left, f);
}

/* When nothing else can be better, this part of the schedules goes into evener weeks: what
 * is left to gain is least. */
enum { EVENING_PART = 6 };

/* How many schedules suit a plan: small ones can be tried often. */
static size_t tries_for(size_t groups)
{
    size_t tries = groups ? 36000 / groups : 1;
    return tries < 100 ? 100 : tries > 600 ? 600 : tries;
}

/* Does it wait for itself? It is never placed, and nothing need wait for it. */
static bool goes_round(const struct solver *s, size_t g)
{
    return s->told[s->groups[g].first].r.why == SCHEDULE_CYCLE;
}

static struct lists *lists_of(const struct solver *s, struct fault *f)
{
    size_t count = 0;
    struct lists_pair *pairs = malloc((s->tie_count + 1) * sizeof *pairs);
    if (!pairs) {
        fault_no_memory(f);
        return NULL;
    }
    for (size_t i = 0; i < s->tie_count; i++)
        if (!goes_round(s, s->ties[i].before) && !goes_round(s, s->ties[i].after))
            pairs[count++] = (struct lists_pair){ (uint32_t)s->ties[i].before,
                                                  (uint32_t)s->ties[i].after };
    struct lists *l = lists_new(s->group_count, pairs, count, f);
    free(pairs);
    return l;
}

static bool plan_search_init(struct plan_search *a, struct solver *s,
                             struct search_pick *best, struct fault *f)
{
    size_t n = s->group_count + 1;
    *a = (struct plan_search){ .s = s };
    s->bounds = calloc(n, sizeof *s->bounds);
    a->key = malloc(n * sizeof *a->key);
    a->marked = malloc(n * sizeof *a->marked);
    best->list = malloc(n * sizeof *best->list);
    best->choice = malloc(n * sizeof *best->choice);
    if (!s->bounds || !a->key || !a->marked || !best->list || !best->choice)
        return fault_no_memory(f);
    a->lists = lists_of(s, f);
    return a->lists && bounds_find(s, s->bounds, f) && keys_choices(a, f);
}

static void plan_search_clear(struct plan_search *a)
{
    lists_free(a->lists);
    free(a->choices);
    free(a->crews);
    free(a->crew_at);
    free(a->key);
    free(a->marked);
}

static bool run(struct plan_search *a, struct search_pick *best, struct fault *f)
{
    struct solver *s = a->s;
    struct score bound = score_bound(s, s->bounds);
    size_t most = s->task->tries > 0 ? s->task->tries : tries_for(s->group_count);
    struct search_problem p = { .of = a,
                                .lists = a->lists,
                                .choices = a->choices,
                                .scores = SCORES,
                                .alike = SCORE_ALIKE,
                                .bound = bound.of,
                                .bounded = SCORE_UNEVEN,
                                .beyond = most / EVENING_PART,
                                .begin = begin,
                                .make = make };
    /* One is kept for making the best one again. */
    struct search_ask ask = { .schedules = most - 1, .seed = s->task->seed };
    struct search_outcome out;
    if (!search_run(&p, &ask, best, &out, f))
        return false;
    s->outcome.proven = out.reached || out.all;
    s->quiet = false;
    return s->outcome.tries == 1 || make(a, best, &(size_t){ 1 }, f);
}

bool solver_search(struct solver *s, struct fault *f)
{
    struct plan_search a;
    struct search_pick best = { .list = NULL };
    bool fine = plan_search_init(&a, s, &best, f) && run(&a, &best, f);
    s->quiet = false;
    plan_search_clear(&a);
    free(best.list);
    free(best.choice);
    return fine;
}
