#include "page/printed.h"

#include <stdlib.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/grow.h"
#include "quantity/explain.h"

void printed_init(struct printed *all, struct graph *g)
{
    *all = (struct printed){ .graph = g };
}

void printed_clear(struct printed *all)
{
    for (size_t i = 0; i < all->count; i++)
        graph_release(all->graph, all->list[i]);
    free(all->list);
    free(all->spreads);
    printed_init(all, all->graph);
}

size_t printed_add(struct printed *all, struct qty q)
{
    if (!qty_is(q) || all->failed)
        return PRINTED_NONE;
    struct qty *list = grow(all->list, &all->capacity, all->count, sizeof *list);
    if (list == NULL) {
        all->failed = true;
        return PRINTED_NONE;
    }
    all->list = list;
    struct qty held = graph_hold(all->graph, q);
    if (!qty_is(held)) {
        all->failed = true;
        return PRINTED_NONE;
    }
    list[all->count] = held;
    return all->count++;
}

bool printed_settle(struct printed *all, struct fault *f)
{
    if (all->failed)
        return fault_no_memory(f);
    size_t fresh = all->count - all->settled;
    if (fresh == 0)
        return true;
    struct spread *spreads = realloc(all->spreads, all->count * sizeof *spreads);
    if (spreads == NULL)
        return fault_no_memory(f);
    all->spreads = spreads;
    size_t from = all->settled;
    if (!spread_of(all->graph, all->list + from, fresh, spreads + from, f))
        return false;
    all->settled = all->count;
    return true;
}

void printed_put(const struct printed *all, size_t number, bool spread, struct buf *out)
{
    const struct spread *s = spread ? &all->spreads[number] : NULL;
    explain_figure(all->graph, all->list[number], s, out);
}
