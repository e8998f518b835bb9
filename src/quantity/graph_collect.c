/* Dropping what nothing held can reach. Operands always lie before what is made of them,
 * so one walk down marks and one walk up moves; nothing recurses or asks for memory.
 * Ranges, views, causes, operands lie in the order of their nodes and move down too. */
#include <string.h>

#include "quantity/ahead.h"
#include "quantity/graph_inner.h"

static void mark_terms(struct graph *g, const struct node *n)
{
    const struct view *view = &g->views[n->detail];
    struct vector *v = &g->vectors[view->vector];
    /* Newer sums over the same vector come first on the way down and see the most of it,
     * so each term is marked once. */
    for (uint32_t i = v->live; i < view->length; i++)
        g->moved[v->list[i].node] = 1;
    if (view->length > v->live)
        v->live = view->length;
}

static void mark_operands(struct graph *g, uint32_t node)
{
    struct equation e = graph_equation_of(g, node);
    for (size_t i = 0; i < e.count; i++)
        g->moved[e.operands[i].node] = 1;
}

static void mark(struct graph *g)
{
    uint32_t *live = g->moved;
    memset(live, 0, g->count * sizeof *live);
    for (size_t i = 1; i < g->vectors_count; i++)
        g->vectors[i].live = 0;
    for (uint32_t s = g->slots[0].after; s; s = g->slots[s].after)
        live[g->slots[s].node] = 1;
    for (uint32_t i = g->count; i-- > 1;) {
        const struct node *n = &g->nodes[i];
        if (!live[i])
            continue;
        live[n->a] = 1;
        live[n->b] = 1;
        if (n->op == OP_SUM && n->detail)
            mark_terms(g, n);
        if (n->op == OP_FORMULA)
            mark_operands(g, i);
        if (n->op == OP_NAME)
            pool_use(&g->texts, n->detail);
        if (n->origin)
            pool_use(&g->origins, n->origin);
    }
    live[0] = 0;
}

/* What a node keeps elsewhere. */
static void move_detail(struct graph *g, struct node *n)
{
    switch ((enum op)n->op) {
    case OP_RANGE:
        g->ranges[g->ranges_count] = g->ranges[n->detail];
        n->detail = (uint32_t)g->ranges_count++;
        break;
    case OP_SHARED: graph_shared_move(g, n); break;
    case OP_FORMULA: graph_formula_move(g, n); break;
    case OP_SUM:
        if (n->detail) {
            g->views[g->views_count] = g->views[n->detail];
            n->detail = (uint32_t)g->views_count++;
        }
        break;
    case OP_LEAF:
    case OP_MULTIPLY:
    case OP_DIVIDE:
    case OP_POWER:
    case OP_MIN:
    case OP_MAX:
    case OP_CEIL:
    case OP_FLOOR:
    case OP_SAY:
    case OP_NAME: break;
    }
}

static void move_nodes(struct graph *g)
{
    uint32_t next = 1;
    g->ranges_count = g->views_count = 1;
    g->shared_count = g->causes_count = 0;
    g->equations_count = g->operands_count = g->with_count = 0;
    for (uint32_t i = 1; i < g->count; i++) {
        if (!g->moved[i])
            continue;
        struct node n = g->nodes[i];
        n.a = g->moved[n.a];
        n.b = g->moved[n.b];
        move_detail(g, &n);
        g->moved[i] = next;
        g->nodes[next++] = n;
    }
    g->count = next;
}

/* A vector that no sum sees any more is kept for the next, unless it is a long one. */
static void move_vectors(struct graph *g)
{
    enum { SHORT = 8 };
    g->free_vector = 0;
    g->terms_live = 0;
    for (size_t i = g->vectors_count; i-- > 1;) {
        struct vector *v = &g->vectors[i];
        g->terms_live += v->live;
        for (uint32_t j = 0; j < v->live; j++)
            v->list[j].node = g->moved[v->list[j].node];
        if (v->live)
            continue;
        if (v->capacity > SHORT) {
            g->entries_bytes -= v->capacity * sizeof *v->list;
            memory_resize(&g->memory, v->list, v->capacity * sizeof *v->list, 0);
            *v = (struct vector){ .list = NULL };
        }
        v->next = g->free_vector;
        g->free_vector = (uint32_t)i;
    }
}

static void sweep_origins(struct graph *g)
{
    for (size_t i = 1; i < g->origins.count; i++) {
        const struct pool_entry *e = &g->origins.entries[i];
        struct kept_origin kept;
        if (!e->used)
            continue;
        memcpy(&kept, e->bytes, sizeof kept);
        if (kept.words)
            pool_use(&g->texts, kept.words);
    }
    memset(g->recent, 0, sizeof g->recent); /* ids of origins that may go now */
    pool_sweep(&g->origins, &g->memory);
    pool_sweep(&g->texts, &g->memory);
}

void graph_collect(struct graph *g)
{
    ahead_drop(g);
    mark(g);
    move_nodes(g);
    for (uint32_t s = g->slots[0].after; s; s = g->slots[s].after)
        g->slots[s].node = g->moved[g->slots[s].node];
    move_vectors(g);
    sweep_origins(g);
}
