/* The room "host": faults that the built-in Lua tells, at the author's place. */
#include <lauxlib.h>
#include <lua.h>

#include "base/fault.h"
#include "lang/face.h"
#include "lang/face_inner.h"
#include "lang/host.h"
#include "lang/limits.h"
#include "lang/load.h"
#include "lang/narrow.h"
#include "lang/raise.h"
#include "lang/script.h"

static const char ids_key = 0; /* registry: set of the ids of faults told so far */

/* Where the key is of the table that is given at `at`, or `at` itself. A number is the
 * entry of a list; a list of keys leads into the tables inside: { "map", 2, "field" }. */
static struct span key_within(lua_State *L, struct span at, int key)
{
    struct host *host = host_of(L);
    struct script *script = at.source ? load_script(host, at.source) : NULL;
    struct span found = SPAN_NONE;
    if (!script)
        return at;
    if (lua_isinteger(L, key)) {
        found = script_entry_in_call(script, host->sources, at,
                                     (uint32_t)lua_tointeger(L, key));
    } else if (lua_type(L, key) == LUA_TSTRING) {
        found = script_key_in_call(script, host->sources, at, lua_tostring(L, key));
    } else if (lua_type(L, key) == LUA_TTABLE) {
        lua_Integer count = luaL_len(L, key);
        luaL_checkstack(L, 1, "keys inside keys");
        for (lua_Integer i = 1; i <= count; i++) {
            lua_rawgeti(L, key, i);
            at = key_within(L, at, lua_gettop(L));
            lua_pop(L, 1);
        }
    }
    return found.source ? found : at;
}

/* Where `key` of the call at `place` is, or the call itself. */
static struct span key_span(lua_State *L, int place, int key)
{
    struct span at = face_span(L, place);
    if (!lua_isnoneornil(L, place))
        return key_within(L, at, key);
    return raise_author(L, &at) ? at : SPAN_NONE;
}

/* The fault (place, key, id, message, hint) at argument `first` on. */
static void read_fault(lua_State *L, int first, struct fault *f)
{
    const char *id = luaL_checkstring(L, first + 2);
    const char *message = luaL_checkstring(L, first + 3);
    const char *hint = luaL_optstring(L, first + 4, NULL);
    /* Ids outlive the state they were written in: anchored for as long as the host. */
    if (lua_rawgetp(L, LUA_REGISTRYINDEX, &ids_key) != LUA_TTABLE) {
        lua_pop(L, 1);
        lua_newtable(L);
        lua_pushvalue(L, -1);
        lua_rawsetp(L, LUA_REGISTRYINDEX, &ids_key);
    }
    lua_pushvalue(L, first + 2);
    lua_pushboolean(L, true);
    lua_rawset(L, -3);
    lua_pop(L, 1);
    fault_set(f, id, key_span(L, first, first + 1), "%s", message);
    if (hint)
        fault_hint(f, "%s", hint);
    if (lua_isnoneornil(L, first))
        narrow_call(L, f, 0);
}

static int l_fault(lua_State *L)
{
    struct fault f = { 0 };
    lua_settop(L, 5);
    read_fault(L, 1, &f);
    host_chain_tell(L, &f);
    faults_add(&host_of(L)->faults, &f);
    return 0;
}

static int l_warning(lua_State *L)
{
    struct fault f = { 0 };
    lua_settop(L, 5);
    read_fault(L, 1, &f);
    host_chain_tell(L, &f);
    faults_add(&host_of(L)->warnings, &f);
    return 0;
}

static int l_raise(lua_State *L)
{
    struct fault f = { 0 };
    lua_settop(L, 5);
    read_fault(L, 1, &f);
    fault_raise(L, &f);
}

int face_raise_faults(lua_State *L)
{
    struct host *host = host_of(L);
    if (host->faults.count == 0)
        return luaL_error(L, "no fault to raise");
    struct fault f = host->faults.list[host->faults.count - 1];
    fault_raise(L, &f);
}

static int l_fault_count(lua_State *L)
{
    const struct host *host = host_of(L);
    lua_pushinteger(L, (lua_Integer)(host->faults.count + host->faults.more));
    return 1;
}

/* within(words, place, f, ...): calls f with the chain telling where it was asked for.
 * What goes wrong in it is kept with the other faults, so that the next one can be found
 * too: the answer is nothing then. */
static int l_within(lua_State *L)
{
    const char *words = luaL_checkstring(L, 1);
    struct fault f = { 0 };
    lua_Integer place = lua_isinteger(L, 2) ? lua_tointeger(L, 2) : 0;
    host_chain_push_place(L, words, face_place_span, place);
    bool ok = host_call(L, lua_gettop(L) - 3, LUA_MULTRET, &f);
    host_chain_pop(L);
    if (ok)
        return lua_gettop(L) - 2;
    if (fault_is_set(&host_of(L)->limits->stop))
        fault_raise(L, &f);
    host_told(host_of(L), &f);
    return 0;
}

/* placed(place, key, f, ...): calls f. What goes wrong in it, which knows nothing of the
 * script, is told at that key; the answer is nothing then. */
static int l_placed(lua_State *L)
{
    struct fault f = { 0 };
    if (host_call(L, lua_gettop(L) - 3, LUA_MULTRET, &f))
        return lua_gettop(L) - 2;
    if (fault_is_set(&host_of(L)->limits->stop))
        fault_raise(L, &f);
    f.at = key_span(L, 1, 2);
    host_told(host_of(L), &f);
    return 0;
}

void face_told_open(lua_State *L)
{
    static const luaL_Reg functions[] = {
        { "fault", l_fault },
        { "warning", l_warning },
        { "raise", l_raise },
        { "raise_faults", face_raise_faults },
        { "fault_count", l_fault_count },
        { "within", l_within },
        { "placed", l_placed },
        { NULL, NULL },
    };
    luaL_setfuncs(L, functions, 0);
}
