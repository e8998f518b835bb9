#include "bind/ask.h"

#include <lauxlib.h>
#include <lua.h>
#include <math.h>
#include <string.h>

#include "bind/shape.h"

/* More than any stand has of anything; so that counts stay far from overflow. */
#define COUNT_MOST 1000000

double ask_number(lua_State *L, int table, const char *key, double otherwise)
{
    double value = otherwise;
    if (lua_getfield(L, table, key) != LUA_TNIL) {
        int isnum;
        value = lua_tonumberx(L, -1, &isnum);
        if (!isnum || !isfinite(value) || value < 0)
            luaL_error(L, "`%s` wants a number, not below 0", key);
    }
    lua_pop(L, 1);
    return value;
}

size_t ask_count(lua_State *L, int table, const char *key, size_t otherwise)
{
    double value = ask_number(L, table, key, (double)otherwise);
    if (value != floor(value) || value > COUNT_MOST)
        luaL_error(L, "`%s` wants a whole number, at most %d", key, COUNT_MOST);
    return (size_t)value;
}

double ask_place(lua_State *L, int table, const char *key)
{
    int isnum;
    lua_getfield(L, table, key);
    double value = lua_tonumberx(L, -1, &isnum);
    if (!isnum || !isfinite(value))
        luaL_error(L, "`%s` wants a number", key);
    lua_pop(L, 1);
    return value;
}

bool ask_flag(lua_State *L, int table, const char *key)
{
    lua_getfield(L, table, key);
    bool is = lua_toboolean(L, -1);
    lua_pop(L, 1);
    return is;
}

const struct shape *ask_shape(lua_State *L, int table, const char *key,
                              enum shape_kind kind)
{
    const struct shape *s = NULL;
    if (lua_getfield(L, table, key) != LUA_TNIL) {
        s = shape_at_index(L, lua_gettop(L));
        if (s->kind != kind)
            luaL_error(L, "`%s` wants a shape of %ss", key, shape_kind_word(kind));
    }
    lua_pop(L, 1);
    return s;
}

const struct shape *ask_some_shape(lua_State *L, int table, const char *key)
{
    if (lua_getfield(L, table, key) == LUA_TNIL)
        luaL_error(L, "`%s` wants a shape", key);
    const struct shape *s = shape_at_index(L, lua_gettop(L));
    lua_pop(L, 1);
    return s;
}

/* Pushes the list, an empty one when there is none, and gives its length. */
static size_t push_list(lua_State *L, int table, const char *key)
{
    if (lua_getfield(L, table, key) == LUA_TNIL) {
        lua_pop(L, 1);
        lua_newtable(L);
    }
    if (lua_type(L, -1) != LUA_TTABLE)
        luaL_error(L, "`%s` wants a list", key);
    size_t count = lua_rawlen(L, -1);
    if (count > COUNT_MOST)
        luaL_error(L, "`%s` is too long", key);
    return count;
}

/* Pushes a block of so many zeroed bytes that Lua frees. */
static void *push_room(lua_State *L, size_t count, size_t size)
{
    void *room = lua_newuserdatauv(L, (count + 1) * size, 0);
    memset(room, 0, (count + 1) * size);
    return room;
}

void *ask_rows(lua_State *L, int table, const char *key, size_t size,
               void (*read)(lua_State *, int, void *), size_t *count)
{
    luaL_checkstack(L, 8, NULL);
    *count = push_list(L, table, key);
    int list = lua_gettop(L);
    char *room = push_room(L, *count, size);
    for (size_t i = 0; i < *count; i++) {
        if (lua_rawgeti(L, list, (lua_Integer)i + 1) != LUA_TTABLE)
            luaL_error(L, "number %d of a list wants to be a table", (int)i + 1);
        read(L, lua_gettop(L), room + i * size);
        lua_pop(L, 1);
    }
    return room;
}

const struct shape *const *ask_areas(lua_State *L, int table, const char *key,
                                     size_t *count)
{
    luaL_checkstack(L, 8, NULL);
    *count = push_list(L, table, key);
    int list = lua_gettop(L);
    const struct shape **room = push_room(L, *count, sizeof *room);
    for (size_t i = 0; i < *count; i++) {
        lua_rawgeti(L, list, (lua_Integer)i + 1);
        room[i] = shape_at_index(L, lua_gettop(L));
        if (room[i]->kind != SHAPE_AREAS)
            luaL_error(L, "`%s` wants shapes of areas", key);
        lua_pop(L, 1);
    }
    return room;
}

void *ask_held(lua_State *L, size_t size, const char *name, lua_CFunction gc)
{
    void *held = lua_newuserdatauv(L, size, 0);
    memset(held, 0, size);
    if (luaL_newmetatable(L, name)) {
        lua_pushcfunction(L, gc);
        lua_setfield(L, -2, "__gc");
        lua_pushboolean(L, 0);
        lua_setfield(L, -2, "__metatable");
    }
    lua_setmetatable(L, -2);
    return held;
}
