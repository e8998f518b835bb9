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
    const uint8_t *used; /* of each stretch: is it walked? */
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

static bool add_stretch(struct model *m, size_t stretch, struct fault *f)
{
    const struct net_stretch *s = &m->net->stretches[stretch];
    int room = m->used[stretch] ? 1 : 0;
    if (!m->apart)
        return max_flow_add(m->flow, s->a, s->b, room, room, f);
    return max_flow_add(m->flow, out_of(m, s->a), in(m, s->b), room, 0, f) &&
           max_flow_add(m->flow, out_of(m, s->b), in(m, s->a), room, 0, f);
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
        ok = add_stretch(m, i, f);
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

/* The routes of each opening over the stretches that are walked; those of which there are
 * more than before are kept, with their cuts. */
static bool try_choice(struct model *m, struct ways *w, bool first, struct fault *f)
{
    m->flow = max_flow_new(m->end + 1, f);
    bool ok = m->flow && fill(m, f);
    for (size_t i = 0; ok && i < w->opening_count; i++) {
        struct ways_of *o = &w->openings[i];
        size_t routes =
            max_flow_most(m->flow, out_of(m, m->net->opening_nodes[i]), m->end);
        if (!first && routes <= o->routes)
            continue;
        *o = (struct ways_of){ routes, w->cut_count, 0 };
        ok = add_cuts(m, w, f);
        o->count = w->cut_count - o->first;
    }
    max_flow_free(m->flow);
    m->flow = NULL;
    return ok;
}

/* The cuts in the order of the openings, without those of choices that were bettered. */
static bool tidy_cuts(struct ways *w, struct fault *f)
{
    size_t count = 0;
    struct ways_cut *kept = malloc((w->cut_count + 1) * sizeof *kept);
    if (!kept)
        return fault_no_memory(f);
    for (size_t i = 0; i < w->opening_count; i++) {
        struct ways_of *o = &w->openings[i];
        for (size_t k = 0; k < o->count; k++)
            kept[count + k] = w->cuts[o->first + k];
        o->first = count;
        count += o->count;
    }
    free(w->cuts);
    w->cuts = kept;
    w->cut_count = count;
    w->cut_room = count + 1;
    return true;
}

bool ways_ground(const struct trail_net *net, struct one_ground *g, struct fault *f)
{
    struct one_line *lines = calloc(net->stretch_count + 1, sizeof *lines);
    if (!lines)
        return fault_no_memory(f);
    for (size_t i = 0; i < net->stretch_count; i++) {
        const struct net_stretch *s = &net->stretches[i];
        lines[i] = (struct one_line){ net->points + s->first, s->count, s->width };
    }
    bool ok = one_ground_find(lines, net->stretch_count, g, f);
    free(lines);
    return ok;
}

bool ways_find(const struct trail_net *net, struct one_ground *ground,
               size_t opening_count, bool apart, struct ways *out, struct fault *f)
{
    size_t places = (apart ? 2 : 1) * net->node_count;
    struct model m = {
        net, NULL, ground->used, apart, places, places + net->outlet_count
    };
    *out = (struct ways){ .opening_count = opening_count };
    one_ground_start(ground);
    out->openings = calloc(opening_count + 1, sizeof *out->openings);
    bool ok = out->openings ? try_choice(&m, out, true, f) : fault_no_memory(f);
    while (ok && one_ground_next(ground))
        ok = try_choice(&m, out, false, f);
    ok = ok && (ground->first_count == 0 || tidy_cuts(out, f));
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
