#include "ground/dead_ends.h"

#include <stdlib.h>

#include "base/fault.h"
#include "base/grow.h"

/* The net as blocks joined by bridges: a bridge is a stretch whose loss parts the net, a
 * block what hangs together without bridges. */
struct walk {
    const struct trail_net *net;
    size_t *starts, *ways; /* stretches at each node: ways[starts[node]] and on */
    size_t *order, *low;   /* of each node; order 0: not seen yet */
    size_t *stack, *came,
        *next;               /* the walk itself: node, stretch it came by, where it is */
    size_t *block;           /* root of each node */
    bool *bridge;            /* of each stretch */
    size_t *bridges, *nodes; /* how many a block has */
    double *inside;          /* ft of a block's own stretches */
    bool *leads;             /* a block with an opening or an exit */
    size_t seen;
};

static void walk_free(struct walk *w)
{
    free(w->starts);
    free(w->ways);
    free(w->order);
    free(w->low);
    free(w->stack);
    free(w->came);
    free(w->next);
    free(w->block);
    free(w->bridge);
    free(w->bridges);
    free(w->nodes);
    free(w->inside);
    free(w->leads);
}

static bool walk_new(struct walk *w, const struct trail_net *net, struct fault *f)
{
    size_t nodes = net->node_count + 1, stretches = net->stretch_count + 1;
    *w = (struct walk){ .net = net };
    w->order = calloc(nodes, sizeof *w->order);
    w->low = calloc(nodes, sizeof *w->low);
    w->stack = calloc(nodes, sizeof *w->stack);
    w->came = calloc(nodes, sizeof *w->came);
    w->next = calloc(nodes, sizeof *w->next);
    w->block = calloc(nodes, sizeof *w->block);
    w->bridge = calloc(stretches, sizeof *w->bridge);
    w->bridges = calloc(nodes, sizeof *w->bridges);
    w->nodes = calloc(nodes, sizeof *w->nodes);
    w->inside = calloc(nodes, sizeof *w->inside);
    w->leads = calloc(nodes, sizeof *w->leads);
    if (trail_net_meet(net, &w->starts, &w->ways, f) && w->order && w->low && w->stack &&
        w->came && w->next && w->block && w->bridge && w->bridges && w->nodes &&
        w->inside && w->leads)
        return true;
    walk_free(w);
    return fault_no_memory(f);
}

static size_t least(size_t a, size_t b)
{
    return a < b ? a : b;
}

/* One step of the walk from the node on top of the stack; false when it is done with. */
static bool step(struct walk *w, size_t *depth)
{
    size_t node = w->stack[*depth - 1];
    if (w->next[node] == w->starts[node + 1])
        return false;
    size_t way = w->ways[w->next[node]++];
    const struct net_stretch *s = &w->net->stretches[way];
    size_t other = s->a == node ? s->b : s->a;
    if (way == w->came[node])
        return true;
    if (w->order[other] != 0) {
        w->low[node] = least(w->low[node], w->order[other]);
        return true;
    }
    w->order[other] = w->low[other] = ++w->seen;
    w->came[other] = way;
    w->next[other] = w->starts[other];
    w->stack[(*depth)++] = other;
    return true;
}

static void find_bridges(struct walk *w)
{
    for (size_t i = 0; i < w->net->node_count; i++) {
        if (w->order[i] != 0)
            continue;
        size_t depth = 1;
        w->stack[0] = i;
        w->order[i] = w->low[i] = ++w->seen;
        w->came[i] = NET_NONE;
        w->next[i] = w->starts[i];
        while (depth > 0) {
            if (step(w, &depth))
                continue;
            size_t node = w->stack[--depth];
            if (depth == 0)
                break;
            size_t before = w->stack[depth - 1];
            w->low[before] = least(w->low[before], w->low[node]);
            w->bridge[w->came[node]] = w->low[node] > w->order[before];
        }
    }
}

static size_t root(struct walk *w, size_t node)
{
    while (w->block[node] != node) {
        w->block[node] = w->block[w->block[node]];
        node = w->block[node];
    }
    return node;
}

static void find_blocks(struct walk *w)
{
    const struct trail_net *net = w->net;
    for (size_t i = 0; i < net->node_count; i++)
        w->block[i] = i;
    for (size_t i = 0; i < net->stretch_count; i++)
        if (!w->bridge[i]) {
            size_t a = root(w, net->stretches[i].a), b = root(w, net->stretches[i].b);
            w->block[a > b ? a : b] = least(a, b);
        }
    for (size_t i = 0; i < net->node_count; i++) {
        w->nodes[root(w, i)]++;
        w->leads[root(w, i)] |= net->nodes[i].opening != NET_NONE;
    }
    for (size_t i = 0; i < net->link_count; i++)
        w->leads[root(w, net->links[i].node)] = true;
    for (size_t i = 0; i < net->stretch_count; i++) {
        size_t a = root(w, net->stretches[i].a), b = root(w, net->stretches[i].b);
        if (w->bridge[i]) {
            w->bridges[a]++;
            w->bridges[b]++;
        } else {
            w->inside[a] += net->stretches[i].length;
        }
    }
}

/* A bridge of the block that is not `but`; `node` its end in the block. */
static size_t bridge_of(struct walk *w, size_t block, size_t but, size_t *node)
{
    for (size_t i = 0; i < w->net->stretch_count; i++) {
        const struct net_stretch *s = &w->net->stretches[i];
        if (!w->bridge[i] || i == but)
            continue;
        if (root(w, s->a) == block || root(w, s->b) == block) {
            *node = root(w, s->a) == block ? s->a : s->b;
            return i;
        }
    }
    return NET_NONE;
}

static struct dead_end follow(struct walk *w, size_t block)
{
    const struct trail_net *net = w->net;
    size_t node = block, at = block;
    size_t way = bridge_of(w, block, NET_NONE, &node);
    struct dead_end d = { net->nodes[node].at, w->inside[block], way,
                          w->inside[block] > 0, way == NET_NONE };
    while (way != NET_NONE) {
        const struct net_stretch *s = &net->stretches[way];
        d.length += s->length;
        at = root(w, root(w, s->a) == at ? s->b : s->a);
        if (w->leads[at] || w->inside[at] > 0 || w->bridges[at] > 2)
            break;
        d.alone = w->bridges[at] == 1;
        way = d.alone ? NET_NONE : bridge_of(w, at, way, &node);
    }
    return d;
}

bool dead_ends_find(const struct trail_net *net, struct dead_end_list *out,
                    struct fault *f)
{
    struct walk w;
    *out = (struct dead_end_list){ .list = NULL };
    if (!walk_new(&w, net, f))
        return false;
    find_bridges(&w);
    find_blocks(&w);
    bool ok = true;
    for (size_t i = 0; ok && i < net->node_count; i++) {
        bool trail = w.bridges[i] > 0 || w.inside[i] > 0;
        if (root(&w, i) != i || w.leads[i] || w.bridges[i] > 1 || !trail)
            continue;
        struct dead_end *list = grow(out->list, &out->room, out->count, sizeof *list);
        ok = list != NULL;
        if (ok) {
            out->list = list;
            list[out->count++] = follow(&w, i);
        }
    }
    walk_free(&w);
    if (!ok) {
        free(out->list);
        *out = (struct dead_end_list){ .list = NULL };
    }
    return ok || fault_no_memory(f);
}
