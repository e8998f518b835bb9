#include "lang/face.h"

#include <lauxlib.h>
#include <lua.h>
#include <string.h>

#include "base/fault.h"
#include "base/suggest.h"
#include "lang/face_inner.h"
#include "lang/host.h"
#include "lang/load.h"
#include "lang/raise.h"
#include "lang/sandbox.h"
#include "lang/script.h"

static const char prelude_key = 0; /* registry: enter() of the prelude */
const char face_kinds_key = 0;
static const char layers_key = 0;  /* registry: the tables of l_layer, by source */

static lua_Integer place_make(uint32_t source, uint32_t line, int kind)
{
    return ((lua_Integer)source << (PLACE_KIND_BITS + PLACE_LINE_BITS)) |
           ((lua_Integer)line << PLACE_KIND_BITS) | kind;
}
static uint32_t place_source(lua_Integer place)
{
    return (uint32_t)(place >> (PLACE_KIND_BITS + PLACE_LINE_BITS));
}
static uint32_t place_line(lua_Integer place)
{
    return (uint32_t)(place >> PLACE_KIND_BITS) & ((1u << PLACE_LINE_BITS) - 1);
}
static int place_kind(lua_Integer place)
{
    return (int)(place & ((1 << PLACE_KIND_BITS) - 1));
}

struct span face_place_span(lua_State *L, int64_t place)
{
    struct host *host = host_of(L);
    uint32_t source = place_source(place), line = place_line(place);
    if (source == 0)
        return SPAN_NONE;
    struct script *script = load_script(host, source);
    struct span out = SPAN_NONE;
    if (script && place_kind(place) > 0) {
        lua_rawgetp(L, LUA_REGISTRYINDEX, &face_kinds_key);
        lua_rawgeti(L, -1, place_kind(place));
        const char *name = lua_tostring(L, -1);
        if (name)
            out = script_call_at(script, host->sources, line, name);
        lua_pop(L, 2);
    }
    return out.source ? out : source_line(host->sources, source, line);
}

struct span face_span(lua_State *L, int index)
{
    return lua_isinteger(L, index) ? face_place_span(L, lua_tointeger(L, index))
                                   : SPAN_NONE;
}

/* The innermost line of an author's that is running, as a place. */
lua_Integer face_author_place(lua_State *L, int kind)
{
    struct host *host = host_of(L);
    struct span at;
    if (!raise_author(L, &at))
        return 0;
    struct place p = source_place(host->sources, at);
    return place_make(at.source, p.line, kind);
}

/* Upvalues: the primitive's name, its number. */
static int face(lua_State *L)
{
    lua_Integer place = face_author_place(L, (int)lua_tointeger(L, lua_upvalueindex(2)));
    lua_rawgetp(L, LUA_REGISTRYINDEX, &prelude_key);
    lua_insert(L, 1);
    lua_pushvalue(L, lua_upvalueindex(1));
    lua_insert(L, 2);
    lua_pushinteger(L, place);
    lua_insert(L, 3); /* enter kind place ... */
    lua_call(L, lua_gettop(L) - 1, 1);
    return 1;
}

void face_install(lua_State *L)
{
    sandbox_need(L, "prelude");
    lua_getfield(L, -1, "enter");
    lua_rawsetp(L, LUA_REGISTRYINDEX, &prelude_key);
    lua_getfield(L, -1, "names");
    lua_call(L, 0, 1); /* prelude names */
    lua_pushvalue(L, -1);
    lua_rawsetp(L, LUA_REGISTRYINDEX, &face_kinds_key);
    sandbox_vocabulary(L); /* prelude names vocabulary */
    lua_Integer count = luaL_len(L, -2);
    for (lua_Integer i = 1; i <= count; i++) {
        lua_rawgeti(L, -2, i);
        lua_pushvalue(L, -1);
        lua_pushinteger(L, i);
        lua_pushcclosure(L, face, 2); /* prelude names vocabulary name face */
        lua_rawset(L, -3);
    }
    lua_pop(L, 3);
    face_words_install(L);
}

/* ---- places and layers ---- */

static int l_place_words(lua_State *L)
{
    struct host *host = host_of(L);
    struct span at = face_span(L, 1);
    struct place p = source_place(host->sources, at);
    if (at.source == 0)
        lua_pushliteral(L, "the command line");
    else
        lua_pushfstring(L, "%s:%d", p.file, (int)p.line);
    return 1;
}

/* here(kind): the place of the author's line that runs now; with a kind, of its call. */
static int l_here(lua_State *L)
{
    int kind = 0;
    const char *wanted = luaL_optstring(L, 1, "");
    if (*wanted)
        kind = face_kind_number(L, wanted);
    lua_pushinteger(L, face_author_place(L, kind));
    return 1;
}

/* typed(place, key): the text of the value that the author wrote for a key, or nil. */
static int l_typed(lua_State *L)
{
    struct host *host = host_of(L);
    struct span call = face_span(L, 1);
    struct script *script = call.source ? load_script(host, call.source) : NULL;
    if (!script)
        return 0;
    struct span value =
        script_value_of_key(script, host->sources, call, luaL_checkstring(L, 2));
    if (value.source == 0)
        return 0;
    size_t length;
    const char *text = source_text(host->sources, value.source, &length);
    lua_pushlstring(L, text + value.at, value.length);
    return 1;
}

static int l_same_source(lua_State *L)
{
    lua_pushboolean(L, place_source(luaL_checkinteger(L, 1)) ==
                           place_source(luaL_checkinteger(L, 2)));
    return 1;
}

static int l_main_place(lua_State *L)
{
    lua_pushinteger(L, place_make(host_of(L)->main_source, 1, 0));
    return 1;
}

static const char *const LAYER_NAMES[] = { "built-in", "region",   "state",
                                           "pack",     "property", "plan" };

/* One table a source, for all that is described there. */
static int l_layer(lua_State *L)
{
    uint32_t source = place_source(luaL_optinteger(L, 1, 0));
    const struct layer *layer = load_layer(host_of(L), source);
    if (lua_rawgetp(L, LUA_REGISTRYINDEX, &layers_key) != LUA_TTABLE) {
        lua_pop(L, 1);
        lua_newtable(L);
        lua_pushvalue(L, -1);
        lua_rawsetp(L, LUA_REGISTRYINDEX, &layers_key);
    }
    if (lua_rawgeti(L, -1, source) == LUA_TTABLE)
        return 1;
    lua_pop(L, 1);
    lua_createtable(L, 0, 5);
    lua_pushstring(L, LAYER_NAMES[layer->kind]);
    lua_setfield(L, -2, "kind");
    lua_pushinteger(L, layer->order);
    lua_setfield(L, -2, "order");
    lua_pushstring(L, layer->words);
    lua_setfield(L, -2, "words");
    lua_pushinteger(L, source);
    lua_setfield(L, -2, "name");
    lua_pushinteger(L, layer->order);
    lua_setfield(L, -2, "pack");
    lua_pushvalue(L, -1);
    lua_rawseti(L, -3, source);
    return 1;
}

/* suggest(word, list): the nearest name, or nil. */
static int l_suggest(lua_State *L)
{
    size_t length;
    const char *word = luaL_checklstring(L, 1, &length);
    luaL_checktype(L, 2, LUA_TTABLE);
    struct suggest s = suggest_for(word, length);
    lua_Integer count = luaL_len(L, 2);
    luaL_checkstack(L, 4, "too many names");
    for (lua_Integer i = 1; i <= count; i++) {
        lua_rawgeti(L, 2, i);
        if (lua_type(L, -1) == LUA_TSTRING)
            suggest_offer(&s, lua_tostring(L, -1));
        lua_pop(L, 1); /* the list keeps it alive */
    }
    lua_pushstring(L, s.best);
    return 1;
}

int face_room(lua_State *L)
{
    static const luaL_Reg functions[] = {
        { "typed", l_typed },
        { "place_words", l_place_words },
        { "here", l_here },
        { "same_source", l_same_source },
        { "main_place", l_main_place },
        { "layer", l_layer },
        { "suggest", l_suggest },
        { NULL, NULL },
    };
    luaL_newlib(L, functions);
    face_told_open(L);
    face_words_open(L);
    face_scripts_open(L);
    return 1;
}
