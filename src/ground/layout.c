#include "ground/layout.h"

#include <stdlib.h>

#include "base/chance.h"
#include "base/fault.h"
#include "ground/layout_inner.h"

enum { CANDIDATES = 3 };

void layout_free(struct layout *a)
{
    shape_free(&a->openings);
    shape_free(&a->trails);
    free(a->centers);
    free(a->trail);
    free(a->scores);
    *a = (struct layout){ .openings = { .kind = SHAPE_AREAS },
                          .trails = { .kind = SHAPE_LINES } };
}

static bool makes_sense(const struct layout_ask *ask, struct fault *f)
{
    if (!ask->cover || ask->cover->kind != SHAPE_AREAS || shape_is_empty(ask->cover))
        return fault_set(f, "layout-cover", SPAN_NONE,
                         "openings and trails need the shape of the stand");
    if (!ask->openings && !(ask->width > 0))
        return fault_set(f, "layout-width", SPAN_NONE, "how wide are the openings?");
    if (!ask->openings && ask->count == 0 && !(ask->share > 0) && !(ask->spacing > 0))
        return fault_set(
            f, "layout-count", SPAN_NONE,
            "how many openings: a count, a share of the stand, or a spacing");
    if (ask->ways_out > 0 && !(ask->trail_width > 0))
        return fault_set(f, "layout-trail-width", SPAN_NONE, "how wide are the trails?");
    double most = !ask->openings && ask->count > 0
                      ? (double)ask->count * 0.785 * ask->width * ask->width : 0;
    if (most > 1e3 * shape_area(ask->cover) + 1e6 || ask->count > 100000)
        return fault_set(f, "layout-too-many", SPAN_NONE,
                         "so many openings are many times the stand");
    return true;
}

static bool take_trails(const struct layout_plot *p, struct layout *out, struct fault *f)
{
    out->trail = calloc(p->route_count + 1, sizeof *out->trail);
    if (!out->trail)
        return fault_no_memory(f);
    for (size_t i = 0; i < p->route_count; i++) {
        const struct layout_route *r = &p->routes[i];
        struct layout_trail *t = &out->trail[i];
        if (!shape_add_part(&out->trails, r->trail.points, r->trail.count, false, f))
            return false;
        *t = (struct layout_trail){ .from = r->a, .to = r->b, .sight = r->sight,
                                    .length = trace_length(&r->trail) };
        if (r->b >= (int)p->openings) {
            size_t gate = (size_t)r->b - p->openings;
            t->to = -1 - (long)p->ground->exit_of[gate];
            t->gate = p->ground->number_of[gate];
        }
    }
    return true;
}

static bool take(const struct layout_plot *p, struct layout *out, struct fault *f)
{
    out->centers = calloc(p->openings + 1, sizeof *out->centers);
    if (!out->centers)
        return fault_no_memory(f);
    for (size_t i = 0; i < p->openings; i++) {
        size_t first = p->rim_first[i];
        out->centers[i] = p->centers[i];
        if (!shape_add_part(&out->openings, p->rims + first, p->rim_first[i + 1] - first,
                            false, f))
            return false;
    }
    return take_trails(p, out, f);
}

static bool is_better(const struct layout_score *a, const struct layout_score *b)
{
    if (a->failed != b->failed)
        return a->failed < b->failed;
    if (a->openings != b->openings)
        return a->openings > b->openings;
    if (a->short_of_ways != b->short_of_ways)
        return a->short_of_ways < b->short_of_ways;
    return a->cost < b->cost;
}

bool layout_design_told(const struct layout_ask *ask, struct layout *out, bool remedies,
                        struct fault *f)
{
    struct layout_ground ground = { 0 };
    struct layout_plot best = { 0 };
    size_t candidates = ask->candidates > 0 ? ask->candidates : CANDIDATES;
    uint64_t chance = ask->seed;
    *out = (struct layout){ .openings = { .kind = SHAPE_AREAS },
                            .trails = { .kind = SHAPE_LINES } };
    if (!makes_sense(ask, f))
        return false;
    out->scores = calloc(candidates, sizeof *out->scores);
    bool good = out->scores != NULL || fault_no_memory(f);
    good = good && layout_survey(&ground, ask, f);
    for (size_t i = 0; good && i < candidates; i++) {
        struct layout_plot plot = { .ground = &ground, .seed = chance_next(&chance) };
        good = layout_plot_make(&plot, f);
        out->scores[out->score_count++] = plot.score;
        if (good && (i == 0 || is_better(&plot.score, &best.score))) {
            struct layout_plot old = best;
            best = plot;
            plot = old;
            out->best = i;
        }
        /* A field of the router points at the ground, not at the plot: plots may move. */
        layout_plot_free(&plot);
    }
    good = good && take(&best, out, f) && layout_tell(&best, out, remedies, f);
    layout_plot_free(&best);
    layout_survey_free(&ground);
    if (!good)
        layout_free(out);
    return good;
}

bool layout_design(const struct layout_ask *ask, struct layout *out, struct fault *f)
{
    return layout_design_told(ask, out, true, f);
}
