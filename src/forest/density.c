#include "forest/density.h"

#include <stdlib.h>
#include <string.h>

#include "base/fault.h"

double density_tree_index(double diameter_in)
{
    return pow(diameter_in / 10, DENSITY_REINEKE_POWER);
}

double density_tree_relative(double diameter_in, double gravity)
{
    return DENSITY_ACRES_PER_HECTARE * (0.00015 + 0.00218 * gravity) *
           pow(diameter_in * 2.54 / 25, DENSITY_RELATIVE_POWER);
}

double density_crown_area(double width_ft)
{
    return acos(-1.0) / 4 * width_ft * width_ft;
}

/* --- equations over quantities --- */

static double reineke(const double *x, const double *with)
{
    (void)with;
    return x[0] * density_tree_index(x[1]);
}

static double relative(const double *x, const double *with)
{
    (void)with;
    return 100 * x[0] * density_tree_relative(x[1], x[2]);
}

static double quadratic_mean(const double *x, const double *with)
{
    (void)with;
    return estimate_quadratic_mean(x[0], x[1]);
}

static double cover(const double *x, const double *with)
{
    return -100 * expm1(-x[0] / with[0]);
}

/* An operand as a reader of `why` meets it. */
struct said {
    struct qty of;
    const char *unit, *name;
};

static struct qty equation(struct graph *g, const struct formula *formula,
                           const struct said *said, size_t count, const double *with,
                           size_t with_count, const char *unit, const char *words,
                           struct fault *f)
{
    struct operand operands[FORMULA_OPERANDS_MOST];
    struct unit_id out;
    if (!units_find(graph_units(g), unit, strlen(unit), &out, f))
        return QTY_NONE;
    for (size_t i = 0; i < count; i++) {
        operands[i] = (struct operand){ .of = said[i].of, .name = said[i].name };
        const char *in = said[i].unit;
        if (!qty_is(said[i].of))
            return QTY_NONE;
        if (in && !units_find(graph_units(g), in, strlen(in), &operands[i].in, f))
            return QTY_NONE;
        if (!in)
            operands[i].in = UNIT_NUMBER;
    }
    struct origin from = { SPAN_NONE, words };
    return graph_formula(g, formula, with, with_count, operands, count, out, from, f);
}

struct qty density_reineke(struct graph *g, struct qty trees, struct qty diameter,
                           struct fault *f)
{
    static const struct formula formula = { "stand density index", reineke };
    struct said x[] = { { trees, "trees/ac", "trees" }, { diameter, "in", "diameter" } };
    return equation(g, &formula, x, 2, NULL, 0, "trees/ac",
                    "Reineke 1933, J. Agric. Res. 46:627-638", f);
}

struct qty density_relative(struct graph *g, struct qty trees, struct qty diameter,
                            struct qty gravity, struct fault *f)
{
    static const struct formula formula = { "relative density", relative };
    struct said x[] = { { trees, "trees/ac", "trees" },
                        { diameter, "in", "diameter" },
                        { gravity, NULL, "specific gravity" } };
    return equation(g, &formula, x, 3, NULL, 0, "percent",
                    "Ducey and Knapp 2010, For. Ecol. Manage. 260:1613-1622, from memory",
                    f);
}

struct qty density_diameter(struct graph *g, struct qty basal_area, struct qty trees,
                            struct fault *f)
{
    static const struct formula formula = { "quadratic mean diameter", quadratic_mean };
    struct said x[] = { { basal_area, "ft2/ac", "basal area" },
                        { trees, "trees/ac", "trees" } };
    return equation(g, &formula, x, 2, NULL, 0, "in",
                    "Husch, Beers and Kershaw 2003, Forest Mensuration", f);
}

static struct qty cover_of(struct graph *g, struct qty crown_area, const char *unit,
                           double whole, struct fault *f)
{
    static const struct formula formula = { "cover of crowns at random", cover };
    struct said x[] = { { crown_area, unit, "crown area" } };
    return equation(g, &formula, x, 1, &whole, 1, "percent",
                    "Crookston and Stage 1999, RMRS-GTR-24, from memory", f);
}

struct qty density_cover(struct graph *g, struct qty crown_area, struct fault *f)
{
    return cover_of(g, crown_area, "ft2/ac", 43560, f);
}

/* --- of a stand --- */

/* An estimate of so much for each tree. `of` has a number a cell that `one` also needs,
 * or is NULL. */
static bool each_tree(const struct stock *s, const struct stock_pick *pick,
                      double (*one)(double diameter_in, double of), const double *of,
                      double power, struct estimate *out, struct fault *f)
{
    const struct inventory *inv = stock_inventory(s);
    double *each = calloc(inv->cell_count + 1, sizeof *each);
    if (!each)
        return fault_no_memory(f);
    for (size_t i = 0; i < inv->cell_count; i++)
        each[i] = one(inv->cells[i].diameter_in, of ? of[i] : 0);
    bool good = estimate_powered(s, pick, each, power, out, f);
    free(each);
    return good;
}

static double index_of(double diameter_in, double none)
{
    (void)none;
    return density_tree_index(diameter_in);
}

static double percent_of(double diameter_in, double gravity)
{
    return 100 * density_tree_relative(diameter_in, gravity);
}

static double crown_of(double diameter_in, double width_ft)
{
    (void)diameter_in;
    return density_crown_area(width_ft);
}

bool density_index_estimate(const struct stock *s, const struct stock_pick *pick,
                            struct estimate *out, struct fault *f)
{
    return each_tree(s, pick, index_of, NULL, DENSITY_REINEKE_POWER, out, f);
}

struct qty figure_density_index(struct graph *g, const struct stock *s,
                                const struct stock_pick *pick, const char *what,
                                struct fault *f)
{
    struct estimate e;
    if (!density_index_estimate(s, pick, &e, f))
        return QTY_NONE;
    return figure_leaf(g, s, &e, "trees/ac", what,
                       "stand density index, tree by tree (diameter / 10 in)^1.605: "
                       "Reineke 1933, J. Agric. Res. 46:627-638",
                       f);
}

struct qty figure_reineke(struct graph *g, const struct stock *s,
                          const struct stock_pick *pick, const char *what,
                          struct fault *f)
{
    if (stock_trees(s, pick) <= 0)
        return figure_density_index(g, s, pick, what, f); /* none */
    struct qty trees = figure_trees(g, s, pick, what, f);
    struct qty diameter = figure_diameter(g, s, pick, what, f);
    struct qty q = density_reineke(g, trees, diameter, f);
    graph_release(g, trees);
    graph_release(g, diameter);
    return q;
}

struct qty figure_relative_density(struct graph *g, const struct stock *s,
                                   const struct stock_pick *pick, const double *gravity,
                                   const char *what, struct fault *f)
{
    struct estimate e;
    if (!each_tree(s, pick, percent_of, gravity, DENSITY_RELATIVE_POWER, &e, f))
        return QTY_NONE;
    return figure_leaf(g, s, &e, "percent", what,
                       "relative density by specific gravity: Ducey and Knapp 2010, For. "
                       "Ecol. Manage. 260:1613-1622, from memory",
                       f);
}

struct qty figure_crown_cover(struct graph *g, const struct stock *s,
                              const struct stock_pick *pick, const double *width_ft,
                              const char *what, struct fault *f)
{
    struct estimate e;
    /* Crown widths go with the diameter, their areas with its square. */
    if (!each_tree(s, pick, crown_of, width_ft, 2, &e, f))
        return QTY_NONE;
    struct qty area = figure_leaf(g, s, &e, "ft2/ac", what, "area of the crowns", f);
    struct qty q = density_cover(g, area, f);
    graph_release(g, area);
    return q;
}
