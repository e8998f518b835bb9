/* need "survey": the built-in Lua's hand on bearings and traverses, and on where a fault
 * is in the text of one. What the text says is read by stdlib/traverse.lua. */
#include <lauxlib.h>
#include <lua.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>

#include "base/buf.h"
#include "base/fault.h"
#include "bind/notes.h"
#include "bind/rooms.h"
#include "bind/tell.h"
#include "ground/bearing.h"
#include "ground/traverse.h"

/* Ids outlive the state, so they are ours. */
static const char *const ids[] = {
    "traverse-angle",       "traverse-bearing", "traverse-call", "traverse-crossed",
    "traverse-declination", "traverse-empty",   "traverse-end",  "traverse-flat",
    "traverse-length",      "traverse-many",    "traverse-miss", "traverse-pace",
    "traverse-point",       "traverse-start",   "traverse-unit", NULL
};

/* tell(text, place, key, source, id, from, to, words, hint, mild): a fault, or when mild
 * a warning, at the bytes [from, to) of the text, counted from 1. */
static int l_tell(lua_State *L)
{
    lua_settop(L, 10);
    struct notes n = notes_read(L, 1, 2);
    const char *id = ids[luaL_checkoption(L, 5, NULL, ids)];
    lua_Integer from = luaL_checkinteger(L, 6) - 1, to = luaL_checkinteger(L, 7) - 1;
    luaL_argcheck(L, from >= 0 && from <= to && (size_t)to <= n.length, 6,
                  "bytes of the text are wanted");
    struct fault f = { 0 };
    fault_set(&f, id, (struct span){ 0, (uint32_t)from, (uint32_t)(to - from) }, "%s",
              luaL_checkstring(L, 8));
    if (!lua_isnil(L, 9))
        fault_hint(&f, "%s", luaL_checkstring(L, 9));
    if (lua_toboolean(L, 10))
        notes_warn(L, &n, &f);
    else
        notes_tell(L, &n, &f);
    return 0;
}

static double field(lua_State *L, int table, const char *key, double otherwise)
{
    double value = otherwise;
    if (lua_getfield(L, table, key) != LUA_TNIL)
        value = luaL_checknumber(L, -1);
    lua_pop(L, 1);
    return value;
}

static struct point point_field(lua_State *L, int table, const char *key)
{
    struct point p = { 0, 0 };
    if (lua_getfield(L, table, key) == LUA_TTABLE) {
        int at = lua_gettop(L);
        p = (struct point){ field(L, at, "x", 0), field(L, at, "y", 0) };
    }
    lua_pop(L, 1);
    return p;
}

/* The calls, in memory of Lua's that stays on the stack. */
static const struct traverse_call *read_calls(lua_State *L, int list, size_t *count)
{
    luaL_checktype(L, list, LUA_TTABLE);
    *count = (size_t)luaL_len(L, list);
    luaL_argcheck(L, *count <= TRAVERSE_CALLS_MOST + 1, list, "too many calls");
    struct traverse_call *calls = lua_newuserdatauv(L, (*count + 1) * sizeof *calls, 0);
    for (size_t i = 0; i < *count; i++) {
        lua_rawgeti(L, list, (lua_Integer)i + 1);
        int call = lua_gettop(L);
        lua_getfield(L, call, "magnetic");
        calls[i] =
            (struct traverse_call){ field(L, call, "azimuth", NAN),
                                    field(L, call, "length", NAN), lua_toboolean(L, -1) };
        lua_pop(L, 2);
    }
    return calls;
}

static int held_gc(lua_State *L)
{
    traverse_free(lua_touserdata(L, 1));
    return 0;
}

/* A traverse that Lua frees, whatever is raised. */
static struct traverse *hold(lua_State *L)
{
    struct traverse *t = lua_newuserdatauv(L, sizeof *t, 0);
    *t = (struct traverse){ .points = NULL };
    if (luaL_newmetatable(L, "traverse")) {
        lua_pushcfunction(L, held_gc);
        lua_setfield(L, -2, "__gc");
    }
    lua_setmetatable(L, -2);
    return t;
}

static void set_points(lua_State *L, const struct point *points, size_t count,
                       const char *key)
{
    lua_createtable(L, (int)count, 0);
    for (size_t i = 0; i < count; i++) {
        lua_createtable(L, 0, 2);
        lua_pushnumber(L, points[i].x);
        lua_setfield(L, -2, "x");
        lua_pushnumber(L, points[i].y);
        lua_setfield(L, -2, "y");
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
    lua_setfield(L, -2, key);
}

static const char *const slip_words[] = { NULL, "backward", "east for west",
                                          "north for south", "twice" };

/* What is not known (the miss of an open traverse) is left out. */
static void push_traverse(lua_State *L, const struct traverse *t, enum traverse_end end)
{
    lua_createtable(L, 0, 10);
    set_points(L, t->points, t->count, "points");
    set_points(L, t->measured, t->count, "measured");
    tell_number(L, "length", t->length_ft);
    if (!isnan(t->one_in)) {
        tell_number(L, "miss", t->miss_ft);
        tell_number(L, "miss_azimuth", t->miss_azimuth);
        tell_number(L, "one_in", t->one_in);
    }
    if (end == TRAVERSE_CLOSED || end == TRAVERSE_BACK)
        tell_number(L, "area", t->area_ft2);
    size_t first, second;
    if (traverse_crossing(t, end, &first, &second)) {
        lua_pushinteger(L, (lua_Integer)first + 1);
        lua_setfield(L, -2, "crossed");
        lua_pushinteger(L, (lua_Integer)second + 1);
        lua_setfield(L, -2, "crosses");
    }
    if (t->slip != SLIP_NONE) {
        lua_pushstring(L, slip_words[t->slip]);
        lua_setfield(L, -2, "slip");
        lua_pushinteger(L, (lua_Integer)t->slip_call + 1);
        lua_setfield(L, -2, "slip_call");
    }
}

/* run(calls, { ending, from, to, declination }): calls of { azimuth, length, magnetic }
 * in degrees and feet; { points, measured, length, miss, miss_azimuth, one_in, area,
 * slip, slip_call, crossed, crosses (two calls) }, or nil and the id, words and mend of a
 * fault. */
static int l_run(lua_State *L)
{
    static const char *const endings[] = { "open", "closed", "back", "tied", NULL };
    lua_settop(L, 2);
    luaL_checktype(L, 2, LUA_TTABLE);
    struct traverse_ask ask = { .from = point_field(L, 2, "from"),
                                .to = point_field(L, 2, "to"),
                                .declination = field(L, 2, "declination", 0) };
    lua_getfield(L, 2, "ending");
    ask.end = (enum traverse_end)luaL_checkoption(L, -1, "open", endings);
    ask.calls = read_calls(L, 1, &ask.count);
    struct traverse *t = hold(L);
    struct fault f = { 0 };
    if (traverse_run(&ask, t, &f)) {
        push_traverse(L, t, ask.end);
        return 1;
    }
    lua_pushnil(L);
    lua_pushstring(L, f.id);
    lua_pushstring(L, f.message);
    lua_pushstring(L, f.hint[0] ? f.hint : NULL);
    return 4;
}

/* mended(azimuth, slip): the azimuth that was meant. */
static int l_mended(lua_State *L)
{
    static const char *const slips[] = { "none",          "backward",
                                         "east for west", "north for south",
                                         "twice",         NULL };
    int slip = luaL_checkoption(L, 2, NULL, slips);
    lua_pushnumber(L, traverse_mended(luaL_checknumber(L, 1), (enum traverse_slip)slip));
    return 1;
}

typedef void put_bearing(struct buf *out, double azimuth, enum bearing_step step);

static int push_bearing(lua_State *L, put_bearing *put)
{
    static const char *const steps[] = { "degrees", "minutes", "seconds", NULL };
    double azimuth = luaL_checknumber(L, 1);
    int step = luaL_checkoption(L, 2, "minutes", steps);
    char words[64]; /* no more than "N 42°30'15" E" */
    struct buf out;
    buf_init(&out);
    put(&out, azimuth, (enum bearing_step)step);
    snprintf(words, sizeof words, "%s", out.data);
    buf_clear(&out);
    lua_pushstring(L, words);
    return 1;
}

/* quadrant(azimuth, "minutes"): N 42°30' E */
static int l_quadrant(lua_State *L)
{
    return push_bearing(L, bearing_quadrant);
}

/* azimuth(azimuth, "degrees"): 042° */
static int l_azimuth(lua_State *L)
{
    return push_bearing(L, bearing_azimuth);
}

int survey_room(lua_State *L)
{
    static const luaL_Reg functions[] = {
        { "tell", l_tell },         { "run", l_run },         { "mended", l_mended },
        { "quadrant", l_quadrant }, { "azimuth", l_azimuth }, { NULL, NULL },
    };
    luaL_newlib(L, functions);
    lua_createtable(L, 0, 4);
    tell_number(L, "calls", TRAVERSE_CALLS_MOST);
    tell_number(L, "length", TRAVERSE_LENGTH_MOST_FT);
    tell_number(L, "good_one_in", TRAVERSE_GOOD_ONE_IN);
    tell_number(L, "worst_one_in", TRAVERSE_WORST_ONE_IN);
    lua_setfield(L, -2, "most");
    return 1;
}
