/* Storage: nodes, the slots that callers hold, scopes. */
#include "quantity/graph.h"

#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "quantity/ahead.h"
#include "quantity/graph_inner.h"
#include "quantity/unit_inner.h"

enum { SLOTS_FIRST = 64 };

/* `count` free slots from `first` on, in order, before those that were free. */
static void free_slots(struct graph *g, size_t first, size_t end)
{
    for (size_t i = end; i-- > first;) {
        g->slots[i] = (struct slot){ NODE_NONE, 0, g->free_slot };
        g->free_slot = (uint32_t)i;
    }
}

static bool more_slots(struct graph *g)
{
    size_t old = g->slots_capacity;
    if (old > UINT32_MAX / 4)
        return false;
    struct slot *moved = memory_grow(&g->memory, g->slots, &g->slots_capacity,
                                     old ? old + 1 : SLOTS_FIRST, sizeof *g->slots);
    if (!moved)
        return false;
    g->slots = moved;
    if (old == 0)
        g->slots[0] = (struct slot){ NODE_NONE, 0, 0 };
    free_slots(g, old ? old : 1, g->slots_capacity);
    return true;
}

static bool more_nodes(struct graph *g, size_t wanted)
{
    if (wanted <= g->capacity)
        return true;
    if (wanted > UINT32_MAX / 2)
        return false;
    /* What `moved` holds matters only while collecting: nothing to carry over. */
    uint32_t *moved = memory_resize(&g->memory, NULL, 0, wanted * sizeof *moved);
    if (!moved)
        return false;
    struct node *nodes = memory_resize(&g->memory, g->nodes, g->capacity * sizeof *nodes,
                                       wanted * sizeof *nodes);
    if (!nodes) {
        memory_resize(&g->memory, moved, wanted * sizeof *moved, 0);
        return false;
    }
    memory_resize(&g->memory, g->moved, g->capacity * sizeof *moved, 0);
    g->moved = moved;
    g->nodes = nodes;
    g->capacity = wanted;
    return true;
}

struct graph *graph_new(struct units *u)
{
    struct graph *g = memory_resize(&u->memory, NULL, 0, sizeof *g);
    if (!g)
        return NULL;
    /* Entry 0 of ranges, views and vectors is never used: 0 stands for none. */
    *g = (struct graph){ .units = u, .memory = u->memory, .limit = GRAPH_FLOOR,
                         .ranges_count = 1, .views_count = 1, .vectors_count = 1 };
    if (!more_nodes(g, GRAPH_FLOOR) || !more_slots(g)) {
        graph_free(g);
        return NULL;
    }
    g->nodes[g->count++] = (struct node){ .op = OP_LEAF }; /* index 0 */
    return g;
}

void graph_free(struct graph *g)
{
    if (!g)
        return;
    ahead_drop(g);
    struct memory m = g->memory;
    for (size_t i = 1; i < g->vectors_count; i++)
        memory_resize(&m, g->vectors[i].list,
                      g->vectors[i].capacity * sizeof *g->vectors->list, 0);
    memory_resize(&m, g->vectors, g->vectors_capacity * sizeof *g->vectors, 0);
    memory_resize(&m, g->views, g->views_capacity * sizeof *g->views, 0);
    memory_resize(&m, g->ranges, g->ranges_capacity * sizeof *g->ranges, 0);
    memory_resize(&m, g->shared, g->shared_capacity * sizeof *g->shared, 0);
    memory_resize(&m, g->causes, g->causes_capacity * sizeof *g->causes, 0);
    memory_resize(&m, g->equations, g->equations_capacity * sizeof *g->equations, 0);
    memory_resize(&m, g->operands, g->operands_capacity * sizeof *g->operands, 0);
    memory_resize(&m, g->with, g->with_capacity * sizeof *g->with, 0);
    memory_resize(&m, g->slots, g->slots_capacity * sizeof *g->slots, 0);
    memory_resize(&m, g->nodes, g->capacity * sizeof *g->nodes, 0);
    memory_resize(&m, g->moved, g->capacity * sizeof *g->moved, 0);
    pool_clear(&g->texts, &m);
    pool_clear(&g->origins, &m);
    memory_resize(&m, g, sizeof *g, 0);
}

struct units *graph_units(const struct graph *g)
{
    return g->units;
}

bool graph_room_slowly(struct graph *g, struct fault *f)
{
    if (!g->free_slot && !more_slots(g))
        return fault_no_memory(f);
    if (g->count < g->limit)
        return true;
    graph_collect(g);
    /* The next collection comes when as much has been made as this one had to walk. */
    size_t wanted = (size_t)g->count * 2 + g->terms_live;
    if (wanted < GRAPH_FLOOR)
        wanted = GRAPH_FLOOR;
    if (!more_nodes(g, wanted)) {
        if (g->count >= g->capacity)
            return fault_no_memory(f);
        wanted = g->capacity;
    }
    g->limit = (uint32_t)wanted;
    return true;
}

void graph_room_for(struct graph *g, uint32_t nodes)
{
    size_t wanted = (size_t)g->count + nodes;
    if (wanted <= g->limit || wanted > UINT32_MAX || !more_nodes(g, wanted))
        return;
    g->limit = (uint32_t)wanted;
}

size_t graph_bytes(const struct graph *g)
{
    return sizeof *g + g->capacity * (sizeof *g->nodes + sizeof *g->moved)
           + g->slots_capacity * sizeof *g->slots + g->ranges_capacity * sizeof *g->ranges
           + g->shared_capacity * sizeof *g->shared
           + g->causes_capacity * sizeof *g->causes
           + g->equations_capacity * sizeof *g->equations
           + g->operands_capacity * sizeof *g->operands
           + g->with_capacity * sizeof *g->with
           + g->views_capacity * sizeof *g->views
           + g->vectors_capacity * sizeof *g->vectors + g->entries_bytes + g->texts.bytes
           + g->origins.bytes;
}

size_t graph_nodes(const struct graph *g)
{
    return g->count - 1u;
}

/* ---- slots ---- */

struct qty graph_hold(struct graph *g, struct qty a, struct fault *f)
{
    if (!qty_is(a))
        return QTY_NONE;
    if (!g->free_slot && !more_slots(g)) {
        fault_no_memory(f);
        return QTY_NONE;
    }
    return graph_hand_out(g, g->slots[a.slot].node);
}

void graph_release(struct graph *g, struct qty a)
{
    if (qty_is(a) && g->slots[a.slot].node != NODE_NONE)
        graph_give_back(g, a.slot);
}

uint32_t graph_scope_open(struct graph *g)
{
    if (!g->free_slot && !more_slots(g))
        return 0;
    return graph_hand_out(g, NODE_NONE).slot;
}

void graph_scope_close(struct graph *g, uint32_t mark, const struct qty *keep,
                       size_t count)
{
    enum { KEPT = UINT32_C(1) << 31 }; /* above any index of a node */
    if (mark == 0)
        return;
    for (size_t i = 0; i < count; i++)
        if (qty_is(keep[i]))
            g->slots[keep[i].slot].node |= KEPT;
    uint32_t slot = g->slots[0].before;
    while (slot != mark && slot != 0) {
        uint32_t before = g->slots[slot].before;
        if (!(g->slots[slot].node & KEPT))
            graph_give_back(g, slot);
        slot = before;
    }
    if (slot == mark)
        graph_give_back(g, mark);
    for (size_t i = 0; i < count; i++)
        g->slots[keep[i].slot].node &= ~KEPT;
}

/* ---- reading ---- */

uint32_t graph_node_of(const struct graph *g, struct qty q)
{
    return graph_index(g, q);
}

const struct node *graph_node(const struct graph *g, uint32_t index)
{
    return &g->nodes[index];
}

static const struct node *node_at(const struct graph *g, struct qty a)
{
    return &g->nodes[graph_index(g, a)];
}

struct dim graph_node_dim(const struct graph *g, uint32_t index)
{
    return unit_dim(g->units, g->nodes[index].unit);
}

double graph_value(const struct graph *g, struct qty a)
{
    return node_at(g, a)->value;
}

double graph_value_in(const struct graph *g, struct qty a, struct unit_id unit)
{
    return node_at(g, a)->value / unit_factor(g->units, unit);
}

struct dim graph_dim(const struct graph *g, struct qty a)
{
    return unit_dim(g->units, node_at(g, a)->unit);
}

struct unit_id graph_unit(const struct graph *g, struct qty a)
{
    return node_at(g, a)->unit;
}

bool graph_is_uncertain(const struct graph *g, struct qty a)
{
    return node_at(g, a)->uncertain;
}

const char *graph_name_of(const struct graph *g, struct qty a)
{
    return graph_node_label(g, graph_index(g, a));
}

void graph_put(const struct graph *g, uint32_t node, struct buf *out)
{
    const struct node *n = &g->nodes[node];
    const char *name = graph_node_label(g, node);
    if (name) {
        buf_puts(out, name);
        buf_puts(out, " (");
    }
    unit_print(g->units, n->unit, n->value, out);
    if (name)
        buf_putc(out, ')');
}
