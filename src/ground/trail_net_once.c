#include "ground/trail_net_inner.h"

#include <stdlib.h>

#include "base/fault.h"

/* Is every corner of `s` within `snap` of `o`? */
static bool keeps_to(const struct trail_net *net, const struct net_stretch *s,
                     const struct net_stretch *o, double snap)
{
    for (size_t i = s->first; i < s->first + s->count; i++) {
        bool close = false;
        for (size_t k = o->first + 1; k < o->first + o->count && !close; k++) {
            struct segment piece = { net->points[k - 1], net->points[k] };
            close = segment_distance(piece, net->points[i], NULL) <= snap;
        }
        if (!close)
            return false;
    }
    return true;
}

static int by_nodes(const void *a, const void *b)
{
    const struct net_stretch *x = *(struct net_stretch *const *)a;
    const struct net_stretch *y = *(struct net_stretch *const *)b;
    size_t low[2] = { x->a < x->b ? x->a : x->b, y->a < y->b ? y->a : y->b };
    size_t high[2] = { x->a + x->b - low[0], y->a + y->b - low[1] };
    if (low[0] != low[1])
        return low[0] < low[1] ? -1 : 1;
    if (high[0] != high[1])
        return high[0] < high[1] ? -1 : 1;
    return x < y ? -1 : x > y;
}

static bool same_nodes(const struct net_stretch *x, const struct net_stretch *y)
{
    return (x->a == y->a && x->b == y->b) || (x->a == y->b && x->b == y->a);
}

/* A loop whose way back keeps to its way there is a trail to its far end: half of it is
 * kept, and a node made where it turned. Nodes have room for one a stretch. */
static void fold(struct trail_net *net, struct net_stretch *s, double snap)
{
    if (s->a != s->b)
        return;
    const struct point *at = net->points + s->first;
    size_t far = 0;
    for (size_t i = 1; i < s->count; i++)
        if (point_gap(at[i], at[0]) > point_gap(at[far], at[0]))
            far = i;
    struct net_stretch there = *s, back = *s;
    there.count = far + 1;
    back.first += far;
    back.count -= far;
    if (far == 0 || far + 1 == s->count || !keeps_to(net, &there, &back, snap) ||
        !keeps_to(net, &back, &there, snap))
        return;
    there.b = net->node_count;
    there.length = 0;
    for (size_t i = 1; i <= far; i++)
        there.length += point_gap(at[i - 1], at[i]);
    there.to = there.from + there.length;
    net->nodes[net->node_count++] = (struct net_node){ at[far], NET_NONE };
    *s = there;
}

bool trail_net_once(struct trail_net *net, double snap, struct fault *f)
{
    size_t count = net->stretch_count, kept = 0;
    struct net_stretch **order = malloc((count + 1) * sizeof *order);
    bool *twice = calloc(count + 1, sizeof *twice), ok = order && twice;
    for (size_t i = 0; ok && i < count; i++)
        order[i] = &net->stretches[i];
    if (ok)
        qsort(order, count, sizeof *order, by_nodes);
    double near = snap > NET_TOUCH ? snap : NET_TOUCH;
    for (size_t i = 0; ok && i < count; i++)
        fold(net, &net->stretches[i], near);
    for (size_t i = 0; ok && i < count; i++)
        for (size_t k = i + 1; k < count && same_nodes(order[i], order[k]); k++)
            if (!twice[order[i] - net->stretches] && !twice[order[k] - net->stretches] &&
                keeps_to(net, order[i], order[k], near) &&
                keeps_to(net, order[k], order[i], near))
                twice[order[k] - net->stretches] = true;
    for (size_t i = 0; ok && i < count; i++)
        if (!twice[i])
            net->stretches[kept++] = net->stretches[i];
    if (ok)
        net->stretch_count = kept;
    free(order);
    free(twice);
    return ok || fault_no_memory(f);
}
