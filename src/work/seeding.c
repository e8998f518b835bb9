#include "work/seeding.h"

#include "base/fault.h"

double seeding_live_share(double purity_percent, double germination_percent)
{
    return purity_percent / 100 * (germination_percent / 100);
}

double seeding_bulk(double pure_live, double live_share)
{
    return pure_live / live_share;
}

double seeding_seeds_per_ft2(double lb_per_ac, double seeds_per_lb)
{
    return lb_per_ac * seeds_per_lb / 43560;
}

static bool is_share(const struct graph *g, struct qty q, const char *what,
                     struct fault *f)
{
    double value = graph_value(g, q);
    if (dim_is_number(graph_dim(g, q)) && value > 0 && value <= 1)
        return true;
    fault_set(f, "seed-share", SPAN_NONE,
              "%s must be a share of more than nothing and at most 100 percent", what);
    fault_hint(f, "take it from the tag on the bag");
    return false;
}

bool seeding_plan(struct graph *g, const struct seeding_wish *w,
                  struct seeding_parts *out, struct fault *f)
{
    *out = (struct seeding_parts){ .bulk = QTY_NONE };
    if (!is_share(g, w->purity, "the purity of seed", f) ||
        !is_share(g, w->germination, "the germination of seed", f))
        return false;
    struct origin none = { SPAN_NONE, NULL };
    uint32_t mark = graph_scope_open(g);
    struct seeding_parts parts;
    parts.pure_live = graph_multiply(g, w->area, w->rate, f);
    parts.live_share = graph_multiply(g, w->purity, w->germination, f);
    bool fine = qty_is(parts.pure_live) && qty_is(parts.live_share) &&
                graph_name(g, &parts.pure_live, "pure live seed", none, f) &&
                graph_name(g, &parts.live_share, "pure live share of the bag", none, f);
    parts.bulk = fine ? graph_divide(g, parts.pure_live, parts.live_share, f) : QTY_NONE;
    fine =
        fine && qty_is(parts.bulk) && graph_name(g, &parts.bulk, "seed in bulk", none, f);
    const struct qty keep[] = { parts.pure_live, parts.live_share, parts.bulk };
    graph_scope_close(g, mark, keep, fine ? 3 : 0);
    if (fine)
        *out = parts;
    return fine;
}
