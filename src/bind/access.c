/* need "access": does the way in, or the seat it leads to, give a hunter away?
 * What is asked and found: ground/access.h. */
#include "ground/access.h"

#include <lauxlib.h>
#include <lua.h>
#include <stdlib.h>

#include "base/fault.h"
#include "bind/ask.h"
#include "bind/rooms.h"
#include "bind/shape.h"
#include "bind/tell.h"
#include "lang/limits.h"
#include "lang/raise.h"

/* Instructions that a piece of the way against a piece of a rim takes as long as, about:
 * inside, near and the slices of the wind. */
enum { TICKS_A_PAIR = 20 };

static const char FOUND[] = "access found";

static int found_gc(lua_State *L)
{
    struct access_list *found = lua_touserdata(L, 1);
    free(found->list);
    *found = (struct access_list){ .list = NULL };
    return 0;
}

static size_t points_of(const struct shape *const *shapes, size_t count)
{
    size_t points = 0;
    for (size_t i = 0; i < count; i++)
        points += shapes[i]->point_count;
    return points;
}

static void push_finding(lua_State *L, const struct access_finding *found)
{
    static const char *const kinds[] = { "crosses", "near", "upwind" };
    lua_createtable(L, 0, 12);
    lua_pushstring(L, kinds[found->kind]);
    lua_setfield(L, -2, "kind");
    lua_pushboolean(L, found->seat);
    lua_setfield(L, -2, "seat");
    lua_pushboolean(L, found->opening);
    lua_setfield(L, -2, "opening");
    tell_number(L, "from", found->where.from);
    tell_number(L, "to", found->where.to);
    tell_number(L, "distance", found->where.distance);
    tell_number(L, "x1", found->where.begin.x);
    tell_number(L, "y1", found->where.begin.y);
    tell_number(L, "x2", found->where.end.x);
    tell_number(L, "y2", found->where.end.y);
    lua_pushinteger(L, (lua_Integer)found->part + 1);
    lua_setfield(L, -2, "part");
    lua_pushinteger(L, (lua_Integer)found->area + 1);
    lua_setfield(L, -2, "area");
}

/* check({ way = lines, seats = points, bedding = { areas, ... }, openings = { areas, ... },
 * near = ft, upwind = ft, from = degrees, spread = degrees to each side }): a list of
 * { kind = "crosses", "near" or "upwind", seat =, opening =, part =, area =, from =, to =,
 * distance =, x1 =, y1 =, x2 =, y2 = }, feet along the way; what is not said is none. */
static int l_check(lua_State *L)
{
    struct fault f = { 0 };
    luaL_checktype(L, 1, LUA_TTABLE);
    struct access_ask ask = { .way = ask_shape(L, 1, "way", SHAPE_LINES),
                              .seats = ask_shape(L, 1, "seats", SHAPE_POINTS),
                              .least = ask_number(L, 1, "near", 0),
                              .upwind = ask_number(L, 1, "upwind", 0),
                              .wind = { ask_number(L, 1, "from", 0),
                                        ask_number(L, 1, "spread", 0) } };
    ask.bedding = ask_areas(L, 1, "bedding", &ask.bedding_count);
    ask.openings = ask_areas(L, 1, "openings", &ask.opening_count);
    size_t points = points_of(ask.bedding, ask.bedding_count) +
                    points_of(ask.openings, ask.opening_count);
    size_t walked = (ask.way ? ask.way->point_count : 0) +
                    (ask.seats ? ask.seats->point_count : 0);
    limits_charge_input(L, TICKS_A_PAIR * (1 + walked) * (1 + points));
    struct access_list *found = ask_held(L, sizeof *found, FOUND, found_gc);
    if (!access_check(&ask, found, &f))
        fault_raise(L, &f);
    lua_createtable(L, (int)found->count, 0);
    for (size_t i = 0; i < found->count; i++) {
        push_finding(L, &found->list[i]);
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
    return 1;
}

int access_room(lua_State *L)
{
    static const luaL_Reg functions[] = { { "check", l_check }, { NULL, NULL } };
    luaL_newlib(L, functions);
    return 1;
}
