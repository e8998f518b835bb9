/* Throws odd bytes at the reader of traverses, and at the arithmetic behind it: every
 * input is either refused with faults inside the text, or gives calls that can be run,
 * adjusted and handed out. */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <lauxlib.h>
#include <lua.h>

#include "base/fault.h"
#include "ground/traverse.h"
#include "lang/host.h"
#include "lang/limits.h"
#include "lang/raise.h"
#include "lang/sandbox.h"
#include "lang/settings.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

struct input {
    const char *text;
    size_t size;
    struct traverse_call calls[TRAVERSE_CALLS_MOST];
    size_t count;
    enum traverse_end end;
};

static void check(bool holds, const char *what)
{
    if (holds)
        return;
    fprintf(stderr, "%s\n", what);
    abort();
}

static lua_Integer whole(lua_State *L, const char *key)
{
    lua_getfield(L, -1, key);
    check(lua_isinteger(L, -1), "a place that is no whole number");
    lua_Integer value = lua_tointeger(L, -1);
    lua_pop(L, 1);
    return value;
}

static double number(lua_State *L, const char *key)
{
    lua_getfield(L, -1, key);
    check(lua_isnumber(L, -1), "a call without a number");
    double value = lua_tonumber(L, -1);
    lua_pop(L, 1);
    return value;
}

/* Bytes from 1, in the text or right behind it. */
static void check_place(lua_State *L, const struct input *in)
{
    lua_Integer from = whole(L, "from"), to = whole(L, "to");
    check(from >= 1 && from <= to && (size_t)to <= in->size + 1,
          "a place outside the text");
}

static void check_faults(lua_State *L, const struct input *in)
{
    lua_Integer count = luaL_len(L, -1);
    check(count > 0 && count <= FAULTS_MOST + 1, "refused without a word");
    for (lua_Integer i = 1; i <= count; i++) {
        lua_rawgeti(L, -1, i);
        check_place(L, in);
        lua_pop(L, 1);
    }
}

static void take_calls(lua_State *L, struct input *in)
{
    lua_getfield(L, -1, "ending");
    const char *ending = lua_tostring(L, -1);
    in->end = *ending == 'c'   ? TRAVERSE_CLOSED
              : *ending == 'b' ? TRAVERSE_BACK
              : *ending == 't' ? TRAVERSE_TIED
                               : TRAVERSE_OPEN;
    lua_pop(L, 1);
    lua_getfield(L, -1, "calls");
    in->count = (size_t)luaL_len(L, -1);
    check(in->count >= 1 && in->count <= TRAVERSE_CALLS_MOST, "no calls, or too many");
    for (size_t i = 0; i < in->count; i++) {
        lua_rawgeti(L, -1, (lua_Integer)i + 1);
        check_place(L, in);
        in->calls[i] =
            (struct traverse_call){ number(L, "azimuth"), number(L, "length"), false };
        check(in->calls[i].azimuth >= 0 && in->calls[i].azimuth < 360, "an odd azimuth");
        check(in->calls[i].length_ft > 0, "an odd length");
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
}

static int read_text(lua_State *L)
{
    struct input *in = lua_touserdata(L, 1);
    sandbox_need(L, "traverse/reader");
    lua_getfield(L, -1, "read");
    lua_pushlstring(L, in->text, in->size);
    lua_newtable(L);
    lua_pushnumber(L, 2.5);
    lua_setfield(L, -2, "pace");
    lua_call(L, 2, 2);
    if (lua_isnil(L, -2)) {
        check_faults(L, in);
        return 0;
    }
    check(luaL_len(L, -1) == 0, "read, and refused");
    lua_pop(L, 1);
    take_calls(L, in);
    return 0;
}

static void run(const struct input *in)
{
    struct traverse_ask ask = { .calls = in->calls, .count = in->count, .end = in->end };
    struct traverse t;
    struct fault f = { .id = NULL };
    if (!traverse_run(&ask, &t, &f)) {
        check(f.id != NULL, "not run, and no fault");
        return;
    }
    for (size_t i = 0; i < t.count; i++)
        check(isfinite(t.points[i].x) && isfinite(t.points[i].y), "a point nowhere");
    check(t.area_ft2 >= 0 && isfinite(t.area_ft2), "an odd area");
    traverse_free(&t);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    enum { INPUTS_OF_A_HOST = 2000 };
    static struct host *host;
    static struct settings settings;
    static int inputs;
    struct fault f = { .id = NULL };
    if (host && ++inputs % INPUTS_OF_A_HOST == 0) {
        host_free(host);
        host = NULL;
    }
    if (!host) {
        settings = settings_plain();
        host = host_new(&settings, &f);
        check(host != NULL, "no host");
    }
    static struct input in;
    in = (struct input){ .text = (const char *)data, .size = size };
    limits_start(host->L);
    bool read = host_protect(host->L, read_text, &in, &f);
    check(read, f.message);
    if (in.count > 0)
        run(&in);
    return 0;
}
