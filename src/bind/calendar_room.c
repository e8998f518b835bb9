/* need "calendar": what the built-in Lua does with dates and windows beyond what scripts
 * can. */
#include <lauxlib.h>
#include <lua.h>
#include <math.h>

#include "base/fault.h"
#include "bind/calendar.h"
#include "bind/measure.h"
#include "bind/rooms.h"
#include "lang/host.h"
#include "lang/raise.h"
#include "quantity/graph.h"

/* kind(value): "date", "day", "window" or nil. */
static int l_kind(lua_State *L)
{
    struct date date;
    struct month_day day;
    struct yearly window;
    if (date_at(L, 1, &date))
        lua_pushliteral(L, "date");
    else if (day_at(L, 1, &day))
        lua_pushliteral(L, "day");
    else if (window_at(L, 1, &window))
        lua_pushliteral(L, "window");
    else
        lua_pushnil(L);
    return 1;
}

/* window(from, to): two days of any year. */
static int l_window(lua_State *L)
{
    struct month_day from, to;
    if (!day_at(L, 1, &from) || !day_at(L, 2, &to))
        return luaL_error(L, "two days of any year are wanted");
    window_push(L, yearly_of((struct window){ from, to }));
    return 1;
}

static int l_union(lua_State *L)
{
    struct yearly a, b;
    if (!window_at(L, 1, &a) || !window_at(L, 2, &b))
        return luaL_error(L, "two windows are wanted");
    window_push(L, yearly_or(a, b));
    return 1;
}

/* days(measure of calendar time): the bare number of days. */
static int l_days(lua_State *L)
{
    struct host *host = host_of(L);
    struct fault f = { 0 };
    struct unit_id day;
    if (!units_find(host->units, "d", 1, &day, &f))
        fault_raise(L, &f);
    lua_pushnumber(L, graph_value_in(host->graph, measure_check(L, 1, day), day));
    return 1;
}

static struct date need_date(lua_State *L, int index)
{
    struct date d;
    if (!date_at(L, index, &d))
        luaL_argerror(L, index, "a date is wanted");
    return d;
}

/* How many days or years to go on: of more than a million, either way, a million, which is
 * outside the calendar as well. */
static int small(lua_State *L, int index)
{
    enum { MOST = 1000000 };
    lua_Integer n = luaL_checkinteger(L, index);
    return n > MOST ? MOST : n < -MOST ? -MOST : (int)n;
}

static int l_add_days(lua_State *L)
{
    struct fault f = { 0 };
    struct date out;
    if (!date_add_days(need_date(L, 1), small(L, 2), &out, &f))
        fault_raise(L, &f);
    date_push(L, out);
    return 1;
}

static int l_add_years(lua_State *L)
{
    struct fault f = { 0 };
    struct date out;
    if (!date_add_months(need_date(L, 1), 12 * small(L, 2), &out, &f))
        fault_raise(L, &f);
    date_push(L, out);
    return 1;
}

int calendar_room(lua_State *L)
{
    static const luaL_Reg functions[] = {
        { "kind", l_kind },         { "window", l_window },       { "union", l_union },
        { "days", l_days },         { "add_days", l_add_days },   { "add_years", l_add_years },
        { NULL, NULL },
    };
    luaL_newlib(L, functions);
    return 1;
}
