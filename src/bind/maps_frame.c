/* need "maps": the frame of a property, in which its shapes are laid down. */
#include <lauxlib.h>
#include <lua.h>

#include "base/fault.h"
#include "bind/maps_inner.h"
#include "bind/shape.h"
#include "ground/frame.h"
#include "lang/raise.h"

static const char FRAME[] = "frame";

struct frame *maps_frame_at(lua_State *L, int index)
{
    struct frame **frame = luaL_checkudata(L, index, FRAME);
    if (!*frame)
        luaL_error(L, "this frame is gone");
    return *frame;
}

static int frame_gc(lua_State *L)
{
    struct frame **frame = luaL_checkudata(L, 1, FRAME);
    frame_free(*frame);
    *frame = NULL;
    return 0;
}

/* frame(lon, lat): the frame round that middle. */
static int l_frame(lua_State *L)
{
    struct fault f = { 0 };
    struct position middle = { luaL_checknumber(L, 1), luaL_checknumber(L, 2) };
    struct frame **frame = lua_newuserdatauv(L, sizeof(struct frame *), 0);
    *frame = NULL;
    luaL_setmetatable(L, FRAME);
    *frame = frame_new(middle, &f);
    if (!*frame)
        fault_raise(L, &f);
    return 1;
}

/* frame:point(lon, lat): x, y in feet */
static int l_point(lua_State *L)
{
    struct position at = { luaL_checknumber(L, 2), luaL_checknumber(L, 3) };
    struct point p = frame_point(maps_frame_at(L, 1), at);
    lua_pushnumber(L, p.x);
    lua_pushnumber(L, p.y);
    return 2;
}

/* frame:place(x, y): lon, lat in degrees */
static int l_place(lua_State *L)
{
    struct point at = { luaL_checknumber(L, 2), luaL_checknumber(L, 3) };
    struct position p = frame_place(maps_frame_at(L, 1), at);
    lua_pushnumber(L, p.lon);
    lua_pushnumber(L, p.lat);
    return 2;
}

/* frame:middle(): lon, lat */
static int l_middle(lua_State *L)
{
    struct position p = frame_middle(maps_frame_at(L, 1));
    lua_pushnumber(L, p.lon);
    lua_pushnumber(L, p.lat);
    return 2;
}

/* frame:area(shape), frame:length(shape): on the ellipsoid, ft2 and ft. */
static int l_area(lua_State *L)
{
    lua_pushnumber(L, frame_area(maps_frame_at(L, 1), shape_at_index(L, 2)));
    return 1;
}

static int l_length(lua_State *L)
{
    lua_pushnumber(L, frame_length(maps_frame_at(L, 1), shape_at_index(L, 2)));
    return 1;
}

/* frame:handout(format, contents): maps_handout.c */
static int l_handout(lua_State *L)
{
    return frame_handout(L, maps_frame_at(L, 1));
}

void maps_class(lua_State *L, const char *name, const luaL_Reg *methods, lua_CFunction gc)
{
    luaL_newmetatable(L, name);
    lua_newtable(L);
    luaL_setfuncs(L, methods, 0);
    lua_setfield(L, -2, "__index");
    lua_pushcfunction(L, gc);
    lua_setfield(L, -2, "__gc");
    lua_pushboolean(L, 0);
    lua_setfield(L, -2, "__metatable");
    lua_pop(L, 1);
}

void maps_frames(lua_State *L)
{
    static const luaL_Reg methods[] = {
        { "point", l_point }, { "place", l_place },   { "middle", l_middle },
        { "area", l_area },   { "length", l_length }, { "handout", l_handout },
        { NULL, NULL },
    };
    maps_class(L, FRAME, methods, frame_gc);
    lua_pushcfunction(L, l_frame);
    lua_setfield(L, -2, "frame");
}
