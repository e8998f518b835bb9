#include "ground/ways.h"

#include <stdlib.h>

#include "base/fault.h"
#include "base/grow.h"
#include "ground/max_flow.h"

enum { ANY = 1 << 20 }; /* routes that may share a link to an outlet */

/* The net as places of a flow. Apart, a node is two places with room for one between. */
struct model {
    const struct trail_net *net;
    struct max_flow *flow;
    bool apart;
    size_t outlets, end; /* the first outlet's place, and the place beyond all */
};

static size_t in(const struct model *m, size_t node)
{
    return m->apart ? 2 * node : node;
}

static size_t out_of(const struct model *m, size_t node)
{
    return m->apart ? 2 * node + 1 : node;
}

static bool add_stretch(struct model *m, const struct net_stretch *s, struct fault *f)
{
    if (!m->apart)
        return max_flow_add(m->flow, s->a, s->b, 1, 1, f);
    return max_flow_add(m->flow, out_of(m, s->a), in(m, s->b), 1, 0, f) &&
           max_flow_add(m->flow, out_of(m, s->b), in(m, s->a), 1, 0, f);
}

/* In this order, which is what a number of the flow means: nodes (when apart), stretches
 * (two each when apart), outlets, links. */
static bool fill(struct model *m, struct fault *f)
{
    const struct trail_net *net = m->net;
    bool ok = true;
    for (size_t i = 0; ok && m->apart && i < net->node_count; i++)
        ok = max_flow_add(m->flow, in(m, i), out_of(m, i), 1, 0, f);
    for (size_t i = 0; ok && i < net->stretch_count; i++)
        ok = add_stretch(m, &net->stretches[i], f);
    for (size_t i = 0; ok && i < net->outlet_count; i++)
        ok = max_flow_add(m->flow, m->outlets + i, m->end, 1, 0, f);
    for (size_t i = 0; ok && i < net->link_count; i++)
        ok = max_flow_add(m->flow, out_of(m, net->links[i].node),
                          m->outlets + net->links[i].outlet, ANY, 0, f);
    return ok;
}

static struct ways_cut cut_of(const struct model *m, size_t number)
{
    size_t nodes = m->apart ? m->net->node_count : 0, each = m->apart ? 2 : 1;
    if (number < nodes) {
        size_t opening = m->net->nodes[number].opening;
        if (opening == NET_NONE)
            return (struct ways_cut){ WAYS_JUNCTION, number };
        return (struct ways_cut){ WAYS_OPENING, opening };
    }
    number -= nodes;
    if (number < each * m->net->stretch_count)
        return (struct ways_cut){ WAYS_STRETCH, number / each };
    return (struct ways_cut){ WAYS_OUTLET, number - each * m->net->stretch_count };
}

static bool add_cuts(const struct model *m, struct ways *w, struct fault *f)
{
    size_t nodes = m->apart ? m->net->node_count : 0, each = m->apart ? 2 : 1;
    size_t numbers = nodes + each * m->net->stretch_count + m->net->outlet_count;
    for (size_t i = 0; i < numbers; i++) {
        if (!max_flow_cuts(m->flow, i))
            continue;
        struct ways_cut *cuts = grow(w->cuts, &w->cut_room, w->cut_count, sizeof *cuts);
        if (!cuts)
            return fault_no_memory(f);
        w->cuts = cuts;
        cuts[w->cut_count++] = cut_of(m, i);
    }
    return true;
}

static bool find(struct model *m, struct ways *w, struct fault *f)
{
    for (size_t i = 0; i < w->opening_count; i++) {
        struct ways_of *o = &w->openings[i];
        o->first = w->cut_count;
        o->routes = max_flow_most(m->flow, out_of(m, m->net->opening_nodes[i]), m->end);
        if (!add_cuts(m, w, f))
            return false;
        o->count = w->cut_count - o->first;
    }
    return true;
}

bool ways_find(const struct trail_net *net, size_t opening_count, bool apart,
               struct ways *out, struct fault *f)
{
    size_t places = (apart ? 2 : 1) * net->node_count;
    struct model m = { net, NULL, apart, places, places + net->outlet_count };
    *out = (struct ways){ .opening_count = opening_count };
    out->openings = calloc(opening_count + 1, sizeof *out->openings);
    m.flow = out->openings ? max_flow_new(m.end + 1, f) : NULL;
    bool ok = m.flow ? fill(&m, f) && find(&m, out, f) : fault_no_memory(f);
    max_flow_free(m.flow);
    if (!ok)
        ways_free(out);
    return ok;
}

void ways_free(struct ways *w)
{
    free(w->openings);
    free(w->cuts);
    *w = (struct ways){ .openings = NULL };
}
