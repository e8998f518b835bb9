#include "lang/raise.h"

#include <lauxlib.h>
#include <lua.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "lang/host.h"
#include "lang/limits.h"
#include "lang/load.h"
#include "lang/narrow.h"
#include "lang/plainer.h"
#include "lang/raise_inner.h"
#include "lang/syntax.h"

/* Their addresses are keys of the registry. */
static const char raise_key, fault_key, trace_key;

struct raise *raise_of(lua_State *L)
{
    lua_rawgetp(L, LUA_REGISTRYINDEX, &raise_key);
    struct raise *r = lua_touserdata(L, -1);
    lua_pop(L, 1);
    return r;
}

/* ---- faults as values ---- */

bool fault_at(lua_State *L, int index, struct fault *out)
{
    void *f = lua_touserdata(L, index);
    if (!f || !lua_getmetatable(L, index))
        return false;
    lua_rawgetp(L, LUA_REGISTRYINDEX, &fault_key);
    bool is = lua_rawequal(L, -1, -2);
    lua_pop(L, 2);
    if (is)
        *out = *(struct fault *)f;
    return is;
}

void fault_push(lua_State *L, const struct fault *f)
{
    struct fault *copy = lua_newuserdatauv(L, sizeof *copy, 0);
    *copy = *f;
    lua_rawgetp(L, LUA_REGISTRYINDEX, &fault_key);
    lua_setmetatable(L, -2);
}

static int fault_tostring(lua_State *L)
{
    struct fault f;
    if (!fault_at(L, 1, &f))
        return 0;
    struct place p = source_place(host_of(L)->sources, f.at);
    if (f.at.source != 0)
        lua_pushfstring(L, "%s:%d:%d: %s", p.file, (int)p.line, (int)p.column, f.message);
    else
        lua_pushstring(L, f.message);
    return 1;
}

/* What a script that caught one may ask: id, message, hint. */
static int fault_index(lua_State *L)
{
    struct fault f;
    const char *key = lua_type(L, 2) == LUA_TSTRING ? lua_tostring(L, 2) : "";
    if (!fault_at(L, 1, &f))
        return 0;
    if (strcmp(key, "id") == 0)
        lua_pushstring(L, f.id);
    else if (strcmp(key, "message") == 0)
        lua_pushstring(L, f.message);
    else if (strcmp(key, "hint") == 0)
        lua_pushstring(L, f.hint);
    else
        return 0;
    return 1;
}

void raise_open(lua_State *L)
{
    struct raise *r = lua_newuserdatauv(L, sizeof *r, 0);
    memset(r, 0, sizeof *r);
    lua_rawsetp(L, LUA_REGISTRYINDEX, &raise_key);
    lua_createtable(L, 0, 4);
    lua_pushliteral(L, "fault");
    lua_setfield(L, -2, "__name");
    lua_pushboolean(L, 0);
    lua_setfield(L, -2, "__metatable");
    lua_pushcfunction(L, fault_tostring);
    lua_setfield(L, -2, "__tostring");
    lua_pushcfunction(L, fault_index);
    lua_setfield(L, -2, "__index");
    lua_rawsetp(L, LUA_REGISTRYINDEX, &fault_key);
}

void fault_raise(lua_State *L, const struct fault *f)
{
    struct limits *l = host_of(L)->limits;
    if (fault_is_set(&l->stop))
        limits_raise(L);
    struct fault placed = *f;
    fault_clear(&l->scratch);
    if (placed.at.source == 0 && raise_author(L, &placed.at))
        narrow_call(L, &placed, 0);
    fault_push(L, &placed);
    lua_error(L);
    abort(); /* lua_error does not return, but does not say so */
}

void fault_say(lua_State *L, const char *id, const char *hint, const char *format, ...)
{
    struct fault f = { .id = NULL };
    char text[sizeof f.message];
    va_list list;
    va_start(list, format);
    vsnprintf(text, sizeof text, format, list);
    va_end(list);
    fault_set(&f, id, SPAN_NONE, "%s", text);
    if (hint)
        fault_hint(&f, "%s", hint);
    fault_raise(L, &f);
}

/* ---- places ---- */

bool raise_author_frame(lua_State *L, lua_Debug *out, struct span *line)
{
    const struct host *host = host_of(L);
    for (int level = 0; host->sources && lua_getstack(L, level, out); level++) {
        lua_getinfo(L, "Sl", out);
        if (out->source[0] != '@' || out->currentline <= 0)
            continue;
        uint32_t id = sources_find(host->sources, out->source + 1);
        if (id == 0)
            continue;
        *line = source_line(host->sources, id, (uint32_t)out->currentline);
        return true;
    }
    return false;
}

bool raise_author(lua_State *L, struct span *out)
{
    lua_Debug ar;
    return raise_author_frame(L, &ar, out);
}

/* Lua shortens a long name to "..." and its end. The newest of a name wins. */
static uint32_t source_of_name(const struct sources *all, const char *name, size_t length)
{
    uint32_t found = 0;
    for (uint32_t id = 1; *source_name(all, id) != '\0'; id++) {
        const char *full = source_name(all, id);
        size_t full_length = strlen(full);
        if (full_length == length && memcmp(full, name, length) == 0)
            found = id;
        if (length > 3 && strncmp(name, "...", 3) == 0 && full_length > length - 3 &&
            memcmp(full + full_length - (length - 3), name + 3, length - 3) == 0)
            found = id;
    }
    return found;
}

const char *raise_prefix(lua_State *L, const char *text, struct span *out)
{
    const struct host *host = host_of(L);
    for (const char *colon = strchr(text, ':'); colon; colon = strchr(colon + 1, ':')) {
        char *end;
        if (colon[1] < '0' || colon[1] > '9')
            continue;
        unsigned long line = strtoul(colon + 1, &end, 10);
        if (strncmp(end, ": ", 2) != 0)
            continue;
        uint32_t id = host->sources
                          ? source_of_name(host->sources, text, (size_t)(colon - text))
                          : 0;
        if (id != 0)
            *out = source_line(host->sources, id, (uint32_t)line);
        return end + 2;
    }
    return NULL;
}

/* ---- catching ---- */

/* A mistake of the built-in Lua: nothing that an author could mend. */
static void fault_ours(struct fault *f, const char *where, const char *words)
{
    fault_clear(f);
    fault_set(f, "internal", SPAN_NONE, "this is a mistake in Spinney itself (%s): %s",
              where, words);
    fault_hint(f, "whoever looks after Spinney can mend it: send this message and the "
                  "script");
}

/* "stdlib/acts.lua:63" of Lua's "stdlib/acts.lua:63: words". */
static bool is_ours(const char *text, char *where, size_t size)
{
    const char *end = strstr(text, ".lua:");
    end = strncmp(text, "stdlib/", 7) == 0 && end ? strstr(end, ": ") : NULL;
    if (!end || (size_t)(end - text) >= size)
        return false;
    snprintf(where, size, "%.*s", (int)(end - text), text);
    return true;
}

/* What the value at `index` of L says. Nothing of the script's is called. */
static void fault_of_value(lua_State *L, int index, struct fault *f)
{
    struct span at = SPAN_NONE;
    char where[80];
    if (fault_at(L, index, f))
        return;
    if (lua_type(L, index) == LUA_TSTRING) {
        const char *text = lua_tostring(L, index);
        const char *words = raise_prefix(L, text, &at);
        if (at.source == 0 && words && is_ours(text, where, sizeof where)) {
            fault_ours(f, where, words);
            return;
        }
        plainer(L, words ? words : text, at.source != 0, f);
        f->of_nothing = strstr(text, "a nil value") || strstr(text, "got nil");
        fault_place(f, at);
        return;
    }
    fault_set(f, "script-error", at, "the script stopped itself without saying why");
    fault_hint(f, "error \"words\" tells what is wrong");
}

/* The built-in rules and seasons are no author's either: the fault goes to what they were
 * asked about. */
static void own_up(lua_State *L, const struct host *host, struct fault *f)
{
    struct place p = source_place(host->sources, f->at);
    if (!host->loads || f->at.source == 0 || strncmp(p.file, "stdlib/", 7) != 0 ||
        load_layer(host, f->at.source)->kind > LAYER_STATE)
        return;
    /* A limit is reached where the work happens to be; what is too large is the plan. */
    if (fault_is_set(&host->limits->stop)) {
        f->at = raise_chain_place(L);
        if (limits_blames_input(host->limits, strcmp(f->id, "limit-memory") == 0))
            return; /* a map is, and that is told */
        f->hint[0] = '\0';
        fault_hint(f, "a plan of that many acts and features wants more: --steps and "
                      "--memory allow it");
        return;
    }
    char where[96], words[sizeof f->message];
    snprintf(where, sizeof where, "%.80s:%u", p.file, (unsigned)p.line);
    snprintf(words, sizeof words, "%s", f->message);
    fault_ours(f, where, words);
    f->at = raise_chain_place(L);
}

static void fault_finish(lua_State *L, struct fault *f)
{
    struct span at;
    own_up(L, host_of(L), f);
    if (f->at.source == 0 && raise_author(L, &at))
        fault_place(f, at);
    host_chain_tell(L, f);
}

static int message_handler(lua_State *L)
{
    struct raise *r = raise_of(L);
    if (!r || fault_is_set(&host_of(L)->limits->stop) || fault_is_set(&r->caught))
        return 1;
    /* A full stack has no place any more once it is unwound. */
    if (!r->loading && lua_type(L, 1) == LUA_TSTRING && limits_was_stop(L, L, LUA_ERRRUN))
        return 1;
    fault_of_value(L, 1, &r->caught);
    fault_finish(L, &r->caught);
    narrow_call(L, &r->caught, 1);
    narrow_word(host_of(L), &r->caught);
    if (host_of(L)->trace) {
        luaL_traceback(L, L, lua_type(L, 1) == LUA_TSTRING ? lua_tostring(L, 1) : NULL,
                       1);
        lua_rawsetp(L, LUA_REGISTRYINDEX, &trace_key);
    }
    return 1;
}

const char *host_last_trace(lua_State *L)
{
    lua_rawgetp(L, LUA_REGISTRYINDEX, &trace_key);
    const char *text = lua_tostring(L, -1);
    lua_pop(L, 1);
    return text ? text : "";
}

/* The error value is on top. */
static void take(lua_State *L, int status, struct fault *out)
{
    struct raise *r = raise_of(L);
    fault_clear(out);
    if (limits_was_stop(L, L, status)) {
        *out = host_of(L)->limits->stop;
        fault_finish(L, out);
    } else if (r && fault_is_set(&r->caught)) {
        *out = r->caught;
    } else {
        fault_of_value(L, -1, out);
        fault_finish(L, out);
    }
    if (r)
        fault_clear(&r->caught);
}

bool host_call(lua_State *L, int arguments, int results, struct fault *out)
{
    struct limits *l = host_of(L)->limits;
    size_t chain = host_chain_depth(L);
    uint32_t depth = l->depth;
    lua_State *running = l->running;
    int function = lua_gettop(L) - arguments;
    lua_pushcfunction(L, message_handler);
    lua_insert(L, function);
    int status = lua_pcall(L, arguments, results, function);
    l->running = running;
    l->depth = depth;
    if (status == LUA_OK) {
        host_chain_cut(L, chain);
        lua_remove(L, function);
        return true;
    }
    take(L, status, out);
    host_chain_cut(L, chain);
    lua_settop(L, function - 1);
    return false;
}

bool host_protect(lua_State *L, int (*run)(lua_State *), void *with, struct fault *out)
{
    lua_pushcfunction(L, run);
    lua_pushlightuserdata(L, with);
    return host_call(L, 1, 0, out);
}

bool host_load(lua_State *L, const char *name, const char *text, size_t length,
               struct fault *out)
{
    const struct host *host = host_of(L);
    uint32_t id = sources_find(host->sources, name);
    fault_clear(out);
    if (length > 0 && text[0] == LUA_SIGNATURE[0]) {
        lua_pop(L, 1);
        return fault_set(out, "script-compiled", (struct span){ id, 0, 0 },
                         "this is compiled Lua, not a script that can be read");
    }
    char chunk[1024];
    snprintf(chunk, sizeof chunk, "@%s", name);
    struct raise *r = raise_of(L);
    r->loading = true;
    int status = luaL_loadbufferx(L, text, length, chunk, "t");
    r->loading = false;
    if (status == LUA_OK) {
        lua_insert(L, -2);
        lua_setupvalue(L, -2, 1); /* _ENV */
        return true;
    }
    if (status == LUA_ERRMEM || fault_is_set(&host->limits->stop)) {
        limits_was_stop(L, L, status);
        *out = host->limits->stop;
        fault_place(out, (struct span){ id, 0, 0 });
    } else {
        const char *said = lua_type(L, -1) == LUA_TSTRING ? lua_tostring(L, -1) : "";
        syntax_fault(L, id, said, out);
    }
    fault_clear(&r->caught); /* what the parser's own overflow left there */
    lua_pop(L, 2);
    return false;
}
