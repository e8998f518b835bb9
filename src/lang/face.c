#include "lang/face.h"

#include <lauxlib.h>
#include <lua.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/suggest.h"
#include "lang/builtin.h"
#include "lang/host.h"
#include "lang/limits.h"
#include "lang/load.h"
#include "lang/narrow.h"
#include "lang/raise.h"
#include "lang/sandbox.h"
#include "lang/script.h"
#include "lang/settings.h"
#include "lang/tokens.h"

/* A place in one integer: source, line, and which primitive (from 1; 0 for none). */
enum { PLACE_KIND_BITS = 8, PLACE_LINE_BITS = 24 };

static const char prelude_key = 0; /* registry: enter() of the prelude */
static const char kinds_key = 0;   /* registry: list of the primitives' names */
static const char ids_key = 0;     /* registry: set of the ids of faults told so far */

static lua_Integer place_make(uint32_t source, uint32_t line, int kind) {
    return ((lua_Integer)source << (PLACE_KIND_BITS + PLACE_LINE_BITS)) |
           ((lua_Integer)line << PLACE_KIND_BITS) | kind;
}
static uint32_t place_source(lua_Integer place) {
    return (uint32_t)(place >> (PLACE_KIND_BITS + PLACE_LINE_BITS));
}
static uint32_t place_line(lua_Integer place) {
    return (uint32_t)(place >> PLACE_KIND_BITS) & ((1u << PLACE_LINE_BITS) - 1);
}
static int place_kind(lua_Integer place) { return (int)(place & ((1 << PLACE_KIND_BITS) - 1)); }

static struct span span_of(lua_State *L, lua_Integer place) {
    struct host *host = host_of(L);
    uint32_t source = place_source(place), line = place_line(place);
    if (source == 0) return SPAN_NONE;
    struct script *script = load_script(host, source);
    struct span out = SPAN_NONE;
    if (script && place_kind(place) > 0) {
        lua_rawgetp(L, LUA_REGISTRYINDEX, &kinds_key);
        lua_rawgeti(L, -1, place_kind(place));
        const char *name = lua_tostring(L, -1);
        if (name) out = script_call_at(script, host->sources, line, name);
        lua_pop(L, 2);
    }
    return out.source ? out : source_line(host->sources, source, line);
}

struct span face_span(lua_State *L, int index) {
    return lua_isinteger(L, index) ? span_of(L, lua_tointeger(L, index)) : SPAN_NONE;
}

/* The innermost line of an author's that is running, as a place. */
static lua_Integer author_place(lua_State *L, int kind) {
    struct host *host = host_of(L);
    struct span at;
    if (!raise_author(L, &at)) return 0;
    struct place p = source_place(host->sources, at);
    return place_make(at.source, p.line, kind);
}

/* Upvalues: the primitive's name, its number. */
static int face(lua_State *L) {
    lua_Integer place = author_place(L, (int)lua_tointeger(L, lua_upvalueindex(2)));
    lua_rawgetp(L, LUA_REGISTRYINDEX, &prelude_key);
    lua_insert(L, 1);
    lua_pushvalue(L, lua_upvalueindex(1));
    lua_insert(L, 2);
    lua_pushinteger(L, place);
    lua_insert(L, 3); /* enter kind place ... */
    lua_call(L, lua_gettop(L) - 1, 1);
    return 1;
}

void face_install(lua_State *L) {
    sandbox_need(L, "prelude");
    lua_getfield(L, -1, "enter");
    lua_rawsetp(L, LUA_REGISTRYINDEX, &prelude_key);
    lua_getfield(L, -1, "names");
    lua_call(L, 0, 1); /* prelude names */
    lua_pushvalue(L, -1);
    lua_rawsetp(L, LUA_REGISTRYINDEX, &kinds_key);
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
}

/* ---- faults from the built-in Lua ---- */

/* Where the key is of the table that is given at `at`, or `at` itself. */
static struct span key_within(lua_State *L, struct span at, int key) {
    struct host *host = host_of(L);
    struct script *script = at.source ? load_script(host, at.source) : NULL;
    if (!script || lua_type(L, key) != LUA_TSTRING) return at;
    struct span found = script_key_in_call(script, host->sources, at, lua_tostring(L, key));
    return found.source ? found : at;
}

/* Where `key` of the call at `place` is, or the call itself. A list of keys leads into the
 * tables inside: { "species", "red oak" }. */
static struct span key_span(lua_State *L, int place, int key) {
    struct span at = face_span(L, place);
    if (lua_isnoneornil(L, place)) {
        if (!raise_author(L, &at)) at = SPAN_NONE;
        return at;
    }
    if (lua_type(L, key) != LUA_TTABLE) return key_within(L, at, key);
    lua_Integer count = luaL_len(L, key);
    for (lua_Integer i = 1; i <= count; i++) {
        lua_rawgeti(L, key, i);
        at = key_within(L, at, -1);
        lua_pop(L, 1);
    }
    return at;
}

/* The fault (place, key, id, message, hint) at argument `first` on. */
static void read_fault(lua_State *L, int first, struct fault *f) {
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
    if (hint) fault_hint(f, "%s", hint);
    if (lua_isnoneornil(L, first)) narrow_call(L, f, 0);
}

static int l_fault(lua_State *L) {
    struct fault f = { 0 };
    lua_settop(L, 5);
    read_fault(L, 1, &f);
    host_chain_tell(L, &f);
    faults_add(&host_of(L)->faults, &f);
    return 0;
}

static int l_warning(lua_State *L) {
    struct fault f = { 0 };
    lua_settop(L, 5);
    read_fault(L, 1, &f);
    host_chain_tell(L, &f);
    faults_add(&host_of(L)->warnings, &f);
    return 0;
}

static int l_raise(lua_State *L) {
    struct fault f = { 0 };
    lua_settop(L, 5);
    read_fault(L, 1, &f);
    fault_raise(L, &f);
}

/* Ends the script now: the faults told so far say why. */
static int l_raise_faults(lua_State *L) {
    struct host *host = host_of(L);
    if (host->faults.count == 0) return luaL_error(L, "no fault to raise");
    struct fault f = host->faults.list[host->faults.count - 1];
    fault_raise(L, &f);
}

static int l_fault_count(lua_State *L) {
    const struct host *host = host_of(L);
    lua_pushinteger(L, (lua_Integer)(host->faults.count + host->faults.more));
    return 1;
}

/* within(words, place, f, ...): calls f with the chain telling where it was asked for. What
 * goes wrong in it is kept with the other faults, so that the next one can be found too:
 * the answer is nothing then. */
static int l_within(lua_State *L) {
    const char *words = luaL_checkstring(L, 1);
    struct fault f = { 0 };
    host_chain_push(L, words, face_span(L, 2));
    bool ok = host_call(L, lua_gettop(L) - 3, LUA_MULTRET, &f);
    host_chain_pop(L);
    if (ok) return lua_gettop(L) - 2;
    if (fault_is_set(&host_of(L)->limits->stop)) fault_raise(L, &f);
    host_told(host_of(L), &f);
    return 0;
}

/* ---- places and layers ---- */

static int l_place_words(lua_State *L) {
    struct host *host = host_of(L);
    struct span at = face_span(L, 1);
    struct place p = source_place(host->sources, at);
    if (at.source == 0) lua_pushliteral(L, "the command line");
    else lua_pushfstring(L, "%s:%d", p.file, (int)p.line);
    return 1;
}

/* here(kind): the place of the author's line that runs now; with a kind, of its call. */
static int l_here(lua_State *L) {
    int kind = 0;
    const char *wanted = luaL_optstring(L, 1, "");
    lua_rawgetp(L, LUA_REGISTRYINDEX, &kinds_key);
    lua_Integer count = lua_istable(L, -1) ? luaL_len(L, -1) : 0;
    for (lua_Integer i = 1; i <= count && kind == 0; i++) {
        lua_rawgeti(L, -1, i);
        if (strcmp(luaL_optstring(L, -1, ""), wanted) == 0) kind = (int)i;
        lua_pop(L, 1);
    }
    lua_pushinteger(L, author_place(L, kind));
    return 1;
}

/* typed(place, key): the text of the value that the author wrote for a key, or nil. */
static int l_typed(lua_State *L) {
    struct host *host = host_of(L);
    struct span call = face_span(L, 1);
    struct script *script = call.source ? load_script(host, call.source) : NULL;
    if (!script) return 0;
    struct span value = script_value_of_key(script, host->sources, call,
                                            luaL_checkstring(L, 2));
    if (value.source == 0) return 0;
    size_t length;
    const char *text = source_text(host->sources, value.source, &length);
    lua_pushlstring(L, text + value.at, value.length);
    return 1;
}

static int l_same_source(lua_State *L) {
    lua_pushboolean(L, place_source(luaL_checkinteger(L, 1)) ==
                           place_source(luaL_checkinteger(L, 2)));
    return 1;
}

static int l_main_place(lua_State *L) {
    lua_pushinteger(L, place_make(host_of(L)->main_source, 1, 0));
    return 1;
}

static const char *const LAYER_NAMES[] = { "built-in", "region", "state",
                                           "pack", "property", "plan" };

static int l_layer(lua_State *L) {
    uint32_t source = place_source(luaL_optinteger(L, 1, 0));
    const struct layer *layer = load_layer(host_of(L), source);
    lua_createtable(L, 0, 4);
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
    return 1;
}

/* suggest(word, list): the nearest name, or nil. */
static int l_suggest(lua_State *L) {
    size_t length;
    const char *word = luaL_checklstring(L, 1, &length);
    luaL_checktype(L, 2, LUA_TTABLE);
    struct suggest s = suggest_for(word, length);
    lua_Integer count = luaL_len(L, 2);
    luaL_checkstack(L, 4, "too many names");
    for (lua_Integer i = 1; i <= count; i++) {
        lua_rawgeti(L, 2, i);
        if (lua_type(L, -1) == LUA_TSTRING) suggest_offer(&s, lua_tostring(L, -1));
        lua_pop(L, 1); /* the list keeps it alive */
    }
    lua_pushstring(L, s.best);
    return 1;
}

/* ---- other scripts ---- */

static int raise_or(lua_State *L, bool ok, const struct fault *f) {
    if (fault_is_set(f)) fault_raise(L, f);
    if (!ok && host_of(L)->faults.count > 0) return l_raise_faults(L);
    lua_pushboolean(L, ok);
    return 1;
}

static int l_use(lua_State *L) {
    struct fault f = { 0 };
    size_t length;
    const char *name = luaL_checklstring(L, 1, &length);
    if (strlen(name) != length) {
        fault_set(&f, "use-name", face_span(L, 2), "a file's name holds no such character");
        fault_hint(&f, "use \"%s\"", name);
        fault_raise(L, &f);
    }
    return raise_or(L, load_use(host_of(L), name, face_span(L, 2), &f), &f);
}

/* use_prescription(name): reads prescriptions/NAME.rx of the property, a pack or the book. */
static int l_use_prescription(lua_State *L) {
    struct fault f = { 0 };
    size_t length;
    const char *name = luaL_checklstring(L, 1, &length);
    if (strlen(name) != length) return 0;
    lua_pushfstring(L, "prescriptions/%s.rx", name);
    bool ok = load_use(host_of(L), lua_tostring(L, -1), face_span(L, 2), &f);
    if (!ok && f.id && (strcmp(f.id, "file-missing") == 0 || strcmp(f.id, "use-name") == 0))
        fault_clear(&f);
    return raise_or(L, ok, &f);
}

/* load_region(name, "region" or "state"): the built-in one, then the packs' over it. */
static int l_load_region(lua_State *L) {
    struct fault f = { 0 };
    const char *name = luaL_checkstring(L, 1);
    bool state = strcmp(luaL_checkstring(L, 2), "state") == 0;
    struct host *host = host_of(L);
    const char *words = lua_pushfstring(L, "region %s", name);
    const char *file = lua_pushfstring(L, "stdlib/regions/%s.rx", name);
    bool ok = load_named(host, file, state ? LAYER_STATE : LAYER_REGION, words, &f);
    const char *in_pack = lua_pushfstring(L, "regions/%s.rx", name);
    for (size_t i = 0; i < finder_packs(host->finder) && !fault_is_set(&f); i++)
        ok = load_from_pack(host, i, in_pack, &f) || ok;
    return raise_or(L, ok, &f);
}

/* The seasons, rates, prices and rules that every plan starts from. */
static int l_load_base(lua_State *L) {
    struct fault f = { 0 };
    const struct builtin *entry;
    for (size_t i = 0; (entry = builtin_at(i)) != NULL; i++) {
        if (strncmp(entry->name, "stdlib/base/", 12) != 0 || entry->bytecode) continue;
        bool ok = load_named(host_of(L), entry->name, LAYER_BUILT_IN, "built-in", &f);
        if (!ok) return raise_or(L, false, &f);
    }
    return 0;
}

static int l_packs(lua_State *L) {
    lua_pushinteger(L, (lua_Integer)finder_packs(host_of(L)->finder));
    return 1;
}

/* load_pack(number, file): false when the pack has no such file. */
static int l_load_pack(lua_State *L) {
    struct fault f = { 0 };
    struct host *host = host_of(L);
    lua_Integer i = luaL_checkinteger(L, 1);
    luaL_argcheck(L, i >= 1 && (size_t)i <= finder_packs(host->finder), 1, "no such pack");
    bool ok = load_from_pack(host, (size_t)i - 1, luaL_checkstring(L, 2), &f);
    return raise_or(L, ok, &f);
}

/* Pushes a list of the names in `folder` of the packs and of what is built in. */
static void push_names(lua_State *L, const char *folder, const char *prefix) {
    struct buf names;
    buf_init(&names);
    bool ok = finder_list(host_of(L)->finder, folder, &names);
    lua_Integer n = luaL_len(L, -1);
    /* The buffer must not be lost when Lua jumps: the text is Lua's before it is cut up. */
    const char *text = lua_pushlstring(L, names.data, ok ? names.length : 0);
    buf_clear(&names);
    for (const char *end; (end = strchr(text, '\n')) != NULL; text = end + 1) {
        lua_pushstring(L, prefix);
        lua_pushlstring(L, text, (size_t)(end - text));
        lua_concat(L, 2);
        lua_rawseti(L, -3, ++n);
    }
    lua_pop(L, 1);
}

static int l_book(lua_State *L) {
    lua_newtable(L);
    push_names(L, "prescriptions", "");
    return 1;
}

static int l_regions(lua_State *L) {
    lua_newtable(L);
    push_names(L, "regions", "");
    push_names(L, "stdlib/regions", "");
    lua_Integer count = luaL_len(L, -1);
    for (lua_Integer i = 1; i <= count; i++) { /* the states under each */
        lua_rawgeti(L, 1, i);
        const char *region = lua_tostring(L, -1);
        const char *prefix = lua_pushfstring(L, "%s/", region);
        const char *folder = lua_pushfstring(L, "regions/%s", region);
        const char *built_in = lua_pushfstring(L, "stdlib/regions/%s", region);
        lua_pushvalue(L, 1);
        push_names(L, folder, prefix);
        push_names(L, built_in, prefix);
        lua_settop(L, 1);
    }
    return 1;
}

/* ---- the command line and the plan's own names ---- */

/* setting(name): the text after --set NAME=, or nil. */
static int l_setting(lua_State *L) {
    size_t length;
    const char *name = luaL_checklstring(L, 1, &length);
    const struct settings *s = host_of(L)->settings;
    for (size_t i = s->input_count; i-- > 0;) {
        if (strncmp(s->inputs[i], name, length) != 0 || s->inputs[i][length] != '=') continue;
        lua_pushstring(L, s->inputs[i] + length + 1);
        return 1;
    }
    return 0;
}

/* settings(): the names set, in order. */
static int l_settings(lua_State *L) {
    const struct settings *s = host_of(L)->settings;
    lua_newtable(L);
    for (size_t i = 0; i < s->input_count; i++) {
        lua_pushlstring(L, s->inputs[i], strcspn(s->inputs[i], "="));
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
    return 1;
}

/* evaluate(name, text): the value of a text such as "45 ft", read as a script would read
 * it. `name` is what the message calls it. */
static int l_evaluate(lua_State *L) {
    struct host *host = host_of(L);
    struct fault f = { 0 };
    const char *name = luaL_checkstring(L, 1), *text = luaL_checkstring(L, 2);
    const char *source_words = lua_pushfstring(L, "--set %s", name);
    bool plain = is_name_start(*name) && name[skip_word(name, strlen(name), 0)] == '\0' &&
                 keyword_read(name, strlen(name)) == KEYWORD_NONE;
    if (!plain) name = "value";
    const char *body = lua_pushfstring(L, "%s = %s", name, text);
    load_env(L);
    lua_pushstring(L, name);
    lua_rawget(L, -2); /* env, what the plan calls so */
    int env = lua_gettop(L) - 1;
    uint32_t source = sources_add(host->sources, source_words, body, strlen(body));
    static const struct layer layer = { LAYER_PLAN, 0, "command line" };
    bool ok = source != 0 && load_source(host, source, source_words, &layer, &f);
    if (fault_is_set(&f)) fault_raise(L, &f);
    if (!ok) return l_raise_faults(L);
    lua_pushstring(L, name);
    lua_rawget(L, env);
    lua_pushstring(L, name);
    lua_pushvalue(L, env + 1);
    lua_rawset(L, env);
    return 1;
}

/* globals(): names a script has made in its environment that are no primitives, sorted by
 * the caller. */
static int l_globals(lua_State *L) {
    lua_newtable(L);
    load_env(L); /* out env */
    lua_Integer n = 0;
    lua_pushnil(L);
    while (lua_next(L, -2)) {
        if (lua_type(L, -2) == LUA_TSTRING && !lua_iscfunction(L, -1)) {
            lua_pushvalue(L, -2);
            lua_rawseti(L, 1, ++n);
        }
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
    return 1;
}

static int l_global(lua_State *L) {
    load_env(L);
    lua_pushvalue(L, 1);
    lua_rawget(L, -2);
    return 1;
}

static int l_settled(lua_State *L) {
    host_of(L)->settled = true;
    return 0;
}

int face_room(lua_State *L) {
    static const luaL_Reg functions[] = {
        { "fault", l_fault },
        { "warning", l_warning },
        { "raise", l_raise },
        { "raise_faults", l_raise_faults },
        { "fault_count", l_fault_count },
        { "within", l_within },
        { "typed", l_typed },
        { "place_words", l_place_words },
        { "here", l_here },
        { "same_source", l_same_source },
        { "main_place", l_main_place },
        { "layer", l_layer },
        { "suggest", l_suggest },
        { "use", l_use },
        { "use_prescription", l_use_prescription },
        { "load_region", l_load_region },
        { "load_base", l_load_base },
        { "packs", l_packs },
        { "load_pack", l_load_pack },
        { "book", l_book },
        { "regions", l_regions },
        { "setting", l_setting },
        { "settings", l_settings },
        { "evaluate", l_evaluate },
        { "globals", l_globals },
        { "global", l_global },
        { "settled", l_settled },
        { NULL, NULL },
    };
    luaL_newlib(L, functions);
    return 1;
}
