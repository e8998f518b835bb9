/* Leaves, where they come from, and names. */
#include <math.h>
#include <string.h>

#include "base/buf.h"
#include "base/chance.h"
#include "base/fault.h"
#include "quantity/graph_inner.h"
#include "quantity/unit_inner.h"

static bool origin_find(struct graph *g, struct origin from, uint32_t *out,
                        struct fault *f)
{
    struct kept_origin kept = { from.at.source, from.at.at, from.at.length, 0 };
    if (from.words) {
        kept.words = pool_put(&g->texts, &g->memory, from.words, strlen(from.words));
        if (!kept.words)
            return fault_no_memory(f);
    }
    *out = pool_put(&g->origins, &g->memory, &kept, sizeof kept);
    return *out ? true : fault_no_memory(f);
}

bool graph_origin_put(struct graph *g, struct origin from, uint32_t *out,
                      struct fault *f)
{
    if (from.words)
        return origin_find(g, from, out, f);
    *out = 0;
    if (from.at.source == 0)
        return true;
    struct recent_origin *r = &g->recent[(from.at.at ^ from.at.source) % GRAPH_RECENT];
    if (r->id == 0 || r->at.source != from.at.source || r->at.at != from.at.at
        || r->at.length != from.at.length) {
        if (!origin_find(g, from, out, f))
            return false;
        *r = (struct recent_origin){ from.at, *out };
    }
    *out = r->id;
    return true;
}

struct origin graph_origin(const struct graph *g, uint32_t index)
{
    struct origin from = { { 0, 0, 0 }, NULL };
    uint32_t id = g->nodes[index].origin;
    if (id == 0)
        return from;
    struct kept_origin kept;
    memcpy(&kept, pool_get(&g->origins, id), sizeof kept);
    from.at = (struct span){ kept.source, kept.at, kept.length };
    from.words = kept.words ? pool_get(&g->texts, kept.words) : NULL;
    return from;
}

static bool finite_leaf(double value, struct fault *f)
{
    if (isfinite(value))
        return true;
    fault_set(f, "value-not-finite", SPAN_NONE, isnan(value)
              ? "this is not a number" : "this number is too large to count with");
    return false;
}

struct qty graph_leaf(struct graph *g, double value, struct unit_id unit,
                      struct origin from, struct fault *f)
{
    double base = value * unit_factor(g->units, unit);
    uint32_t origin;
    /* Room first: a collection would drop an origin that no node has yet. */
    if (!finite_leaf(base, f) || !graph_room(g, f)
        || !graph_origin_put(g, from, &origin, f))
        return QTY_NONE;
    *graph_next(g) = (struct node){ .value = base, .unit = unit, .op = OP_LEAF,
                                    .kind = unit_kind(g->units, unit), .origin = origin };
    return graph_done(g);
}

static void put_figure(const struct graph *g, struct unit_id unit, double value,
                       struct buf *out)
{
    unit_print(g->units, unit, value * unit_factor(g->units, unit), out);
}

static bool ordered(const struct graph *g, double low, double likely, double high,
                    struct unit_id unit, struct fault *f)
{
    struct buf said;
    if (low <= likely && likely <= high)
        return true;
    buf_init(&said);
    put_figure(g, unit, low, &said);
    buf_puts(&said, low > high ? " is more than " : " to ");
    put_figure(g, unit, high, &said);
    if (low <= high) {
        buf_puts(&said, " does not have ");
        put_figure(g, unit, likely, &said);
        buf_puts(&said, " between its ends");
    }
    if (said.failed)
        fault_no_memory(f);
    else
        fault_set(f, "range-order", SPAN_NONE, "%s", said.data);
    fault_hint(f, "write the lower figure first, the likely one between the two");
    buf_clear(&said);
    return false;
}

bool graph_range_read(const struct graph *g, double low, double likely, double high,
                      struct unit_id unit, struct range *out, struct fault *f)
{
    double factor = unit_factor(g->units, unit);
    *out = (struct range){ low * factor, likely * factor, high * factor, 0 };
    return finite_leaf(out->low, f) && finite_leaf(out->likely, f)
           && finite_leaf(out->high, f) && ordered(g, low, likely, high, unit, f);
}

struct qty graph_range(struct graph *g, double low, double likely, double high,
                       struct unit_id unit, uint64_t key, struct origin from,
                       struct fault *f)
{
    struct range r;
    if (!graph_range_read(g, low, likely, high, unit, &r, f))
        return QTY_NONE;
    r.key = key;
    if (r.low == r.high)
        return graph_leaf(g, likely, unit, from, f);
    uint32_t origin;
    if (!graph_room(g, f))
        return QTY_NONE;
    if (g->ranges_count >= g->ranges_capacity) {
        struct range *moved = memory_grow(&g->memory, g->ranges, &g->ranges_capacity,
                                          g->ranges_count + 1, sizeof *g->ranges);
        if (!moved) {
            fault_no_memory(f);
            return QTY_NONE;
        }
        g->ranges = moved;
    }
    if (!graph_origin_put(g, from, &origin, f))
        return QTY_NONE;
    *graph_next(g) = (struct node){ .value = r.likely, .unit = unit, .op = OP_RANGE,
                                    .kind = unit_kind(g->units, unit), .origin = origin,
                                    .detail = (uint32_t)g->ranges_count,
                                    .uncertain = true };
    g->ranges[g->ranges_count++] = r;
    return graph_done(g);
}

struct range graph_range_of(const struct graph *g, uint32_t index)
{
    const struct node *n = &g->nodes[index];
    return n->op == OP_SHARED ? g->shared[n->detail].range : g->ranges[n->detail];
}

uint64_t graph_key(const char *name, uint32_t position, uint32_t occurrence)
{
    uint64_t h = UINT64_C(14695981039346656037);
    for (; *name; name++)
        h = (h ^ (uint8_t)*name) * UINT64_C(1099511628211);
    const uint32_t numbers[2] = { position, occurrence };
    for (int i = 0; i < 8; i++)
        h = (h ^ (numbers[i / 4] >> (i % 4 * 8) & 0xff)) * UINT64_C(1099511628211);
    return chance_mixed(h); /* neighbouring positions should differ in every bit */
}

bool graph_name(struct graph *g, struct qty *a, const char *name, struct origin how,
                struct fault *f)
{
    if (!qty_is(*a) || !graph_room(g, f))
        return false;
    uint32_t old = graph_index(g, *a), origin;
    uint32_t words = pool_put(&g->texts, &g->memory, name, strlen(name));
    if (!words)
        return fault_no_memory(f);
    if (!graph_origin_put(g, how, &origin, f))
        return false;
    const struct node *n = &g->nodes[old];
    *graph_next(g) = (struct node){ .value = n->value, .a = old, .kind = n->kind,
                                    .unit = n->unit, .op = OP_NAME, .origin = origin,
                                    .detail = words, .uncertain = n->uncertain };
    g->slots[a->slot].node = g->count++;
    return true;
}

const char *graph_node_name(const struct graph *g, uint32_t index)
{
    return pool_get(&g->texts, g->nodes[index].detail);
}

/* Said in another unit, a named quantity is still that. */
const char *graph_node_label(const struct graph *g, uint32_t node)
{
    while (g->nodes[node].op == OP_SAY)
        node = g->nodes[node].a;
    return g->nodes[node].op == OP_NAME ? graph_node_name(g, node) : NULL;
}
