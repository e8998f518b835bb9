/* How sure figures are: functions of need "forest" for stdlib/answers/precision.lua and
 * stdlib/handbook/sample.lua. Plain numbers in, plain numbers out. */
#include <lauxlib.h>
#include <lua.h>
#include <math.h>

#include "base/fault.h"
#include "bind/forest_parts.h"
#include "bind/forest_trees.h"
#include "bind/forest_wood.h"
#include "bind/measure.h"
#include "forest/density.h"
#include "lang/host.h"

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
    case OF_CORDS: {
        struct wood_ask ask = wood_ask_at(L, 5);
        return wood_estimate(s, &pick, host_of(L)->species, &ask, e, f);
    }
    case OF_DENSITY_INDEX: return density_index_estimate(s, &pick, e, f);
    case OF_SHARE: return estimate_share(s, &pick, &all, STOCK_BASAL_AREA, e, f);
    default: return estimate_total(s, &pick, STOCK_BASAL_AREA, e, f);
    }
}

/* precision(stock, of, which, confidence, wood asked for): numbers per acre (a share: parts of 1):
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

/* strata(list of { weight, mean, error, count }, confidence): total, told, and when it is
 * told error, freedom, low, high */
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

const luaL_Reg forest_precision_functions[] = {
    { "precision", l_precision },
    { "sample", l_sample },
    { "student_t", l_student_t },
    { "plots_needed", l_plots_needed },
    { "strata", l_strata },
    { NULL, NULL },
};
