/* project_rules.h: priority rules: in which order activities are taken, and lists by
 * chance that lean on them. For the modules of project_*.c and their tests.
 *
 *     int value[COUNT];
 *     uint32_t list[COUNT];
 *     rules_values(n, RULE_LFT, value, f);
 *     lists_sorted(l, value, list);           // best first; for sgs_parallel
 *     lists_by_value(l, value, list);         // in the order of arcs; for sgs_serial
 *
 * The rules are those of Kolisch and Hartmann 1999, "Heuristic algorithms for solving the
 * resource-constrained project scheduling problem: classification and computational
 * analysis" (in Weglarz, ed., Project Scheduling, Kluwer), from memory: latest finish,
 * latest start, least slack, most total successors, greatest rank positional weight
 * (duration with that of the direct successors), shortest duration. Regret-based biased
 * sampling: Drexl 1991, Management Science 37, from memory. */
#ifndef SPINNEY_WORK_PROJECT_RULES_H
#define SPINNEY_WORK_PROJECT_RULES_H

#include "work/project_inner.h"

enum project_rule {
    RULE_LFT,
    RULE_LST,
    RULE_SLACK,
    RULE_MTS,
    RULE_GRPW,
    RULE_SHORTEST,
    RULE_COUNT
};

/* Fills `value`: less goes first. False when memory runs out. */
bool rules_values(const struct project_net *n, enum project_rule rule, int *value,
                  struct fault *f);

struct project_lists {
    const struct project_net *net;
    uint32_t *waits, *ready; /* scratch of count */
};

struct project_lists *project_lists_new(const struct project_net *n, struct fault *f);
void project_lists_free(struct project_lists *l);
/* A list that keeps the order of arcs: of those that may come next the least value. */
void lists_by_value(struct project_lists *l, const int *value, uint32_t *list);
/* The same by chance: of those that may come next each with the chance (regret + 1), the
 * regret being how much its value is below the greatest of them. */
void lists_by_chance(struct project_lists *l, const int *value, uint64_t *chance,
                     uint32_t *list);
/* All activities, least value first, ties by number; no regard to arcs. */
void lists_sorted(struct project_lists *l, const int *value, uint32_t *order);

#endif
