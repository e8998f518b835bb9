/* How crowded a stand is: functions of need "forest" for stdlib/answers and
 * stdlib/handbook. What is one stand's business comes as (stock, which trees, ...);
 * equations take measures. */
#include <lauxlib.h>
#include <lua.h>
#include <math.h>

#include "base/fault.h"
#include "bind/forest_parts.h"
#include "bind/forest_trees.h"
#include "bind/measure.h"
#include "forest/density.h"
#include "lang/host.h"

/* A measure, or a bare number. The caller releases it. */
static struct qty operand(lua_State *L, int index, struct fault *f)
{
    struct qty q = measure_at(L, index);
    if (qty_is(q))
        return graph_hold(measure_graph(L), q);
    return graph_leaf(measure_graph(L), luaL_checknumber(L, index), UNIT_NUMBER,
                      measure_origin(L, NULL), f);
}

/* A trait of the species in a cell; `usual` where it is not known. */
static double trait(lua_State *L, const struct inventory_cell *cell,
                    enum species_trait which, double usual)
{
    const struct species *s = species_at(host_of(L)->species, cell->species);
    return !s || isnan(s->traits[which]) ? usual : s->traits[which];
}

/* One number a cell of the inventory, freed by Lua. */
static double *cells_new(lua_State *L, const struct inventory *inv)
{
    return lua_newuserdatauv(L, (inv->cell_count + 1) * sizeof(double), 0);
}

/* ---- of a stand ---- */

/* density_index(stock, which, "means" or "trees") */
static int l_density_index(lua_State *L)
{
    static const char *const ways[] = { "trees", "means", NULL };
    struct fault f = { 0 };
    const struct stock *s = trees_stock(L, 1);
    struct stock_pick pick = trees_pick(L, 2);
    const char *what = trees_what(L, 2);
    bool means = luaL_checkoption(L, 3, "trees", ways) == 1;
    struct qty q = means ? figure_reineke(measure_graph(L), s, &pick, what, &f)
                         : figure_density_index(measure_graph(L), s, &pick, what, &f);
    measure_result(L, q, &f);
    return 1;
}

/* relative_density(stock, which, gravity of hardwoods and of conifers for which no layer
 * says it) */
static int l_relative_density(lua_State *L)
{
    struct fault f = { 0 };
    const struct stock *s = trees_stock(L, 1);
    const struct inventory *inv = stock_inventory(s);
    struct stock_pick pick = trees_pick(L, 2);
    double hardwood = luaL_checknumber(L, 3), conifer = luaL_checknumber(L, 4);
    struct species_set conifers = { { 0 } };
    if (!species_select(host_of(L)->species, "conifer", 7, &conifers, &f))
        fault_clear(&f); /* a table without any */
    double *gravity = cells_new(L, inv);
    for (size_t i = 0; i < inv->cell_count; i++)
        gravity[i] = trait(L, &inv->cells[i], SPECIES_WOOD_GRAVITY,
                           species_set_has(&conifers, inv->cells[i].species) ? conifer
                                                                             : hardwood);
    const char *what = trees_what(L, 2);
    measure_result(
        L, figure_relative_density(measure_graph(L), s, &pick, gravity, what, &f), &f);
    return 1;
}

/* crown_cover(stock, which, start and slope of crown width for which no layer says it) */
static int l_crown_cover(lua_State *L)
{
    struct fault f = { 0 };
    const struct stock *s = trees_stock(L, 1);
    const struct inventory *inv = stock_inventory(s);
    struct stock_pick pick = trees_pick(L, 2);
    double start = luaL_checknumber(L, 3), slope = luaL_checknumber(L, 4);
    double *width = cells_new(L, inv);
    for (size_t i = 0; i < inv->cell_count; i++) {
        const struct inventory_cell *cell = &inv->cells[i];
        width[i] = trait(L, cell, SPECIES_CROWN_START, start) +
                   trait(L, cell, SPECIES_CROWN_SLOPE, slope) * cell->diameter_in;
    }
    const char *what = trees_what(L, 2);
    measure_result(L, figure_crown_cover(measure_graph(L), s, &pick, width, what, &f), &f);
    return 1;
}

static int l_importance(lua_State *L)
{
    struct fault f = { 0 };
    struct stock_pick pick = trees_pick(L, 2);
    measure_result(L,
                   figure_importance(measure_graph(L), trees_stock(L, 1), &pick,
                                     trees_what(L, 2), &f),
                   &f);
    return 1;
}

/* ---- equations over measures ---- */

static int equation(lua_State *L, int count,
                    struct qty (*of)(struct graph *, const struct qty *, struct fault *))
{
    struct fault f = { 0 };
    struct qty x[3] = { QTY_NONE, QTY_NONE, QTY_NONE };
    for (int i = 1; i <= count; i++)
        if (!qty_is(measure_at(L, i)))
            luaL_checknumber(L, i); /* raises here, before anything is held */
    for (int i = 0; i < count; i++)
        x[i] = operand(L, i + 1, &f);
    struct qty q = of(measure_graph(L), x, &f);
    for (int i = 0; i < count; i++)
        graph_release(measure_graph(L), x[i]);
    measure_result(L, q, &f);
    return 1;
}

static struct qty reineke_of(struct graph *g, const struct qty *x, struct fault *f)
{
    return density_reineke(g, x[0], x[1], f);
}
static int l_reineke(lua_State *L)
{
    return equation(L, 2, reineke_of);
}

static struct qty relative_of(struct graph *g, const struct qty *x, struct fault *f)
{
    return density_relative(g, x[0], x[1], x[2], f);
}
static int l_relative(lua_State *L)
{
    return equation(L, 3, relative_of);
}

static struct qty mean_diameter_of(struct graph *g, const struct qty *x, struct fault *f)
{
    return density_diameter(g, x[0], x[1], f);
}
static int l_mean_diameter(lua_State *L)
{
    return equation(L, 2, mean_diameter_of);
}

static struct qty cover_of(struct graph *g, const struct qty *x, struct fault *f)
{
    return density_cover(g, x[0], f);
}
static int l_cover(lua_State *L)
{
    return equation(L, 1, cover_of);
}

const luaL_Reg forest_density_functions[] = {
    { "density_index", l_density_index },
    { "relative_density", l_relative_density },
    { "crown_cover", l_crown_cover },
    { "importance", l_importance },
    { "density_index_of", l_reineke },
    { "relative_density_of", l_relative },
    { "mean_diameter_of", l_mean_diameter },
    { "crown_cover_of", l_cover },
    { NULL, NULL },
};
