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

static double number_field(lua_State *L, const char *key)
{
    lua_getfield(L, 1, key);
    double value = luaL_optnumber(L, -1, 0);
    lua_pop(L, 1);
    return value;
}

/* NULL when it is not said. The table holds the shape. */
static const struct shape *shape_field(lua_State *L, const char *key, enum shape_kind kind)
{
    const struct shape *s = NULL;
    if (lua_getfield(L, 1, key) != LUA_TNIL) {
        s = shape_at_index(L, -1);
        if (s->kind != kind)
            luaL_error(L, "`%s` is no %s", key, shape_kind_word(kind));
    }
    lua_pop(L, 1);
    return s;
}

/* The shapes of a list, in memory of Lua's that stays on the stack; counts their points. */
static const struct shape *const *shapes_field(lua_State *L, const char *key,
                                               size_t *count, size_t *points)
{
    lua_Integer length = 0;
    if (lua_getfield(L, 1, key) != LUA_TNIL) {
        luaL_checktype(L, -1, LUA_TTABLE);
        length = luaL_len(L, -1);
    }
    int list = lua_gettop(L);
    *count = (size_t)length;
    const struct shape **shapes =
        lua_newuserdatauv(L, (*count + 1) * sizeof(const struct shape *), 0);
    for (size_t i = 0; i < *count; i++) {
        lua_rawgeti(L, list, (lua_Integer)i + 1);
        shapes[i] = shape_at_index(L, -1);
        if (shapes[i]->kind != SHAPE_AREAS)
            luaL_error(L, "`%s` has a shape that is no area", key);
        *points += shapes[i]->point_count;
        lua_pop(L, 1);
    }
    return shapes;
}

static void set_number(lua_State *L, const char *key, double value)
{
    lua_pushnumber(L, value);
    lua_setfield(L, -2, key);
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
    set_number(L, "from", found->where.from);
    set_number(L, "to", found->where.to);
    set_number(L, "distance", found->where.distance);
    set_number(L, "x1", found->where.begin.x);
    set_number(L, "y1", found->where.begin.y);
    set_number(L, "x2", found->where.end.x);
    set_number(L, "y2", found->where.end.y);
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
    size_t points = 0;
    luaL_checktype(L, 1, LUA_TTABLE);
    struct access_ask ask = { .way = shape_field(L, "way", SHAPE_LINES),
                              .seats = shape_field(L, "seats", SHAPE_POINTS),
                              .least = number_field(L, "near"),
                              .upwind = number_field(L, "upwind"),
                              .wind = { number_field(L, "from"),
                                        number_field(L, "spread") } };
    ask.bedding = shapes_field(L, "bedding", &ask.bedding_count, &points);
    ask.openings = shapes_field(L, "openings", &ask.opening_count, &points);
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
