/* need "forest": the wood of a stand, its dry weight and its slash. */
#include <lua.h>
#include <math.h>

#include "base/fault.h"
#include "bind/forest_parts.h"
#include "bind/forest_trees.h"
#include "bind/forest_wood.h"
#include "bind/measure.h"
#include "lang/host.h"

static double number_of(lua_State *L, int row, const char *key, double usual)
{
    lua_getfield(L, row, key);
    double value = luaL_optnumber(L, -1, usual);
    lua_pop(L, 1);
    return value;
}

static bool flag_of(lua_State *L, int row, const char *key)
{
    lua_getfield(L, row, key);
    bool on = lua_toboolean(L, -1);
    lua_pop(L, 1);
    return on;
}

static int word_of(lua_State *L, int row, const char *key, const char *usual,
                   const char *const words[])
{
    lua_getfield(L, row, key);
    int found = luaL_checkoption(L, -1, usual, words);
    lua_pop(L, 1);
    return found;
}

struct wood_ask wood_ask_at(lua_State *L, int row)
{
    static const char *const products[] = { "wood", "sawlogs", "pulpwood", NULL };
    static const char *const units[] = { "cords", "cubic feet", "board feet", "tons",
                                         NULL };
    struct wood_ask a = wood_usual();
    a.product = (enum wood_product)word_of(L, row, "product", products[0], products);
    a.as = (enum wood_as)word_of(L, row, "as", units[0], units);
    lua_getfield(L, row, "rule");
    a.rule = wood_rule_at(L, -1);
    lua_pop(L, 1);
    a.form_class = number_of(L, row, "form_class", a.form_class);
    a.bark = flag_of(L, row, "bark");
    a.heights_told = flag_of(L, row, "heights_told");
    a.tree_length_ft = number_of(L, row, "tree_length", 0);
    a.pulp_from_in = number_of(L, row, "pulp_from", a.pulp_from_in);
    a.pulp_top_in = number_of(L, row, "pulp_top", a.pulp_top_in);
    a.pulp_top_part = number_of(L, row, "pulp_top_part", a.pulp_top_part);
    a.bolt_ft = fmax(1, number_of(L, row, "bolt", a.bolt_ft));
    a.hardwood.from_in = number_of(L, row, "hardwood_from", a.hardwood.from_in);
    a.hardwood.top_in = number_of(L, row, "hardwood_top", a.hardwood.top_in);
    a.softwood.from_in = number_of(L, row, "softwood_from", a.softwood.from_in);
    a.softwood.top_in = number_of(L, row, "softwood_top", a.softwood.top_in);
    a.solid_ft3 = number_of(L, row, "solid", a.solid_ft3);
    return a;
}

/* wood(stock, which, { product, as, rule, ... }, tree length): an acre's. */
static int l_wood(lua_State *L)
{
    struct fault f = { 0 };
    luaL_checktype(L, 3, LUA_TTABLE);
    const struct stock *s = trees_stock(L, 1);
    struct stock_pick pick = trees_pick(L, 2);
    struct wood_ask ask = wood_ask_at(L, 3);
    measure_result(L,
                   wood_figure(host_of(L)->graph, s, &pick, host_of(L)->species, &ask,
                               measure_at(L, 4), trees_what(L, 2), &f),
                   &f);
    return 1;
}

/* biomass(stock, which, part): dry tons an acre. */
static int l_biomass(lua_State *L)
{
    struct fault f = { 0 };
    const struct stock *s = trees_stock(L, 1);
    struct stock_pick pick = trees_pick(L, 2);
    enum biomass_part part = wood_part_at(L, 3);
    measure_result(L,
                   wood_biomass(host_of(L)->graph, s, &pick, host_of(L)->species, part,
                                trees_what(L, 2), &f),
                   &f);
    return 1;
}

/* slash(stock, which, limits of products as for wood): dry tons an acre. */
static int l_slash(lua_State *L)
{
    struct fault f = { 0 };
    luaL_checktype(L, 3, LUA_TTABLE);
    const struct stock *s = trees_stock(L, 1);
    struct stock_pick pick = trees_pick(L, 2);
    struct wood_ask ask = wood_ask_at(L, 3);
    measure_result(L,
                   wood_slash(host_of(L)->graph, s, &pick, host_of(L)->species, &ask,
                              trees_what(L, 2), &f),
                   &f);
    return 1;
}

const luaL_Reg forest_wood_functions[] = {
    { "wood", l_wood },
    { "biomass", l_biomass },
    { "slash", l_slash },
    { NULL, NULL },
};
