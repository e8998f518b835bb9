#include "lang/sandbox.h"

#include <lauxlib.h>
#include <lua.h>
#include <stdio.h>
#include <string.h>

#include "base/suggest.h"
#include "lang/builtin.h"
#include "lang/host.h"
#include "lang/library.h"
#include "lang/limits.h"
#include "lang/narrow.h"
#include "lang/plainer.h"
#include "lang/raise.h"

/* Their addresses are keys of the registry. The libraries are the real ones, by name;
 * what scripts see of them is in the vocabulary. */
static const char vocabulary_key, libraries_key, modules_key, rooms_key, needed_key,
    print_key;

enum { UNKNOWN_TICKS = 200 }; /* looking at a line is no single step */

struct printer {
    void (*put)(void *owner, const char *text, size_t length);
    void *owner;
    size_t printed;
};
enum { PRINTED_MOST = 4 << 20 }; /* nobody reads more of it */

static const struct {
    const char *name;
    void (*fill)(lua_State *L);
} libraries[] = {
    { "coroutine", library_coroutine }, { "math", library_math },
    { "string", library_string },       { "table", library_table },
    { "utf8", library_utf8 },
};
enum { LIBRARIES = sizeof libraries / sizeof *libraries };

/* ---- print ---- */

static int base_print(lua_State *L)
{
    int n = lua_gettop(L);
    lua_rawgetp(L, LUA_REGISTRYINDEX, &print_key);
    struct printer *to = lua_touserdata(L, -1);
    lua_pop(L, 1);
    luaL_Buffer b;
    luaL_buffinit(L, &b);
    for (int i = 1; i <= n; i++) {
        if (i > 1)
            luaL_addchar(&b, '\t');
        library_tostring(L, i, NULL);
        luaL_addvalue(&b);
    }
    luaL_addchar(&b, '\n');
    luaL_pushresult(&b);
    size_t length;
    const char *text = lua_tolstring(L, -1, &length);
    limits_charge_bytes(L, length);
    to->printed += length;
    if (to->printed > PRINTED_MOST)
        limits_stop(L, "limit-print", "look for a `print` in a loop that never ends",
                    "the script prints more than %d MB", PRINTED_MOST >> 20);
    if (to->put)
        to->put(to->owner, text, length);
    return 0;
}

void sandbox_print_to(lua_State *L,
                      void (*put)(void *owner, const char *text, size_t length),
                      void *owner)
{
    lua_rawgetp(L, LUA_REGISTRYINDEX, &print_key);
    *(struct printer *)lua_touserdata(L, -1) = (struct printer){ put, owner, 0 };
    lua_pop(L, 1);
}

void sandbox_seed(lua_State *L, uint64_t seed)
{
    random_seed(L, seed);
}

/* ---- environments ---- */

static int read_only(lua_State *L)
{
    const char *key = lua_type(L, 2) == LUA_TSTRING ? lua_tostring(L, 2) : "this";
    fault_say(L, "name-taken", "choose another name",
              "`%s` cannot be put here: the library's own functions stay as they are",
              key);
}

/* Replaces the table on top by an empty one that shows it and takes nothing. */
static void close_table(lua_State *L)
{
    lua_newtable(L);
    lua_createtable(L, 0, 3);
    lua_pushvalue(L, -3);
    lua_setfield(L, -2, "__index");
    lua_pushcfunction(L, read_only);
    lua_setfield(L, -2, "__newindex");
    lua_pushboolean(L, 0);
    lua_setfield(L, -2, "__metatable");
    lua_setmetatable(L, -2);
    lua_remove(L, -2);
}

/* The functions without a library, into the table on top. */
static void fill_base(lua_State *L)
{
    library_base(L);
    library_pairs(L);
    library_guard(L);
    lua_pushcfunction(L, base_print);
    lua_setfield(L, -2, "print");
}

static void open_libraries(lua_State *L)
{
    lua_newtable(L);
    for (int i = 0; i < LIBRARIES; i++) {
        lua_newtable(L);
        libraries[i].fill(L);
        lua_setfield(L, -2, libraries[i].name);
    }
    lua_rawsetp(L, LUA_REGISTRYINDEX, &libraries_key);
}

/* A name that nothing was given to is nil, as in Lua; but a slip of the pen must not pass
 * in silence, least of all as the value of a key. */
static int unknown_name(lua_State *L)
{
    struct fault f = { .id = NULL };
    if (lua_type(L, 2) != LUA_TSTRING || !raise_author(L, &f.at))
        return 0;
    struct span line = f.at;
    limits_charge(L, UNKNOWN_TICKS);
    if (narrow_is_asked(host_of(L), line, lua_tostring(L, 2)))
        return 0;
    fault_set(&f, "name-unknown", line, "`%s` is not known here: it is nil (nothing)",
              lua_tostring(L, 2));
    plainer_suggest(L, lua_tostring(L, 2), false, &f);
    narrow_word(host_of(L), &f);
    faults_add(&host_of(L)->warnings, &f);
    return 0;
}

static void open_vocabulary(lua_State *L)
{
    lua_newtable(L);
    lua_createtable(L, 0, 1);
    lua_pushcfunction(L, unknown_name);
    lua_setfield(L, -2, "__index");
    lua_setmetatable(L, -2);
    fill_base(L);
    lua_rawgetp(L, LUA_REGISTRYINDEX, &libraries_key);
    for (int i = 0; i < LIBRARIES; i++) {
        lua_getfield(L, -1, libraries[i].name);
        close_table(L);
        lua_setfield(L, -3, libraries[i].name);
    }
    lua_pop(L, 1);
    lua_rawsetp(L, LUA_REGISTRYINDEX, &vocabulary_key);
}

static int module_need(lua_State *L)
{
    sandbox_need(L, luaL_checkstring(L, 1));
    return 1;
}

/* Our own modules: trusted, but in the same state and under the same limits. */
static void open_modules(lua_State *L)
{
    static const char *const more[] = { "rawget", "rawset", "setmetatable", NULL };
    lua_newtable(L);
    fill_base(L);
    library_lua_base(L);
    lua_insert(L, -2);
    library_take(L, more);
    lua_remove(L, -2);
    lua_rawgetp(L, LUA_REGISTRYINDEX, &libraries_key);
    for (int i = 0; i < LIBRARIES; i++) {
        lua_getfield(L, -1, libraries[i].name);
        lua_setfield(L, -3, libraries[i].name);
    }
    lua_pop(L, 1);
    lua_pushcfunction(L, module_need);
    lua_setfield(L, -2, "need");
    lua_rawsetp(L, LUA_REGISTRYINDEX, &modules_key);
}

void sandbox_open(lua_State *L, struct host *host)
{
    *(struct host **)lua_getextraspace(L) = host;
    limits_open(L);
    raise_open(L);
    struct printer *to = lua_newuserdatauv(L, sizeof *to, 0);
    *to = (struct printer){ NULL, NULL, 0 };
    lua_rawsetp(L, LUA_REGISTRYINDEX, &print_key);
    open_libraries(L);
    open_vocabulary(L);
    open_modules(L);
    lua_newtable(L);
    lua_rawsetp(L, LUA_REGISTRYINDEX, &rooms_key);
    lua_newtable(L);
    lua_rawsetp(L, LUA_REGISTRYINDEX, &needed_key);
}

void sandbox_vocabulary(lua_State *L)
{
    lua_rawgetp(L, LUA_REGISTRYINDEX, &vocabulary_key);
}

void sandbox_module_env(lua_State *L)
{
    lua_rawgetp(L, LUA_REGISTRYINDEX, &modules_key);
}

void sandbox_library(lua_State *L, const char *name)
{
    lua_rawgetp(L, LUA_REGISTRYINDEX, &libraries_key);
    lua_getfield(L, -1, name);
    lua_remove(L, -2);
}

void sandbox_script_env(lua_State *L)
{
    lua_newtable(L);
    lua_createtable(L, 0, 2);
    sandbox_vocabulary(L);
    lua_setfield(L, -2, "__index");
    lua_pushboolean(L, 0);
    lua_setfield(L, -2, "__metatable");
    lua_setmetatable(L, -2);
}

/* ---- modules ---- */

void sandbox_room(lua_State *L, const char *name, int (*open)(lua_State *))
{
    lua_rawgetp(L, LUA_REGISTRYINDEX, &rooms_key);
    lua_pushcfunction(L, open);
    lua_setfield(L, -2, name);
    lua_pop(L, 1);
}

/* Pushes the function that makes the module. */
static void push_loader(lua_State *L, const char *name)
{
    lua_rawgetp(L, LUA_REGISTRYINDEX, &rooms_key);
    lua_getfield(L, -1, name);
    lua_remove(L, -2);
    if (lua_isfunction(L, -1))
        return;
    lua_pop(L, 1);
    const char *path = lua_pushfstring(L, "stdlib/%s.lua", name);
    const struct builtin *b = builtin_find(path);
    if (!b)
        luaL_error(L, "there is no module '%s'", name);
    const char *chunk = lua_pushfstring(L, "@%s", path);
    if (luaL_loadbufferx(L, (const char *)b->data, b->length, chunk,
                         b->bytecode ? "b" : "t") != LUA_OK)
        lua_error(L);
    sandbox_module_env(L);
    lua_setupvalue(L, -2, 1);
    lua_replace(L, -3);
    lua_pop(L, 1);
}

void sandbox_need(lua_State *L, const char *name)
{
    luaL_checkstack(L, 8, NULL);
    lua_rawgetp(L, LUA_REGISTRYINDEX, &needed_key);
    int needed = lua_gettop(L);
    if (lua_getfield(L, needed, name) == LUA_TNIL) {
        lua_pop(L, 1);
        lua_pushboolean(L, 0); /* while it is made */
        lua_setfield(L, needed, name);
        push_loader(L, name);
        lua_call(L, 0, 1);
        lua_pushvalue(L, -1);
        lua_setfield(L, needed, name);
    } else if (lua_type(L, -1) == LUA_TBOOLEAN && !lua_toboolean(L, -1)) {
        luaL_error(L, "module '%s' needs itself", name);
    }
    lua_remove(L, needed);
}

/* ---- suggestions ---- */

static void offer_keys(lua_State *L, struct suggest *s)
{
    lua_pushnil(L);
    while (lua_next(L, -2)) {
        lua_pop(L, 1);
        if (lua_type(L, -1) == LUA_TSTRING)
            suggest_offer(s, lua_tostring(L, -1));
    }
}

void sandbox_offer(lua_State *L, bool library, struct suggest *s)
{
    if (lua_rawgetp(L, LUA_REGISTRYINDEX, library ? &libraries_key : &vocabulary_key) ==
        LUA_TTABLE) {
        if (!library)
            offer_keys(L, s);
        for (int i = 0; library && i < LIBRARIES; i++) {
            lua_getfield(L, -1, libraries[i].name);
            offer_keys(L, s);
            lua_pop(L, 1);
        }
    }
    lua_pop(L, 1);
}
