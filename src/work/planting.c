#include "work/planting.h"

#include <math.h>

#include "base/fault.h"

/* Within a billionth of a whole number counts as that number. */
#define WHOLE 1e-9

double planting_per_ac(double row_ft, double in_row_ft)
{
    return 43560 / (row_ft * in_row_ft);
}

double planting_per_ac_triangular(double apart_ft)
{
    /* 2 / sqrt 3 = 1.1547, the trade's "15 percent more". */
    return planting_per_ac(apart_ft, apart_ft) * 2 / sqrt(3);
}

double planting_along(double length_ft, double in_row_ft)
{
    return floor(length_ft / in_row_ft + WHOLE) + 1;
}

double planting_order_extra(double plants, double extra_percent)
{
    return ceil(plants * (1 + extra_percent / 100) - WHOLE);
}

double planting_order_survival(double wanted, double survival_percent)
{
    return ceil(wanted / (survival_percent / 100) - WHOLE);
}

static struct unit_id plants_unit(struct graph *g, struct fault *f)
{
    struct unit_id unit = UNIT_NUMBER;
    units_find(graph_units(g), "plants", 6, &unit, f);
    return unit;
}

static bool spacing_fits(const struct graph *g, struct qty q, struct fault *f)
{
    if (dim_equal(graph_dim(g, q), dim_of(DIM_LENGTH, 1)) && graph_value(g, q) > 0)
        return true;
    fault_set(f, "plant-spacing", SPAN_NONE,
              "a spacing must be a length of more than nothing");
    return false;
}

/* Keeps the result of a scope, named; lets all else go. */
static struct qty finish(struct graph *g, uint32_t mark, struct qty result,
                         const char *name, struct fault *f)
{
    struct origin none = { SPAN_NONE, NULL };
    if (qty_is(result) && !graph_name(g, &result, name, none, f))
        result = QTY_NONE;
    graph_scope_close(g, mark, &result, qty_is(result) ? 1 : 0);
    return result;
}

struct qty planting_on_area(struct graph *g, struct qty area, struct qty row,
                            struct qty in_row, bool triangular, struct fault *f)
{
    if (!spacing_fits(g, row, f) || !spacing_fits(g, in_row, f))
        return QTY_NONE;
    struct unit_id plants = plants_unit(g, f);
    uint32_t mark = graph_scope_open(g);
    struct origin none = { SPAN_NONE, NULL };
    struct qty space = graph_multiply(g, row, in_row, f);
    if (triangular)
        space = graph_scale(g, space, sqrt(3) / 2, f);
    struct qty each = graph_divide(g, space, graph_leaf(g, 1, plants, none, f), f);
    if (qty_is(each) && !graph_name(g, &each, "ground for each plant", none, f))
        each = QTY_NONE;
    struct qty whole = graph_floor(g, graph_divide(g, area, each, f), plants, f);
    return finish(g, mark, whole, "plants", f);
}

struct qty planting_in_rows(struct graph *g, struct qty length, struct qty in_row,
                            struct qty rows, struct fault *f)
{
    if (!spacing_fits(g, in_row, f))
        return QTY_NONE;
    struct unit_id plants = plants_unit(g, f);
    uint32_t mark = graph_scope_open(g);
    struct origin none = { SPAN_NONE, NULL };
    struct qty gaps = graph_floor(g, graph_divide(g, length, in_row, f), UNIT_NUMBER, f);
    struct qty one = graph_leaf(g, 1, plants, none, f);
    struct qty in_one = graph_add(g, graph_multiply(g, gaps, one, f), one, f);
    if (qty_is(in_one) && !graph_name(g, &in_one, "plants in a row", none, f))
        in_one = QTY_NONE;
    return finish(g, mark, graph_multiply(g, in_one, rows, f), "plants", f);
}

struct qty planting_order(struct graph *g, struct qty plants, struct qty extra,
                          struct qty survival, struct fault *f)
{
    if (qty_is(survival) &&
        !(graph_value(g, survival) > 0 && graph_value(g, survival) <= 1)) {
        fault_set(f, "plant-survival", SPAN_NONE,
                  "survival must be more than nothing and at most 100 percent");
        return QTY_NONE;
    }
    uint32_t mark = graph_scope_open(g);
    struct origin none = { SPAN_NONE, NULL };
    struct unit_id unit = plants_unit(g, f);
    struct qty wanted = graph_hold(g, plants, f);
    if (qty_is(survival))
        wanted = graph_divide(g, wanted, survival, f);
    if (qty_is(extra)) {
        struct qty one = graph_leaf(g, 1, UNIT_NUMBER, none, f);
        wanted = graph_multiply(g, wanted, graph_add(g, one, extra, f), f);
    }
    return finish(g, mark, graph_ceil(g, wanted, unit, f), "plants to order", f);
}
