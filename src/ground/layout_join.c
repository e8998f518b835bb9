#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "base/grow.h"
#include "ground/layout_inner.h"
#include "ground/links.h"

enum { ROUNDS = 4 };

/* The part of the way from a point on wears the ground: what follows keeps off it. */
static void wear_from(struct layout_plot *p, const struct trace *way, size_t first,
                      int by)
{
    struct trace part = { .points = way->points + first, .count = way->count - first };
    router_wear(&p->router, &part, p->ground->clear, by);
}

/* Through the vias, one after the other, and never back along itself. 1 found, 0 none, -1
 * out of memory. */
int layout_find_route(struct layout_plot *p, struct layout_route *r, struct fault *f)
{
    struct point at = p->centers[r->a];
    const struct point *to = NULL;
    size_t first[LAYOUT_VIAS + 1] = { 0 };
    int found = 1, legs = 0;
    r->way.count = 0;
    for (; found > 0 && legs <= r->via_count; legs++) {
        bool last = legs == r->via_count, out = r->b >= (int)p->openings;
        to = !last ? &r->vias[legs] : out ? NULL : &p->centers[r->b];
        first[legs] = r->way.count > 0 ? r->way.count - 1 : 0;
        found = router_find(&p->router, at, r->a, r->b, to, &r->way, f);
        if (found <= 0 || last)
            break;
        wear_from(p, &r->way, first[legs], 1);
        at = *to;
    }
    size_t count = r->way.count;
    while (legs-- > 0) {
        r->way.count = first[legs + 1] + 1;
        wear_from(p, &r->way, first[legs], -1);
    }
    r->way.count = count;
    return found;
}

/* From the last cell straight out: to the exit, or to where the cover ends on the way. */
static struct point way_out(const struct layout_plot *p, int gate, struct point from)
{
    const struct layout_ground *g = p->ground;
    const struct layout_ask *ask = g->ask;
    struct point to = from;
    double least = HUGE_VAL;
    for (size_t i = 0; i < g->gates.wall_count; i++) {
        struct point q = wall_nearest(&g->gates.walls[i], from);
        if (g->gate_of[i] == gate && point_apart(q, from) < least) {
            least = point_apart(q, from);
            to = q;
        }
    }
    long steps = (long)ceil(least / 0.5);
    struct point last = from;
    for (long i = 1; i <= steps; i++) {
        double t = (double)i / (double)steps;
        struct point q = { from.x + t * (to.x - from.x), from.y + t * (to.y - from.y) };
        if (!shape_has(ask->cover, q))
            return last;
        for (size_t k = 0; k < ask->keep_out_count; k++)
            if (shape_has(ask->keep_outs[k], q))
                return last;
        last = q;
    }
    return last;
}

bool layout_cut_way(const struct layout_plot *p, const struct layout_route *r,
                    struct trace *out, struct fault *f)
{
    const struct trace *way = &r->way;
    size_t first = 0, last = way->count - 1;
    const struct point *rim = p->rims + p->rim_first[r->a];
    size_t count = p->rim_first[r->a + 1] - p->rim_first[r->a];
    out->count = 0;
    while (first + 1 < last && outline_has(rim, count, way->points[first + 1]))
        first++;
    struct point start =
        outline_crossing(rim, count, way->points[first],
                         way->points[first + 1 <= last ? first + 1 : last]);
    bool leaves = r->b >= (int)p->openings;
    struct point end = way->points[last];
    if (leaves) {
        end = way_out(p, r->b - (int)p->openings, end);
    } else {
        rim = p->rims + p->rim_first[r->b];
        count = p->rim_first[r->b + 1] - p->rim_first[r->b];
        while (last > first + 1 && outline_has(rim, count, way->points[last - 1]))
            last--;
        struct point before = last > first + 1 ? way->points[last - 1] : start;
        end = outline_crossing(rim, count, way->points[last], before);
    }
    bool good = trace_add(out, start, f);
    for (size_t i = first + 1; good && i + (leaves ? 0 : 1) <= last; i++)
        good = trace_add(out, way->points[i], f);
    return good && trace_add(out, end, f);
}

static bool add_route(struct layout_plot *p, int a, int b, struct fault *f)
{
    struct layout_route *routes = grow(p->routes, &p->route_space, p->route_count,
                                       sizeof *routes);
    if (!routes)
        return fault_no_memory(f);
    p->routes = routes;
    routes[p->route_count++] = (struct layout_route){ .a = a, .b = b };
    return true;
}

/* The links of these pairs, each as long as its way from rim to rim. */
static bool measure_links(struct layout_plot *p, int (*pairs)[2], size_t count,
                          struct fault *f)
{
    struct joins_link *links = calloc(count + 1, sizeof *links);
    struct layout_route r = { 0 };
    struct trace cut = { 0 };
    size_t had = p->link_count, kept = 0;
    bool good = links != NULL || fault_no_memory(f);
    for (size_t i = 0, j = 0; good && i < count; i++) {
        r.a = pairs[i][0];
        r.b = pairs[i][1];
        while (j < had && (p->links[j].a < r.a ||
                           (p->links[j].a == r.a && p->links[j].b < r.b)))
            j++;
        if (j < had && p->links[j].a == r.a && p->links[j].b == r.b) {
            links[kept++] = p->links[j];
            continue;
        }
        int found = layout_find_route(p, &r, f);
        good = found >= 0;
        if (found > 0) {
            good = layout_cut_way(p, &r, &cut, f);
            links[kept++] = (struct joins_link){ r.a, r.b, trace_length(&cut) };
        }
    }
    free(p->links);
    p->links = links;
    p->link_count = kept;
    free(r.way.points);
    free(cut.points);
    return good;
}

/* How many ways each opening can have at the most; which have too few. */
static bool count_ways(struct layout_plot *p, uint8_t *lacks, bool *any, struct fault *f)
{
    struct joins net = { .openings = (int)p->openings,
                         .exits = (int)p->ground->gate_count,
                         .links = p->links,
                         .link_count = p->link_count };
    uint8_t *used = malloc(p->link_count + 1);
    bool good = (joins_begin(&net, f) && used) || fault_no_memory(f);
    int wanted = (int)p->ground->ask->ways_out;
    *any = false;
    if (good)
        memset(used, 1, p->link_count);
    for (size_t i = 0; good && i < p->openings; i++) {
        p->ways[i] = joins_count(&net, used, (int)i, wanted);
        lacks[i] = p->ways[i] < wanted;
        *any = *any || lacks[i];
    }
    free(used);
    joins_end(&net);
    return good;
}

bool layout_link(struct layout_plot *p, struct fault *f)
{
    int (*pairs)[2] = NULL;
    size_t count = 0;
    bool any = false;
    uint8_t *lacks = calloc(p->openings + 1, 1);
    bool good = lacks != NULL || fault_no_memory(f);
    good = good && links_find(&p->router, &pairs, &count, f) &&
           measure_links(p, pairs, count, f) && count_ways(p, lacks, &any, f);
    /* Where neighbours are too few, their neighbours too. */
    for (int round = 0; good && any && round < 2; round++)
        good =
            links_widen(lacks, (int)p->openings,
                        (int)(p->openings + p->ground->gate_count), &pairs, &count, f) &&
            measure_links(p, pairs, count, f) && count_ways(p, lacks, &any, f);
    free(pairs);
    free(lacks);
    return good;
}

double layout_crowded(const struct layout_plot *p, const struct layout_route *r)
{
    const struct lattice *at = &p->ground->room.at;
    double run = 0, most = 0, step = at->cell / 2;
    for (size_t i = 1; i < r->way.count; i++) {
        struct point a = r->way.points[i - 1], b = r->way.points[i];
        double length = point_apart(a, b);
        for (double d = 0; d < length; d += step) {
            struct point q = { a.x + d / length * (b.x - a.x),
                               a.y + d / length * (b.y - a.y) };
            long cell = lattice_nearest(at, q);
            bool in = p->router.worn[cell] > 0 && p->router.owner[cell] == 0;
            run = in ? run + step : 0;
            most = fmax(most, run);
        }
    }
    return most;
}

static int by_length(const void *x, const void *y)
{
    const struct joins_link *a = x, *b = y;
    if (a->length != b->length)
        return a->length < b->length ? -1 : 1;
    return a->a != b->a ? a->a - b->a : a->b - b->b;
}

/* Routes what is used, short ones first. A link without ground of its own is made longer
 * by what it shares, so that the next choice knows. */
static bool route_all(struct layout_plot *p, const uint8_t *used, double *shared,
                      struct fault *f)
{
    size_t count = lattice_count(&p->ground->room.at);
    struct joins_link *order = malloc((p->link_count + 1) * sizeof *order);
    struct layout_route r = { 0 };
    size_t chosen = 0;
    bool good = order != NULL || fault_no_memory(f);
    *shared = 0;
    memset(p->router.worn, 0, count);
    for (size_t e = 0; good && e < p->link_count; e++)
        if (used[e])
            order[chosen++] = p->links[e];
    if (good)
        qsort(order, chosen, sizeof *order, by_length);
    for (size_t i = 0; good && i < chosen; i++) {
        r = (struct layout_route){ .a = order[i].a, .b = order[i].b };
        good = layout_find_route(p, &r, f) >= 0;
        double close = good ? layout_crowded(p, &r) - 4 * p->ground->clear : 0;
        if (good && close > 0) {
            *shared += close;
            for (size_t e = 0; e < p->link_count; e++)
                if (p->links[e].a == r.a && p->links[e].b == r.b)
                    p->links[e].length += 3 * close + p->ground->clear;
        }
        good = good && add_route(p, r.a, r.b, f);
        if (!good) {
            free(r.way.points);
            break;
        }
        p->routes[p->route_count - 1] = r;
        router_wear(&p->router, &r.way, p->ground->clear, 1);
    }
    free(order);
    return good;
}

static void drop_routes(struct layout_plot *p)
{
    for (size_t i = 0; i < p->route_count; i++) {
        free(p->routes[i].way.points);
        free(p->routes[i].trail.points);
    }
    p->route_count = 0;
}

bool layout_join(struct layout_plot *p, struct fault *f)
{
    uint8_t *used = calloc(p->link_count + 1, 1), *best = calloc(p->link_count + 1, 1);
    double least = HUGE_VAL, shared = 0;
    bool good = (used && best) || fault_no_memory(f);
    for (int round = 0; good && round < ROUNDS && least > 0; round++) {
        struct joins net = { .openings = (int)p->openings,
                            .exits = (int)p->ground->gate_count, .links = p->links,
                            .link_count = p->link_count };
        good = joins_begin(&net, f) &&
               joins_choose(&net, (int)p->ground->ask->ways_out, p->seed, used, f) >= 0;
        joins_end(&net);
        drop_routes(p);
        good = good && route_all(p, used, &shared, f);
        if (good && shared < least) {
            least = shared;
            memcpy(best, used, p->link_count);
        }
    }
    if (good && least > 0 && least < shared) {
        drop_routes(p);
        good = route_all(p, best, &shared, f);
    }
    free(used);
    free(best);
    return good;
}
