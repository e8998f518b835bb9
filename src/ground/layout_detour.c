#include <stdlib.h>

#include "base/fault.h"
#include "base/grow.h"
#include "ground/layout_inner.h"

enum { OPTIONS = 6, RINGS = 3, SPOKES = 16, NEAREST = 4 };

/* One way to come close to a far cell: a trail that goes by there, or a new one. */
struct option {
    double cost; /* ft */
    long route;  /* -1: new, between openings a and b */
    int at;      /* which of its legs goes by the via */
    int a, b;
    struct point via;
};

struct options {
    struct option best[OPTIONS];
    int count;
};

static void offer(struct options *o, struct option new)
{
    int i = o->count < OPTIONS ? o->count++ : OPTIONS;
    if (i == OPTIONS && new.cost >= o->best[OPTIONS - 1].cost)
        return;
    i = i == OPTIONS ? OPTIONS - 1 : i;
    for (; i > 0 && o->best[i - 1].cost > new.cost; i--)
        o->best[i] = o->best[i - 1];
    o->best[i] = new;
}

/* From a by the via to b, and as much again for a sharp turn there. */
static double leg(struct point a, struct point via, struct point b)
{
    double u = point_apart(a, via), v = point_apart(via, b);
    if (u <= 0 || v <= 0)
        return u + v;
    double turn =
        ((a.x - via.x) * (b.x - via.x) + (a.y - via.y) * (b.y - via.y)) / (u * v);
    return u + v + (turn > 0 ? turn * turn * (u + v) : 0);
}

static struct point anchor(const struct layout_plot *p, const struct layout_route *r,
                           int i)
{
    if (i < 0)
        return p->centers[r->a];
    return i < r->via_count ? r->vias[i] : r->way.points[r->way.count - 1];
}

/* Does the opening lie on the same piece of ground? */
static bool same_piece(const struct layout_plot *p, int opening, struct point via)
{
    const struct lattice *at = &p->near.at;
    return p->piece[lattice_nearest(at, p->centers[opening])] ==
           p->piece[lattice_nearest(at, via)];
}

static void offer_routes(const struct layout_plot *p, struct point via, struct options *o)
{
    for (size_t i = 0; i < p->route_count; i++) {
        const struct layout_route *r = &p->routes[i];
        if (!same_piece(p, r->a, via))
            continue;
        for (int k = 0; k <= r->via_count && r->via_count < LAYOUT_VIAS; k++) {
            struct point a = anchor(p, r, k - 1), b = anchor(p, r, k);
            double cost = leg(a, via, b) - point_apart(a, b);
            offer(o, (struct option){ cost, (long)i, k, 0, 0, via });
        }
    }
}

/* A new trail between two of the openings nearest to the via. */
static void offer_new(const struct layout_plot *p, struct point via, struct options *o)
{
    int near[NEAREST], count = 0;
    for (int i = 0; i < (int)p->openings; i++) {
        if (!same_piece(p, i, via))
            continue;
        double d = point_apart(p->centers[i], via);
        int k = count < NEAREST ? count++ : NEAREST;
        if (k == NEAREST && d >= point_apart(p->centers[near[NEAREST - 1]], via))
            continue;
        k = k == NEAREST ? NEAREST - 1 : k;
        for (; k > 0 && point_apart(p->centers[near[k - 1]], via) > d; k--)
            near[k] = near[k - 1];
        near[k] = i;
    }
    for (int i = 0; i < count; i++)
        for (int k = 0; k < i; k++)
            offer(o, (struct option){
                         leg(p->centers[near[i]], via, p->centers[near[k]]), -1, 0,
                         near[i] < near[k] ? near[i] : near[k],
                         near[i] < near[k] ? near[k] : near[i], via });
}

/* Spots on rings around the far cell, some way into its reach, so that rounding a trail
 * off does not lose it again; when none has ground for a trail, farther out. */
static void look_for(const struct layout_plot *p, struct point far, double reach,
                     struct options *o)
{
    static const double part[RINGS + 1] = { 0.8, 0.6, 0.35, 0.97 };
    for (int k = 0; k <= RINGS && (k < RINGS || o->count == 0); k++) {
        for (int i = 0; i < SPOKES; i++) {
            double turn = 6.283185307179586 * i / SPOKES;
            struct point q = { far.x + part[k] * reach * cos(turn),
                               far.y + part[k] * reach * sin(turn) };
            long cell = lattice_cell(&p->near.at, q);
            if (cell < 0 || p->piece[cell] == 0 || p->router.owner[cell] > 0)
                continue;
            offer_routes(p, lattice_center(&p->near.at, cell), o);
            offer_new(p, lattice_center(&p->near.at, cell), o);
        }
    }
}

/* Does the way come close to where it was before? */
static bool meets_itself(const struct layout_plot *p, const struct trace *way)
{
    double clear = p->ground->clear, along = 0;
    for (size_t i = 1; i < way->count; i++) {
        struct point a = way->points[i - 1], b = way->points[i];
        double length = point_apart(a, b), back = along;
        for (double d = 0; d < length; d += clear / 2) {
            struct point q = { a.x + d / length * (b.x - a.x),
                               a.y + d / length * (b.y - a.y) };
            double gone = 0;
            for (size_t k = 1; k < i; k++) {
                struct wall w = { .a = way->points[k - 1], .b = way->points[k] };
                double square = point_apart(w.a, w.b) * point_apart(w.a, w.b);
                w.per_square = square > 0 ? 1 / square : 0;
                struct point near = wall_nearest(&w, q);
                double there = gone + point_apart(w.a, near);
                if (point_apart(near, q) < clear && back + d - there > 3 * clear)
                    return true;
                gone += point_apart(w.a, w.b);
            }
        }
        along += length;
    }
    return false;
}

/* Routes it; what came of it when it is no good: 0 none, -1 out of memory. */
static int try_option(struct layout_plot *p, const struct option *o, bool any,
                      struct fault *f)
{
    struct layout_route *old = o->route >= 0 ? &p->routes[o->route] : NULL;
    struct layout_route next = { .a = o->a, .b = o->b };
    if (old) {
        next = *old;
        next.way = (struct trace){ 0 };
        router_wear(&p->router, &old->way, p->ground->clear, -1);
    }
    for (int i = next.via_count++; i > o->at; i--)
        next.vias[i] = next.vias[i - 1];
    next.vias[o->at] = o->via;
    int found = layout_find_route(p, &next, f);
    if (found > 0 && !any &&
        (layout_crowded(p, &next) > 4 * p->ground->clear || meets_itself(p, &next.way)))
        found = 0;
    if (found > 0 && !old) {
        struct layout_route *routes = grow(p->routes, &p->route_space, p->route_count,
                                           sizeof *routes);
        found = routes || fault_no_memory(f) ? 1 : -1;
        p->routes = routes ? routes : p->routes;
        if (routes)
            routes[p->route_count++] = next;
    } else if (found > 0) {
        free(old->way.points);
        *old = next;
        old->trail.count = 0; /* to be cut anew */
    }
    if (found > 0)
        router_wear(&p->router, &next.way, p->ground->clear, 1);
    else
        free(next.way.points);
    if (found <= 0 && old)
        router_wear(&p->router, &old->way, p->ground->clear, 1);
    return found;
}

int layout_detour(struct layout_plot *p, struct point far, double reach, struct fault *f)
{
    struct options o = { .count = 0 };
    int found = 0;
    look_for(p, far, reach, &o);
    for (int i = 0; found == 0 && i < o.count; i++)
        found = try_option(p, &o.best[i], false, f);
    /* Better a poor trail than cover out of reach. */
    for (int i = 0; found == 0 && i < o.count; i++)
        found = try_option(p, &o.best[i], true, f);
    return found;
}
