/* traverse_reading.h: the reader of traverses inside a whole host, for its tests. The
 * word `tally` is put in its place: tally { notes = [[...]], given = { ... } } reads a
 * traverse and gives what was made of it; faults lie at the bytes of the script.
 *
 *     struct reading r;
 *     reading_open(&r, "local t = tally { notes = [[N 42 E 130 ft]] } print(#t.calls)");
 *     ... r.host->faults, r.host->printed
 *     reading_close(&r);
 */
#ifndef SPINNEY_TESTS_BIND_TRAVERSE_READING_H
#define SPINNEY_TESTS_BIND_TRAVERSE_READING_H

#include "../unit.h"

#include <lauxlib.h>
#include <lua.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/buf.h"
#include "base/fault.h"
#include "lang/host.h"
#include "lang/raise.h"
#include "lang/sandbox.h"
#include "lang/settings.h"

struct reading {
    struct host *host;
    struct settings settings;
};

static int reading_install(lua_State *L)
{
    static const char words[] = "local host, traverse = need 'host', need 'traverse'\n"
                                "local function tally(t)\n"
                                "  local run = traverse.make(host.here('tally'), "
                                "'notes', t.notes, t.given or {})\n"
                                "  if run then run.closure = traverse.closure(run) end\n"
                                "  return run\n"
                                "end\n"
                                "return tally";
    sandbox_vocabulary(L);
    if (luaL_loadbufferx(L, words, sizeof words - 1, "@stdlib/test.lua", "t") != LUA_OK)
        return lua_error(L);
    sandbox_module_env(L);
    lua_setupvalue(L, -2, 1);
    lua_call(L, 0, 1);
    lua_setfield(L, -2, "tally");
    return 0;
}

static inline void reading_open(struct reading *r, const char *script)
{
    char path[] = "/tmp/spinney-traverse-XXXXXX";
    struct fault f = { .id = NULL };
    int file = mkstemp(path);
    assert_true(file >= 0);
    assert_int_equal(write(file, script, strlen(script)), (ssize_t)strlen(script));
    close(file);
    r->settings = settings_plain();
    r->host = host_new(&r->settings, &f);
    assert_non_null(r->host);
    assert_true(host_protect(r->host->L, reading_install, NULL, &f));
    host_run(r->host, path, true);
    unlink(path);
}

static inline void reading_close(struct reading *r)
{
    host_free(r->host);
}

#endif
