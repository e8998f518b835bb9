#include "quantity/ahead.h"

#include "base/fault.h"
#include "quantity/draws.h"
#include "quantity/graph_inner.h"
#include "quantity/scratch.h"

/* Nodes that a page may make while it asks: a collection would drop the draws. */
enum { PAGE_NODES = 4096 };

struct ahead {
    struct scratch memory; /* of all below, and of itself */
    struct draws *draws;
    uint32_t top;
    uint32_t *place;           /* by node up to top: its place in the list, from 1 */
    struct percentiles *found; /* by row, once asked for */
    bool *known;
};

void ahead_drop(struct graph *g)
{
    struct ahead *a = g->ahead;
    if (!a)
        return;
    g->ahead = NULL;
    draws_free(a->draws);
    struct scratch memory = a->memory;
    scratch_clear(&memory);
}

bool ahead_draw(struct graph *g, const uint32_t *nodes, size_t count, struct fault *f)
{
    ahead_drop(g);
    struct scratch memory = scratch_of(g);
    struct ahead a = { .top = 0 };
    count = count < SPREAD_AHEAD ? count : SPREAD_AHEAD;
    for (size_t i = 0; i < count; i++)
        a.top = nodes[i] > a.top ? nodes[i] : a.top;
    struct ahead *kept = scratch_get(&memory, 1, sizeof *kept);
    a.place = scratch_zeroed(&memory, (size_t)a.top + 1, sizeof *a.place);
    a.found = scratch_get(&memory, count, sizeof *a.found);
    a.known = scratch_zeroed(&memory, count, sizeof *a.known);
    if (memory.failed)
        fault_no_memory(f);
    else if (count > 0)
        a.draws = draws_of(g, nodes, count, f);
    if (!a.draws) {
        scratch_clear(&memory);
        return count == 0 && !memory.failed;
    }
    for (size_t i = 0; i < count; i++)
        a.place[nodes[i]] = (uint32_t)i + 1;
    a.memory = memory;
    *kept = a;
    g->ahead = kept;
    graph_room_for(g, PAGE_NODES);
    return true;
}

/* From 1; 0 for none. */
static size_t place_of(const struct graph *g, uint32_t node)
{
    return g->ahead && node <= g->ahead->top ? g->ahead->place[node] : 0;
}

const double *ahead_row(const struct graph *g, uint32_t node)
{
    size_t place = place_of(g, node);
    return place ? draws_row(g->ahead->draws, place - 1) : NULL;
}

bool ahead_percentiles(const struct graph *g, uint32_t node, struct percentiles *out)
{
    size_t place = place_of(g, node);
    if (!place)
        return false;
    struct ahead *a = g->ahead;
    size_t row = draws_row_number(a->draws, place - 1);
    if (!a->known[row])
        a->found[row] = select_percentiles(draws_row(a->draws, place - 1), SPREAD_DRAWS);
    a->known[row] = true;
    *out = a->found[row];
    return true;
}
