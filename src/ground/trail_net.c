#include "ground/trail_net.h"

#include <math.h>
#include <stdlib.h>

#include "base/fault.h"
#include "base/grow.h"
#include "ground/trail_net_inner.h"

static bool add_point(struct trail_net *net, struct point p, struct fault *f)
{
    struct point *points =
        grow(net->points, &net->point_room, net->point_count, sizeof *points);
    if (!points)
        return fault_no_memory(f);
    net->points = points;
    points[net->point_count++] = p;
    return true;
}

/* A node lies where trails cross or are met, rather than where an end was drawn. */
static void prefer_crossings(struct builder *b, struct point *places)
{
    for (size_t i = b->cut_count; i-- > 0;) {
        const struct cut *c = &b->cuts[i];
        size_t root = builder_root(b, c->id);
        if (root >= b->ask->opening_count && c->along > 0 &&
            c->along < b->runs[c->run].length)
            places[root] = c->at;
    }
}

/* From here on `roots` gives each id its node. */
static bool make_nodes(struct builder *b, struct trail_net *net, struct fault *f)
{
    size_t openings = b->ask->opening_count;
    net->nodes = malloc((b->root_count + b->cut_count + 1) * sizeof *net->nodes);
    net->opening_nodes = malloc((openings + 1) * sizeof *net->opening_nodes);
    size_t *node_of = malloc((b->root_count + 1) * sizeof *node_of);
    struct point *places = malloc((b->root_count + 1) * sizeof *places);
    bool ok = net->nodes && net->opening_nodes && node_of && places;
    if (!ok)
        fault_no_memory(f);
    for (size_t i = 0; ok && i < openings; i++)
        places[i] = shape_center(b->ask->openings[i]);
    for (size_t i = 0; ok && i < b->cut_count; i++)
        places[b->cuts[i].id] = b->cuts[i].at;
    if (ok)
        prefer_crossings(b, places);
    for (size_t i = 0; ok && i < b->root_count; i++) {
        size_t root = builder_root(b, i);
        if (root == i) {
            node_of[i] = net->node_count;
            net->nodes[net->node_count++] =
                (struct net_node){ places[i], i < openings ? i : NET_NONE };
        } else {
            node_of[i] = node_of[root];
        }
        if (i < openings)
            net->opening_nodes[i] = node_of[i];
    }
    for (size_t i = 0; ok && i < b->root_count; i++)
        b->roots[i] = node_of[i];
    free(node_of);
    free(places);
    return ok;
}

static bool in_opening(const struct builder *b, const struct run *r, double along)
{
    for (size_t i = r->first_inside; i < r->first_inside + r->inside_count; i++)
        if (along > b->inside[i].from && along < b->inside[i].to)
            return true;
    return false;
}

static bool add_end(struct trail_net *net, size_t node, struct point at, bool first,
                    struct fault *f)
{
    struct net_node n = net->nodes[node];
    bool gap = n.opening == NET_NONE && point_gap(n.at, at) > NET_TOUCH;
    if (first && gap && !add_point(net, n.at, f))
        return false;
    if (!add_point(net, at, f))
        return false;
    return first || !gap || add_point(net, n.at, f);
}

static bool add_stretch(struct builder *b, struct trail_net *net, const struct run *r,
                        const struct cut *from, const struct cut *to, struct fault *f)
{
    struct net_stretch s = { b->roots[from->id],
                             b->roots[to->id],
                             r->trail,
                             r->part,
                             from->along,
                             to->along,
                             b->ask->trails[r->trail].width,
                             0,
                             net->point_count,
                             0 };
    if (!add_end(net, s.a, from->at, true, f))
        return false;
    for (size_t i = r->first + 1; i < r->first + r->count; i++) {
        double along = b->spots[i].start;
        if (along > s.from + NET_TOUCH && along < s.to - NET_TOUCH &&
            !add_point(net, b->pieces.list[i].a, f))
            return false;
    }
    if (!add_end(net, s.b, to->at, false, f))
        return false;
    s.count = net->point_count - s.first;
    for (size_t i = s.first + 1; i < net->point_count; i++)
        s.length += point_gap(net->points[i - 1], net->points[i]);
    struct net_stretch *list =
        grow(net->stretches, &net->stretch_room, net->stretch_count, sizeof *list);
    if (!list)
        return fault_no_memory(f);
    net->stretches = list;
    list[net->stretch_count++] = s;
    return true;
}

static bool make_stretches(struct builder *b, struct trail_net *net, struct fault *f)
{
    for (size_t i = 0; i < b->run_count; i++) {
        const struct run *r = &b->runs[i];
        const struct cut *from = &b->cuts[r->first_cut];
        for (size_t k = 1; k < r->cut_count; k++) {
            const struct cut *to = &b->cuts[r->first_cut + k];
            double length = to->along - from->along;
            bool same = b->roots[from->id] == b->roots[to->id];
            bool held = length > NET_TOUCH &&
                        !in_opening(b, r, (from->along + to->along) / 2) &&
                        !(same && length <= 2 * b->ask->snap);
            if (held && !add_stretch(b, net, r, from, to, f))
                return false;
            from = to;
        }
    }
    return true;
}

/* Arrivals each less than `apart` from the next are one outlet: spread over them. */
static void spread_outlet(struct builder *b, size_t from, size_t outlet, double apart)
{
    struct arrival *list = b->arrivals;
    list[from].outlet = outlet;
    bool more = true;
    while (more) {
        more = false;
        for (size_t i = 0; i < b->arrival_count; i++) {
            if (list[i].exit != list[from].exit || list[i].outlet != NET_NONE)
                continue;
            for (size_t k = 0; k < b->arrival_count && list[i].outlet == NET_NONE; k++)
                if (list[k].outlet == outlet &&
                    (apart <= 0 ||
                     point_gap(list[i].at, list[k].at) < apart - ALONG_CLOSE)) {
                    list[i].outlet = outlet;
                    more = true;
                }
        }
    }
}

static bool add_link(struct trail_net *net, size_t node, size_t outlet, struct fault *f)
{
    for (size_t i = 0; i < net->link_count; i++)
        if (net->links[i].node == node && net->links[i].outlet == outlet)
            return true;
    struct net_link *links =
        grow(net->links, &net->link_room, net->link_count, sizeof *links);
    if (!links)
        return fault_no_memory(f);
    net->links = links;
    links[net->link_count++] = (struct net_link){ node, outlet };
    return true;
}

static bool make_links(struct builder *b, struct trail_net *net, struct fault *f)
{
    for (size_t i = 0; i < b->arrival_count; i++)
        b->arrivals[i].outlet = NET_NONE;
    for (size_t i = 0; i < b->arrival_count; i++) {
        struct arrival *a = &b->arrivals[i];
        if (a->outlet == NET_NONE) {
            struct net_outlet *list =
                grow(net->outlets, &net->outlet_room, net->outlet_count, sizeof *list);
            if (!list)
                return fault_no_memory(f);
            net->outlets = list;
            list[net->outlet_count] = (struct net_outlet){ a->exit, a->at };
            spread_outlet(b, i, net->outlet_count++, b->ask->exits[a->exit].apart);
        }
        size_t id = a->cut != NET_NONE ? a->cut : a->opening;
        if (!add_link(net, b->roots[id], a->outlet, f))
            return false;
    }
    return true;
}

bool trail_net_build(const struct net_ask *ask, struct trail_net *net, struct fault *f)
{
    struct builder b;
    *net = (struct trail_net){ .nodes = NULL };
    bool ok = builder_open(&b, ask, f) && builder_cut(&b, f) && builder_join(&b, f) &&
              make_nodes(&b, net, f) && make_stretches(&b, net, f) &&
              trail_net_once(net, ask->snap, f) && make_links(&b, net, f);
    builder_close(&b);
    if (!ok)
        trail_net_free(net);
    return ok;
}

void trail_net_free(struct trail_net *net)
{
    free(net->nodes);
    free(net->stretches);
    free(net->points);
    free(net->outlets);
    free(net->links);
    free(net->opening_nodes);
    *net = (struct trail_net){ .nodes = NULL };
}

bool trail_net_meet(const struct trail_net *net, size_t **starts, size_t **ways,
                    struct fault *f)
{
    *starts = calloc(net->node_count + 2, sizeof **starts);
    *ways = calloc(2 * net->stretch_count + 1, sizeof **ways);
    if (!*starts || !*ways)
        return fault_no_memory(f);
    for (size_t i = 0; i < net->stretch_count; i++) {
        (*starts)[net->stretches[i].a]++;
        (*starts)[net->stretches[i].b]++;
    }
    for (size_t i = 1; i <= net->node_count; i++)
        (*starts)[i] += (*starts)[i - 1];
    for (size_t i = net->stretch_count; i-- > 0;) {
        (*ways)[--(*starts)[net->stretches[i].a]] = i;
        (*ways)[--(*starts)[net->stretches[i].b]] = i;
    }
    return true;
}
