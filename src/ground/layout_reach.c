#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "base/grow.h"
#include "ground/layout_inner.h"

enum { ROUNDS = 8 };

/* Trails and rims of openings as walls of p->near: what is far from them is far from all. */
static bool find_near(struct layout_plot *p, struct fault *f)
{
    bool good = true;
    field_clear(&p->near);
    for (size_t i = 0; good && i < p->openings; i++) {
        size_t first = p->rim_first[i], count = p->rim_first[i + 1] - first;
        for (size_t k = 0; good && k < count; k++)
            good = field_wall(&p->near, p->rims[first + k], p->rims[first + (k + 1) % count],
                              0, f);
    }
    for (size_t i = 0; good && i < p->route_count; i++) {
        const struct trace *t = p->routes[i].trail.count > 0 ? &p->routes[i].trail
                                                             : &p->routes[i].way;
        for (size_t k = 1; good && k < t->count; k++)
            good = field_wall(&p->near, t->points[k - 1], t->points[k], 0, f);
    }
    return good && field_make(&p->near, p->ground->room.at, f);
}

static bool is_far(const struct layout_plot *p, long cell, double reach)
{
    return p->ground->cover[cell] && p->router.owner[cell] == 0 &&
           p->near.room[cell] > reach;
}

bool layout_measure_reach(struct layout_plot *p, struct fault *f)
{
    if (!find_near(p, f))
        return false;
    double most = 0;
    for (long i = 0; i < (long)lattice_count(&p->near.at); i++) {
        if (is_far(p, i, most)) {
            most = p->near.room[i];
            p->farthest = lattice_center(&p->near.at, i);
        }
    }
    p->score.reach = most;
    return true;
}

/* Ground for a trail within reach of the far cell, as close to the rest as may be. */
static long via_for(const struct layout_plot *p, long far, double reach)
{
    const struct lattice *at = &p->near.at;
    long span = (long)floor(0.8 * reach / at->cell), best = -1;
    long column = far % at->columns, row = far / at->columns;
    for (long y = row - span; y <= row + span; y++) {
        for (long x = column - span; x <= column + span; x++) {
            if (x < 0 || y < 0 || x >= at->columns || y >= at->rows)
                continue;
            long i = y * at->columns + x;
            double dx = (double)(x - column), dy = (double)(y - row);
            if (sqrt(dx * dx + dy * dy) * at->cell > 0.8 * reach ||
                !router_is_free(&p->router, i) || p->router.owner[i] > 0)
                continue;
            if (best < 0 || p->near.room[i] < p->near.room[best])
                best = i;
        }
    }
    return best;
}

static struct point anchor(const struct layout_plot *p, const struct layout_route *r, int i)
{
    if (i < 0)
        return p->centers[r->a];
    return i < r->via_count ? r->vias[i] : r->way.points[r->way.count - 1];
}

static double detour(struct point a, struct point b, struct point v)
{
    return point_apart(a, v) + point_apart(v, b) - point_apart(a, b);
}

/* Routes it anew by the via; as it was when there is no way. */
static int go_by(struct layout_plot *p, struct layout_route *r, int at, struct point via,
                 struct fault *f)
{
    struct layout_route next = *r;
    next.way = (struct trace){ 0 };
    for (int i = next.via_count++; i > at; i--)
        next.vias[i] = next.vias[i - 1];
    next.vias[at] = via;
    router_wear(&p->router, &r->way, p->ground->clear, -1);
    int found = layout_find_route(p, &next, f);
    if (found > 0) {
        free(r->way.points);
        *r = next;
    } else {
        free(next.way.points);
    }
    router_wear(&p->router, &r->way, p->ground->clear, 1);
    return found;
}

/* A trail of its own, between the two openings nearest to the via. */
static int go_new(struct layout_plot *p, int a, int b, struct point via, struct fault *f)
{
    struct layout_route *routes = grow(p->routes, &p->route_space, p->route_count,
                                       sizeof *routes);
    if (!routes)
        return fault_no_memory(f) ? 1 : -1;
    p->routes = routes;
    struct layout_route r = { .a = a, .b = b, .vias = { via }, .via_count = 1 };
    int found = layout_find_route(p, &r, f);
    if (found > 0) {
        routes[p->route_count++] = r;
        router_wear(&p->router, &r.way, p->ground->clear, 1);
    } else {
        free(r.way.points);
    }
    return found;
}

static int reach_by(struct layout_plot *p, struct point via, struct fault *f)
{
    double least = HUGE_VAL, first = HUGE_VAL, second = HUGE_VAL;
    size_t route = 0;
    int at = 0, a = -1, b = -1;
    for (size_t i = 0; i < p->route_count; i++) {
        const struct layout_route *r = &p->routes[i];
        for (int k = 0; k <= r->via_count && r->via_count < LAYOUT_VIAS; k++) {
            double d = detour(anchor(p, r, k - 1), anchor(p, r, k), via);
            if (d < least) {
                least = d;
                route = i;
                at = k;
            }
        }
    }
    for (int i = 0; i < (int)p->openings; i++) {
        double d = point_apart(p->centers[i], via);
        if (d < first) {
            second = first;
            b = a;
            first = d;
            a = i;
        } else if (d < second) {
            second = d;
            b = i;
        }
    }
    int found = 0;
    if (least < HUGE_VAL && least <= first + second)
        found = go_by(p, &p->routes[route], at, via, f);
    if (found == 0 && b >= 0)
        found = go_new(p, a, b, via, f);
    return found;
}

/* Looks for the farthest cells, each well apart from the others, and goes by there. */
static bool one_round(struct layout_plot *p, double reach, uint8_t *given_up, bool *any,
                      struct fault *f)
{
    const struct lattice *at = &p->near.at;
    struct point done[24];
    size_t count = 0;
    *any = false;
    while (count < 24) {
        long far = -1;
        for (long i = 0; i < (long)lattice_count(at); i++) {
            if (given_up[i] || !is_far(p, i, far < 0 ? reach : p->near.room[far]))
                continue;
            bool apart = true;
            for (size_t k = 0; apart && k < count; k++)
                apart = point_apart(done[k], lattice_center(at, i)) > 2.2 * reach;
            if (apart)
                far = i;
        }
        if (far < 0)
            return true;
        done[count++] = lattice_center(at, far);
        long via = via_for(p, far, reach);
        int found = via < 0 ? 0 : reach_by(p, lattice_center(at, via), f);
        if (found < 0)
            return false;
        given_up[far] = found == 0;
        *any = *any || found > 0;
    }
    return true;
}

bool layout_fill_reach(struct layout_plot *p, struct fault *f)
{
    const struct layout_ask *ask = p->ground->ask;
    double reach = ask->reach - p->ground->room.at.cell - 0.5 * ask->trail_width;
    uint8_t *given_up = calloc(lattice_count(&p->ground->room.at), 1);
    bool good = given_up != NULL || fault_no_memory(f), any = true;
    reach = fmax(reach, ask->reach / 2);
    for (int round = 0; good && any && round < ROUNDS; round++)
        good = find_near(p, f) && one_round(p, reach, given_up, &any, f);
    free(given_up);
    return good;
}
