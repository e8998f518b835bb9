/* need "forest": site index curves and stocking guides, whose numbers come as tables from
 * stdlib. */
#include <lauxlib.h>
#include <lua.h>
#include <math.h>

#include "base/fault.h"
#include "bind/forest_parts.h"
#include "bind/forest_trees.h"
#include "bind/measure.h"
#include "forest/site_index.h"
#include "forest/stocking.h"
#include "lang/host.h"

static struct qty need_measure(lua_State *L, int index)
{
    struct qty q = measure_at(L, index);
    if (!qty_is(q))
        luaL_argerror(L, index, "a measure is wanted");
    return q;
}

static double field(lua_State *L, int row, const char *key)
{
    lua_getfield(L, row, key);
    double value = lua_tonumber(L, -1);
    lua_pop(L, 1);
    return value;
}

/* ---- site index ---- */

static void read_numbers(lua_State *L, int row, const char *key, double out[5])
{
    if (lua_getfield(L, row, key) == LUA_TTABLE) {
        for (int i = 0; i < 5; i++) {
            lua_rawgeti(L, -1, i + 1);
            out[i] = lua_tonumber(L, -1);
            lua_pop(L, 1);
        }
    }
    lua_pop(L, 1);
}

/* { form = "exponential", base = 4.5, height = { b1 to b5 }, site = { c1 to c5 } } */
static struct site_curve read_curve(lua_State *L, int row)
{
    struct site_curve c = { 0 };
    luaL_checktype(L, row, LUA_TTABLE);
    c.exponential = lua_getfield(L, row, "form") != LUA_TNIL;
    lua_pop(L, 1);
    c.base_ft = field(L, row, "base");
    read_numbers(L, row, "height", c.height);
    read_numbers(L, row, "site", c.site);
    return c;
}

typedef struct qty (*of_curve)(struct graph *g, const struct site_curve *c, struct qty a,
                               struct qty b, const char *words, struct fault *f);

static int by_curve(lua_State *L, of_curve of)
{
    struct fault f = { 0 };
    struct site_curve c = read_curve(L, 1);
    struct qty a = need_measure(L, 2), b = need_measure(L, 3);
    measure_result(L, of(measure_graph(L), &c, a, b, luaL_checkstring(L, 4), &f), &f);
    return 1;
}

/* site_height(curve, site index, age, words) */
static int l_site_height(lua_State *L)
{
    return by_curve(L, site_height_of);
}

/* site_age(curve, site index, height, words) */
static int l_site_age(lua_State *L)
{
    return by_curve(L, site_age_of);
}

/* site_index(curve, height, age, words) */
static int l_site_index(lua_State *L)
{
    return by_curve(L, site_index_of);
}

/* site_numbers(curve, height in ft, age in yr): site index by the published equation and
 * by inverting the height curve; nil for what there is not. */
static int l_site_numbers(lua_State *L)
{
    struct site_curve c = read_curve(L, 1);
    double height = luaL_checknumber(L, 2), age = luaL_checknumber(L, 3);
    double both[] = { site_index_published(&c, height, age),
                      site_index_inverted(&c, height, age) };
    for (int i = 0; i < 2; i++) {
        if (isnan(both[i]))
            lua_pushnil(L);
        else
            lua_pushnumber(L, both[i]);
    }
    return 2;
}

/* site_height_most(curve, site index in ft) */
static int l_site_height_most(lua_State *L)
{
    struct site_curve c = read_curve(L, 1);
    lua_pushnumber(L, site_height_most(&c, luaL_checknumber(L, 2)));
    return 1;
}

/* site_is_fitted_apart(curve) */
static int l_site_is_fitted_apart(lua_State *L)
{
    struct site_curve c = read_curve(L, 1);
    lua_pushboolean(L, site_is_fitted_apart(&c));
    return 1;
}

/* ---- stocking ---- */

/* { a =, b =, c =, k = }; what is not there is 0. */
static struct stocking_room read_room(lua_State *L, int row)
{
    luaL_checktype(L, row, LUA_TTABLE);
    return (struct stocking_room){ field(L, row, "a"), field(L, row, "b"),
                                   field(L, row, "c"), field(L, row, "k") };
}

/* stocking(stock, which, rooms by species' names, words): percent. */
static int l_stocking(lua_State *L)
{
    struct fault f = { 0 };
    const struct stock *s = trees_stock(L, 1);
    const struct inventory *inv = stock_inventory(s);
    struct stock_pick pick = trees_pick(L, 2);
    luaL_checktype(L, 3, LUA_TTABLE);
    const char *words = luaL_checkstring(L, 4);
    struct stocking_room *rooms =
        lua_newuserdatauv(L, (inv->cell_count + 1) * sizeof *rooms, 0);
    struct stocking_room room = { 0 };
    size_t last = SPECIES_MOST; /* cells lie by species */
    for (size_t i = 0; i < inv->cell_count; i++) {
        if (inv->cells[i].species != last) {
            last = inv->cells[i].species;
            room = (struct stocking_room){ 0 };
            const struct species *kind = species_at(host_of(L)->species, last);
            if (lua_getfield(L, 3, kind->name) == LUA_TTABLE)
                room = read_room(L, lua_gettop(L));
            lua_pop(L, 1);
        }
        rooms[i] = room;
    }
    struct qty q =
        figure_stocking(measure_graph(L), s, &pick, rooms, trees_what(L, 2), words, &f);
    measure_result(L, q, &f);
    return 1;
}

/* { a, b, c, k, percent, mean_from, mean_slope } */
static struct stocking_line read_line(lua_State *L, int row)
{
    return (struct stocking_line){ read_room(L, row), field(L, row, "percent"),
                                   field(L, row, "mean_from"),
                                   field(L, row, "mean_slope") };
}

/* stocking_of(line, trees, diameter, basal area, words): percent; one of the three is
 * nil. */
static int l_stocking_of(lua_State *L)
{
    struct fault f = { 0 };
    struct stocking_line l = read_line(L, 1);
    measure_result(L,
                   stocking_percent_of(measure_graph(L), &l, measure_at(L, 2),
                                       measure_at(L, 3), measure_at(L, 4),
                                       luaL_checkstring(L, 5), &f),
                   &f);
    return 1;
}

/* stocking_trees_at(line, diameter, words) */
static int l_stocking_trees_at(lua_State *L)
{
    struct fault f = { 0 };
    struct stocking_line l = read_line(L, 1);
    measure_result(L,
                   stocking_trees_at(measure_graph(L), &l, need_measure(L, 2),
                                     luaL_checkstring(L, 3), &f),
                   &f);
    return 1;
}

/* stocking_basal_area_at(line, diameter, words) */
static int l_stocking_basal_area_at(lua_State *L)
{
    struct fault f = { 0 };
    struct stocking_line l = read_line(L, 1);
    measure_result(L,
                   stocking_basal_area_at(measure_graph(L), &l, need_measure(L, 2),
                                          luaL_checkstring(L, 3), &f),
                   &f);
    return 1;
}

/* stocking_wood_density(gravity): the k of that wood. */
static int l_stocking_wood_density(lua_State *L)
{
    lua_pushnumber(L, stocking_wood_density(luaL_checknumber(L, 1)));
    return 1;
}

const luaL_Reg forest_site_functions[] = {
    { "site_height", l_site_height },
    { "site_age", l_site_age },
    { "site_index", l_site_index },
    { "site_numbers", l_site_numbers },
    { "site_height_most", l_site_height_most },
    { "site_is_fitted_apart", l_site_is_fitted_apart },
    { "stocking", l_stocking },
    { "stocking_of", l_stocking_of },
    { "stocking_trees_at", l_stocking_trees_at },
    { "stocking_basal_area_at", l_stocking_basal_area_at },
    { "stocking_wood_density", l_stocking_wood_density },
    { NULL, NULL },
};
