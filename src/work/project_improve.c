#include "work/project_improve.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "work/project_rules.h"

/* Found by trial on drawn projects of 30 and 120 activities, with budgets of 5,000 and
 * 50,000 schedules: many parents last longer, few are faster. */
enum {
    PARENTS_LEAST = 12, /* else as the square root of the budget */
    SWAPS = 10,         /* neighbours swapped, in a thousand */
    STALE = 20          /* children to each parent without a better one: start afresh */
};

struct member {
    uint32_t *list;
    struct project_schedule schedule;
};

struct search {
    const struct project_net *net;
    struct project_sgs *sgs;
    struct project_lists *lists;
    struct member *parents, child, best;
    size_t wanted, count; /* parents */
    int *value;           /* of the rule that lists by chance lean on */
    bool *taken;
    uint64_t chance;
    int bound;
};

static void copy(const struct search *s, struct member *to, const struct member *from)
{
    size_t count = s->net->count;
    memcpy(to->list, from->list, count * sizeof *to->list);
    memcpy(to->schedule.starts, from->schedule.starts, count * sizeof(int));
    to->schedule.finish = from->schedule.finish;
    to->schedule.late = from->schedule.late;
}

static bool is_done(const struct search *s)
{
    return s->sgs->used >= s->sgs->budget ||
           (s->best.schedule.late == 0 && s->best.schedule.finish <= s->bound);
}

/* Betters the child just built. Whether it is the best so far. */
static bool settle(struct search *s)
{
    sgs_justify(s->sgs, &s->child.schedule);
    sgs_list(s->sgs, &s->child.schedule, s->child.list);
    if (project_compare(&s->child.schedule, &s->best.schedule) >= 0)
        return false;
    copy(s, &s->best, &s->child);
    return true;
}

static bool try_rules(struct search *s, struct fault *f)
{
    for (int rule = 0; rule < RULE_COUNT && !is_done(s); rule++) {
        if (!rules_values(s->net, (enum project_rule)rule, s->value, f))
            return false;
        lists_by_value(s->lists, s->value, s->child.list);
        if (sgs_serial(s->sgs, s->child.list, &s->child.schedule))
            settle(s);
        lists_sorted(s->lists, s->value, s->child.list);
        if (!is_done(s) && sgs_parallel(s->sgs, s->child.list, &s->child.schedule))
            settle(s);
    }
    if (!is_done(s) && sgs_worst_case(s->sgs, &s->child.schedule))
        settle(s);
    return rules_values(s->net, RULE_LFT, s->value, f);
}

static void sow(struct search *s)
{
    for (s->count = 0; s->count < s->wanted && !is_done(s); s->count++) {
        lists_by_chance(s->lists, s->value, &s->chance, s->child.list);
        sgs_serial(s->sgs, s->child.list, &s->child.schedule);
        settle(s);
        copy(s, &s->parents[s->count], &s->child);
    }
}

/* The better of two by chance. */
static const struct member *choose(struct search *s)
{
    const struct member *a = &s->parents[project_below(&s->chance, s->count)];
    const struct member *b = &s->parents[project_below(&s->chance, s->count)];
    return project_compare(&a->schedule, &b->schedule) <= 0 ? a : b;
}

/* Appends those of `from` not yet taken, until the list is `until` long. */
static size_t append(struct search *s, const uint32_t *from, size_t count, size_t until)
{
    for (size_t k = 0; k < s->net->count && count < until; k++) {
        if (s->taken[from[k]])
            continue;
        s->taken[from[k]] = true;
        s->child.list[count++] = from[k];
    }
    return count;
}

/* Takes over a's order but for a stretch, a quarter to three quarters long, of b's. */
static void cross(struct search *s, const struct member *a, const struct member *b)
{
    size_t count = s->net->count;
    size_t length = count / 4 + project_below(&s->chance, count / 2 + 1);
    size_t from = project_below(&s->chance, count - length + 1);
    memset(s->taken, 0, count * sizeof *s->taken);
    size_t at = append(s, a->list, 0, from);
    at = append(s, b->list, at, from + length);
    append(s, a->list, at, count);
}

static bool must_follow(const struct project_net *n, uint32_t a, uint32_t b)
{
    for (uint32_t k = n->out.first[a]; k < n->out.first[a + 1]; k++)
        if (n->out.arcs[k].forward && n->out.arcs[k].to == b)
            return true;
    return false;
}

static void swap_some(struct search *s)
{
    uint32_t *list = s->child.list;
    for (size_t k = 0; k + 1 < s->net->count; k++) {
        uint32_t a = list[k], b = list[k + 1];
        if (project_below(&s->chance, 1000) >= SWAPS || must_follow(s->net, a, b))
            continue;
        list[k] = b;
        list[k + 1] = a;
    }
}

/* The child in place of the worst parent, unless it is worse or there already. */
static void keep(struct search *s)
{
    size_t worst = 0, bytes = s->net->count * sizeof(int);
    for (size_t k = 0; k < s->count; k++) {
        const struct project_schedule *a = &s->parents[k].schedule;
        if (project_compare(a, &s->parents[worst].schedule) > 0)
            worst = k;
        if (project_compare(a, &s->child.schedule) == 0 &&
            memcmp(a->starts, s->child.schedule.starts, bytes) == 0)
            return;
    }
    if (project_compare(&s->child.schedule, &s->parents[worst].schedule) <= 0)
        copy(s, &s->parents[worst], &s->child);
}

static bool run(struct search *s, struct fault *f)
{
    size_t stale = 0;
    if (!try_rules(s, f))
        return false;
    sow(s);
    while (!is_done(s)) {
        const struct member *a = choose(s), *b = choose(s);
        cross(s, a, b);
        swap_some(s);
        sgs_serial(s->sgs, s->child.list, &s->child.schedule);
        stale = settle(s) ? 0 : stale + 1;
        keep(s);
        if (stale > STALE * s->count) {
            stale = 0;
            sow(s);
        }
    }
    return true;
}

static bool member_new(struct member *m, size_t count)
{
    m->list = calloc(count + 1, sizeof *m->list);
    m->schedule.starts = calloc(count + 1, sizeof(int));
    m->schedule.late = LLONG_MAX;
    return m->list && m->schedule.starts;
}

static void member_free(struct member *m)
{
    free(m->list);
    free(m->schedule.starts);
}

static bool search_init(struct search *s, size_t budget, struct fault *f)
{
    size_t count = s->net->count;
    s->wanted = PARENTS_LEAST;
    while ((s->wanted + 1) * (s->wanted + 1) <= budget && s->wanted < 1000)
        s->wanted++;
    s->sgs = project_sgs_new(s->net, budget, f);
    s->lists = s->sgs ? project_lists_new(s->net, f) : NULL;
    if (!s->lists)
        return false;
    s->value = malloc((count + 1) * sizeof *s->value);
    s->taken = malloc((count + 1) * sizeof *s->taken);
    s->parents = calloc(s->wanted, sizeof *s->parents);
    bool good = member_new(&s->child, count) && member_new(&s->best, count) && s->value &&
                s->taken && s->parents;
    for (size_t k = 0; good && k < s->wanted; k++)
        good = member_new(&s->parents[k], count);
    return good || fault_no_memory(f);
}

static void search_clear(struct search *s)
{
    for (size_t k = 0; s->parents && k < s->wanted; k++)
        member_free(&s->parents[k]);
    member_free(&s->child);
    member_free(&s->best);
    free(s->parents);
    free(s->value);
    free(s->taken);
    project_lists_free(s->lists);
    project_sgs_free(s->sgs);
}

bool project_improve(const struct project_net *n, size_t budget, uint64_t seed, int bound,
                     struct project_schedule *best, size_t *used, struct fault *f)
{
    struct search s = { .net = n, .chance = seed, .bound = bound };
    bool good = search_init(&s, budget > 0 ? budget : 1, f) && run(&s, f);
    if (good) {
        memcpy(best->starts, s.best.schedule.starts, n->count * sizeof(int));
        best->finish = s.best.schedule.finish;
        best->late = s.best.schedule.late;
        *used = s.sgs->used;
    }
    search_clear(&s);
    return good;
}
