#include "work/project_pools.h"

#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "base/grow.h"

/* The most sets grown of pairs, and the most activities they are grown of. */
enum { MACHINES_MOST = 3, CLIQUES_MOST = 16, PAIRS_MOST = 400 };

static struct project_pool *pool_add(struct project_pools *p, size_t room)
{
    struct project_pool *list = grow(p->list, &p->room, p->count, sizeof *list);
    if (!list)
        return NULL;
    p->list = list;
    struct project_pool *pool = &list[p->count];
    *pool = (struct project_pool){ .list = malloc((room + 1) * sizeof *pool->list) };
    if (!pool->list)
        return NULL;
    p->count++;
    return pool;
}

static int demand_of(const struct project_net *n, size_t i, size_t r)
{
    const struct project_activity *a = &n->project->activities[i];
    return a->demands && a->duration > 0 ? a->demands[r] : 0;
}

static bool add_sums(const struct project_net *n, struct project_pool *pool)
{
    pool->sums = malloc(((size_t)n->horizon + 1) * sizeof *pool->sums);
    if (!pool->sums)
        return false;
    pool->sums[0] = 0;
    for (int t = 0; t < n->horizon; t++) {
        pool->sums[t + 1] = pool->sums[t] + pool->by_time[t];
        pool->capacity = pool->by_time[t] > pool->capacity ? pool->by_time[t]
                                                           : pool->capacity;
    }
    return true;
}

static bool add_resource(const struct project_net *n, struct project_pools *p, size_t r)
{
    const struct project_resource *s = &n->project->resources[r];
    struct project_pool *pool = pool_add(p, n->count);
    if (!pool)
        return false;
    pool->by_time = s->by_time;
    pool->capacity = s->by_time ? 0 : s->capacity;
    if (s->by_time && !add_sums(n, pool))
        return false;
    for (size_t i = 0; i < n->count; i++)
        if (demand_of(n, i, r) > 0)
            pool->list[pool->count++] =
                (struct project_member){ (uint32_t)i, demand_of(n, i, r) };
    return true;
}

/* Those of which no more than `most` run together; left out when there are no more. */
static bool add_machines(const struct project_net *n, struct project_pools *p, size_t r,
                         int most)
{
    struct project_pool *pool = pool_add(p, n->count);
    if (!pool)
        return false;
    const struct project_pool *of = &p->list[r];
    pool->capacity = most;
    pool->apart = true;
    for (size_t k = 0; k < of->count; k++)
        if ((long long)of->list[k].demand * (most + 1) > of->capacity)
            pool->list[pool->count++] = (struct project_member){ of->list[k].i, 1 };
    if (pool->count <= (size_t)most)
        free(p->list[--p->count].list);
    return true;
}

static void set_bit(uint64_t *bits, size_t words, size_t i, size_t j)
{
    bits[i * words + j / 64] |= (uint64_t)1 << (j % 64);
}

static bool clashes(const struct project_net *n, const struct project_pools *p, size_t i,
                    size_t j)
{
    for (size_t r = 0; r < n->project->resource_count; r++)
        if (demand_of(n, i, r) + demand_of(n, j, r) > p->list[r].capacity)
            return true;
    return false;
}

/* Bits of all that come after each, put in `after`: by arcs no shorter than it runs. */
static void mark_after(const struct project_net *n, uint64_t *after, size_t words)
{
    for (size_t k = n->count; k-- > 0;) {
        size_t i = n->topo[k];
        for (uint32_t o = n->out.first[i]; o < n->out.first[i + 1]; o++) {
            const struct project_arc *a = &n->out.arcs[o];
            if (!a->forward || a->lag < n->duration[i])
                continue;
            set_bit(after, words, i, a->to);
            for (size_t w = 0; w < words; w++)
                after[i * words + w] |= after[a->to * words + w];
        }
    }
}

static bool mark_pairs(const struct project_net *n, struct project_pools *p)
{
    p->words = (n->count + 63) / 64;
    p->clash = calloc(n->count * p->words + 1, sizeof *p->clash);
    p->apart = calloc(n->count * p->words + 1, sizeof *p->apart);
    if (!p->clash || !p->apart)
        return false;
    mark_after(n, p->apart, p->words);
    for (size_t i = 0; i < n->count; i++)
        for (size_t j = 0; j < i; j++) {
            bool clash = n->duration[i] > 0 && n->duration[j] > 0 && clashes(n, p, i, j);
            bool order = pools_bit(p->apart, p->words, i, j) ||
                         pools_bit(p->apart, p->words, j, i);
            if (clash) {
                set_bit(p->clash, p->words, i, j);
                set_bit(p->clash, p->words, j, i);
            }
            if (clash || order) {
                set_bit(p->apart, p->words, i, j);
                set_bit(p->apart, p->words, j, i);
            }
        }
    return true;
}

/* Takes the longest that no pair of the set can run with, again and again. */
static void grow_clique(const struct project_net *n, const struct project_pools *p,
                        size_t first, uint64_t *left, struct project_pool *pool)
{
    memcpy(left, p->apart + first * p->words, p->words * sizeof *left);
    pool->list[pool->count++] = (struct project_member){ (uint32_t)first, 1 };
    for (;;) {
        size_t best = n->count;
        for (size_t j = 0; j < n->count; j++)
            if ((left[j / 64] >> (j % 64) & 1) && n->duration[j] > 0 &&
                (best == n->count || n->duration[j] > n->duration[best]))
                best = j;
        if (best == n->count)
            return;
        pool->list[pool->count++] = (struct project_member){ (uint32_t)best, 1 };
        for (size_t w = 0; w < p->words; w++)
            left[w] &= p->apart[best * p->words + w];
    }
}

static long long length(const struct project_net *n, const struct project_pool *p)
{
    long long sum = 0;
    for (size_t k = 0; k < p->count; k++)
        sum += n->duration[p->list[k].i];
    return sum;
}

/* Whether some set from `first` on is as long, and so most likely the same. */
static bool is_known(const struct project_net *n, const struct project_pools *p,
                     size_t first)
{
    const struct project_pool *pool = &p->list[p->count - 1];
    for (size_t k = first; k + 1 < p->count; k++)
        if (p->list[k].count == pool->count && length(n, &p->list[k]) == length(n, pool))
            return true;
    return false;
}

/* Drops the shortest of too many. */
static void drop_shortest(const struct project_net *n, struct project_pools *p,
                          size_t first)
{
    if (p->count - first <= CLIQUES_MOST)
        return;
    size_t shortest = first;
    for (size_t k = first; k < p->count; k++)
        if (length(n, &p->list[k]) < length(n, &p->list[shortest]))
            shortest = k;
    free(p->list[shortest].list);
    p->list[shortest] = p->list[--p->count];
}

static bool add_cliques(const struct project_net *n, struct project_pools *p)
{
    size_t first = p->count;
    uint64_t *left = malloc((p->words + 1) * sizeof *left);
    bool good = left != NULL;
    for (size_t i = 0; good && i < n->count; i++) {
        if (n->duration[i] == 0)
            continue;
        struct project_pool *pool = pool_add(p, n->count);
        good = pool != NULL;
        if (!good)
            break;
        pool->capacity = 1;
        pool->apart = true;
        grow_clique(n, p, i, left, pool);
        if (pool->count < 2 || is_known(n, p, first))
            free(p->list[--p->count].list);
        drop_shortest(n, p, first);
    }
    free(left);
    return good;
}

struct project_pools *project_pools_new(const struct project_net *n, struct fault *f)
{
    struct project_pools *p = calloc(1, sizeof *p);
    bool good = p != NULL;
    size_t resources = n->project->resource_count;
    for (size_t r = 0; good && r < resources; r++)
        good = add_resource(n, p, r);
    for (size_t r = 0; good && r < resources; r++)
        for (int most = 1; good && most <= MACHINES_MOST; most++)
            good = add_machines(n, p, r, most);
    if (good && n->count <= PAIRS_MOST)
        good = mark_pairs(n, p) && add_cliques(n, p);
    if (good)
        return p;
    project_pools_free(p);
    fault_no_memory(f);
    return NULL;
}

void project_pools_free(struct project_pools *p)
{
    if (!p)
        return;
    for (size_t k = 0; k < p->count; k++) {
        free(p->list[k].list);
        free(p->list[k].sums);
    }
    free(p->list);
    free(p->clash);
    free(p->apart);
    free(p);
}
