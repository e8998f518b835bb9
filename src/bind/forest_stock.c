#include "bind/forest_stock.h"

#include <lauxlib.h>
#include <lua.h>
#include <math.h>
#include <string.h>

#include "base/fault.h"
#include "bind/forest_trees.h"
#include "bind/measure.h"
#include "forest/figure.h"
#include "forest/stock.h"
#include "lang/host.h"
#include "lang/raise.h"

static const char TREES[] = "stock";

struct trees *trees_new(lua_State *L)
{
    struct trees *t = lua_newuserdatauv(L, sizeof *t, 1);
    *t = (struct trees){ NULL, NULL };
    luaL_setmetatable(L, TREES);
    return t;
}

static int trees_gc(lua_State *L)
{
    struct trees *t = luaL_checkudata(L, 1, TREES);
    stock_free(t->stock);
    inventory_free(t->inv);
    *t = (struct trees){ NULL, NULL };
    return 0;
}

const struct stock *trees_stock(lua_State *L, int index)
{
    const struct trees *t = luaL_checkudata(L, index, TREES);
    if (!t->stock)
        luaL_error(L, "these trees are gone");
    return t->stock;
}

static const struct stock *stock_at(lua_State *L)
{
    return trees_stock(L, 1);
}

/* ---- which trees ---- */

/* Joins a species word, or a list of them, to a set. */
static void read_species(lua_State *L, int index, struct species_set *set)
{
    index = lua_absindex(L, index);
    struct fault f = { 0 };
    if (lua_type(L, index) == LUA_TSTRING) {
        size_t length;
        const char *word = lua_tolstring(L, index, &length);
        struct species_set one;
        if (!species_select(host_of(L)->species, word, length, &one, &f))
            fault_raise(L, &f);
        species_set_join(set, &one);
        return;
    }
    luaL_checktype(L, index, LUA_TTABLE);
    lua_Integer count = luaL_len(L, index);
    for (lua_Integer i = 1; i <= count; i++) {
        lua_rawgeti(L, index, i);
        luaL_checktype(L, -1, LUA_TSTRING);
        read_species(L, -1, set);
        lua_pop(L, 1);
    }
}

static struct stock_pick read_pick(lua_State *L, int index)
{
    struct stock_pick pick = stock_pick_all();
    index = lua_absindex(L, index);
    if (lua_isnoneornil(L, index))
        return pick;
    bool rich = false;
    if (lua_type(L, index) == LUA_TTABLE) {
        static const char *const keys[] = { "species", "except", "from", "below" };
        for (size_t i = 0; i < 4; i++) {
            rich = lua_getfield(L, index, keys[i]) != LUA_TNIL || rich;
            lua_pop(L, 1);
        }
        if (!rich && luaL_len(L, index) == 0)
            return pick;
    }
    if (!rich) {
        memset(&pick.species, 0, sizeof pick.species);
        read_species(L, index, &pick.species);
        return pick;
    }
    if (lua_getfield(L, index, "species") != LUA_TNIL &&
        !(lua_type(L, -1) == LUA_TTABLE && luaL_len(L, -1) == 0)) {
        memset(&pick.species, 0, sizeof pick.species);
        read_species(L, -1, &pick.species);
    }
    if (lua_getfield(L, index, "except") != LUA_TNIL) {
        struct species_set not_these = { { 0 } };
        read_species(L, -1, &not_these);
        species_set_without(&pick.species, &not_these);
    }
    if (lua_getfield(L, index, "from") != LUA_TNIL)
        pick.from_in = luaL_checknumber(L, -1);
    if (lua_getfield(L, index, "below") != LUA_TNIL)
        pick.below_in = luaL_checknumber(L, -1);
    lua_pop(L, 4);
    return pick;
}

/* What `why` calls the choice: the argument when it is a word, else a text in `what`. */
static const char *read_what(lua_State *L, int index)
{
    if (lua_type(L, index) == LUA_TSTRING)
        return lua_tostring(L, index);
    if (lua_type(L, index) != LUA_TTABLE)
        return NULL;
    lua_getfield(L, index, "what");
    const char *what = lua_type(L, -1) == LUA_TSTRING ? lua_tostring(L, -1) : NULL;
    lua_pop(L, 1);
    return what;
}

struct stock_pick trees_pick(lua_State *L, int index)
{
    return read_pick(L, index);
}

const char *trees_what(lua_State *L, int index)
{
    return read_what(L, index);
}

static int give(lua_State *L, struct qty q, struct fault *f)
{
    if (fault_is_set(f))
        fault_raise(L, f);
    measure_push(L, q);
    return 1;
}

/* ---- answers ---- */

static int l_trees(lua_State *L)
{
    struct fault f = { 0 };
    struct stock_pick pick = read_pick(L, 2);
    return give(
        L, figure_trees(host_of(L)->graph, stock_at(L), &pick, read_what(L, 2), &f), &f);
}

static int l_basal_area(lua_State *L)
{
    struct fault f = { 0 };
    struct stock_pick pick = read_pick(L, 2);
    return give(
        L, figure_basal_area(host_of(L)->graph, stock_at(L), &pick, read_what(L, 2), &f),
        &f);
}

/* nil when there are no such trees. */
static int l_diameter(lua_State *L)
{
    struct fault f = { 0 };
    struct stock_pick pick = read_pick(L, 2);
    if (stock_trees(stock_at(L), &pick) <= 0)
        return 0;
    return give(
        L, figure_diameter(host_of(L)->graph, stock_at(L), &pick, read_what(L, 2), &f),
        &f);
}

static int l_share(lua_State *L)
{
    struct fault f = { 0 };
    struct stock_pick pick = read_pick(L, 2), all = stock_pick_all();
    struct graph *g = host_of(L)->graph;
    const struct stock *s = stock_at(L);
    if (stock_basal_area(s, &all) > 0)
        return give(
            L, figure_share(g, s, &pick, NULL, STOCK_BASAL_AREA, read_what(L, 2), &f),
            &f);
    struct unit_id percent = UNIT_NUMBER;
    if (!units_find(host_of(L)->units, "percent", 7, &percent, &f))
        fault_raise(L, &f);
    return give(
        L, graph_leaf(g, 0, percent, (struct origin){ SPAN_NONE, "no trees" }, &f), &f);
}

static int l_has(lua_State *L)
{
    struct stock_pick pick = read_pick(L, 2);
    lua_pushboolean(L, stock_trees(stock_at(L), &pick) > 0);
    return 1;
}

static int l_plots(lua_State *L)
{
    lua_pushinteger(L, (lua_Integer)stock_inventory(stock_at(L))->plots);
    return 1;
}

static int l_words(lua_State *L)
{
    const struct inventory *inv = stock_inventory(stock_at(L));
    switch (inv->basis) {
    case INVENTORY_TALLY:
        lua_pushfstring(L, "tally, %d plot%s", (int)inv->plots,
                        inv->plots == 1 ? "" : "s");
        return 1;
    case INVENTORY_EYE: lua_pushliteral(L, "by eye"); return 1;
    case INVENTORY_GUESS: lua_pushliteral(L, "not walked"); return 1;
    }
    return 0;
}

/* species(): names of the species present, in the order of the table. */
static int l_species(lua_State *L)
{
    const struct stock *s = stock_at(L);
    struct stock_row rows[SPECIES_MOST];
    size_t count = stock_rows(s, 0, rows, SPECIES_MOST);
    lua_newtable(L);
    for (size_t i = 0; i < count && i < SPECIES_MOST; i++) {
        lua_pushstring(L, species_at(host_of(L)->species, rows[i].species)->name);
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
    return 1;
}

/* classes(width in inches): { species, diameter, from, below, trees, basal_area } as
 * plain numbers per acre, likely values. */
static int l_classes(lua_State *L)
{
    const struct stock *s = stock_at(L);
    double width = luaL_optnumber(L, 2, 2);
    size_t count = stock_rows(s, width, NULL, 0);
    struct stock_row *rows = lua_newuserdatauv(L, (count ? count : 1) * sizeof *rows, 0);
    stock_rows(s, width, rows, count);
    lua_createtable(L, (int)count, 0);
    for (size_t i = 0; i < count; i++) {
        lua_createtable(L, 0, 6);
        lua_pushstring(L, species_at(host_of(L)->species, rows[i].species)->name);
        lua_setfield(L, -2, "species");
        const struct {
            const char *key;
            double value;
        } fields[] = { { "diameter", rows[i].class_in },
                       { "from", rows[i].from_in },
                       { "below", rows[i].below_in },
                       { "trees", rows[i].trees },
                       { "basal_area", rows[i].basal_area } };
        for (size_t k = 0; k < sizeof fields / sizeof fields[0]; k++) {
            lua_pushnumber(L, fields[k].value);
            lua_setfield(L, -2, fields[k].key);
        }
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
    return 1;
}

/* part(measure, whole, part): the part of a figure of `whole` (trees per acre) that lies
 * in `part`. */
static int l_part(lua_State *L)
{
    struct fault f = { 0 };
    struct stock_pick whole = read_pick(L, 3), part = read_pick(L, 4);
    struct qty figure = measure_at(L, 2);
    if (!qty_is(figure))
        return luaL_argerror(L, 2, "a measure is wanted");
    return give(L,
                figure_part(host_of(L)->graph, figure, stock_at(L), &whole, &part,
                            STOCK_TREES, &f),
                &f);
}

void forest_stock_open(lua_State *L)
{
    static const luaL_Reg methods[] = {
        { "trees", l_trees },       { "basal_area", l_basal_area },
        { "diameter", l_diameter }, { "share", l_share },
        { "has", l_has },           { "plots", l_plots },
        { "words", l_words },       { "species", l_species },
        { "classes", l_classes },   { "part", l_part },
        { "cut", trees_cut },       { "without", trees_without },
        { NULL, NULL },
    };
    if (luaL_newmetatable(L, TREES)) {
        luaL_newlib(L, methods);
        lua_setfield(L, -2, "__index");
        lua_pushcfunction(L, trees_gc);
        lua_setfield(L, -2, "__gc");
        lua_pushboolean(L, false);
        lua_setfield(L, -2, "__metatable");
    }
    lua_pop(L, 1);
}
