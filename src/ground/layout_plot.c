#include <stdlib.h>

#include "base/fault.h"
#include "ground/bend.h"
#include "ground/layout_inner.h"

bool layout_bend(struct layout_plot *p, struct fault *f)
{
    const struct layout_ask *ask = p->ground->ask;
    struct trace cut = { 0 };
    bool good = true;
    for (size_t i = 0; good && i < p->route_count; i++) {
        struct layout_route *r = &p->routes[i];
        if (r->trail.count > 0)
            continue;
        struct bend_ask bend = { .router = &p->router, .a = r->a, .b = r->b,
                                 .width = ask->trail_width, .sight = ask->sight,
                                 .chance = p->seed + i + 977 * (uint64_t)r->via_count };
        good = layout_cut_way(p, r, &cut, f);
        if (!good)
            break;
        bend.leaves = r->b >= (int)p->openings;
        bend.end = cut.points[cut.count - 1];
        good = bend_trail(&bend, &cut, &r->trail, f);
        if (good)
            r->sight = bend_sight(r->trail.points, r->trail.count, ask->trail_width,
                                  HUGE_VAL, &r->sight_at);
    }
    free(cut.points);
    return good;
}

static double evenness(const struct layout_plot *p)
{
    double least = HUGE_VAL;
    for (size_t i = 0; i < p->openings; i++)
        for (size_t j = 0; j < i; j++)
            least = fmin(least, point_apart(p->centers[i], p->centers[j]));
    /* Points in rows of triangles are as far apart as points can be. */
    double most = sqrt(1.1547 * p->ground->area / (double)(p->openings + 1));
    return p->openings < 2 ? 1 : fmin(1, least / most);
}

static void add_up(struct layout_plot *p)
{
    const struct layout_ask *ask = p->ground->ask;
    struct layout_score *s = &p->score;
    s->seed = p->seed;
    s->openings = p->openings;
    s->trails = p->route_count;
    for (size_t i = 0; i < p->route_count; i++) {
        s->length += trace_length(&p->routes[i].trail);
        s->sight = fmax(s->sight, p->routes[i].sight);
    }
    s->evenness = evenness(p);
    for (size_t i = 0; i < p->openings; i++)
        s->short_of_ways += p->ways[i] < (int)ask->ways_out;
    s->failed = (size_t)(p->openings < p->wanted) + (s->short_of_ways > 0) +
                (ask->reach > 0 && s->reach > ask->reach) +
                (ask->sight > 0 && s->sight > ask->sight);
    s->cost = s->length * (2 - s->evenness);
}

bool layout_plot_make(struct layout_plot *p, struct fault *f)
{
    const struct layout_ask *ask = p->ground->ask;
    if (!layout_open(p, f))
        return false;
    if (p->openings > 0 && ask->ways_out > 0) {
        if (!layout_link(p, f) || !layout_join(p, f))
            return false;
        if (!layout_bend(p, f) || (ask->reach > 0 && !layout_fill_reach(p, f)) ||
            !layout_check_ways(p, f))
            return false;
    }
    if (!layout_measure_reach(p, f))
        return false;
    add_up(p);
    return true;
}

void layout_plot_free(struct layout_plot *p)
{
    for (size_t i = 0; i < p->route_count; i++) {
        free(p->routes[i].way.points);
        free(p->routes[i].trail.points);
    }
    router_end(&p->router);
    field_clear(&p->near);
    free(p->centers);
    free(p->rims);
    free(p->rim_first);
    free(p->links);
    free(p->routes);
    free(p->ways);
    free(p->piece);
    *p = (struct layout_plot){ 0 };
}
