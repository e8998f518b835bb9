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
    free(all->drawn);
    free(all->spreads);
    printed_init(all, all->graph);
}

size_t printed_add(struct printed *all, struct qty q, bool spread)
{
    if (!qty_is(q) || all->failed)
        return PRINTED_NONE;
    struct qty *list = grow(all->list, &all->capacity, all->count, sizeof *list);
    if (list == NULL) {
        all->failed = true;
        return PRINTED_NONE;
    }
    all->list = list;
    bool *drawn = grow(all->drawn, &all->drawn_capacity, all->count, sizeof *drawn);
    if (drawn == NULL) {
        all->failed = true;
        return PRINTED_NONE;
    }
    all->drawn = drawn;
    struct fault unsaid = { 0 }; /* all->failed tells it */
    struct qty held = graph_hold(all->graph, q, &unsaid);
    if (!qty_is(held)) {
        all->failed = true;
        return PRINTED_NONE;
    }
    list[all->count] = held;
    drawn[all->count] = spread;
    return all->count++;
}

/* Of the newest figures: those without a spread are left out. */
static bool draw(struct printed *all, size_t from, size_t fresh, struct fault *f)
{
    struct qty *asked = malloc(fresh * sizeof *asked);
    if (asked == NULL)
        return fault_no_memory(f);
    for (size_t i = 0; i < fresh; i++)
        asked[i] = all->drawn[from + i] ? all->list[from + i] : QTY_NONE;
    bool done = spread_of(all->graph, asked, fresh, all->spreads + from, f);
    free(asked);
    return done;
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
    if (!draw(all, from, fresh, f))
        return false;
    all->settled = all->count;
    return true;
}

static const struct spread *spread_at(const struct printed *all, size_t number)
{
    return all->drawn[number] ? &all->spreads[number] : NULL;
}

void printed_put(const struct printed *all, size_t number, struct buf *out)
{
    explain_figure(all->graph, all->list[number], spread_at(all, number), out);
}

void printed_put_bare(const struct printed *all, size_t number, struct buf *out)
{
    explain_bare(all->graph, all->list[number], spread_at(all, number), out);
}
