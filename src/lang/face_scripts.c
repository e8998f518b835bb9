/* The room "host": other scripts that are read, what the command line says, and the names
 * that a plan has made. */
#include <lauxlib.h>
#include <lua.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "lang/builtin.h"
#include "lang/face.h"
#include "lang/face_inner.h"
#include "lang/held.h"
#include "lang/host.h"
#include "lang/limits.h"
#include "lang/load.h"
#include "lang/raise.h"
#include "lang/settings.h"
#include "lang/tokens.h"

/* ---- other scripts ---- */

static int raise_or(lua_State *L, bool ok, const struct fault *f)
{
    if (fault_is_set(f))
        fault_raise(L, f);
    if (!ok && host_of(L)->faults.count > 0)
        return face_raise_faults(L);
    lua_pushboolean(L, ok);
    return 1;
}

static int l_use(lua_State *L)
{
    struct fault f = { 0 };
    size_t length;
    const char *name = luaL_checklstring(L, 1, &length);
    if (strlen(name) != length) {
        fault_set(&f, "use-name", face_span(L, 2),
                  "a file's name holds no such character");
        fault_hint(&f, "use \"%s\"", name);
        fault_raise(L, &f);
    }
    return raise_or(L, load_use(host_of(L), name, face_span(L, 2), &f), &f);
}

/* use_prescription(name): reads prescriptions/NAME.rx of the property, a pack or the
 * book. */
static int l_use_prescription(lua_State *L)
{
    struct fault f = { 0 };
    size_t length;
    const char *name = luaL_checklstring(L, 1, &length);
    if (strlen(name) != length)
        return 0;
    lua_pushfstring(L, "prescriptions/%s.rx", name);
    bool ok = load_use(host_of(L), lua_tostring(L, -1), face_span(L, 2), &f);
    if (!ok && f.id &&
        (strcmp(f.id, "file-missing") == 0 || strcmp(f.id, "use-name") == 0))
        fault_clear(&f);
    return raise_or(L, ok, &f);
}

/* load_region(name, "region" or "state"): the built-in one, then the packs' over it. */
static int l_load_region(lua_State *L)
{
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
static int l_load_base(lua_State *L)
{
    struct fault f = { 0 };
    const struct builtin *entry;
    for (size_t i = 0; (entry = builtin_at(i)) != NULL; i++) {
        if (strncmp(entry->name, "stdlib/base/", 12) != 0 || entry->bytecode)
            continue;
        bool ok = load_named(host_of(L), entry->name, LAYER_BUILT_IN, "built-in", &f);
        if (!ok)
            return raise_or(L, false, &f);
    }
    return 0;
}

static int l_packs(lua_State *L)
{
    lua_pushinteger(L, (lua_Integer)finder_packs(host_of(L)->finder));
    return 1;
}

/* load_pack(number, file, place): false when the pack has no such file. `place` is where
 * it was asked for, nil for the manifest. */
static int l_load_pack(lua_State *L)
{
    struct fault f = { 0 };
    struct host *host = host_of(L);
    lua_Integer i = luaL_checkinteger(L, 1);
    luaL_argcheck(L, i >= 1 && (size_t)i <= finder_packs(host->finder), 1,
                  "no such pack");
    lua_settop(L, 3);
    bool ok = load_from_pack(host, (size_t)i - 1, luaL_checkstring(L, 2), &f);
    if (fault_is_set(&f) && f.at.source == 0)
        fault_place(&f, face_span(L, 3));
    return raise_or(L, ok, &f);
}

/* Adds the names in `folder` of the packs and of what is built in to the list on top. */
static void add_names(lua_State *L, const char *folder, const char *prefix)
{
    lua_Integer n = luaL_len(L, -1);
    struct buf *names = held_new(L); /* list held */
    if (!finder_list(host_of(L)->finder, folder, names))
        names->failed = true;
    held_push(L, names); /* list held text */
    const char *text = lua_tostring(L, -1);
    for (const char *end; (end = strchr(text, '\n')) != NULL; text = end + 1) {
        lua_pushstring(L, prefix);
        lua_pushlstring(L, text, (size_t)(end - text));
        lua_concat(L, 2);
        lua_rawseti(L, -4, ++n);
    }
    lua_pop(L, 2);
}

static int l_book(lua_State *L)
{
    lua_newtable(L);
    add_names(L, "prescriptions", "");
    return 1;
}

static int l_regions(lua_State *L)
{
    lua_newtable(L);
    add_names(L, "regions", "");
    add_names(L, "stdlib/regions", "");
    lua_Integer count = luaL_len(L, -1);
    for (lua_Integer i = 1; i <= count; i++) { /* the states under each */
        lua_rawgeti(L, 1, i);
        const char *region = lua_tostring(L, -1);
        const char *prefix = lua_pushfstring(L, "%s/", region);
        const char *folder = lua_pushfstring(L, "regions/%s", region);
        const char *built_in = lua_pushfstring(L, "stdlib/regions/%s", region);
        lua_pushvalue(L, 1);
        add_names(L, folder, prefix);
        add_names(L, built_in, prefix);
        lua_settop(L, 1);
    }
    return 1;
}

/* ---- the command line and the plan's own names ---- */

/* The name in a NAME=VALUE, without the blanks about it. */
static const char *input_name(const char *input, size_t *length)
{
    size_t end = strcspn(input, "="), from = 0;
    while (from < end && is_blank(input[from]))
        from++;
    while (end > from && is_blank(input[end - 1]))
        end--;
    *length = end - from;
    return input + from;
}

/* setting(name): the text after --set NAME=, or nil. */
static int l_setting(lua_State *L)
{
    size_t length, typed;
    const char *name = luaL_checklstring(L, 1, &length);
    const struct settings *s = host_of(L)->settings;
    for (size_t i = s->input_count; i-- > 0;) {
        const char *input = input_name(s->inputs[i], &typed);
        if (typed != length || memcmp(input, name, length) != 0)
            continue;
        lua_pushstring(L, strchr(input, '=') + 1);
        return 1;
    }
    return 0;
}

/* settings(): the names set, in order. */
static int l_settings(lua_State *L)
{
    const struct settings *s = host_of(L)->settings;
    lua_newtable(L);
    for (size_t i = 0; i < s->input_count; i++) {
        size_t length;
        const char *name = input_name(s->inputs[i], &length);
        lua_pushlstring(L, name, length);
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
    return 1;
}

/* evaluate(name, text, source): the value of a text such as "45 ft", read as a script
 * would read it. `name` is what the message calls it, `source` what it calls the place:
 * "--set NAME" when nothing is said. */
static int l_evaluate(lua_State *L)
{
    struct host *host = host_of(L);
    struct fault f = { 0 };
    const char *name = luaL_checkstring(L, 1), *text = luaL_checkstring(L, 2);
    const char *source_words =
        lua_isnoneornil(L, 3) ? lua_pushfstring(L, "--set %s", name) : luaL_checkstring(L, 3);
    bool plain = is_name_start(*name) && name[skip_word(name, strlen(name), 0)] == '\0' &&
                 keyword_read(name, strlen(name)) == KEYWORD_NONE;
    if (!plain)
        name = "value";
    const char *body = lua_pushfstring(L, "%s = %s", name, text);
    load_env(L);
    lua_pushstring(L, name);
    lua_rawget(L, -2); /* env, what the plan calls so */
    int env = lua_gettop(L) - 1;
    uint32_t source = sources_add(host->sources, source_words, body, strlen(body));
    static const struct layer layer = { LAYER_PLAN, 0, "command line" };
    bool ok = source != 0 ? load_source(host, source, source_words, &layer, &f)
                          : fault_no_memory(&f);
    if (fault_is_set(&f))
        fault_raise(L, &f);
    if (!ok)
        return face_raise_faults(L);
    lua_pushstring(L, name);
    lua_rawget(L, env);
    lua_pushstring(L, name);
    lua_pushvalue(L, env + 1);
    lua_rawset(L, env);
    return 1;
}

/* globals(): names a script has made in its environment that are no primitives, sorted by
 * the caller. */
static int l_globals(lua_State *L)
{
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

static int l_global(lua_State *L)
{
    load_env(L);
    lua_pushvalue(L, 1);
    lua_rawget(L, -2);
    return 1;
}

/* watch(): from here on instructions are counted, though no script has a loop. */
static int l_watch(lua_State *L)
{
    limits_watch(L);
    return 0;
}

static int l_settled(lua_State *L)
{
    host_of(L)->settled = true;
    return 0;
}

void face_scripts_open(lua_State *L)
{
    static const luaL_Reg functions[] = {
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
        { "watch", l_watch },
        { NULL, NULL },
    };
    luaL_setfuncs(L, functions, 0);
}
