/* project_rules.h: priority rules: in which order activities are taken. For the modules
 * of project_*.c and their tests.
 *
 *     int value[COUNT];
 *     uint32_t list[COUNT];
 *     struct lists *l = project_lists(n, f);
 *     if (rules_values(n, RULE_LFT, value, f)) lists_by_value(l, value, list);
 *     lists_free(l);
 *
 * The rules are those of Kolisch and Hartmann 1999, "Heuristic algorithms for solving the
 * resource-constrained project scheduling problem: classification and computational
 * analysis" (in Weglarz, ed., Project Scheduling, Kluwer), from memory: latest finish,
 * latest start, least slack, most total successors, greatest rank positional weight
 * (duration with that of the direct successors), shortest duration. */
#ifndef SPINNEY_WORK_PROJECT_RULES_H
#define SPINNEY_WORK_PROJECT_RULES_H

#include "work/lists.h"
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

/* Lists of activities in the order of the arcs that go forward. */
struct lists *project_lists(const struct project_net *n, struct fault *f);

#endif
