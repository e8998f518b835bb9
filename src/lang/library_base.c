#include <lauxlib.h>
#include <lualib.h>
#include <string.h>

#include "lang/host.h"
#include "lang/library.h"
#include "lang/limits.h"
#include "lang/raise.h"

void library_take(lua_State *L, const char *const *names)
{
    for (; *names; names++) {
        lua_getfield(L, -2, *names);
        lua_setfield(L, -2, *names);
    }
}

/* Calls the function it stands for in its own frame, so that Lua's messages know its
 * name. */
static int charged(lua_State *L)
{
    size_t bytes = 0, length;
    for (int i = lua_gettop(L); i > 0; i--) {
        if (lua_type(L, i) == LUA_TSTRING) {
            lua_tolstring(L, i, &length);
            bytes += length;
        }
    }
    limits_charge_bytes(L, bytes);
    return lua_tocfunction(L, lua_upvalueindex(1))(L);
}

static int counted(lua_State *L)
{
    int results = lua_tocfunction(L, lua_upvalueindex(1))(L);
    limits_charge(L, (uint64_t)results);
    return results;
}

static void take_as(lua_State *L, const char *const *names, lua_CFunction wrapper)
{
    for (; *names; names++) {
        lua_getfield(L, -2, *names);
        lua_pushcclosure(L, wrapper, 1);
        lua_setfield(L, -2, *names);
    }
}

void library_take_charged(lua_State *L, const char *const *names)
{
    take_as(L, names, charged);
}

void library_take_counted(lua_State *L, const char *const *names)
{
    take_as(L, names, counted);
}

void library_charge(lua_State *L, const char *function, uint64_t ticks)
{
    const struct limits *l = host_of(L)->limits;
    if (l->started && ticks > limits_left(l))
        limits_stop(L, "limit-steps", "look at the numbers it was given",
                    "`%s` would take %llu steps, more than are left", function,
                    (unsigned long long)ticks);
    limits_charge(L, ticks);
}

void library_text(lua_State *L, const char *function, size_t length)
{
    const struct limits *l = host_of(L)->limits;
    if (length > l->string_most)
        limits_stop(L, "limit-string", "look at the numbers it was given",
                    "`%s` would make a text of more than %zu MB", function,
                    l->string_most >> 20);
    limits_charge_bytes(L, length);
}

const char *library_tostring(lua_State *L, int index, size_t *length)
{
    index = lua_absindex(L, index);
    if (luaL_callmeta(L, index, "__tostring")) {
        if (lua_type(L, -1) != LUA_TSTRING)
            luaL_error(L, "'__tostring' must return a string");
        return lua_tolstring(L, -1, length);
    }
    switch (lua_type(L, index)) {
    case LUA_TNUMBER:
    case LUA_TSTRING: lua_pushvalue(L, index); break;
    case LUA_TBOOLEAN:
        lua_pushstring(L, lua_toboolean(L, index) ? "true" : "false");
        break;
    default:
        if (luaL_getmetafield(L, index, "__name") == LUA_TSTRING)
            break;
        lua_pushstring(L, luaL_typename(L, index));
    }
    return lua_tolstring(L, -1, length);
}

static int base_tostring(lua_State *L)
{
    luaL_checkany(L, 1);
    library_tostring(L, 1, NULL);
    return 1;
}

/* Finalizers run without a hook, and weak tables show when memory was collected: neither
 * is for scripts. (A __gc added later does nothing: Lua looks only here.) */
static int base_setmetatable(lua_State *L)
{
    int type = lua_type(L, 2);
    luaL_checktype(L, 1, LUA_TTABLE);
    luaL_argexpected(L, type == LUA_TNIL || type == LUA_TTABLE, 2, "nil or table");
    if (luaL_getmetafield(L, 1, "__metatable") != LUA_TNIL)
        fault_say(L, "table-closed", NULL, "the metatable of this value is closed");
    static const char *const refused[] = { "__gc", "__mode" };
    for (int i = 0; type == LUA_TTABLE && i < 2; i++) {
        lua_pushstring(L, refused[i]);
        if (lua_rawget(L, 2) != LUA_TNIL)
            fault_say(L, "metatable-refused", "leave it out",
                      "a metatable of a script cannot have `%s`", refused[i]);
        lua_pop(L, 1);
    }
    lua_settop(L, 2);
    lua_setmetatable(L, 1);
    return 1;
}

/* luaopen_base fills the globals, so it gets a table that is taken away afterwards:
 * nothing of Lua's own is ever left in the globals. */
void library_lua_base(lua_State *L)
{
    lua_newtable(L);
    lua_rawseti(L, LUA_REGISTRYINDEX, LUA_RIDX_GLOBALS);
    lua_pushcfunction(L, luaopen_base);
    lua_call(L, 0, 1);
    lua_newtable(L);
    lua_rawseti(L, LUA_REGISTRYINDEX, LUA_RIDX_GLOBALS);
}

void library_base(lua_State *L)
{
    static const char *const as_they_are[] = { "assert", "error",    "getmetatable",
                                               "ipairs", "rawequal", "rawlen",
                                               "select", "type",     NULL };
    static const char *const by_length[] = { "tonumber", NULL };
    library_lua_base(L);
    lua_insert(L, -2); /* Lua's, ours */
    library_take(L, as_they_are);
    library_take_charged(L, by_length);
    lua_remove(L, -2);
    lua_pushcfunction(L, base_tostring);
    lua_setfield(L, -2, "tostring");
    lua_pushcfunction(L, base_setmetatable);
    lua_setfield(L, -2, "setmetatable");
}
