/* need "quantity", its second half: how doubtful measures are, and how they are told. */
#include <lauxlib.h>
#include <lua.h>

#include "base/buf.h"
#include "base/fault.h"
#include "bind/measure.h"
#include "bind/quantity_inner.h"
#include "lang/held.h"
#include "lang/host.h"
#include "lang/raise.h"
#include "quantity/explain.h"
#include "quantity/spread.h"

/* ends(measure, unit): low and high end as bare numbers. */
static int l_ends(lua_State *L)
{
    struct unit_id unit = measure_unit(L, 2);
    struct qty q = measure_check(L, 1, unit);
    struct spread s;
    struct fault f = { 0 };
    if (!spread_of(measure_graph(L), &q, 1, &s, &f))
        fault_raise(L, &f);
    double factor = unit_factor(graph_units(measure_graph(L)), unit);
    lua_pushnumber(L, s.low / factor);
    lua_pushnumber(L, s.high / factor);
    return 2;
}

/* short(measure): likely value and unit only. */
static int l_short(lua_State *L)
{
    char said[120];
    measure_text(L, quantity_need(L, 1), said, sizeof said);
    lua_pushstring(L, said);
    return 1;
}

/* figure(measure): "70 h (60 to 80)", as papers print it. */
static int l_figure(lua_State *L)
{
    struct qty q = quantity_need(L, 1);
    struct spread s;
    struct fault f = { 0 };
    if (!spread_of(measure_graph(L), &q, 1, &s, &f))
        fault_raise(L, &f);
    struct buf *text = held_new(L);
    explain_figure(measure_graph(L), q, &s, text);
    return held_push(L, text);
}

/* draw_ahead(list): what is asked next of these measures needs no draws of its own. */
static int l_draw_ahead(lua_State *L)
{
    struct qty list[SPREAD_AHEAD];
    struct fault f = { 0 };
    size_t count = 0;
    luaL_checktype(L, 1, LUA_TTABLE);
    lua_settop(L, 1);
    while (count < SPREAD_AHEAD &&
           lua_rawgeti(L, 1, (lua_Integer)count + 1) != LUA_TNIL) {
        list[count++] = quantity_need(L, 2);
        lua_settop(L, 1); /* the table holds it */
    }
    if (!spread_ahead(measure_graph(L), list, count, &f))
        fault_raise(L, &f);
    return 0;
}

/* hangs_on(measure, most): { name, share } of what its spread hangs on. */
static int l_hangs_on(lua_State *L)
{
    struct hangs_on rows[8];
    size_t most = (size_t)luaL_checkinteger(L, 2);
    if (most > 8)
        most = 8;
    struct fault f = { 0 };
    size_t count = spread_hangs_on(measure_graph(L), quantity_need(L, 1), rows, most, &f);
    if (fault_is_set(&f))
        fault_raise(L, &f);
    lua_newtable(L);
    for (size_t i = 0; i < count; i++) {
        lua_createtable(L, 0, 2);
        lua_pushstring(L, rows[i].name);
        lua_setfield(L, -2, "name");
        lua_pushnumber(L, rows[i].share);
        lua_setfield(L, -2, "share");
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
    return 1;
}

static int l_chance(lua_State *L)
{
    struct fault f = { 0 };
    double chance = 0;
    if (!spread_chance(measure_graph(L), quantity_need(L, 1), quantity_need(L, 2),
                       &chance, &f))
        fault_raise(L, &f);
    lua_pushnumber(L, chance);
    return 1;
}

/* explain(measure): the tree of `why`, as text. */
static int l_explain(lua_State *L)
{
    struct host *host = host_of(L);
    struct fault f = { 0 };
    struct qty q = quantity_need(L, 1);
    struct explain_look look = { .width = 80, .depth = 16 };
    struct buf *text = held_new(L);
    if (!explain_text(host->graph, host->sources, q, look, text, &f))
        fault_raise(L, &f);
    return held_push(L, text);
}

void quantity_told(lua_State *L)
{
    static const luaL_Reg functions[] = {
        { "ends", l_ends },
        { "short", l_short },
        { "figure", l_figure },
        { "hangs_on", l_hangs_on },
        { "draw_ahead", l_draw_ahead },
        { "chance", l_chance },
        { "explain", l_explain },
        { NULL, NULL },
    };
    luaL_setfuncs(L, functions, 0);
}
