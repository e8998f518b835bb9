/* literal_reading.h: reads one text for literals, with nothing of a host but what that
 * takes, and compares what came of it. */
#ifndef SPINNEY_TESTS_LITERAL_READING_H
#define SPINNEY_TESTS_LITERAL_READING_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <lauxlib.h>
#include <lua.h>

#include "base/fault.h"
#include "lang/host.h"
#include "lang/script.h"
#include "quantity/unit.h"

struct reading {
    struct host host;
    struct faults faults;
    uint32_t source;
    struct script *script;
};

static inline void reading_open(struct reading *r)
{
    memset(r, 0, sizeof *r);
    r->host.L = luaL_newstate();
    r->host.sources = sources_new();
    r->host.units = units_new();
    assert_non_null(r->host.L);
    assert_non_null(r->host.units);
}

static inline void reading_close(struct reading *r)
{
    script_free(r->script);
    lua_close(r->host.L);
    sources_free(r->host.sources);
    units_free(r->host.units);
}

/* Reads the next text; what was learned of the last one is forgotten. */
static inline bool reading_next(struct reading *r, const char *text, size_t length)
{
    script_free(r->script);
    r->script = NULL;
    r->faults.count = r->faults.more = 0;
    r->host.warnings.count = r->host.warnings.more = 0;
    sources_free(r->host.sources);
    r->host.sources = sources_new();
    r->source = sources_add(r->host.sources, "t.rx", text, length);
    int top = lua_gettop(r->host.L);
    bool fine = literals_read(r->host.L, &r->host, r->source, &r->script, &r->faults);
    assert_int_equal(lua_gettop(r->host.L), top);
    assert_int_equal(fine, r->faults.count == 0);
    assert_int_equal(fine, r->script != NULL);
    return fine;
}

/* Does Lua compile it? */
static inline bool reading_compiles(struct reading *r, const char *text, size_t length)
{
    bool fine = luaL_loadbufferx(r->host.L, text, length, "=t", "t") == LUA_OK;
    lua_pop(r->host.L, 1);
    return fine;
}

#define READING_NAMES "local __lit,__each=...;"

/* The Lua text without the names that the first literal brings. */
static inline const char *reading_lua(const struct reading *r)
{
    size_t length;
    const char *lua = script_lua(r->script, &length);
    size_t names = strlen(READING_NAMES);
    return strncmp(lua, READING_NAMES, names) == 0 ? lua + names : lua;
}

struct refused_row {
    const char *text, *id;
    unsigned line, column;
    const char *message, *hint;
};

/* Each text has exactly this one fault. */
static inline void reading_refuses(const struct refused_row *rows, size_t count)
{
    struct reading r;
    reading_open(&r);
    for (size_t i = 0; i < count; i++) {
        if (reading_next(&r, rows[i].text, strlen(rows[i].text)))
            fail_msg("not refused: %s", rows[i].text);
        const struct fault *f = &r.faults.list[0];
        struct place place = source_place(r.host.sources, f->at);
        if (strcmp(f->id, rows[i].id) != 0 || r.faults.count != 1)
            fail_msg("%s: %zu faults, the first %s", rows[i].text, r.faults.count, f->id);
        assert_string_equal(f->message, rows[i].message);
        assert_string_equal(f->hint, rows[i].hint);
        if (place.line != rows[i].line || place.column != rows[i].column)
            fail_msg("%s: at %u:%u", rows[i].text, place.line, place.column);
    }
    reading_close(&r);
}

/* Random numbers that are the same everywhere. */
static inline uint32_t reading_random(uint64_t *state, uint32_t below)
{
    *state ^= *state << 13;
    *state ^= *state >> 7;
    *state ^= *state << 17;
    return (uint32_t)((*state >> 33) % below);
}

#endif
