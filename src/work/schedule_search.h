/* schedule_search.h: what the search over orders and crews shares with its keys, for
 * schedule_search.c and schedule_keys.c only.
 *
 *     for (size_t g = 0; g < s->group_count; g++) a->now.key[g] = key_by(a, RULE_LONGEST, g);
 *     if (!keys_rank(a, f)) ...
 *     order_make(a);              // s->order from a->now.key
 */
#ifndef SPINNEY_WORK_SCHEDULE_SEARCH_H
#define SPINNEY_WORK_SCHEDULE_SEARCH_H

#include "work/schedule_parts.h"

struct choice {
    double *key;
    size_t *wanted;
};

struct search {
    struct solver *s;
    struct choice now, here, best;
    double *urgent;   /* keys, as low as those of what waits for them */
    size_t *waits;    /* how many groups a group still waits for */
    size_t *heap;     /* groups that wait for nothing */
    size_t *after, *after_at; /* what waits for a group */
    size_t heap_count;
    struct score here_score, best_score, bound;
    size_t most;
    uint64_t random;
};

/* Rules of thumb for the first keys: as the plan has it; by the end of the season or the
 * deadline; those with few open days first; long ones first. */
enum rule { RULE_PLAN, RULE_DEADLINE, RULE_SCARCE, RULE_LONGEST, RULES };

/* Whose crew is left open at first: all; those that work marked first waits for, and it;
 * none, each is left to the crew that costs least. */
enum thrift { THRIFT_NONE, THRIFT_BUT_FIRST, THRIFT_ALL, THRIFTS };

/* Fills a->now.wanted; false where it makes no difference. */
bool crews_want(struct search *a, enum thrift thrift);
/* The first of a group's crews that costs least, or SCHEDULE_NONE when all cost the same. */
size_t cheapest_crew(const struct solver *s, size_t g);
double key_by(const struct search *a, enum rule rule, size_t g);
/* Keys become places in a row, those marked first in front: so that a change is a change
 * of places whatever the rule counted. */
bool keys_rank(struct search *a, struct fault *f);
/* Of the groups that wait for nothing any more the one with the lowest key comes next; what
 * others wait for is as urgent as the most urgent of these. s->order is such an order
 * before, too: what waits stands behind. */
void order_make(struct search *a);

#endif
