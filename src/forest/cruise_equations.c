#include "forest/cruise_equations.h"

#include <math.h>
#include <string.h>

#include "base/fault.h"
#include "forest/cruise.h"

enum { OPERANDS_MOST = 2 };

struct cruise_equation {
    const char *name;
    struct formula formula;
    const char *unit;
    struct {
        const char *name, *unit;
    } of[OPERANDS_MOST];
    const char *words; /* where it is from */
};

/* What makes no sense has no value. */
static double above_zero(double x, double value)
{
    return x > 0 ? value : NAN;
}

static double limit_center(const double *x, const double *with)
{
    (void)with;
    return above_zero(x[0], cruise_limit_center(x[0], x[1]));
}

static double limit_face(const double *x, const double *with)
{
    (void)with;
    return above_zero(x[0], cruise_limit_face(x[0], x[1]));
}

static double radius_factor(const double *x, const double *with)
{
    (void)with;
    return above_zero(x[0], cruise_radius_factor(x[0]));
}

static double plot_radius(const double *x, const double *with)
{
    (void)with;
    return above_zero(x[0], cruise_plot_radius(x[0]));
}

static double trees_at_point(const double *x, const double *with)
{
    const struct tally_plot point = { .kind = PLOT_POINT, .size = x[0] };
    (void)with;
    return above_zero(x[1], cruise_expansion(&point, x[1]));
}

static double trees_on_plot(const double *x, const double *with)
{
    (void)with;
    return above_zero(x[0], 1 / x[0]);
}

static double tree_basal_area(const double *x, const double *with)
{
    (void)with;
    return INVENTORY_FT2_PER_IN2 * x[0] * x[0];
}

static double along_slope(const double *x, const double *with)
{
    (void)with;
    return x[0] * cruise_slope_factor(x[1]);
}

static double on_the_level(const double *x, const double *with)
{
    (void)with;
    return x[0] / cruise_slope_factor(x[1]);
}

#define FACTOR                        \
    {                                 \
        "basal area factor", "ft2/ac" \
    }
#define DIAMETER         \
    {                    \
        "diameter", "in" \
    }
#define SLOPE              \
    {                      \
        "slope", "percent" \
    }

static const struct cruise_equation equations[] = {
    { "limit_center",
      { "limiting distance to the center", limit_center },
      "ft",
      { FACTOR, DIAMETER },
      "33 sqrt(10) / (12 sqrt(BAF)) ft an inch: Grosenbaugh 1952, J. For. 50:32-37, "
      "formula from memory" },
    { "limit_face",
      { "limiting distance to the face", limit_face },
      "ft",
      { FACTOR, DIAMETER },
      "33 sqrt(10) / (12 sqrt(BAF)) - 1/24 ft an inch: Grosenbaugh 1952, J. For. "
      "50:32-37, "
      "formula from memory; half a diameter nearer: K. Iles, cruising newsletter" },
    { "radius_factor",
      { "plot radius factor", radius_factor },
      "ft/in",
      { FACTOR },
      "33 sqrt(10) / (12 sqrt(BAF)): Grosenbaugh 1952, J. For. 50:32-37, formula from "
      "memory" },
    { "plot_radius",
      { "radius of a round plot", plot_radius },
      "ft",
      { { "size", "ac" } },
      "geometry; 43,560 ft2 in an acre: NIST Handbook 44" },
    { "trees_at_point",
      { "trees an acre for one at a point", trees_at_point },
      "trees/ac",
      { FACTOR, DIAMETER },
      "BAF / (0.005454154 D^2): Husch, Beers and Kershaw 2003, Forest Mensuration" },
    { "trees_on_plot",
      { "trees an acre for one on a plot", trees_on_plot },
      "trees/ac",
      { { "size", "ac" } },
      "geometry" },
    { "tree_basal_area",
      { "basal area of a tree", tree_basal_area },
      "ft2",
      { DIAMETER },
      "0.005454154 D^2: Husch, Beers and Kershaw 2003, Forest Mensuration" },
    { "along_slope",
      { "distance along the slope", along_slope },
      "ft",
      { { "level distance", "ft" }, SLOPE },
      "geometry" },
    { "on_the_level",
      { "level distance", on_the_level },
      "ft",
      { { "distance along the slope", "ft" }, SLOPE },
      "geometry" },
};

const struct cruise_equation *cruise_equation_find(const char *name)
{
    for (size_t i = 0; i < sizeof equations / sizeof equations[0]; i++)
        if (strcmp(equations[i].name, name) == 0)
            return &equations[i];
    return NULL;
}

size_t cruise_equation_operands(const struct cruise_equation *e)
{
    size_t count = 0;
    while (count < OPERANDS_MOST && e->of[count].name)
        count++;
    return count;
}

struct qty cruise_equation(struct graph *g, const struct cruise_equation *e,
                           const struct qty *x, struct fault *f)
{
    struct operand operands[OPERANDS_MOST];
    struct unit_id unit;
    size_t count = cruise_equation_operands(e);
    struct units *units = graph_units(g);
    if (!units_find(units, e->unit, strlen(e->unit), &unit, f))
        return QTY_NONE;
    for (size_t i = 0; i < count; i++) {
        const char *in = e->of[i].unit;
        operands[i] = (struct operand){ .of = x[i], .name = e->of[i].name };
        if (!qty_is(x[i]) || !units_find(units, in, strlen(in), &operands[i].in, f))
            return QTY_NONE;
    }
    return graph_formula(g, &e->formula, NULL, 0, operands, count, unit,
                         (struct origin){ SPAN_NONE, e->words }, f);
}
