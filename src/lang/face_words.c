/* Names that scripts call and that are no primitives: answers of stands, the handbook. Their
 * calls have places too, so that a fault finds the very key. */
#include <lauxlib.h>
#include <lua.h>
#include <string.h>

#include "lang/face.h"
#include "lang/face_inner.h"
#include "lang/raise.h"
#include "lang/sandbox.h"

int face_kind_number(lua_State *L, const char *name)
{
    lua_rawgetp(L, LUA_REGISTRYINDEX, &face_kinds_key);
    lua_Integer count = luaL_len(L, -1), found = 0;
    for (lua_Integer i = 1; i <= count && found == 0; i++) {
        lua_rawgeti(L, -1, i);
        if (strcmp(luaL_optstring(L, -1, ""), name) == 0)
            found = i;
        lua_pop(L, 1);
    }
    if (found == 0 && count + 1 < 1 << PLACE_KIND_BITS) {
        found = count + 1;
        lua_pushstring(L, name);
        lua_rawseti(L, -2, found);
    }
    lua_pop(L, 1);
    return (int)found;
}

/* Upvalues: what it hands on to, the number of its name. */
static int word_face(lua_State *L)
{
    lua_Integer place = face_author_place(L, (int)lua_tointeger(L, lua_upvalueindex(2)));
    lua_pushinteger(L, place);
    lua_insert(L, 1);
    lua_pushvalue(L, lua_upvalueindex(1));
    lua_insert(L, 1);
    lua_call(L, lua_gettop(L) - 1, LUA_MULTRET);
    return lua_gettop(L);
}

/* face(name, call): a function for scripts that hands on to call(place, ...). */
static int l_face(lua_State *L)
{
    int kind = face_kind_number(L, luaL_checkstring(L, 1));
    luaL_checktype(L, 2, LUA_TFUNCTION);
    lua_settop(L, 2);
    lua_pushinteger(L, kind);
    lua_pushcclosure(L, word_face, 2);
    return 1;
}

/* The handbook is read when a script first opens it. */
static int handbook_index(lua_State *L)
{
    sandbox_need(L, "handbook");
    lua_getfield(L, -1, "find");
    lua_pushvalue(L, 2);
    lua_call(L, 1, 1);
    return 1;
}

static int handbook_closed(lua_State *L)
{
    fault_say(L, "name-taken", "choose another name",
              "nothing can be put into the handbook");
}

void face_words_install(lua_State *L)
{
    sandbox_vocabulary(L);
    lua_newtable(L);
    lua_createtable(L, 0, 3);
    lua_pushcfunction(L, handbook_index);
    lua_setfield(L, -2, "__index");
    lua_pushcfunction(L, handbook_closed);
    lua_setfield(L, -2, "__newindex");
    lua_pushboolean(L, 0);
    lua_setfield(L, -2, "__metatable");
    lua_setmetatable(L, -2);
    lua_setfield(L, -2, "handbook");
    lua_pop(L, 1);
}

void face_words_open(lua_State *L)
{
    lua_pushcfunction(L, l_face);
    lua_setfield(L, -2, "face");
}
