#include "ground/routes.h"

#include <math.h>
#include <stdlib.h>

#include "base/fault.h"
#include "base/grow.h"
#include "ground/covered.h"
#include "ground/pieces.h"

/* Scan lines: so many in the width of what is measured. */
#define LINES_A_TRAIL 8
#define LINES_A_REACH 60
#define STEP_LEAST    0.25 /* ft */
#define STEP_MOST     10.0

static bool check_ways(const struct routes_ask *ask, struct routes *r, struct fault *f)
{
    size_t openings = ask->net.opening_count;
    struct one_ground ground;
    if (!ways_ground(&r->net, &ground, f))
        return false;
    bool ok = ways_find(&r->net, &ground, openings, false, &r->ways, f) &&
              ways_find(&r->net, &ground, openings, true, &r->ways_apart, f);
    one_ground_free(&ground);
    if (!ok)
        return false;
    const struct ways *w = ask->apart ? &r->ways_apart : &r->ways;
    for (size_t i = 0; i < openings; i++)
        r->short_of_ways += w->openings[i].routes < ask->ways_out;
    return true;
}

static bool check_dead_ends(const struct routes_ask *ask, struct routes *r,
                            struct fault *f)
{
    struct dead_end_list *all = &r->dead_ends;
    if (!dead_ends_find(&r->net, all, f))
        return false;
    size_t kept = 0;
    for (size_t i = 0; i < all->count; i++)
        if (shape_is_empty(ask->cover) ||
            shape_distance(ask->cover, all->list[i].at, NULL) <= ask->net.snap)
            all->list[kept++] = all->list[i];
    all->count = kept;
    return true;
}

static const struct shape *reached(const struct routes_ask *ask)
{
    return ask->reached ? ask->reached : ask->cover;
}

static bool check_farthest(const struct routes_ask *ask, struct routes *r,
                           struct fault *f)
{
    const struct net_ask *net = &ask->net;
    const struct shape **lines = malloc((net->trail_count + 1) * sizeof *lines);
    if (!lines)
        return fault_no_memory(f);
    for (size_t i = 0; i < net->trail_count; i++)
        lines[i] = net->trails[i].line;
    struct reach_ask far = { reached(ask), lines, net->trail_count, net->openings,
                             net->opening_count };
    bool ok = reach_farthest(&far, &r->farthest, f);
    free(lines);
    return ok;
}

struct strips {
    struct strip *list;
    size_t count, room;
    double narrowest;
};

static bool add_strips(struct strips *s, const struct shape *shape, double radius,
                       struct fault *f)
{
    struct pieces p = { .list = NULL };
    bool ok = pieces_add(&p, shape, f);
    for (size_t i = 0; ok && i < p.count; i++) {
        struct strip *list = grow(s->list, &s->room, s->count, sizeof *list);
        ok = list ? true : fault_no_memory(f);
        if (ok) {
            s->list = list;
            list[s->count++] = (struct strip){ p.list[i], radius };
        }
    }
    if (radius > 0)
        s->narrowest = fmin(s->narrowest, 2 * radius);
    pieces_free(&p);
    return ok;
}

/* How much of the cover the openings and strips take; a `radius` of 0 takes each trail by
 * its own width, and the openings without a strip round them. With a radius it is the
 * cover that is to be reached. */
static bool measure(const struct routes_ask *ask, double radius, double lines,
                    struct covered *found, struct fault *f)
{
    const struct net_ask *net = &ask->net;
    struct strips s = { .narrowest = STEP_MOST * lines };
    bool ok = true;
    for (size_t i = 0; ok && i < net->trail_count; i++)
        ok = add_strips(&s, net->trails[i].line,
                        radius > 0 ? radius : net->trails[i].width / 2, f);
    for (size_t i = 0; ok && radius > 0 && i < net->opening_count; i++)
        ok = add_strips(&s, net->openings[i], radius, f);
    struct covered_ask area = { radius > 0 ? reached(ask) : ask->cover,
                                s.list,
                                s.count,
                                net->openings,
                                net->opening_count,
                                fmax(s.narrowest / lines, STEP_LEAST) };
    ok = ok && covered_area(&area, found, f);
    free(s.list);
    return ok;
}

static bool check_shares(const struct routes_ask *ask, struct routes *r, struct fault *f)
{
    struct covered opened, reached;
    if (!measure(ask, 0, LINES_A_TRAIL, &opened, f))
        return false;
    r->cover = opened.whole;
    r->opened = opened.covered;
    if (ask->reach <= 0 || r->farthest.distance <= ask->reach)
        return true;
    if (!measure(ask, ask->reach, LINES_A_REACH, &reached, f))
        return false;
    r->beyond = reached.whole > 0 ? fmax(1 - reached.covered / reached.whole, 0) : 0;
    return true;
}

static bool add_places(struct routes_places *out, struct routes_place p,
                       const struct along_list *found, struct fault *f)
{
    for (size_t i = 0; i < found->count; i++) {
        struct routes_place *list = grow(out->list, &out->room, out->count, sizeof *list);
        if (!list)
            return fault_no_memory(f);
        out->list = list;
        p.where = found->list[i];
        list[out->count++] = p;
    }
    return true;
}

static bool trail_places(const struct routes_ask *ask, struct routes *r, size_t trail,
                         struct along_list *found, struct fault *f)
{
    const struct shape *line = ask->net.trails[trail].line;
    bool ok = true;
    for (size_t part = 0; part < line->part_count; part++) {
        const struct point *at = line->points + line->parts[part].first;
        size_t count = line->parts[part].count;
        for (size_t i = 0; ok && i < ask->shun_count; i++) {
            struct routes_place p = {
                .index = trail, .part = part, .of = i, .least = ask->shuns[i].trail
            };
            found->count = 0;
            ok = along_near(at, count, ask->shuns[i].edge, p.least, found, f) &&
                 add_places(&r->near, p, found, f);
        }
        for (size_t i = 0; ok && i < ask->keep_out_count; i++) {
            struct routes_place p = { .index = trail, .part = part, .of = i };
            found->count = 0;
            ok = along_inside(at, count, ask->keep_outs[i], found, f) &&
                 add_places(&r->through, p, found, f);
        }
    }
    return ok;
}

/* A shunned edge that lies wholly in the opening is near no stretch of its rim. */
static bool all_within(const struct shape *edge, const struct shape *opening)
{
    return !shape_is_empty(edge) && shape_has(opening, edge->points[0]);
}

static bool ring_near(const struct routes_ask *ask, struct routes *r,
                      struct routes_place p, struct along_list *found, struct fault *f)
{
    const struct shape *s = ask->net.openings[p.index], *edge = ask->shuns[p.of].edge;
    const struct point *at = s->points + s->parts[p.part].first;
    size_t count = s->parts[p.part].count;
    struct point *ring = malloc((count + 1) * sizeof *ring);
    if (!ring)
        return fault_no_memory(f);
    for (size_t i = 0; i <= count; i++)
        ring[i] = at[i % count];
    found->count = 0;
    bool ok = along_near(ring, count + 1, edge, p.least, found, f);
    if (ok && found->count == 0 && p.part == 0 && p.least > 0 && all_within(edge, s)) {
        struct along whole = { 0, 0, 0, at[0], at[0] };
        for (size_t i = 1; i <= count; i++)
            whole.to += point_gap(ring[i - 1], ring[i]);
        ok = along_add(found, whole, f);
    }
    free(ring);
    return ok && add_places(&r->near, p, found, f);
}

static bool check_places(const struct routes_ask *ask, struct routes *r, struct fault *f)
{
    struct along_list found = { .list = NULL };
    bool ok = true;
    for (size_t i = 0; ok && i < ask->net.opening_count; i++)
        for (size_t part = 0; ok && part < ask->net.openings[i]->part_count; part++)
            for (size_t k = 0; ok && k < ask->shun_count; k++) {
                struct routes_place p = { .opening = true,
                                          .index = i,
                                          .part = part,
                                          .of = k,
                                          .least = ask->shuns[k].opening };
                ok = ring_near(ask, r, p, &found, f);
            }
    for (size_t i = 0; ok && i < ask->net.trail_count; i++)
        ok = trail_places(ask, r, i, &found, f);
    along_free(&found);
    return ok;
}

bool routes_check(const struct routes_ask *ask, struct routes *out, struct fault *f)
{
    *out = (struct routes){ .cover = 0 };
    for (size_t i = 0; i < ask->net.trail_count; i++)
        out->trail_length += shape_length(ask->net.trails[i].line);
    double sight = ask->sight > 0 ? ask->sight : HUGE_VAL;
    bool ok = trail_net_build(&ask->net, &out->net, f) && check_ways(ask, out, f) &&
              check_dead_ends(ask, out, f) && check_farthest(ask, out, f) &&
              check_shares(ask, out, f) &&
              sight_find(&out->net, ask->net.trails, sight, &out->sights, f) &&
              check_places(ask, out, f);
    if (!ok)
        routes_free(out);
    return ok;
}

void routes_free(struct routes *r)
{
    trail_net_free(&r->net);
    ways_free(&r->ways);
    ways_free(&r->ways_apart);
    free(r->dead_ends.list);
    sight_free(&r->sights);
    free(r->near.list);
    free(r->through.list);
    *r = (struct routes){ .cover = 0 };
}
