#include "work/search_inner.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/chance.h"
#include "base/fault.h"

/* Found by trial. Up to so many schedules a single list that is changed again and again
 * comes further than many, which first have to be sown: on drawn plans of 20 to 60 acts,
 * with 100 to 600 schedules. Beyond, on drawn projects of 30 to 120 activities with 1,000
 * to 50,000, many do: the more parents the longer they last, the fewer the faster they
 * are. */
enum {
    CLIMBED_MOST = 600,
    PARENTS_MOST = 1000, /* as the square root of the schedules */
    STALE = 20           /* children to each parent without a better one: sown anew */
};

#define WORTH_IT 0.05 /* past the bound, a part less; else the first one found stands */

/* ---- good, better, best ---- */

int search_compare(const double *a, const double *b, size_t count, double alike)
{
    for (size_t i = 0; i < count; i++) {
        double apart = a[i] - b[i];
        if (apart != 0 && fabs(apart) > alike * fmax(1, fabs(a[i])))
            return apart < 0 ? -1 : 1;
    }
    return 0;
}

static int compare(const struct search *s, const struct search_pick *a,
                   const struct search_pick *b)
{
    return search_compare(a->score, b->score, s->p->scores, s->p->alike);
}

void search_copy(const struct search *s, struct search_pick *to,
                 const struct search_pick *from)
{
    size_t bytes = s->p->lists->count * sizeof *to->list;
    memcpy(to->list, from->list, bytes);
    if (s->p->choices)
        memcpy(to->choice, from->choice, bytes);
    memcpy(to->score, from->score, sizeof to->score);
}

static bool is_reached(const struct search *s)
{
    for (size_t i = 0; i < s->p->bounded; i++)
        if (s->best->score[i] > s->p->bound[i] + 1e-6)
            return false;
    return s->any && s->p->bounded > 0;
}

bool search_is_done(const struct search *s)
{
    return s->left == 0;
}

/* Once the bound is reached few more are made, and only what is gained there counts. */
static void go_past(struct search *s)
{
    s->past = true;
    if (s->left <= s->p->beyond)
        return;
    s->spared = s->left - s->p->beyond;
    s->left = s->p->beyond;
}

/* Of equals the first is the best. */
static bool is_better(const struct search *s)
{
    const double *child = s->child.score, *best = s->best->score;
    size_t bounded = s->p->bounded;
    if (!s->past)
        return compare(s, &s->child, s->best) < 0;
    return search_compare(child, best, bounded, s->p->alike) <= 0 &&
           bounded < s->p->scores && child[bounded] < best[bounded] * (1 - WORTH_IT);
}

/* Whether the child is the best so far. */
static bool settle(struct search *s)
{
    if (s->any && !is_better(s))
        return false;
    s->any = true;
    search_copy(s, s->best, &s->child);
    if (!s->past && is_reached(s))
        go_past(s);
    if (s->p->keep)
        s->p->keep(s->p->of);
    return true;
}

bool search_make(struct search *s, bool *better)
{
    if (!s->p->make(s->p->of, &s->child, &s->left, s->f))
        return false;
    *better = settle(s);
    return true;
}

/* ---- parents ---- */

static bool is_there(const struct search *s, const struct search_pick *a)
{
    size_t bytes = s->p->lists->count * sizeof *a->list;
    return compare(s, a, &s->child) == 0 && memcmp(a->list, s->child.list, bytes) == 0 &&
           (!s->p->choices || memcmp(a->choice, s->child.choice, bytes) == 0);
}

/* The child in place of the worst parent, unless it is worse or there already: whether it
 * was taken in. */
static bool take_in(struct search *s)
{
    size_t worst = 0;
    for (size_t k = 0; k < s->count; k++) {
        if (is_there(s, &s->parents[k]))
            return false;
        if (compare(s, &s->parents[k], &s->parents[worst]) > 0)
            worst = k;
    }
    if (s->count < s->wanted)
        worst = s->count++;
    else if (compare(s, &s->child, &s->parents[worst]) > 0)
        return false;
    search_copy(s, &s->parents[worst], &s->child);
    return true;
}

/* The next schedule by a rule; *made is false when there is none. */
static bool try_rule(struct search *s, bool *made)
{
    if (!s->p->begin(s->p->of, &s->child, s->value, &s->left, made, s->f))
        return false;
    if (!*made)
        return true;
    if (settle(s))
        memcpy(s->lean, s->value, s->p->lists->count * sizeof *s->lean);
    take_in(s);
    return true;
}

/* Lists by chance until there are parents enough, choices as in the best so far. */
static bool sow(struct search *s)
{
    while (s->count < s->wanted && !search_is_done(s)) {
        bool better;
        search_copy(s, &s->child, s->best);
        lists_by_chance(s->p->lists, s->lean, &s->chance, s->child.list);
        if (!search_make(s, &better))
            return false;
        search_copy(s, &s->parents[s->count++], &s->child);
    }
    return true;
}

/* The better of two by chance. */
static const struct search_pick *choose(struct search *s)
{
    const struct search_pick *a = &s->parents[chance_below(&s->chance, s->count)];
    const struct search_pick *b = &s->parents[chance_below(&s->chance, s->count)];
    return compare(s, a, b) <= 0 ? a : b;
}

static bool climb(struct search *s)
{
    bool better;
    while (!search_is_done(s)) {
        search_copy(s, &s->child, &s->parents[0]);
        search_child_change(s);
        if (!search_make(s, &better))
            return false;
        take_in(s);
    }
    return true;
}

/* Children of a kind, and those of them that were taken in. */
struct kind {
    size_t made, taken;
};

/* The share taken in; its third power, found by trial, leans to the better kind. */
static double worth(const struct kind *k)
{
    double share = (double)(k->taken + 1) / (double)(k->made + 2);
    return share * share * share;
}

/* Children by crossing and by changes, each the more often the more of them are taken in:
 * where orders are all, lists are worth crossing; where seasons and crews count more,
 * changes are (drawn projects and plans differ in that; both were tried). */
static bool breed(struct search *s)
{
    struct kind crossed = { 0 }, changed = { 0 };
    size_t stale = 0;
    while (!search_is_done(s)) {
        bool better;
        const struct search_pick *a = choose(s), *b = choose(s);
        double sum = worth(&crossed) + worth(&changed);
        bool cross = chance_unit(&s->chance) * sum < worth(&crossed);
        struct kind *kind = cross ? &crossed : &changed;
        if (cross) {
            search_child_cross(s, a, b);
        } else {
            search_copy(s, &s->child, compare(s, a, b) <= 0 ? a : b);
            search_child_change(s);
        }
        if (!search_make(s, &better))
            return false;
        kind->made++;
        kind->taken += take_in(s);
        stale = better ? 0 : stale + 1;
        if (stale <= STALE * s->count)
            continue;
        stale = s->count = 0;
        if (!sow(s))
            return false;
    }
    return true;
}

/* ---- the whole ---- */

static bool pick_new(const struct search *s, struct search_pick *p)
{
    size_t count = s->p->lists->count + 1;
    p->list = calloc(count, sizeof *p->list);
    p->choice = s->p->choices ? calloc(count, sizeof *p->choice) : NULL;
    return p->list && (p->choice || !s->p->choices);
}

static void pick_free(struct search_pick *p)
{
    free(p->list);
    free(p->choice);
}

static bool search_init(struct search *s)
{
    size_t count = s->p->lists->count + 1;
    s->wanted = 1;
    while (s->left > CLIMBED_MOST && s->wanted < PARENTS_MOST &&
           (s->wanted + 1) * (s->wanted + 1) <= s->left)
        s->wanted++;
    s->value = calloc(count, sizeof *s->value);
    s->lean = calloc(count, sizeof *s->lean);
    s->taken = calloc(count, sizeof *s->taken);
    s->parents = calloc(s->wanted, sizeof *s->parents);
    bool good = s->value && s->lean && s->taken && s->parents && pick_new(s, &s->child);
    for (size_t k = 0; good && k < s->wanted; k++)
        good = pick_new(s, &s->parents[k]);
    return good || fault_no_memory(s->f);
}

static void search_clear(struct search *s)
{
    for (size_t k = 0; s->parents && k < s->wanted; k++)
        pick_free(&s->parents[k]);
    pick_free(&s->child);
    free(s->parents);
    free(s->value);
    free(s->lean);
    free(s->taken);
}

static bool run(struct search *s)
{
    bool made = false;
    size_t most = s->left;
    if (!try_rule(s, &made))
        return false;
    assert(made);
    if (!search_try_all(s, most - s->spared - s->left))
        return false;
    while (made && !s->all && !search_is_done(s))
        if (!try_rule(s, &made))
            return false;
    return s->all || (sow(s) && (s->wanted > 1 ? breed(s) : climb(s)));
}

bool search_run(const struct search_problem *p, const struct search_ask *ask,
                struct search_pick *best, struct search_outcome *out, struct fault *f)
{
    struct search s = { .p = p,
                        .left = ask->schedules > 0 ? ask->schedules : 1,
                        .best = best,
                        .chance = ask->seed,
                        .f = f };
    size_t most = s.left;
    bool good = search_init(&s) && run(&s);
    *out = (struct search_outcome){ most - s.spared - s.left, is_reached(&s), s.all };
    search_clear(&s);
    return good;
}
