#include "work/project_improve.h"

#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "work/project_rules.h"
#include "work/search.h"

enum { SCORE_LATE, SCORE_FINISH, SCORES };

/* How the schedules to begin with are made: by each rule in series, then in parallel. */
enum { IN_SERIES, IN_PARALLEL, WAYS };

struct improve {
    const struct project_net *net;
    struct project_sgs *sgs;
    struct lists *lists;
    struct project_schedule now, *best;
    int *value;
    int begun; /* of the schedules to begin with */
};

/* Betters the schedule just made. */
static void settle(struct improve *a, struct search_pick *pick, size_t *left)
{
    sgs_justify(a->sgs, &a->now);
    sgs_list(a->sgs, &a->now, pick->list);
    pick->score[SCORE_LATE] = (double)a->now.late;
    pick->score[SCORE_FINISH] = a->now.finish;
    *left = a->sgs->left;
}

static bool make(void *of, struct search_pick *pick, size_t *left, struct fault *f)
{
    struct improve *a = of;
    (void)f; /* it has all the memory that it takes */
    a->sgs->left = *left;
    sgs_serial(a->sgs, pick->list, &a->now);
    settle(a, pick, left);
    return true;
}

/* Lists by chance lean on the latest finish, whatever the rule. */
static bool begin(void *of, struct search_pick *pick, int *value, size_t *left,
                  bool *made, struct fault *f)
{
    struct improve *a = of;
    int way = a->begun % WAYS, rule = a->begun / WAYS;
    *made = rule < RULE_COUNT || a->begun == RULE_COUNT * WAYS;
    if (!*made)
        return true;
    if (rule < RULE_COUNT && way == IN_SERIES &&
        !rules_values(a->net, (enum project_rule)rule, a->value, f))
        return false;
    a->begun++;
    a->sgs->left = *left;
    lists_by_value(a->lists, a->value, pick->list);
    if (rule == RULE_COUNT)
        sgs_worst_case(a->sgs, &a->now);
    else if (way == IN_SERIES)
        sgs_serial(a->sgs, pick->list, &a->now);
    else
        sgs_parallel(a->sgs, pick->list, &a->now);
    settle(a, pick, left);
    return rules_values(a->net, RULE_LFT, value, f);
}

static void keep(void *of)
{
    struct improve *a = of;
    memcpy(a->best->starts, a->now.starts, a->net->count * sizeof(int));
    a->best->finish = a->now.finish;
    a->best->late = a->now.late;
}

static bool improve_init(struct improve *a, struct search_pick *best, struct fault *f)
{
    size_t count = a->net->count + 1;
    a->sgs = project_sgs_new(a->net, 0, f);
    a->lists = a->sgs ? project_lists(a->net, f) : NULL;
    if (!a->lists)
        return false;
    a->now.starts = malloc(count * sizeof *a->now.starts);
    a->value = malloc(count * sizeof *a->value);
    best->list = malloc(count * sizeof *best->list);
    return (a->now.starts && a->value && best->list) || fault_no_memory(f);
}

static void improve_clear(struct improve *a)
{
    free(a->now.starts);
    free(a->value);
    lists_free(a->lists);
    project_sgs_free(a->sgs);
}

bool project_improve(const struct project_net *n, size_t budget, uint64_t seed, int bound,
                     struct project_schedule *best, size_t *used, struct fault *f)
{
    struct improve a = { .net = n, .best = best };
    struct search_pick pick = { .list = NULL };
    bool good = improve_init(&a, &pick, f);
    if (good) {
        const double least[SCORES] = { [SCORE_FINISH] = bound };
        struct search_problem p = { .of = &a,
                                    .lists = a.lists,
                                    .scores = SCORES,
                                    .bound = least,
                                    .bounded = SCORES,
                                    .begin = begin,
                                    .make = make,
                                    .keep = keep };
        struct search_ask ask = { .schedules = budget, .seed = seed };
        struct search_outcome out;
        good = search_run(&p, &ask, &pick, &out, f);
        *used = out.schedules;
    }
    improve_clear(&a);
    free(pick.list);
    return good;
}
