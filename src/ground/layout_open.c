#include <stdlib.h>

#include "base/chance.h"
#include "base/fault.h"
#include "ground/layout_inner.h"
#include "ground/spots.h"

double layout_opening_area(const struct layout_ask *ask)
{
    return ask->area > 0 ? ask->area : 0.785398163397448 * ask->width * ask->width;
}

double layout_radius(const struct layout_ask *ask)
{
    double circle = 0.785398163397448 * ask->width * ask->width;
    double stretch = ask->area > circle ? ask->area / circle : 1;
    return ask->width / 2 * OUTLINE_MOST * stretch;
}

size_t layout_wanted(const struct layout_ground *g)
{
    const struct layout_ask *ask = g->ask;
    if (ask->count > 0)
        return ask->count;
    if (ask->share > 0)
        return (size_t)fmax(1,
                            floor(ask->share * g->area / layout_opening_area(ask) + 0.5));
    /* Points that keep so far apart cannot be more than that, and some at the rim. */
    double s = ask->spacing;
    return (size_t)(1.1547 * g->area / (s * s) + 4 * sqrt(g->area) / s) + 2;
}

static bool make_room(struct layout_plot *p, size_t count, size_t corners,
                      struct fault *f)
{
    p->centers = calloc(count + 1, sizeof *p->centers);
    p->rims = calloc(corners + 1, sizeof *p->rims);
    p->rim_first = calloc(count + 2, sizeof *p->rim_first);
    p->ways = calloc(count + 1, sizeof *p->ways);
    if (!p->centers || !p->rims || !p->rim_first || !p->ways)
        return fault_no_memory(f);
    return true;
}

static bool take_given(struct layout_plot *p, struct fault *f)
{
    const struct shape *s = p->ground->ask->openings;
    bool good = make_room(p, s->part_count, s->point_count, f);
    size_t corners = 0;
    for (size_t k = 0; good && k < s->part_count; k++) {
        if (s->parts[k].hole)
            continue;
        struct shape one = { .kind = SHAPE_AREAS };
        const struct point *ring = s->points + s->parts[k].first;
        good = shape_add_part(&one, ring, s->parts[k].count, false, f);
        if (!good)
            break;
        struct point center = shape_center(&one);
        p->centers[p->openings] = outline_has(ring, s->parts[k].count, center)
                                      ? center : shape_inside(&one);
        shape_free(&one);
        p->rim_first[p->openings++] = corners;
        for (size_t i = 0; i < s->parts[k].count; i++)
            p->rims[corners++] = ring[i];
        p->rim_first[p->openings] = corners;
    }
    p->wanted = p->openings;
    return good;
}

static bool place(struct layout_plot *p, struct fault *f)
{
    const struct layout_ask *ask = p->ground->ask;
    size_t wanted = layout_wanted(p->ground);
    uint64_t chance = p->seed;
    double gap = ask->gap > 0 ? ask->gap : ask->width / 2;
    struct spots_ask spots = { .room = &p->ground->room, .cover = p->ground->cover,
                               .radius = layout_radius(ask), .count = wanted };
    spots.apart = 2 * layout_radius(ask) + gap;
    spots.fill = ask->count == 0 && ask->share <= 0;
    if (spots.fill)
        spots.apart = fmax(spots.apart, ask->spacing);
    spots.seed = chance_next(&chance);
    if (!make_room(p, wanted, wanted * OUTLINE_POINTS, f))
        return false;
    long found = spots_place(&spots, p->centers, f);
    if (found < 0)
        return false;
    for (long i = 0; i < found; i++)
        if (field_sure(spots.room, p->centers[i]) >= spots.radius)
            p->centers[p->openings++] = p->centers[i];
    p->wanted = spots.fill ? (found > 0 ? p->openings : 1) : wanted;
    for (size_t i = 0; i < p->openings; i++) {
        p->rim_first[i] = i * OUTLINE_POINTS;
        outline_make(p->centers[i], ask->width, ask->area, &chance,
                     p->rims + p->rim_first[i]);
    }
    p->rim_first[p->openings] = p->openings * OUTLINE_POINTS;
    return true;
}

bool layout_open(struct layout_plot *p, struct fault *f)
{
    const struct layout_ground *g = p->ground;
    if (!(g->ask->openings ? take_given(p, f) : place(p, f)))
        return false;
    p->router = (struct router){ .room = &g->room, .free = g->free,
                                 .half = g->ask->trail_width / 2,
                                 .openings = (int)p->openings,
                                 .gates = (int)g->gate_count };
    if (!router_begin(&p->router, f))
        return false;
    for (size_t i = 0; i < p->openings; i++)
        router_own(&p->router, (int)i, p->rims + p->rim_first[i],
                   p->rim_first[i + 1] - p->rim_first[i]);
    for (long i = 0; g->gate_count > 0 && i < (long)lattice_count(&g->room.at); i++) {
        int gate = g->gate_of[g->gates.nearest[i]];
        double within = g->ask->exits[g->exit_of[gate]].within + p->router.half +
                        1.5 * g->room.at.cell;
        if (g->gates.room[i] <= within && router_is_free(&p->router, i))
            p->router.gate[i] = gate + 1;
    }
    return true;
}
