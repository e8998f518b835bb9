/* project_pools.h: what activities compete for: the resources, and sets of activities of
 * which no more than one, two or three can run together, each as one more resource. For
 * the bounds of project_*.c.
 *
 *     struct project_pools *p = project_pools_new(n, f);
 *     for (size_t k = 0; k < p->count; k++)
 *         ... p->list[k].capacity, pool_area(&p->list[k], from, to);
 *     project_pools_free(p);
 *
 * Of those that take more than a (k + 1)-th of a resource no more than k run together.
 * Two that together take more than there is of some resource, or of which one comes
 * before the other, cannot run together: sets of which all pairs are such, grown from
 * each activity, share a machine. Klein, Scholl 1999, "Computing lower bounds by
 * destructive improvement: an application to resource-constrained project scheduling",
 * EJOR 112; Mingozzi, Maniezzo, Ricciardelli, Bianco 1998, Management Science 44 (from
 * memory). */
#ifndef SPINNEY_WORK_PROJECT_POOLS_H
#define SPINNEY_WORK_PROJECT_POOLS_H

#include "work/project_inner.h"

struct project_member {
    uint32_t i;
    int demand;
};

struct project_pool {
    int capacity;                /* the most there ever is */
    const int *by_time;          /* NULL, or as of the resource, with its sums */
    long long *sums;             /* of by_time before each unit; NULL */
    struct project_member *list; /* with a duration and a demand above 0 */
    size_t count;
    bool apart; /* not a resource of the project */
};

struct project_pools {
    struct project_pool *list;
    size_t count, room;
    uint64_t *clash; /* count x words bits: pairs that a resource keeps apart */
    uint64_t *apart; /* those, and pairs that an order keeps apart */
    size_t words;
};

struct project_pools *project_pools_new(const struct project_net *n, struct fault *f);
void project_pools_free(struct project_pools *p);

static inline bool pools_bit(const uint64_t *bits, size_t words, size_t i, size_t j)
{
    return bits[i * words + j / 64] >> (j % 64) & 1;
}

/* What the pool has in the units from .. to - 1. */
static inline long long pool_area(const struct project_pool *p, int from, int to)
{
    return p->sums ? p->sums[to] - p->sums[from] : (long long)p->capacity * (to - from);
}

#endif
