#include "bind/tell.h"

#include <lua.h>

#include "bind/calendar.h"

void tell_number(lua_State *L, const char *key, double value)
{
    lua_pushnumber(L, value);
    lua_setfield(L, -2, key);
}

void tell_count(lua_State *L, const char *key, size_t value)
{
    lua_pushinteger(L, (lua_Integer)value);
    lua_setfield(L, -2, key);
}

void tell_truth(lua_State *L, const char *key, bool value)
{
    lua_pushboolean(L, value);
    lua_setfield(L, -2, key);
}

void tell_text(lua_State *L, const char *key, const char *value)
{
    lua_pushstring(L, value); /* nil for NULL */
    lua_setfield(L, -2, key);
}

void tell_date(lua_State *L, const char *key, struct date d)
{
    date_push(L, d);
    lua_setfield(L, -2, key);
}

void tell_point(lua_State *L, struct point at)
{
    tell_number(L, "x", at.x);
    tell_number(L, "y", at.y);
}
