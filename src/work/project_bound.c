#include "work/project_bound.h"

#include <stdlib.h>
#include <string.h>

#include "base/fault.h"

/* A member of a pool: earliest start, what must follow its finish, its use. */
struct piece {
    int head, follow;
    long long use;
};

static int by_follow(const void *a, const void *b)
{
    const struct piece *x = a, *y = b;
    return x->follow < y->follow ? 1 : x->follow > y->follow ? -1 : 0;
}

/* Over all sets of those with no less than a head and no less to follow. */
static int pool_bound(const struct project_net *n, const struct project_pool *p,
                      struct piece *pieces)
{
    int best = 0;
    for (size_t k = 0; k < p->count; k++) {
        size_t i = p->list[k].i;
        pieces[k] = (struct piece){ n->head[i], n->tail[i] - n->duration[i],
                                    (long long)n->duration[i] * p->list[k].demand };
    }
    qsort(pieces, p->count, sizeof *pieces, by_follow);
    for (size_t h = 0; h < p->count; h++) {
        long long use = 0;
        for (size_t k = 0; k < p->count; k++) {
            if (pieces[k].head < pieces[h].head)
                continue;
            use += pieces[k].use;
            long long units = (use + p->capacity - 1) / p->capacity;
            if (pieces[h].head + units + pieces[k].follow > best)
                best = (int)(pieces[h].head + units + pieces[k].follow);
        }
    }
    return best;
}

static bool simple_bounds(const struct project_net *n, const struct project_pools *p,
                          struct project_bounds *out, struct fault *f)
{
    struct piece *pieces = malloc((n->count + 1) * sizeof *pieces);
    if (!pieces)
        return fault_no_memory(f);
    for (size_t i = 0; i < n->count; i++)
        if (n->head[i] + n->tail[i] > out->path)
            out->path = n->head[i] + n->tail[i];
    for (size_t k = 0; k < p->count; k++) {
        int *bound = p->list[k].apart ? &out->apart : &out->energy;
        int found = pool_bound(n, &p->list[k], pieces);
        *bound = found > *bound ? found : *bound;
    }
    out->best = out->path > out->energy ? out->path : out->energy;
    out->best = out->apart > out->best ? out->apart : out->best;
    free(pieces);
    return true;
}

/* The least finish that propagation does not refute. */
static bool refute(const struct project_net *n, const struct project_pools *p,
                   long long work, struct project_bounds *out, bool *possible,
                   struct fault *f)
{
    struct project_windows *w = project_windows_new(n, p, work, f);
    if (!w)
        return false;
    while (*possible && w->work > 0 &&
           (!windows_open(w, out->best) || !windows_hold(w))) {
        out->best++;
        *possible = out->best <= n->horizon;
    }
    out->windows = out->best;
    project_windows_free(w);
    return true;
}

bool project_bound(const struct project_net *n, long long work,
                   struct project_bounds *out, bool *possible, struct fault *f)
{
    *out = (struct project_bounds){ 0 };
    *possible = !n->impossible;
    struct project_pools *p = project_pools_new(n, f);
    if (!p)
        return false;
    bool good = simple_bounds(n, p, out, f);
    *possible = *possible && out->best <= n->horizon;
    good = good && (!*possible || refute(n, p, work, out, possible, f));
    project_pools_free(p);
    return good;
}
