/* The functions of `table`, with raw lengths (a __len of the script's may lie) and each
 * charged before it begins. Elements go through metamethods, so that what is read-only
 * stays so. */
#include <lauxlib.h>
#include <limits.h>

#include "lang/host.h"
#include "lang/library.h"
#include "lang/limits.h"
#include "lang/raise.h"

static lua_Integer length_of(lua_State *L, int index)
{
    luaL_checktype(L, index, LUA_TTABLE);
    return (lua_Integer)lua_rawlen(L, index);
}

static int table_insert(lua_State *L)
{
    lua_Integer end = length_of(L, 1) + 1, at = end;
    int given = lua_gettop(L);
    if (given < 2 || given > 3)
        return luaL_error(L,
                          "`table.insert` takes a table, a place if wanted, and a value");
    if (given == 3) {
        at = luaL_checkinteger(L, 2);
        luaL_argcheck(L, at >= 1 && at <= end, 2, "position out of bounds");
        library_charge(L, "table.insert", (uint64_t)(end - at) + 1);
        for (lua_Integer i = end; i > at; i--) {
            lua_geti(L, 1, i - 1);
            lua_seti(L, 1, i);
        }
    }
    lua_seti(L, 1, at);
    return 0;
}

static int table_remove(lua_State *L)
{
    lua_Integer length = length_of(L, 1), at = luaL_optinteger(L, 2, length);
    luaL_argcheck(L, at == length || (lua_Unsigned)at - 1 <= (lua_Unsigned)length, 2,
                  "position out of bounds");
    library_charge(L, "table.remove", at < length ? (uint64_t)(length - at) + 1 : 1);
    lua_geti(L, 1, at);
    for (; at < length; at++) {
        lua_geti(L, 1, at + 1);
        lua_seti(L, 1, at);
    }
    lua_pushnil(L);
    lua_seti(L, 1, at);
    return 1;
}

static int table_move(lua_State *L)
{
    luaL_checktype(L, 1, LUA_TTABLE);
    lua_Integer first = luaL_checkinteger(L, 2), last = luaL_checkinteger(L, 3);
    lua_Integer to = luaL_checkinteger(L, 4);
    int target = lua_isnoneornil(L, 5) ? 1 : 5;
    luaL_checktype(L, target, LUA_TTABLE);
    if (last >= first) {
        lua_Unsigned count = (lua_Unsigned)last - (lua_Unsigned)first;
        library_charge(L, "table.move", count == UINT64_MAX ? count : count + 1);
        luaL_argcheck(L, to <= LUA_MAXINTEGER - (lua_Integer)count, 4, "too far");
        bool upward =
            to > last || to <= first || (target != 1 && !lua_rawequal(L, 1, target));
        for (lua_Unsigned i = 0; i <= count; i++) {
            lua_Integer k = (lua_Integer)(upward ? i : count - i);
            lua_geti(L, 1, first + k);
            lua_seti(L, target, to + k);
        }
    }
    lua_pushvalue(L, target);
    return 1;
}

static int table_concat(lua_State *L)
{
    lua_Integer length = length_of(L, 1);
    size_t between, total = 0, text;
    const char *separator = luaL_optlstring(L, 2, "", &between);
    lua_Integer first = luaL_optinteger(L, 3, 1), last = luaL_optinteger(L, 4, length);
    const struct limits *l = host_of(L)->limits;
    luaL_Buffer b;
    if (last >= first)
        library_charge(L, "table.concat", (lua_Unsigned)last - (lua_Unsigned)first);
    luaL_buffinit(L, &b);
    for (lua_Integer i = first; i <= last; i++) {
        lua_geti(L, 1, i);
        if (lua_type(L, -1) ==
            LUA_TUSERDATA) { /* measures and dates, as they are printed */
            library_tostring(L, -1, NULL);
            lua_remove(L, -2);
        }
        if (!lua_isstring(L, -1))
            luaL_error(L, "`table.concat` cannot join item %d, a %s", (int)i,
                       luaL_typename(L, -1));
        lua_tolstring(L, -1, &text);
        luaL_addvalue(&b);
        total += text + between;
        if (total > l->string_most)
            library_text(L, "table.concat", total);
        if (i == last) /* also keeps i from passing the largest integer */
            break;
        luaL_addlstring(&b, separator, between);
    }
    limits_charge_bytes(L, total);
    luaL_pushresult(&b);
    return 1;
}

static int table_pack(lua_State *L)
{
    int n = lua_gettop(L);
    limits_charge(L, (uint64_t)n);
    lua_createtable(L, n, 1);
    lua_insert(L, 1);
    for (int i = n; i >= 1; i--)
        lua_seti(L, 1, i);
    lua_pushinteger(L, n);
    lua_setfield(L, 1, "n");
    return 1;
}

static int table_unpack(lua_State *L)
{
    luaL_checktype(L, 1, LUA_TTABLE);
    lua_Integer first = luaL_optinteger(L, 2, 1);
    lua_Integer last = luaL_optinteger(L, 3, (lua_Integer)lua_rawlen(L, 1));
    if (first > last)
        return 0;
    lua_Unsigned count = (lua_Unsigned)last - (lua_Unsigned)first;
    library_charge(L, "table.unpack", count);
    if (count >= INT_MAX || !lua_checkstack(L, (int)count + 1))
        return luaL_error(L, "too many values to unpack");
    for (lua_Unsigned i = 0; i <= count; i++)
        lua_geti(L, 1, first + (lua_Integer)i);
    return (int)count + 1;
}

void library_table(lua_State *L)
{
    static const luaL_Reg functions[] = { { "concat", table_concat },
                                          { "insert", table_insert },
                                          { "move", table_move },
                                          { "pack", table_pack },
                                          { "remove", table_remove },
                                          { "unpack", table_unpack },
                                          { NULL, NULL } };
    luaL_setfuncs(L, functions, 0);
    library_sort(L);
}
