/* pcall, xpcall and the coroutine functions: as Lua's own, but a stop (limits.h) goes
 * through them, and every coroutine is counted. */
#include <lauxlib.h>
#include <lualib.h>

#include "lang/host.h"
#include "lang/library.h"
#include "lang/limits.h"
#include "lang/raise.h"

enum { HANDLERS_MOST = 10 };

/* Its address is the registry's key of all coroutines, weakly held. */
static const char threads_key;

static struct limits *limits_of(lua_State *L)
{
    return host_of(L)->limits;
}

/* ---- protected calls ---- */

/* What a failed call leaves behind, put back: kept in the continuation's context. */
static lua_KContext before(lua_State *L, int results_from)
{
    return (lua_KContext)results_from | (lua_KContext)limits_of(L)->depth << 8 |
           (lua_KContext)(host_chain_depth(L) & 0xffff) << 24;
}

static int finish(lua_State *L, int status, lua_KContext context)
{
    int results_from = (int)(context & 0xff);
    if (status == LUA_OK || status == LUA_YIELD)
        return lua_gettop(L) - results_from;
    limits_after_error(L, L, status);
    limits_of(L)->handlers = 0;
    limits_of(L)->depth = (uint32_t)(context >> 8 & 0xffff);
    host_chain_cut(L, (size_t)(context >> 24 & 0xffff));
    lua_pushboolean(L, 0);
    lua_pushvalue(L, -2);
    return 2;
}

static int guard_pcall(lua_State *L)
{
    luaL_checkany(L, 1);
    lua_pushboolean(L, 1); /* the first result when all goes well */
    lua_insert(L, 1);
    lua_KContext context = before(L, 0);
    int status = lua_pcallk(L, lua_gettop(L) - 2, LUA_MULTRET, 0, context, finish);
    return finish(L, status, context);
}

/* The script's handler does not get to see a stop. Lua calls it again for an error of its
 * own, until the stack is full: a few times are enough. */
static int handler(lua_State *L)
{
    struct limits *l = limits_of(L);
    if (fault_is_set(&l->stop) || l->handlers >= HANDLERS_MOST)
        return 1;
    l->handlers++;
    lua_settop(L, 1);
    lua_pushvalue(L, lua_upvalueindex(1));
    lua_insert(L, 1);
    lua_call(L, 1, 1);
    l->handlers--;
    return 1;
}

static int guard_xpcall(lua_State *L)
{
    int n = lua_gettop(L);
    luaL_checktype(L, 2, LUA_TFUNCTION);
    lua_pushvalue(L, 2);
    lua_pushcclosure(L, handler, 1);
    lua_replace(L, 2);
    lua_pushboolean(L, 1);
    lua_pushvalue(L, 1);
    lua_rotate(L, 3, 2); /* function, handler, true, function, arguments */
    lua_KContext context = before(L, 2);
    int status = lua_pcallk(L, n - 2, LUA_MULTRET, 2, context, finish);
    return finish(L, status, context);
}

void library_guard(lua_State *L)
{
    lua_pushcfunction(L, guard_pcall);
    lua_setfield(L, -2, "pcall");
    lua_pushcfunction(L, guard_xpcall);
    lua_setfield(L, -2, "xpcall");
}

/* ---- coroutines ---- */

static bool is_finished(lua_State *co)
{
    lua_Debug ar;
    if (lua_status(co) == LUA_YIELD)
        return false;
    return lua_status(co) != LUA_OK || (!lua_getstack(co, 0, &ar) && lua_gettop(co) == 0);
}

/* The count only grows when coroutines are made; those that have ended or that nothing
 * holds any more are found out when it seems to be full. */
static void recount(lua_State *L, struct limits *l)
{
    lua_gc(L, LUA_GCCOLLECT);
    l->coroutines = 0;
    uint64_t seen = 0;
    lua_rawgetp(L, LUA_REGISTRYINDEX, &threads_key);
    lua_pushnil(L);
    while (lua_next(L, -2)) {
        lua_pop(L, 1);
        seen++;
        if (!is_finished(lua_tothread(L, -1)))
            l->coroutines++;
    }
    lua_pop(L, 1);
    limits_charge(L, 1000 + seen * 100); /* a collection is long work */
}

/* Pushes a coroutine that will run the function at 1. */
static lua_State *create(lua_State *L)
{
    struct limits *l = limits_of(L);
    luaL_checktype(L, 1, LUA_TFUNCTION);
    if (l->coroutines >= l->coroutines_most)
        recount(L, l);
    if (l->coroutines >= l->coroutines_most)
        limits_stop(L, "limit-coroutines", "let them end before new ones are made",
                    "more than %u coroutines wait at one time", l->coroutines_most);
    lua_State *co = lua_newthread(L);
    lua_rawgetp(L, LUA_REGISTRYINDEX, &threads_key);
    lua_pushvalue(L, -2);
    lua_pushboolean(L, 1);
    lua_rawset(L, -3);
    lua_pop(L, 1);
    l->coroutines++;
    limits_adopt(L, co);
    lua_pushvalue(L, 1);
    lua_xmove(L, co, 1);
    return co;
}

static lua_State *thread_at(lua_State *L, int index)
{
    lua_State *co = lua_tothread(L, index);
    luaL_argexpected(L, co, index, "coroutine");
    return co;
}

/* Moves what came out to L: how many values, or -1 with the error value. */
static int resume(lua_State *L, lua_State *co, int arguments)
{
    struct limits *l = limits_of(L);
    limits_charge(L, 10);
    if (is_finished(co)) {
        lua_pushliteral(L, "cannot resume dead coroutine");
        return -1;
    }
    lua_Debug ar;
    if (co == L || (lua_status(co) == LUA_OK && lua_getstack(co, 0, &ar))) {
        lua_pushliteral(L, "cannot resume non-suspended coroutine");
        return -1;
    }
    if (!lua_checkstack(co, arguments)) {
        lua_pushliteral(L, "too many values for a coroutine");
        return -1;
    }
    lua_xmove(L, co, arguments);
    lua_State *running = l->running;
    uint32_t depth = l->depth;
    size_t chain = host_chain_depth(L);
    int results = 0;
    l->running = co;
    int status = lua_resume(co, L, arguments, &results);
    l->running = running;
    if (status == LUA_OK || status == LUA_YIELD) {
        if (lua_checkstack(L, results + 1)) {
            lua_xmove(co, L, results);
            return results;
        }
        lua_pop(co, results);
        lua_pushliteral(L, "too many values out of a coroutine");
        return -1;
    }
    limits_after_error(L, co, status);
    l->depth = depth;
    host_chain_cut(L, chain);
    lua_pushvalue(co, -1); /* one stays: lua_resetthread looks for it there */
    lua_xmove(co, L, 1);
    return -1;
}

static int coroutine_create(lua_State *L)
{
    create(L);
    return 1;
}

static int coroutine_resume(lua_State *L)
{
    lua_State *co = thread_at(L, 1);
    int n = resume(L, co, lua_gettop(L) - 1);
    lua_pushboolean(L, n >= 0);
    lua_insert(L, n >= 0 ? -(n + 1) : -2);
    return n >= 0 ? n + 1 : 2;
}

/* Closing runs __close functions of the script's in a thread of their own, whose depth
 * Lua does not count: so it is counted here. */
static int close_thread(lua_State *L, lua_State *co)
{
    struct limits *l = limits_of(L);
    lua_State *running = l->running;
    limits_charge(L, 10);
    limits_enter(L);
    l->running = co;
    int status = lua_resetthread(co);
    l->running = running;
    limits_leave(L);
    if (status != LUA_OK)
        limits_after_error(L, co, status);
    return status;
}

static int wrapped(lua_State *L)
{
    lua_State *co = lua_tothread(L, lua_upvalueindex(1));
    int n = resume(L, co, lua_gettop(L));
    if (n >= 0)
        return n;
    int status = lua_status(co);
    if (status != LUA_OK && status != LUA_YIELD) {
        /* it failed: what it had to close is closed, and may fail in its turn */
        if (close_thread(L, co) != LUA_OK)
            lua_xmove(co, L, 1);
    }
    return lua_error(L);
}

static int coroutine_wrap(lua_State *L)
{
    create(L);
    lua_pushcclosure(L, wrapped, 1);
    return 1;
}

static int coroutine_close(lua_State *L)
{
    lua_State *co = thread_at(L, 1);
    lua_Debug ar;
    if (co == L || (lua_status(co) == LUA_OK && lua_getstack(co, 0, &ar)))
        return luaL_error(L, "cannot close a running coroutine");
    if (close_thread(L, co) == LUA_OK) {
        lua_pushboolean(L, 1);
        return 1;
    }
    lua_pushboolean(L, 0);
    lua_xmove(co, L, 1);
    return 2;
}

void library_coroutine(lua_State *L)
{
    static const char *const as_they_are[] = { "isyieldable", "running", "status",
                                               "yield", NULL };
    static const luaL_Reg ours[] = { { "create", coroutine_create },
                                     { "resume", coroutine_resume },
                                     { "wrap", coroutine_wrap },
                                     { "close", coroutine_close },
                                     { NULL, NULL } };
    lua_newtable(L);
    lua_createtable(L, 0, 1);
    lua_pushliteral(L, "k");
    lua_setfield(L, -2, "__mode");
    lua_setmetatable(L, -2);
    lua_rawsetp(L, LUA_REGISTRYINDEX, &threads_key);
    lua_pushcfunction(L, luaopen_coroutine);
    lua_call(L, 0, 1);
    lua_insert(L, -2);
    library_take(L, as_they_are);
    lua_remove(L, -2);
    luaL_setfuncs(L, ours, 0);
}
