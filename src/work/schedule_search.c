/* Tries orders of placing and crews. A schedule is made from a key for each group: of the
 * groups that wait for nothing any more the one with the lowest key is placed next, as
 * early as it can be (serial generation: Kolisch 1996, from memory); what others wait for
 * is as urgent as the most urgent of these. First come a few rules of thumb for the keys,
 * then changes of the best one by chance: a group is brought forward, two change places,
 * a group is left to one crew. What is no worse is gone on from; of equals the one found
 * first is taken, so that the order of the plan stands where nothing is gained. */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "work/schedule_search.h"

/* ---- numbers by chance ---- */

/* xorshift64* (Vigna 2016; its constants from memory): the same on every machine. */
static uint64_t next_random(uint64_t *state)
{
    *state ^= *state >> 12;
    *state ^= *state << 25;
    *state ^= *state >> 27;
    return *state * UINT64_C(0x2545f4914f6cdd1d);
}

static size_t below(struct search *a, size_t count)
{
    return (size_t)((next_random(&a->random) >> 33) % count);
}

/* Shows the schedule at hand to the test that asked for it; under the sanitizers all
 * stand before the checker, the one that is returned among them. */
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

static bool try_now(struct search *a, struct score *score, struct fault *f)
{
    struct solver *s = a->s;
    order_make(a);
    for (size_t g = 0; g < s->group_count; g++)
        s->groups[g].wanted = a->now.wanted[g];
    s->outcome.tries++;
    if (!solver_place(s, f) || !be_watched(s, f))
        return false;
    *score = score_of(s, s->bounds);
    return true;
}

static void choice_copy(const struct search *a, struct choice *to, const struct choice *from)
{
    memcpy(to->key, from->key, a->s->group_count * sizeof *to->key);
    memcpy(to->wanted, from->wanted, a->s->group_count * sizeof *to->wanted);
}

/* ---- rules of thumb ---- */

/* Nothing better is to be had where it counts. */
static bool is_enough(const struct search *a)
{
    for (int i = 0; i < SCORE_UNEVEN; i++)
        if (a->best_score.of[i] > a->bound.of[i] + 1e-6)
            return false;
    return true;
}

/* One try is kept for making the best one again. */
static bool goes_on(const struct search *a)
{
    return a->s->outcome.tries + 1 < a->most && !is_enough(a);
}

static bool try_rules(struct search *a, struct fault *f)
{
    struct solver *s = a->s;
    struct score score;
    for (int i = 0; i < RULES * THRIFTS; i++) {
        enum rule rule = (enum rule)(i % RULES);
        if (i > 0 && !goes_on(a))
            break;
        if (!crews_want(a, (enum thrift)(i / RULES)))
            continue;
        for (size_t g = 0; g < s->group_count; g++)
            a->now.key[g] = key_by(a, rule, g);
        s->quiet = i > 0 && !IS_WATCHED(s); /* it may be the only one */
        if (!keys_rank(a, f) || !try_now(a, &score, f))
            return false;
        if (i == 0 || score_compare(&score, &a->best_score) < 0) {
            a->best_score = score;
            choice_copy(a, &a->best, &a->now);
        }
    }
    return true;
}

/* ---- changes by chance ---- */

static void want_some_crew(struct search *a, size_t g)
{
    const struct solver *s = a->s;
    const struct schedule_job *j = &s->task->jobs[s->groups[g].first];
    size_t count = j->who == SCHEDULE_LISTED ? j->crew_count : s->task->crew_count;
    if (s->groups[g].nobody || count < 2)
        return;
    size_t pick = below(a, count + 1);
    a->now.wanted[g] = pick == count               ? SCHEDULE_NONE
                       : j->who == SCHEDULE_LISTED ? j->crews[pick]
                                                   : pick;
}

static void change(struct search *a)
{
    size_t n = a->s->group_count, g = below(a, n), h = below(a, n);
    double *key = a->now.key;
    switch (below(a, 4)) {
    case 0: {
        double kept = key[g];
        key[g] = key[h];
        key[h] = kept;
        break;
    }
    case 1:
        if (below(a, 2) == 0)
            want_some_crew(a, g);
        else
            a->now.wanted[g] = cheapest_crew(a->s, g);
        break;
    default:
        key[g] = key[h] - 0.5; /* just before it */
        break;
    }
}

static bool climb(struct search *a, struct fault *f)
{
    struct score score;
    a->s->quiet = !IS_WATCHED(a->s);
    a->here_score = a->best_score;
    choice_copy(a, &a->here, &a->best);
    while (goes_on(a)) {
        choice_copy(a, &a->now, &a->here);
        for (size_t i = 1 + below(a, 3); i > 0; i--)
            change(a);
        if (!try_now(a, &score, f))
            return false;
        if (score_compare(&score, &a->here_score) > 0)
            continue;
        a->here_score = score;
        choice_copy(a, &a->here, &a->now);
        if (score_compare(&score, &a->best_score) < 0) {
            a->best_score = score;
            choice_copy(a, &a->best, &a->now);
        }
    }
    return true;
}

/* ---- the whole ---- */

/* How many schedules suit a plan: small ones can be tried often. */
static size_t tries_for(size_t groups)
{
    size_t tries = groups ? 36000 / groups : 1;
    return tries < 100 ? 100 : tries > 600 ? 600 : tries;
}

static bool search_init(struct search *a, struct solver *s, struct fault *f)
{
    size_t n = s->group_count + 1;
    *a = (struct search){ .s = s, .most = s->task->tries };
    if (a->most == 0)
        a->most = tries_for(s->group_count);
    a->random = (s->task->seed + 1) * UINT64_C(0x9e3779b97f4a7c15);
    s->bounds = calloc(n, sizeof *s->bounds);
    a->now.key = calloc(3 * n, sizeof *a->now.key);
    a->now.wanted = calloc(3 * n, sizeof *a->now.wanted);
    a->urgent = calloc(n, sizeof *a->urgent);
    a->waits = calloc(n, sizeof *a->waits);
    a->heap = calloc(n, sizeof *a->heap);
    a->after = calloc(s->tie_count + 1, sizeof *a->after);
    a->after_at = calloc(n + 1, sizeof *a->after_at);
    if (!s->bounds || !a->now.key || !a->now.wanted || !a->urgent || !a->waits ||
        !a->heap || !a->after || !a->after_at)
        return fault_no_memory(f);
    a->here = (struct choice){ a->now.key + n, a->now.wanted + n };
    a->best = (struct choice){ a->here.key + n, a->here.wanted + n };
    for (size_t g = 0; g < s->group_count; g++)
        a->now.wanted[g] = a->best.wanted[g] = SCHEDULE_NONE;
    for (size_t i = 0; i < s->tie_count; i++)
        a->after_at[s->ties[i].before + 2]++;
    for (size_t g = 2; g < n + 1; g++)
        a->after_at[g] += a->after_at[g - 1];
    for (size_t i = 0; i < s->tie_count; i++)
        a->after[a->after_at[s->ties[i].before + 1]++] = s->ties[i].after;
    return true;
}

static void search_clear(struct search *a)
{
    free(a->now.key);
    free(a->now.wanted);
    free(a->urgent);
    free(a->waits);
    free(a->heap);
    free(a->after);
    free(a->after_at);
}

bool solver_search(struct solver *s, struct fault *f)
{
    struct search a;
    struct score score;
    bool fine = search_init(&a, s, f) && bounds_find(s, s->bounds, f);
    if (fine) {
        a.bound = score_bound(s, s->bounds);
        fine = try_rules(&a, f) && climb(&a, f);
        s->quiet = false;
        if (s->outcome.tries > 1) {
            choice_copy(&a, &a.now, &a.best);
            fine = fine && try_now(&a, &score, f);
        }
    }
    s->outcome.proven = fine && is_enough(&a);
    search_clear(&a);
    return fine;
}
