/* rig.h: a host with nothing but the sandbox and measures, for the unit tests of lang/
 * and bind/: a script as text in, a fault and what it printed out. No test can hang: an
 * alarm ends the process.
 *
 *     struct rig r;
 *     rig_open(&r, NULL);
 *     bool ok = rig_run(&r, "print(2 + 2)");      // r.fault, r.printed.data
 *     rig_close(&r);
 */
#ifndef SPINNEY_TESTS_LANG_RIG_H
#define SPINNEY_TESTS_LANG_RIG_H

#include <lauxlib.h>
#include <lua.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/buf.h"
#include "bind/calendar.h"
#include "bind/measure.h"
#include "lang/host.h"
#include "lang/limits.h"
#include "lang/raise.h"
#include "lang/sandbox.h"
#include "quantity/graph.h"

#if defined(__SANITIZE_ADDRESS__)
enum { RIG_SANITIZED = 1 };
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
enum { RIG_SANITIZED = 1 };
#else
enum { RIG_SANITIZED = 0 };
#endif
#else
enum { RIG_SANITIZED = 0 };
#endif

struct rig {
    struct host host;
    struct limits limits;
    struct buf printed;
    struct fault fault;
    long fail_at, asked; /* the allocation that fails, counted from 1; 0 for none */
    bool fail_on;        /* and all after it */
    bool started;        /* the state stands */
};

static void rig_print(void *owner, const char *text, size_t length)
{
    buf_put(owner, text, length);
}

static void *rig_alloc(void *owner, void *block, size_t old, size_t size)
{
    struct rig *r = owner;
    if (size > 0 && (!block || size > old) && r->fail_at > 0) {
        r->asked++;
        if (r->asked == r->fail_at || (r->fail_on && r->asked > r->fail_at)) {
            if (r->limits.refused == REFUSED_NOTHING)
                r->limits.refused = REFUSED_MEMORY;
            r->limits.refused_size = SIZE_MAX;
            return NULL;
        }
    }
    return limits_alloc(&r->limits, block, old, size);
}

static int rig_open_all(lua_State *L)
{
    struct rig *r = lua_touserdata(L, 1);
    sandbox_open(L, &r->host);
    sandbox_print_to(L, rig_print, &r->printed);
    sandbox_seed(L, 1);
    measure_open(L);
    calendar_open(L);
    return 0;
}

/* `fill` may add to the state before the script is counted; NULL for nothing. False when
 * memory ran out on the way; rig_close is due either way. */
static inline bool rig_open_failing(struct rig *r, lua_CFunction fill, long fail_at,
                                    bool on)
{
    alarm(RIG_SANITIZED ? 120 : 30);
    *r = (struct rig){ .fail_at = fail_at, .fail_on = on };
    limits_init(&r->limits);
    buf_init(&r->printed);
    r->host.limits = &r->limits;
    r->host.sources = sources_new();
    r->host.units = units_new();
    r->host.graph = graph_new(r->host.units);
    lua_State *L = r->host.L = lua_newstate(rig_alloc, r);
    if (!L)
        return false;
    *(struct host **)lua_getextraspace(L) = &r->host;
    if (!host_protect(L, rig_open_all, r, &r->fault) ||
        (fill && !host_protect(L, fill, r, &r->fault)))
        return false;
    r->started = true;
    return true;
}

static inline void rig_open(struct rig *r, lua_CFunction fill)
{
    if (!rig_open_failing(r, fill, 0, false)) {
        fprintf(stderr, "rig_open: %s\n", r->fault.message);
        abort();
    }
    limits_start(r->host.L);
}

static inline void rig_close(struct rig *r)
{
    if (r->host.L)
        lua_close(r->host.L);
    limits_clear(&r->limits);
    graph_free(r->host.graph);
    units_free(r->host.units);
    sources_free(r->host.sources);
    buf_clear(&r->printed);
    alarm(0);
}

struct rig_script {
    const char *name, *text;
    struct fault fault;
};

static int rig_start(lua_State *L)
{
    struct rig_script *s = lua_touserdata(L, 1);
    sandbox_script_env(L);
    if (!host_load(L, s->name, s->text, strlen(s->text), &s->fault))
        fault_raise(L, &s->fault);
    lua_call(L, 0, 0);
    return 0;
}

static inline bool rig_run_as(struct rig *r, const char *name, const char *text)
{
    struct rig_script s = { .name = name, .text = text };
    fault_clear(&r->fault);
    if (sources_add(r->host.sources, name, text, strlen(text)) == 0)
        return false;
    return host_protect(r->host.L, rig_start, &s, &r->fault);
}

static inline bool rig_run(struct rig *r, const char *text)
{
    return rig_run_as(r, "plan.rx", text);
}

static inline uint32_t rig_line(const struct rig *r)
{
    return source_place(r->host.sources, r->fault.at).line;
}

/* A whole life: true when the script ran and printed just that. */
static inline bool rig_prints(const char *text, const char *printed)
{
    struct rig r;
    rig_open(&r, NULL);
    bool ok = rig_run(&r, text) && strcmp(r.printed.data, printed) == 0;
    if (!ok)
        fprintf(stderr, "script: %s\n  printed: %s  wanted: %s\n  fault: %s %s (%s)\n",
                text, r.printed.data, printed, r.fault.id ? r.fault.id : "none",
                r.fault.message, r.fault.hint);
    rig_close(&r);
    return ok;
}

/* True when the script failed with that id, words that hold `words`, on that line. */
static inline bool rig_fails(const char *text, const char *id, uint32_t line,
                             const char *words)
{
    struct rig r;
    rig_open(&r, NULL);
    bool ok = !rig_run(&r, text) && r.fault.id && strcmp(r.fault.id, id) == 0 &&
              rig_line(&r) == line && strstr(r.fault.message, words);
    if (!ok)
        fprintf(stderr, "script: %s\n  printed: %s\n  fault: %s line %u: %s (%s)\n", text,
                r.printed.data, r.fault.id ? r.fault.id : "none", (unsigned)rig_line(&r),
                r.fault.message, r.fault.hint);
    rig_close(&r);
    return ok;
}

#endif
