/* schedule_search.h: what the search over orders and crews shares with its keys, for
 * schedule_search.c and schedule_keys.c only.
 *
 *     if (keys_crews(a, thrift, pick.choice)) ...
 *     if (!keys_values(a, RULE_LONGEST, value, f)) ...
 *     lists_by_value(a->lists, value, pick.list);
 */
#ifndef SPINNEY_WORK_SCHEDULE_SEARCH_H
#define SPINNEY_WORK_SCHEDULE_SEARCH_H

#include "work/schedule_parts.h"
#include "work/search.h"

struct plan_search {
    struct solver *s;
    struct lists *lists;
    uint32_t *choices;       /* of a group: which crew it is left to, how many ways */
    size_t *crews, *crew_at; /* by group and choice; SCHEDULE_NONE: to any that is able */
    double *key;             /* scratch of all groups */
    bool *marked;            /* scratch: marked first, or waited for by such a one */
    int begun;               /* of the schedules to begin with */
};

/* Rules of thumb for the first keys: as the plan has it; by the end of the season or the
 * deadline; those with few open days first; long ones first. */
enum rule { RULE_PLAN, RULE_DEADLINE, RULE_SCARCE, RULE_LONGEST, RULES };

/* Whose crew is left open at first: all; those that work marked first waits for, and it;
 * none, each is left to the crew that costs least. */
enum thrift { THRIFT_NONE, THRIFT_BUT_FIRST, THRIFT_ALL, THRIFTS };

/* How many ways each group's crew may be chosen, and what they are: the crew that costs
 * least is the first of them, unless all cost the same. */
bool keys_choices(struct plan_search *a, struct fault *f);
/* False where it makes no difference. */
bool keys_crews(const struct plan_search *a, enum thrift thrift, uint32_t *choice);
/* Places in a row by a rule, those marked first in front, and what others wait for as
 * soon as the soonest of these. */
bool keys_values(struct plan_search *a, enum rule rule, int *value, struct fault *f);

#endif
