#include "forest/stocking.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"

/* Crowding goes with this power of the diameter; the polynomials lie near it. */
#define ROOM_POWER 1.6

static double room_of(const struct stocking_room *r, double mean_in, double quadratic_in)
{
    double percent = r->a + r->b * mean_in + r->c * quadratic_in * quadratic_in;
    if (r->k != 0)
        percent += r->k * pow(quadratic_in, ROOM_POWER);
    return fmax(0, percent);
}

double stocking_tree(const struct stocking_room *room, double diameter_in)
{
    return room_of(room, diameter_in, diameter_in);
}

double stocking_wood_density(double gravity)
{
    const double acres_in_hectare = 2.471053814671653, cm_in_inch = 2.54;
    return 100 * acres_in_hectare * (0.00015 + 0.00218 * gravity) *
           pow(cm_in_inch / 25, ROOM_POWER);
}

struct qty figure_stocking(struct graph *g, const struct stock *s,
                           const struct stock_pick *pick,
                           const struct stocking_room *rooms, const char *what,
                           const char *words, struct fault *f)
{
    const struct inventory *inv = stock_inventory(s);
    double *each = calloc(inv->cell_count + 1, sizeof *each);
    if (!each) {
        (void)fault_no_memory(f);
        return QTY_NONE;
    }
    for (size_t i = 0; i < inv->cell_count; i++)
        each[i] = stocking_tree(&rooms[i], inv->cells[i].diameter_in);
    struct estimate e;
    bool good = estimate_powered(s, pick, each, ROOM_POWER, &e, f);
    free(each);
    return good ? figure_leaf(g, s, &e, "percent", what, words, f) : QTY_NONE;
}

static double line_room(const struct stocking_line *l, double quadratic_mean)
{
    return room_of(&l->room, l->mean_from + l->mean_slope * quadratic_mean,
                   quadratic_mean);
}

double stocking_line_trees(const struct stocking_line *l, double quadratic_mean)
{
    double room = line_room(l, quadratic_mean);
    return room > 0 ? l->percent / room : NAN;
}

/* ---- of quantities ---- */

enum { ROOM, PERCENT = ROOM + 4, FROM, SLOPE, NUMBERS };

static void pack(const struct stocking_line *l, double with[NUMBERS])
{
    with[ROOM] = l->room.a;
    with[ROOM + 1] = l->room.b;
    with[ROOM + 2] = l->room.c;
    with[ROOM + 3] = l->room.k;
    with[PERCENT] = l->percent;
    with[FROM] = l->mean_from;
    with[SLOPE] = l->mean_slope;
}

static struct stocking_line unpack(const double *with)
{
    return (struct stocking_line){ { with[ROOM], with[ROOM + 1], with[ROOM + 2],
                                     with[ROOM + 3] },
                                   with[PERCENT],
                                   with[FROM],
                                   with[SLOPE] };
}

static double tree_basal_area(double diameter)
{
    return INVENTORY_FT2_PER_IN2 * diameter * diameter;
}

static double trees_diameter(const double *x, const double *with)
{
    struct stocking_line l = unpack(with);
    return x[0] * line_room(&l, x[1]);
}
static double trees_basal_area(const double *x, const double *with)
{
    struct stocking_line l = unpack(with);
    return x[0] > 0 ? x[0] * line_room(&l, estimate_quadratic_mean(x[1], x[0])) : 0;
}
static double diameter_basal_area(const double *x, const double *with)
{
    struct stocking_line l = unpack(with);
    return x[0] > 0 ? x[1] / tree_basal_area(x[0]) * line_room(&l, x[0]) : NAN;
}
static double line_trees(const double *x, const double *with)
{
    struct stocking_line l = unpack(with);
    return stocking_line_trees(&l, x[0]);
}
static double line_basal_area(const double *x, const double *with)
{
    return tree_basal_area(x[0]) * line_trees(x, with);
}

/* An operand as a reader of `why` meets it. */
struct said {
    struct qty of;
    const char *unit, *name;
};

static struct qty equation(struct graph *g, const struct formula *formula,
                           const struct stocking_line *l, const struct said *said,
                           size_t count, const char *unit, const char *words,
                           struct fault *f)
{
    struct operand of[2];
    struct unit_id out;
    double with[NUMBERS];
    pack(l, with);
    if (!units_find(graph_units(g), unit, strlen(unit), &out, f))
        return QTY_NONE;
    for (size_t i = 0; i < count; i++) {
        of[i] = (struct operand){ .of = said[i].of, .name = said[i].name };
        const char *in = said[i].unit;
        if (!units_find(graph_units(g), in, strlen(in), &of[i].in, f))
            return QTY_NONE;
    }
    return graph_formula(g, formula, with, NUMBERS, of, count, out,
                         (struct origin){ SPAN_NONE, words }, f);
}

struct qty stocking_percent_of(struct graph *g, const struct stocking_line *l,
                               struct qty trees, struct qty diameter,
                               struct qty basal_area, const char *words, struct fault *f)
{
    static const struct formula by_diameter = { "stocking of trees and diameter",
                                                trees_diameter };
    static const struct formula by_area = { "stocking of trees and basal area",
                                            trees_basal_area };
    static const struct formula without_trees = { "stocking of diameter and basal area",
                                                  diameter_basal_area };
    struct said n = { trees, "trees/ac", "trees" }, d = { diameter, "in", "diameter" },
                ba = { basal_area, "ft2/ac", "basal area" };
    if (!qty_is(trees))
        return equation(g, &without_trees, l, (struct said[]){ d, ba }, 2, "percent",
                        words, f);
    if (!qty_is(diameter))
        return equation(g, &by_area, l, (struct said[]){ n, ba }, 2, "percent", words, f);
    return equation(g, &by_diameter, l, (struct said[]){ n, d }, 2, "percent", words, f);
}

struct qty stocking_trees_at(struct graph *g, const struct stocking_line *l,
                             struct qty diameter, const char *words, struct fault *f)
{
    static const struct formula formula = { "trees at the line", line_trees };
    return equation(g, &formula, l, &(struct said){ diameter, "in", "diameter" }, 1,
                    "trees/ac", words, f);
}

struct qty stocking_basal_area_at(struct graph *g, const struct stocking_line *l,
                                  struct qty diameter, const char *words, struct fault *f)
{
    static const struct formula formula = { "basal area at the line", line_basal_area };
    return equation(g, &formula, l, &(struct said){ diameter, "in", "diameter" }, 1,
                    "ft2/ac", words, f);
}
