#include "lang/held.h"

#include <lauxlib.h>
#include <lua.h>

#include "base/buf.h"
#include "base/fault.h"
#include "lang/raise.h"

static const char held_key = 0; /* registry: the metatable of owners */

static int held_gc(lua_State *L)
{
    buf_clear(lua_touserdata(L, 1));
    return 0;
}

struct buf *held_new(lua_State *L)
{
    struct buf *text = lua_newuserdatauv(L, sizeof *text, 0);
    buf_init(text);
    if (lua_rawgetp(L, LUA_REGISTRYINDEX, &held_key) != LUA_TTABLE) {
        lua_pop(L, 1);
        lua_createtable(L, 0, 1);
        lua_pushcfunction(L, held_gc);
        lua_setfield(L, -2, "__gc");
        lua_pushvalue(L, -1);
        lua_rawsetp(L, LUA_REGISTRYINDEX, &held_key);
    }
    lua_setmetatable(L, -2);
    return text;
}

int held_push(lua_State *L, struct buf *text)
{
    if (text->failed) {
        struct fault f = { .id = NULL };
        fault_no_memory(&f);
        fault_raise(L, &f);
    }
    lua_pushlstring(L, text->data, text->length);
    buf_clear(text);
    return 1;
}
