#include "lang/limits.h"

#include <lua.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "lang/host.h"
#include "lang/limits_inner.h"
#include "lang/raise.h"

enum {
    HOOK_EVERY = 1000,
    /* A coroutine takes with it what its hook had not yet counted, so it counts finer and
     * is charged for as much when it is made. */
    HOOK_EVERY_COROUTINE = 100
};

/* Address sanitizers cannot look into an arena, and Lua's blocks are worth their while. */
#if defined(__SANITIZE_ADDRESS__)
#define ARENA_BYTES 0
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define ARENA_BYTES 0
#endif
#endif
#ifndef ARENA_BYTES
#define ARENA_BYTES ((size_t)4 << 20)
#endif

/* Its address is the registry's key of what a stop throws: made ahead, so that throwing
 * needs no memory. */
static const char stop_key;

void limits_init(struct limits *l)
{
    *l = (struct limits){
        .ticks_most = 200u * 1000 * 1000,
        .bytes_most = (size_t)512 << 20,
        .string_most = (size_t)16 << 20,
        .pattern_most = 50u * 1000 * 1000,
        .coroutines_most = 1000,
        .depth_most = 50,
        .seconds_most = 60,
        .allowed = SIZE_MAX,
    };
    cells_init(&l->cells);
    arena_init(&l->arena, ARENA_BYTES);
}

void limits_clear(struct limits *l)
{
    cells_clear(&l->cells);
    arena_clear(&l->arena);
    l->running = NULL;
}

/* ---- steps ---- */

static double seconds_of(clockid_t clock)
{
    struct timespec t;
    if (clock_gettime(clock, &t) != 0)
        return 0;
    return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

/* The processor's clock is dear to ask, so it is asked when enough time has passed on the
 * cheap one. */
static bool out_of_time(struct limits *l)
{
    if (l->seconds_most <= 0)
        return false;
    double now = seconds_of(CLOCK_MONOTONIC);
    if (now - l->asked < l->seconds_most / 100)
        return false;
    l->asked = now;
    return seconds_of(CLOCK_PROCESS_CPUTIME_ID) - l->seconds_before > l->seconds_most;
}

uint64_t limits_left(const struct limits *l)
{
    if (!l->started)
        return UINT64_MAX;
    return l->ticks < l->ticks_most ? l->ticks_most - l->ticks : 0;
}

/* "the script was stopped after 200 million steps", unless a map took most of them. */
static void stop_run(lua_State *L, struct limits *l, const char *id, const char *mend,
                     double used, const char *unit)
{
    char what[INPUT_WHAT], less[INPUT_MEND];
    if (!limits_blames_input(l, false))
        limits_stop(L, id, mend, "the script was stopped after %.0f %s", used, unit);
    limits_say_input(&l->input, what, less);
    limits_stop(L, id, less, "%s, and the script was stopped after %.0f %s", what, used,
                unit);
}

static void stop_steps(lua_State *L, struct limits *l)
{
    stop_run(L, l, "limit-steps", "look for a loop or a call that never ends",
             floor(((double)l->ticks_most + 500000) / 1000000), "million steps");
}

void limits_charge(lua_State *L, uint64_t ticks)
{
    struct limits *l = limits_of(L);
    if (!l->started)
        return;
    if (fault_is_set(&l->stop))
        limits_raise(L);
    l->ticks = ticks < UINT64_MAX - l->ticks ? l->ticks + ticks : UINT64_MAX;
    if (l->ticks > l->ticks_most)
        stop_steps(L, l);
}

void limits_charge_bytes(lua_State *L, size_t bytes)
{
    limits_charge(L, 1 + bytes / BYTES_PER_TICK * 4);
}

static void hook(lua_State *L, lua_Debug *ar)
{
    (void)ar;
    struct limits *l = limits_of(L);
    limits_charge(L, (uint64_t)lua_gethookcount(L));
    limits_wake(L, l);
    if (out_of_time(l))
        stop_run(L, l, "limit-time",
                 "look for a loop that never ends, or for very long texts",
                 l->seconds_most, "seconds");
}

void limits_open(lua_State *L)
{
    lua_pushliteral(L, "stopped");
    lua_rawsetp(L, LUA_REGISTRYINDEX, &stop_key);
    lua_gc(L, LUA_GCSTOP);
    /* Stopped, it is still asked by all that makes an object, until it has been given this
     * much beforehand. */
    lua_gc(L, LUA_GCSTEP, -(REST >> 10));
    limits_of(L)->resting = true;
}

void limits_start(lua_State *L)
{
    struct limits *l = limits_of(L);
    l->running = L;
    l->allowed =
        l->bytes_most < SIZE_MAX - l->lua_bytes ? l->bytes_most + l->lua_bytes : SIZE_MAX;
    l->seconds_before = seconds_of(CLOCK_PROCESS_CPUTIME_ID);
    l->asked = seconds_of(CLOCK_MONOTONIC);
    l->ticks = 0;
    l->started = true;
    lua_sethook(L, hook, LUA_MASKCOUNT, HOOK_EVERY);
}

void limits_trust(lua_State *L)
{
    lua_sethook(L, NULL, 0, 0);
}

void limits_watch(lua_State *L)
{
    lua_State *main = host_of(L)->L;
    if (!lua_gethook(main))
        lua_sethook(main, hook, LUA_MASKCOUNT, HOOK_EVERY);
    if (L != main && !lua_gethook(L))
        lua_sethook(L, hook, LUA_MASKCOUNT, HOOK_EVERY);
}

void limits_adopt(lua_State *L, lua_State *thread)
{
    if (!limits_of(L)->started)
        return;
    lua_sethook(thread, hook, LUA_MASKCOUNT, HOOK_EVERY_COROUTINE);
    limits_charge(L, HOOK_EVERY_COROUTINE);
}

void limits_enter(lua_State *L)
{
    struct limits *l = limits_of(L);
    if (l->depth >= l->depth_most)
        limits_stop(L, "limit-depth", "a function that calls itself needs an end",
                    "more than %u functions wait for one another here", l->depth_most);
    l->depth++;
}

void limits_leave(lua_State *L)
{
    limits_of(L)->depth--;
}

/* ---- stops ---- */

void limits_stop(lua_State *L, const char *id, const char *hint, const char *words, ...)
{
    struct limits *l = limits_of(L);
    struct span at = SPAN_NONE;
    raise_author(L, &at);
    char text[400];
    va_list list;
    va_start(list, words);
    vsnprintf(text, sizeof text, words, list);
    va_end(list);
    fault_set(&l->stop, id, at, "%s", text);
    fault_hint(&l->stop, "%s", hint);
    limits_raise(L);
}

void limits_raise(lua_State *L)
{
    lua_sethook(L, hook, LUA_MASKCOUNT, 1);
    lua_rawgetp(L, LUA_REGISTRYINDEX, &stop_key);
    lua_error(L);
    abort(); /* lua_error does not return, but does not say so */
}

/* Lua's own words for a stack that is full, after the place. */
static bool is_overflow(const char *text)
{
    const char *words = strstr(text, "stack overflow");
    if (!words)
        return false;
    const char *after = words + strlen("stack overflow");
    if (*after != '\0' && strncmp(after, " (", 2) != 0)
        return false;
    if (words - text >= 2 && strncmp(words - 2, "C ", 2) == 0)
        words -= 2;
    return words == text || (words - text >= 2 && strncmp(words - 2, ": ", 2) == 0);
}

static void memory_stop(struct limits *l, struct span at)
{
    if (l->refused == REFUSED_STRING) {
        fault_set(&l->stop, "limit-string", at, "a text would grow past %zu MB",
                  l->string_most >> 20);
        fault_hint(&l->stop, "look for a text that a loop makes longer and longer");
        return;
    }
    if (limits_blames_input(l, true)) {
        char what[INPUT_WHAT], mend[INPUT_MEND];
        limits_say_input(&l->input, what, mend);
        fault_set(&l->stop, "limit-memory", at,
                  "%s, and takes more than %zu MB of memory", what, l->bytes_most >> 20);
        fault_hint(&l->stop, "%s", mend);
        return;
    }
    fault_set(&l->stop, "limit-memory", at, "the script wants more than %zu MB of memory",
              l->bytes_most >> 20);
    fault_hint(&l->stop, "look for a table or a text that grows in a loop");
}

bool limits_was_stop(lua_State *L, lua_State *from, int status)
{
    struct limits *l = limits_of(L);
    if (fault_is_set(&l->stop))
        return true;
    struct span at = SPAN_NONE;
    if (status == LUA_ERRMEM || l->refused != REFUSED_NOTHING) {
        at = l->refused_at;
        if (at.source == 0)
            raise_author(from, &at);
        memory_stop(l, at);
        return true;
    }
    const char *text = lua_type(from, -1) == LUA_TSTRING ? lua_tostring(from, -1) : "";
    if (status != LUA_ERRERR && !is_overflow(text))
        return false;
    raise_prefix(L, text, &at);
    if (at.source == 0 && !raise_author(from, &at))
        raise_author(L, &at);
    fault_set(&l->stop, "limit-depth", at, "calls inside calls go too deep here");
    fault_hint(&l->stop, "a function that calls itself needs an end");
    return true;
}

void limits_after_error(lua_State *L, lua_State *from, int status)
{
    if (limits_was_stop(L, from, status))
        limits_raise(L);
}
