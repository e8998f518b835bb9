/* Uncertain leaves that share their doubt with others. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "quantity/graph_inner.h"
#include "quantity/unit_inner.h"

static bool weights_are_numbers(const struct cause *causes, size_t count, struct fault *f)
{
    for (size_t i = 0; i < count; i++) {
        if (!isfinite(causes[i].weight))
            return fault_set(f, "value-not-finite", SPAN_NONE,
                             "the weight of a cause of doubt is not a number that can be "
                             "counted with");
    }
    return true;
}

/* Room for one more and for its causes, before anything is written. */
static bool more_room(struct graph *g, size_t causes)
{
    if (g->shared_count >= g->shared_capacity) {
        struct shared *moved = memory_grow(&g->memory, g->shared, &g->shared_capacity,
                                           g->shared_count + 1, sizeof *g->shared);
        if (!moved)
            return false;
        g->shared = moved;
    }
    if (causes > UINT32_MAX - g->causes_count)
        return false;
    if (g->causes_count + causes > g->causes_capacity) {
        struct cause *moved = memory_grow(&g->memory, g->causes, &g->causes_capacity,
                                          g->causes_count + causes, sizeof *g->causes);
        if (!moved)
            return false;
        g->causes = moved;
    }
    return true;
}

/* By weight too: sums of equal keys must not depend on how a library sorts. */
static int by_key(const void *a, const void *b)
{
    const struct cause *x = a, *y = b;
    if (x->key != y->key)
        return x->key < y->key ? -1 : 1;
    return x->weight < y->weight ? -1 : x->weight > y->weight;
}

/* Each key once, in order, those without weight left out, the squares 1 in all: what
 * means the same is kept the same, whatever order it came in. Returns how many are left:
 * none when nothing moves the leaf. */
static size_t tidy(struct cause *list, size_t count)
{
    double most = 0, squares = 0;
    for (size_t i = 0; i < count; i++)
        most = fmax(most, fabs(list[i].weight));
    if (most == 0)
        return 0;
    qsort(list, count, sizeof *list, by_key);
    size_t kept = 0;
    for (size_t i = 0; i < count;) {
        struct cause one = { list[i].key, 0 };
        for (; i < count && list[i].key == one.key; i++)
            one.weight += list[i].weight / most; /* no square of it is endless then */
        if (one.weight != 0)
            list[kept++] = one;
    }
    for (size_t i = 0; i < kept; i++)
        squares += list[i].weight * list[i].weight;
    for (size_t i = 0; i < kept; i++)
        list[i].weight /= sqrt(squares);
    return kept;
}

struct qty graph_shared(struct graph *g, double low, double likely, double high,
                        struct unit_id unit, const struct cause *causes, size_t count,
                        struct origin from, struct fault *f)
{
    struct range r;
    uint32_t origin;
    if (!graph_range_read(g, low, likely, high, unit, &r, f)
        || !weights_are_numbers(causes, count, f))
        return QTY_NONE;
    if (r.low == r.high)
        return graph_leaf(g, likely, unit, from, f);
    if (!graph_room(g, f))
        return QTY_NONE;
    if (!more_room(g, count)) {
        fault_no_memory(f);
        return QTY_NONE;
    }
    struct cause *list = g->causes + g->causes_count;
    if (count > 0)
        memcpy(list, causes, count * sizeof *list);
    count = tidy(list, count);
    if (count == 0) {
        fault_set(f, "value-not-finite", SPAN_NONE,
                  "a figure with a low and a high needs a cause of doubt that moves it: "
                  "all its weights are 0");
        return QTY_NONE;
    }
    if (!graph_origin_put(g, from, &origin, f))
        return QTY_NONE;
    *graph_next(g) = (struct node){ .value = r.likely, .unit = unit, .op = OP_SHARED,
                                    .kind = unit_kind(g->units, unit), .origin = origin,
                                    .detail = (uint32_t)g->shared_count,
                                    .uncertain = true };
    g->shared[g->shared_count++] =
        (struct shared){ r, (uint32_t)g->causes_count, (uint32_t)count };
    g->causes_count += count;
    return graph_done(g);
}

struct causes graph_causes_of(const struct graph *g, uint32_t index)
{
    const struct shared *s = &g->shared[g->nodes[index].detail];
    return (struct causes){ g->causes + s->first, s->count };
}

void graph_shared_move(struct graph *g, struct node *n)
{
    struct shared s = g->shared[n->detail];
    memmove(g->causes + g->causes_count, g->causes + s.first,
            s.count * sizeof *g->causes);
    s.first = (uint32_t)g->causes_count;
    g->causes_count += s.count;
    n->detail = (uint32_t)g->shared_count;
    g->shared[g->shared_count++] = s;
}
