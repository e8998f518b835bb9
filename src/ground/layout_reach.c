#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "base/grow.h"
#include "ground/layout_inner.h"

enum { ROUNDS = 12, DONE = 256 };

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

/* In the cover, and in none of what is kept out of it? */
static bool is_cover(const struct layout_ask *ask, struct point q)
{
    if (!shape_has(ask->cover, q))
        return false;
    for (size_t k = 0; k < ask->keep_out_count; k++)
        if (shape_has(&ask->keep_outs[k], q))
            return false;
    return true;
}

/* A cell by its parts: its centre may be nearer than its corners, or out of the cover. */
static void look_closer(struct layout_plot *p, long cell)
{
    enum { PARTS = 5 };
    const struct lattice *at = &p->near.at;
    const struct layout_ground *g = p->ground;
    bool inner = g->cover[cell] && g->room.room[cell] > 0.75 * at->cell;
    struct point c = lattice_center(at, cell);
    for (int k = 0; k < PARTS * PARTS; k++) {
        struct point q = { c.x + at->cell * ((k % PARTS) / (PARTS - 1.0) - 0.5),
                           c.y + at->cell * ((k / PARTS) / (PARTS - 1.0) - 0.5) };
        double d = field_room(&p->near, q);
        if (d > p->score.reach && (inner || is_cover(g->ask, q))) {
            p->score.reach = d;
            p->farthest = q;
        }
    }
}

bool layout_measure_reach(struct layout_plot *p, struct fault *f)
{
    if (!find_near(p, f))
        return false;
    const struct lattice *at = &p->near.at;
    const struct layout_ground *g = p->ground;
    double most = 0, cell = at->cell;
    for (long i = 0; i < (long)lattice_count(at); i++)
        if (is_far(p, i, most))
            most = p->near.room[i];
    p->score.reach = 0;
    for (long row = 1; row + 1 < at->rows; row++) {
        for (long x = 1; x + 1 < at->columns; x++) {
            long i = row * at->columns + x;
            bool beside = g->cover[i - 1] || g->cover[i] || g->cover[i + 1] ||
                          g->cover[i - at->columns] || g->cover[i + at->columns];
            if (beside && p->router.owner[i] == 0 && p->near.room[i] >= most - 1.5 * cell &&
                p->near.room[i] + 0.71 * cell > p->score.reach)
                look_closer(p, i);
        }
    }
    return true;
}

/* Ground for a trail within reach of the far cell, as close to the rest as may be. */
static long via_within(const struct layout_plot *p, long far, double within)
{
    const struct lattice *at = &p->near.at;
    long span = (long)floor(within / at->cell), best = -1;
    long column = far % at->columns, row = far / at->columns;
    for (long y = row - span; y <= row + span; y++) {
        for (long x = column - span; x <= column + span; x++) {
            if (x < 0 || y < 0 || x >= at->columns || y >= at->rows)
                continue;
            long i = y * at->columns + x;
            double dx = (double)(x - column), dy = (double)(y - row);
            if ((dx * dx + dy * dy) * at->cell * at->cell > within * within ||
                !router_is_free(&p->router, i) || p->router.owner[i] > 0)
                continue;
            if (best < 0 || p->near.room[i] < p->near.room[best])
                best = i;
        }
    }
    return best;
}

/* Some way into its reach, so that rounding the trail off does not lose it again. */
static long via_for(const struct layout_plot *p, long far, double reach)
{
    long via = via_within(p, far, 0.8 * reach);
    return via >= 0 ? via : via_within(p, far, reach);
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
        r->trail.count = 0; /* to be cut anew */
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

struct far_cell {
    float room;
    int32_t cell;
};

static int by_room(const void *x, const void *y)
{
    const struct far_cell *a = x, *b = y;
    if (a->room != b->room)
        return a->room > b->room ? -1 : 1;
    return a->cell - b->cell;
}

/* Goes by the farthest cells, each well apart from the others of this round. */
static bool one_round(struct layout_plot *p, double reach, struct far_cell *far,
                      uint8_t *given_up, bool *any, struct fault *f)
{
    const struct lattice *at = &p->near.at;
    struct point done[DONE];
    size_t count = 0, found = 0;
    *any = false;
    for (long i = 0; i < (long)lattice_count(at); i++)
        if (!given_up[i] && is_far(p, i, reach))
            far[found++] = (struct far_cell){ p->near.room[i], (int32_t)i };
    qsort(far, found, sizeof *far, by_room);
    for (size_t i = 0; i < found && count < DONE; i++) {
        struct point c = lattice_center(at, far[i].cell);
        bool apart = true;
        for (size_t k = 0; apart && k < count; k++)
            apart = point_apart(done[k], c) > 2.2 * reach;
        if (!apart)
            continue;
        long via = via_for(p, far[i].cell, reach);
        int did = via < 0 ? 0 : reach_by(p, lattice_center(at, via), f);
        if (did < 0)
            return false;
        given_up[far[i].cell] = did == 0;
        *any = *any || did > 0;
        if (did > 0)
            done[count++] = c;
    }
    return true;
}

bool layout_fill_reach(struct layout_plot *p, struct fault *f)
{
    const struct layout_ask *ask = p->ground->ask;
    double cell = p->ground->room.at.cell, reach = ask->reach - 0.75 * cell;
    size_t count = lattice_count(&p->ground->room.at);
    uint8_t *given_up = calloc(count, 1);
    struct far_cell *far = malloc(count * sizeof *far);
    bool good = (given_up && far) || fault_no_memory(f), any = true;
    reach = fmax(reach, ask->reach / 2);
    for (int round = 0; good && any && round < ROUNDS; round++)
        good = find_near(p, f) && one_round(p, reach, far, given_up, &any, f) &&
               layout_bend(p, f);
    free(given_up);
    free(far);
    return good;
}
