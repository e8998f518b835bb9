/* reading.h: a module of stdlib inside a whole host, for its tests: a word of the test's own
 * making is put among the vocabulary, and a script calls it.
 *
 *     static const char words[] = "local ledger = need 'ledger' ... return word";
 *     struct reading r;
 *     reading_begin(&r, "word", words, "print(word { 1 })");
 *     ... r.host->faults, r.host->printed
 *     reading_close(&r);
 */
#ifndef SPINNEY_TESTS_BIND_READING_H
#define SPINNEY_TESTS_BIND_READING_H

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

struct reading_word {
    const char *name, *words;
};

static int reading_install(lua_State *L)
{
    const struct reading_word *word = lua_touserdata(L, 1);
    sandbox_vocabulary(L);
    int vocabulary = lua_gettop(L);
    if (luaL_loadbufferx(L, word->words, strlen(word->words), "@stdlib/test.lua", "t") !=
        LUA_OK)
        return lua_error(L);
    sandbox_module_env(L);
    lua_setupvalue(L, -2, 1);
    lua_call(L, 0, 1);
    lua_setfield(L, vocabulary, word->name);
    return 0;
}

static inline void reading_begin(struct reading *r, const char *name, const char *words,
                                 const char *script)
{
    char path[] = "/tmp/spinney-reading-XXXXXX";
    struct fault f = { .id = NULL };
    struct reading_word word = { name, words };
    int file = mkstemp(path);
    assert_true(file >= 0);
    assert_int_equal(write(file, script, strlen(script)), (ssize_t)strlen(script));
    close(file);
    r->settings = settings_plain();
    r->host = host_new(&r->settings, &f);
    assert_non_null(r->host);
    assert_true(host_protect(r->host->L, reading_install, &word, &f));
    host_run(r->host, path, HOST_CHECKS);
    unlink(path);
}

static inline void reading_close(struct reading *r)
{
    host_free(r->host);
}

#endif
