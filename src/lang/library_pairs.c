/* pairs and next by sorted keys: numbers, then texts by their bytes, then false and true.
 * Lua's own order changes from run to run. */
#include <lauxlib.h>
#include <stdlib.h>
#include <string.h>

#include "lang/library.h"
#include "lang/limits.h"
#include "lang/raise.h"

enum { KEYS_FEW = 32 };
enum key_kind { KEY_INTEGER, KEY_FLOAT, KEY_TEXT, KEY_FALSE, KEY_TRUE };

/* A key of a table; texts are borrowed from it. */
struct key {
    enum key_kind kind;
    lua_Integer integer;
    lua_Number number; /* also of an integer */
    const char *text;
    size_t length;
};

/* Reads a key as it is: lua_tolstring on a number would change the table's key. */
static struct key key_at(lua_State *L, int index)
{
    struct key k = { .kind = KEY_TEXT };
    switch (lua_type(L, index)) {
    case LUA_TNUMBER:
        k.kind = lua_isinteger(L, index) ? KEY_INTEGER : KEY_FLOAT;
        k.integer = k.kind == KEY_INTEGER ? lua_tointeger(L, index) : 0;
        k.number = lua_tonumber(L, index);
        return k;
    case LUA_TSTRING: k.text = lua_tolstring(L, index, &k.length); return k;
    case LUA_TBOOLEAN: k.kind = lua_toboolean(L, index) ? KEY_TRUE : KEY_FALSE; return k;
    default: break;
    }
    size_t length;
    const char *name = library_tostring(L, index, &length);
    fault_say(L, "key-order", "keep a list and go through it with ipairs",
              "`pairs` goes by sorted keys, and a key such as this (%s) has no order",
              name);
}

static int key_compare(const void *left, const void *right)
{
    const struct key *a = left, *b = right;
    if (a->kind >= KEY_TEXT || b->kind >= KEY_TEXT) {
        if (a->kind != KEY_TEXT || b->kind != KEY_TEXT)
            return (a->kind > b->kind) - (a->kind < b->kind);
        int order =
            memcmp(a->text, b->text, a->length < b->length ? a->length : b->length);
        return order != 0 ? order : (a->length > b->length) - (a->length < b->length);
    }
    if (a->kind == KEY_INTEGER && b->kind == KEY_INTEGER)
        return (a->integer > b->integer) - (a->integer < b->integer);
    if (a->number != b->number)
        return a->number < b->number ? -1 : 1;
    return (a->kind > b->kind) - (a->kind < b->kind);
}

static void key_push(lua_State *L, const struct key *k)
{
    switch (k->kind) {
    case KEY_INTEGER: lua_pushinteger(L, k->integer); break;
    case KEY_FLOAT: lua_pushnumber(L, k->number); break;
    case KEY_TEXT: lua_pushlstring(L, k->text, k->length); break;
    case KEY_FALSE:
    case KEY_TRUE: lua_pushboolean(L, k->kind == KEY_TRUE); break;
    }
}

static size_t count_keys(lua_State *L)
{
    size_t count = 0;
    lua_pushnil(L);
    while (lua_next(L, 1)) {
        lua_pop(L, 1);
        count++;
    }
    limits_charge(L, count);
    return count;
}

/* Few keys are sorted on the spot: most tables are small. */
static void sort_keys(struct key *keys, size_t count)
{
    if (count > KEYS_FEW) {
        qsort(keys, count, sizeof *keys, key_compare);
        return;
    }
    for (size_t i = 1; i < count; i++) {
        struct key moving = keys[i];
        size_t at = i;
        for (; at > 0 && key_compare(&keys[at - 1], &moving) > 0; at--)
            keys[at] = keys[at - 1];
        keys[at] = moving;
    }
}

/* Pushes the table of sorted keys, or nil when they are 1, 2 ... count. */
static void push_keys(lua_State *L, size_t count)
{
    struct key few[KEYS_FEW];
    struct key *keys = few;
    if (count > KEYS_FEW)
        keys = lua_newuserdatauv(L, count * sizeof *keys, 0);
    else
        lua_pushnil(L); /* in its place */
    size_t n = 0;
    lua_Integer biggest = 0;
    bool list = true;
    lua_pushnil(L);
    while (n < count && lua_next(L, 1)) {
        lua_pop(L, 1);
        keys[n] = key_at(L, -1);
        list = list && keys[n].kind == KEY_INTEGER && keys[n].integer >= 1;
        if (list && keys[n].integer > biggest)
            biggest = keys[n].integer;
        n++;
    }
    lua_settop(L, 2); /* table, keys in memory */
    if (list && (lua_Unsigned)biggest == n) {
        lua_pushnil(L);
        return;
    }
    limits_charge(L, n * 4);
    sort_keys(keys, n);
    lua_createtable(L, (int)n, 0);
    for (size_t i = 0; i < n; i++) {
        key_push(L, &keys[i]);
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
}

/* Upvalues: the keys, how many, how many are done. Keys that have been taken out since
 * are left out; new ones are not seen. */
static int pairs_step(lua_State *L)
{
    lua_Integer count = lua_tointeger(L, lua_upvalueindex(2));
    lua_Integer done = lua_tointeger(L, lua_upvalueindex(3));
    bool list = lua_isnil(L, lua_upvalueindex(1));
    luaL_checktype(L, 1, LUA_TTABLE);
    while (done < count) {
        done++;
        if (list)
            lua_pushinteger(L, done);
        else
            lua_rawgeti(L, lua_upvalueindex(1), done);
        lua_pushvalue(L, -1);
        if (lua_rawget(L, 1) != LUA_TNIL) {
            lua_pushinteger(L, done);
            lua_copy(L, -1, lua_upvalueindex(3));
            lua_pop(L, 1);
            return 2;
        }
        lua_pop(L, 2);
    }
    lua_pushnil(L);
    return 1;
}

static int base_pairs(lua_State *L)
{
    luaL_checkany(L, 1);
    if (luaL_getmetafield(L, 1, "__pairs") != LUA_TNIL) {
        lua_pushvalue(L, 1);
        lua_call(L, 1, 3);
        return 3;
    }
    luaL_checktype(L, 1, LUA_TTABLE);
    lua_settop(L, 1);
    size_t count = count_keys(L);
    push_keys(L, count);
    lua_pushinteger(L, (lua_Integer)count);
    lua_pushinteger(L, 0);
    lua_pushcclosure(L, pairs_step, 3);
    lua_pushvalue(L, 1);
    lua_pushnil(L);
    return 3;
}

/* The smallest key above the one given: slow on big tables, and charged for it. */
static int base_next(lua_State *L)
{
    luaL_checktype(L, 1, LUA_TTABLE);
    lua_settop(L, 2);
    bool first = lua_isnil(L, 2), found = false;
    struct key after = { .kind = KEY_INTEGER }, best = after;
    if (!first)
        after = key_at(L, 2);
    count_keys(L);
    lua_pushnil(L);
    while (lua_next(L, 1)) {
        lua_pop(L, 1);
        struct key k = key_at(L, -1);
        if ((first || key_compare(&k, &after) > 0) &&
            (!found || key_compare(&k, &best) < 0)) {
            best = k;
            found = true;
        }
    }
    if (!found) {
        lua_pushnil(L);
        return 1;
    }
    key_push(L, &best);
    lua_pushvalue(L, -1);
    lua_rawget(L, 1);
    return 2;
}

void library_pairs(lua_State *L)
{
    lua_pushcfunction(L, base_pairs);
    lua_setfield(L, -2, "pairs");
    lua_pushcfunction(L, base_next);
    lua_setfield(L, -2, "next");
}
