#include "work/mixes.h"

#include <math.h>

#include "base/fault.h"

/* 12 in/ft x 43,560 ft2/ac over 88 ft/min to the mile an hour. */
#define BOOM          5940.0
#define FL_OZ_PER_GAL 128.0

double mixes_gal_per_ac(double caught_fl_oz)
{
    return caught_fl_oz / FL_OZ_PER_GAL * (43560.0 / MIXES_PLOT_FT2);
}

double mixes_course_ft(double swath_ft)
{
    return MIXES_PLOT_FT2 / swath_ft;
}

double mixes_fl_oz_per_gal(double product_fl_oz_per_ac, double gal_per_ac)
{
    return product_fl_oz_per_ac / gal_per_ac;
}

double mixes_boom_gal_per_min(double gal_per_ac, double mph, double width_in)
{
    return gal_per_ac * mph * width_in / BOOM;
}

double mixes_boom_gal_per_ac(double gal_per_min, double mph, double width_in)
{
    return BOOM * gal_per_min / (mph * width_in);
}

double mixes_ac_per_tank(double tank_gal, double gal_per_ac)
{
    return tank_gal / gal_per_ac;
}

double mixes_product_per_tank(double tank_gal, double gal_per_ac, double product_per_ac)
{
    return mixes_ac_per_tank(tank_gal, gal_per_ac) * product_per_ac;
}

double mixes_product_fl_oz(double mix_gal, double percent)
{
    return FL_OZ_PER_GAL * mix_gal * percent / 100;
}

double mixes_lb_per_ac(double gal_per_ac, double percent, double lb_per_gal)
{
    return gal_per_ac * percent / 100 * lb_per_gal;
}

struct mixes_loads mixes_tank_loads(double mix_gal, double tank_gal)
{
    struct mixes_loads out = { 0, 0, 0 };
    /* A mix within a billionth of whole tanks is whole tanks. */
    out.whole = floor(mix_gal / tank_gal + 1e-9);
    double rest = mix_gal - out.whole * tank_gal;
    if (rest > 1e-9 * tank_gal) {
        out.last_gal = rest;
        out.spare_gal = tank_gal - rest;
    }
    return out;
}

static bool name_it(struct graph *g, struct qty *q, const char *name, struct fault *f)
{
    struct origin none = { SPAN_NONE, NULL };
    return qty_is(*q) && graph_name(g, q, name, none, f);
}

/* Only what is above nothing can be divided by or poured. */
static bool above_nothing(const struct graph *g, struct qty q, const char *id,
                          const char *what, struct fault *f)
{
    if (!qty_is(q) || graph_value(g, q) > 0)
        return true;
    fault_set(f, id, SPAN_NONE, "%s must be more than nothing", what);
    return false;
}

static bool plan_volumes(struct graph *g, const struct mixes_wish *w,
                         struct mixes_parts *out, struct fault *f)
{
    struct qty over = qty_is(w->area) ? w->area : w->amount;
    out->finished = graph_multiply(g, over, w->rate, f);
    if (!name_it(g, &out->finished, "finished mix", f))
        return false;
    out->product = qty_is(w->share) ? graph_multiply(g, out->finished, w->share, f)
                                    : graph_multiply(g, over, w->product_rate, f);
    if (!name_it(g, &out->product, "product", f))
        return false;
    int more;
    if (!graph_compare(g, out->product, out->finished, &more, f))
        return false;
    if (more > 0) {
        fault_set(f, "mix-share", SPAN_NONE, "there is more product than finished mix");
        fault_hint(f,
                   "a share of at most 100 percent, or more gallons of mix on an acre");
        return false;
    }
    out->carrier = graph_subtract(g, out->finished, out->product, f);
    return name_it(g, &out->carrier, w->carrier, f);
}

static bool plan_loads(struct graph *g, const struct mixes_wish *w,
                       struct mixes_parts *out, struct fault *f)
{
    struct qty tanks = graph_divide(g, out->finished, w->tank, f);
    out->loads = graph_ceil(g, tanks, UNIT_NUMBER, f);
    if (!name_it(g, &out->loads, "tank loads", f))
        return false;
    struct qty filled = graph_multiply(g, out->loads, w->tank, f);
    out->spare = graph_subtract(g, filled, out->finished, f);
    return name_it(g, &out->spare, "left over of full tanks", f);
}

static bool plan_ingredient(struct graph *g, const struct mixes_wish *w,
                            struct mixes_parts *out, struct fault *f)
{
    out->ingredient = graph_multiply(g, out->product, w->strength, f);
    if (!name_it(g, &out->ingredient, "active ingredient", f))
        return false;
    if (!qty_is(w->area))
        return true;
    out->ingredient_per_area = graph_divide(g, out->ingredient, w->area, f);
    return name_it(g, &out->ingredient_per_area, "active ingredient on the area", f);
}

bool mixes_plan(struct graph *g, const struct mixes_wish *w, struct mixes_parts *out,
                struct fault *f)
{
    *out = (struct mixes_parts){ .finished = QTY_NONE };
    if (!above_nothing(g, w->rate, "mix-rate", "the mix for each acre or stem", f) ||
        !above_nothing(g, w->tank, "mix-tank", "what the sprayer holds", f) ||
        !above_nothing(g, w->area, "mix-rate", "the area to spray", f))
        return false;
    uint32_t mark = graph_scope_open(g);
    struct mixes_parts parts = { .finished = QTY_NONE };
    bool fine = plan_volumes(g, w, &parts, f) &&
                (!qty_is(w->tank) || plan_loads(g, w, &parts, f)) &&
                (!qty_is(w->strength) || plan_ingredient(g, w, &parts, f));
    struct qty keep[7];
    size_t count = 0;
    const struct qty all[] = { parts.finished,
                               parts.product,
                               parts.carrier,
                               parts.loads,
                               parts.spare,
                               parts.ingredient,
                               parts.ingredient_per_area };
    for (size_t i = 0; fine && i < sizeof all / sizeof all[0]; i++)
        if (qty_is(all[i]))
            keep[count++] = all[i];
    graph_scope_close(g, mark, keep, count);
    if (fine)
        *out = parts;
    return fine;
}
