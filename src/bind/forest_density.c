/* How crowded a stand is and how sure its figures are: functions of need "forest" for
 * stdlib/answers and stdlib/handbook. What is one object's business comes as (stock,
 * which trees, ...); equations take measures. */
#include <lauxlib.h>
#include <lua.h>
#include <math.h>

#include "base/fault.h"
#include "bind/forest_parts.h"
#include "bind/forest_trees.h"
#include "bind/measure.h"
#include "forest/density.h"
#include "forest/volume.h"
#include "lang/host.h"

static struct graph *graph_of(lua_State *L)
{
    return host_of(L)->graph;
}

/* A measure, or a bare number. The caller releases it. */
static struct qty operand(lua_State *L, int index, struct fault *f)
{
    struct qty q = measure_at(L, index);
    if (qty_is(q))
        return graph_hold(graph_of(L), q);
    return graph_leaf(graph_of(L), luaL_checknumber(L, index), UNIT_NUMBER,
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
    struct qty q = means ? figure_reineke(graph_of(L), s, &pick, what, &f)
                         : figure_density_index(graph_of(L), s, &pick, what, &f);
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
        L, figure_relative_density(graph_of(L), s, &pick, gravity, what, &f), &f);
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
    measure_result(L, figure_crown_cover(graph_of(L), s, &pick, width, what, &f), &f);
    return 1;
}

static int l_importance(lua_State *L)
{
    struct fault f = { 0 };
    struct stock_pick pick = trees_pick(L, 2);
    measure_result(L,
                   figure_importance(graph_of(L), trees_stock(L, 1), &pick,
                                     trees_what(L, 2), &f),
                   &f);
    return 1;
}

/* ---- how sure ---- */

static void set(lua_State *L, const char *key, double value)
{
    lua_pushnumber(L, value);
    lua_setfield(L, -2, key);
}

enum { OF_BASAL_AREA, OF_TREES, OF_CORDS, OF_DENSITY_INDEX, OF_SHARE };

static bool estimate_asked(lua_State *L, int of, struct estimate *e, struct fault *f)
{
    const struct stock *s = trees_stock(L, 1);
    struct stock_pick pick = trees_pick(L, 3), all = stock_pick_all();
    switch (of) {
    case OF_TREES: return estimate_total(s, &pick, STOCK_TREES, e, f);
    case OF_CORDS:
        return volume_cords_estimate(s, &pick, host_of(L)->species, 0, e, f);
    case OF_DENSITY_INDEX: return density_index_estimate(s, &pick, e, f);
    case OF_SHARE: return estimate_share(s, &pick, &all, STOCK_BASAL_AREA, e, f);
    default: return estimate_total(s, &pick, STOCK_BASAL_AREA, e, f);
    }
}

/* precision(stock, of, which, confidence): numbers per acre (a share: parts of 1):
 * value, plots, told, error, cv (percent, of plots), low, high (when told). */
static int l_precision(lua_State *L)
{
    static const char *const asked[] = { "basal area",    "trees", "cords",
                                         "density index", "share", NULL };
    struct fault f = { 0 };
    struct estimate e;
    int of = luaL_checkoption(L, 2, NULL, asked);
    double confidence = luaL_checknumber(L, 4), low = 0, high = 0;
    if (!estimate_asked(L, of, &e, &f)) {
        measure_result(L, QTY_NONE, &f);
        return 0;
    }
    bool told = estimate_interval(&e, confidence, &low, &high);
    struct sample sample = e.sample;
    double value = e.value, judged = (e.high - e.low) / 2;
    estimate_clear(&e); /* from here Lua may raise */
    lua_createtable(L, 0, 8);
    set(L, "value", value);
    lua_pushinteger(L, (lua_Integer)sample.count);
    lua_setfield(L, -2, "plots");
    lua_pushboolean(L, told);
    lua_setfield(L, -2, "told");
    set(L, "judged", judged);
    if (!told)
        return 1;
    set(L, "error", sample.error);
    set(L, "cv", sample_cv_percent(&sample));
    set(L, "low", low);
    set(L, "high", of == OF_SHARE ? fmin(high, 1) : high);
    return 1;
}

/* sample(list of numbers, population or 0): mean, variance, error, cv */
static int l_sample(lua_State *L)
{
    luaL_checktype(L, 1, LUA_TTABLE);
    size_t count = (size_t)luaL_len(L, 1);
    double population = luaL_optnumber(L, 2, 0);
    double *values = lua_newuserdatauv(L, (count + 1) * sizeof *values, 0);
    for (size_t i = 0; i < count; i++) {
        lua_rawgeti(L, 1, (lua_Integer)i + 1);
        values[i] = luaL_checknumber(L, -1);
        lua_pop(L, 1);
    }
    struct sample s = sample_of(values, count, population);
    lua_createtable(L, 0, 4);
    set(L, "mean", s.mean);
    set(L, "variance", s.variance);
    set(L, "error", s.error);
    set(L, "cv", sample_cv_percent(&s));
    return 1;
}

/* student_t(two-sided confidence, degrees of freedom) */
static int l_student_t(lua_State *L)
{
    double confidence = luaL_checknumber(L, 1);
    lua_Integer freedom = luaL_checkinteger(L, 2);
    luaL_argcheck(L, confidence > 0 && confidence < 1, 1, "between 0 and 1");
    luaL_argcheck(L, freedom >= 1 && freedom <= SAMPLE_PLOTS_MOST, 2, "at least 1");
    lua_pushnumber(L, sample_t(0.5 + confidence / 2, (size_t)freedom));
    return 1;
}

/* plots_needed(cv, within, confidence as parts of 1, population or 0) */
static int l_plots_needed(lua_State *L)
{
    lua_pushinteger(L, (lua_Integer)sample_plots_needed(
                           luaL_checknumber(L, 1), luaL_checknumber(L, 2),
                           luaL_checknumber(L, 3), luaL_optnumber(L, 4, 0)));
    return 1;
}

static double field(lua_State *L, const char *key)
{
    lua_getfield(L, -1, key);
    double value = luaL_checknumber(L, -1);
    lua_pop(L, 1);
    return value;
}

/* strata(list of { weight, mean, error, count }, confidence): total, error, freedom, told,
 * low, high */
static int l_strata(lua_State *L)
{
    luaL_checktype(L, 1, LUA_TTABLE);
    size_t count = (size_t)luaL_len(L, 1);
    double confidence = luaL_checknumber(L, 2), low = 0, high = 0;
    struct stratum *rows = lua_newuserdatauv(L, (count + 1) * sizeof *rows, 0);
    for (size_t i = 0; i < count; i++) {
        lua_rawgeti(L, 1, (lua_Integer)i + 1);
        rows[i] = (struct stratum){ .weight = field(L, "weight"),
                                    .mean = field(L, "mean"),
                                    .error = field(L, "error"),
                                    .count = (size_t)field(L, "count") };
        lua_pop(L, 1);
    }
    struct strata s = sample_strata(rows, count);
    lua_createtable(L, 0, 6);
    set(L, "total", s.total);
    lua_pushboolean(L, s.told);
    lua_setfield(L, -2, "told");
    if (!sample_strata_interval(&s, confidence, &low, &high))
        return 1;
    set(L, "error", s.error);
    set(L, "freedom", s.freedom);
    set(L, "low", low);
    set(L, "high", high);
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
    struct qty q = of(graph_of(L), x, &f);
    for (int i = 0; i < count; i++)
        graph_release(graph_of(L), x[i]);
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
    { "precision", l_precision },
    { "sample", l_sample },
    { "student_t", l_student_t },
    { "plots_needed", l_plots_needed },
    { "strata", l_strata },
    { "density_index_of", l_reineke },
    { "relative_density_of", l_relative },
    { "mean_diameter_of", l_mean_diameter },
    { "crown_cover_of", l_cover },
    { NULL, NULL },
};
