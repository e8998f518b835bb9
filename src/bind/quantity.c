/* need "quantity": what the built-in Lua does with measures beyond what scripts can:
 * making leaves with their sources, naming results for `why`, asking for dimensions; and
 * how they are told (quantity_told.c). */
#include <lauxlib.h>
#include <lua.h>
#include <math.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "bind/measure.h"
#include "bind/quantity_inner.h"
#include "bind/rooms.h"
#include "lang/held.h"
#include "lang/host.h"
#include "lang/raise.h"

struct qty quantity_need(lua_State *L, int index)
{
    struct qty q = measure_at(L, index);
    if (!qty_is(q))
        luaL_argerror(L, index, "a measure is wanted");
    return q;
}

static int l_is(lua_State *L)
{
    lua_pushboolean(L, qty_is(measure_at(L, 1)));
    return 1;
}

/* fits(measure, unit): can it be said in that unit? */
static int l_fits(lua_State *L)
{
    struct qty q = measure_at(L, 1);
    lua_pushboolean(L, qty_is(q) && measure_fits(L, q, measure_unit(L, 2)));
    return 1;
}

/* describe(measure): "an area (3 ac)" */
static int l_describe(lua_State *L)
{
    struct qty q = quantity_need(L, 1);
    char said[120];
    measure_text(L, q, said, sizeof said);
    struct buf *text = held_new(L);
    unit_says(graph_units(measure_graph(L)), graph_unit(measure_graph(L), q), text);
    buf_printf(text, " (%s)", said);
    return held_push(L, text);
}

/* leaf(number, unit, words): from what the words say; without them, from the author's
 * line that runs. */
static int l_leaf(lua_State *L)
{
    struct fault f = { 0 };
    struct origin from = { SPAN_NONE, luaL_optstring(L, 3, NULL) };
    if (from.words == NULL)
        from = measure_origin(L, NULL);
    struct qty q = graph_leaf(measure_graph(L), luaL_checknumber(L, 1), measure_unit(L, 2),
                              from, &f);
    measure_result(L, q, &f);
    return 1;
}

/* range(low, likely, high, unit, name, words): drawn by its name. */
static int l_range(lua_State *L)
{
    struct fault f = { 0 };
    uint64_t key = graph_key(luaL_checkstring(L, 5), 0, 0);
    struct qty q =
        graph_range(measure_graph(L), luaL_checknumber(L, 1), luaL_checknumber(L, 2),
                    luaL_checknumber(L, 3), measure_unit(L, 4), key,
                    (struct origin){ SPAN_NONE, luaL_optstring(L, 6, NULL) }, &f);
    measure_result(L, q, &f);
    return 1;
}

/* name(measure, name, how): the same quantity under a name. */
static int l_name(lua_State *L)
{
    struct fault f = { 0 };
    struct qty q = quantity_need(L, 1);
    const char *name = luaL_checkstring(L, 2);
    struct origin how = { SPAN_NONE, luaL_optstring(L, 3, NULL) };
    q = graph_hold(measure_graph(L), q); /* from here to measure_push nothing may raise */
    if (!graph_name(measure_graph(L), &q, name, how, &f)) {
        graph_release(measure_graph(L), q);
        fault_raise(L, &f);
    }
    measure_push(L, q);
    return 1;
}

/* named(measure): does it have a name of its own? */
static int l_named(lua_State *L)
{
    lua_pushboolean(L, graph_name_of(measure_graph(L), quantity_need(L, 1)) != NULL);
    return 1;
}

/* number(measure, unit): the bare number. */
static int l_number(lua_State *L)
{
    struct unit_id unit = measure_unit(L, 2);
    lua_pushnumber(L, graph_value_in(measure_graph(L), measure_check(L, 1, unit), unit));
    return 1;
}

static int l_say(lua_State *L)
{
    struct fault f = { 0 };
    struct unit_id unit = measure_unit(L, 2);
    measure_result(L, graph_say_in(measure_graph(L), measure_check(L, 1, unit), unit, &f), &f);
    return 1;
}

/* sum(list) */
static int l_sum(lua_State *L)
{
    luaL_checktype(L, 1, LUA_TTABLE);
    struct fault f = { 0 };
    lua_Integer count = luaL_len(L, 1);
    struct qty total = QTY_NONE;
    for (lua_Integer i = 1; i <= count && !fault_is_set(&f); i++) {
        lua_rawgeti(L, 1, i);
        struct qty q = measure_at(L, -1), before = total;
        if (!qty_is(q)) {
            graph_release(measure_graph(L), before);
            return luaL_error(L, "item %d is no measure", (int)i);
        }
        total =
            i == 1 ? graph_hold(measure_graph(L), q) : graph_add(measure_graph(L), before, q, &f);
        if (i > 1)
            graph_release(measure_graph(L), before);
        lua_pop(L, 1);
    }
    measure_result(L, total, &f);
    return 1;
}

/* less(a, b): by likely values; numbers too; false when they are not of a kind. */
static int l_less(lua_State *L)
{
    struct qty a = measure_at(L, 1), b = measure_at(L, 2);
    struct fault f = { 0 };
    int order = 0;
    bool less = false;
    if (qty_is(a) && qty_is(b)) {
        less = graph_compare(measure_graph(L), a, b, &order, &f) && order < 0;
    } else if (lua_isnumber(L, 1) && lua_isnumber(L, 2)) {
        less = lua_tonumber(L, 1) < lua_tonumber(L, 2);
    }
    lua_pushboolean(L, less);
    return 1;
}

/* below_zero(measure): is its likely value? */
static int l_below_zero(lua_State *L)
{
    lua_pushboolean(L, graph_value(measure_graph(L), quantity_need(L, 1)) < 0);
    return 1;
}

/* alike(a, b): can the two be compared? */
static int l_alike(lua_State *L)
{
    struct fault f = { 0 };
    struct qty a = measure_at(L, 1), b = measure_at(L, 2);
    lua_pushboolean(L, qty_is(a) && qty_is(b) &&
                           graph_fits(measure_graph(L), a, b, "compare", &f));
    return 1;
}

/* unit(measure): the name of the unit it is said in. */
static int l_unit(lua_State *L)
{
    struct qty q = quantity_need(L, 1);
    lua_pushstring(
        L, unit_name(graph_units(measure_graph(L)), graph_unit(measure_graph(L), q), false));
    return 1;
}

static bool is_count_dim(struct dim d)
{
    return dim_equal(d, dim_of(DIM_STEMS, 1)) || dim_equal(d, dim_of(DIM_TREES, 1)) ||
           dim_equal(d, dim_of(DIM_PLANTS, 1));
}

/* is_count(measure): stems, trees or plants, a whole number of them. */
static int l_is_count(lua_State *L)
{
    struct qty q = quantity_need(L, 1);
    double value = graph_value(measure_graph(L), q);
    lua_pushboolean(L, is_count_dim(graph_dim(measure_graph(L), q)) && value >= 0 &&
                           fabs(value - nearbyint(value)) < 1e-9 && value < 1e15);
    return 1;
}

static int l_whole(lua_State *L)
{
    lua_pushinteger(L,
                    (lua_Integer)nearbyint(graph_value(measure_graph(L), quantity_need(L, 1))));
    return 1;
}

/* units(): { name, words } of every simple unit. */
static int l_units(lua_State *L)
{
    struct unit_row row;
    lua_newtable(L);
    for (size_t i = 0; units_row(host_of(L)->units, i, &row); i++) {
        lua_createtable(L, 0, 3);
        lua_pushstring(L, row.name);
        lua_setfield(L, -2, "name");
        lua_pushstring(L, row.words);
        lua_setfield(L, -2, "words");
        lua_pushstring(L, row.source);
        lua_setfield(L, -2, "source");
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
    return 1;
}

/* define(name, plural, like, factor, source): true, or false and the words. */
static int l_define(lua_State *L)
{
    struct fault f = { 0 };
    bool ok = units_define(host_of(L)->units, luaL_checkstring(L, 1),
                           luaL_checkstring(L, 2), luaL_optstring(L, 3, NULL),
                           luaL_checknumber(L, 4), luaL_checkstring(L, 5), &f);
    lua_pushboolean(L, ok);
    lua_pushstring(L, f.message);
    return 2;
}

int quantity_room(lua_State *L)
{
    static const luaL_Reg functions[] = {
        { "is", l_is },
        { "fits", l_fits },
        { "describe", l_describe },
        { "leaf", l_leaf },
        { "range", l_range },
        { "name", l_name },
        { "named", l_named },
        { "number", l_number },
        { "say", l_say },
        { "sum", l_sum },
        { "less", l_less },
        { "alike", l_alike },
        { "below_zero", l_below_zero },
        { "unit", l_unit },
        { "is_count", l_is_count },
        { "whole", l_whole },
        { "units", l_units },
        { "define", l_define },
        { NULL, NULL },
    };
    luaL_newlib(L, functions);
    quantity_told(L);
    return 1;
}
