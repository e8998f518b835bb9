#include "lang/limits.h"

#include <lua.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "lang/host.h"
#include "lang/raise.h"
#include "quantity/graph.h"

enum {
    HOOK_EVERY = 1000,
    /* A coroutine takes with it what its hook had not yet counted, so it counts finer and
     * is charged for as much when it is made. */
    HOOK_EVERY_COROUTINE = 100,
    HOOKS_A_LOOK = 16,      /* the clock is asked by a system call: not at every hook */
    BYTES_PER_TICK = 64, /* memory written in about the time of one instruction */
    BYTES_CHARGED =
        1024, /* blocks from this size cost ticks: an instruction can make one */
    NATIVE_STEP = 64 * 1024,
    REST = 8 << 20, /* bytes in use before the collector starts: a plan makes less */
    LEARNING = UINT32_MAX /* the number of the cell that tells how a block looks */
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

static struct limits *limits_of(lua_State *L)
{
    return host_of(L)->limits;
}

/* ---- memory ---- */

/* Lua collects and asks once more before it gives up: then the request is the same. */
static void *refuse(struct limits *l, enum refusal what, size_t size)
{
    if (l->refused == REFUSED_NOTHING) {
        l->refused_at = SPAN_NONE;
        if (l->running)
            raise_author(l->running, &l->refused_at);
    }
    l->refused = what;
    l->refused_size = size;
    return NULL;
}

static bool may_grow(struct limits *l, size_t by)
{
    size_t used = l->lua_bytes + l->native_bytes + l->held_bytes;
    return by <= l->allowed && used <= l->allowed - by;
}

static void *grown(struct limits *l, void *block, size_t old, size_t size)
{
    if (l->refused != REFUSED_NOTHING && l->refused_size == size)
        l->refused = REFUSED_NOTHING;
    l->lua_bytes += size - old;
    if (l->lua_bytes > l->lua_bytes_peak)
        l->lua_bytes_peak = l->lua_bytes;
    if (size >= BYTES_CHARGED && l->started)
        l->ticks += size / BYTES_PER_TICK;
    return block;
}

static void *take(struct limits *l, size_t size)
{
    void *block = arena_take(&l->arena, size);
    return block ? block : malloc(size);
}

static void give(struct limits *l, void *block, size_t size)
{
    if (block && size == l->cells.block && cells_hold(&l->cells, block))
        cells_give(&l->cells, block);
    else if (arena_holds(&l->arena, block))
        arena_give(&l->arena, block, size);
    else
        free(block);
}

/* NULL when there is no memory: then the block is as it was. */
static void *resize(struct limits *l, void *block, size_t old, size_t size)
{
    if (!arena_holds(&l->arena, block))
        return realloc(block, size);
    if (arena_fits(old, size))
        return block;
    void *moved = take(l, size);
    if (moved) {
        memcpy(moved, block, old < size ? old : size);
        arena_give(&l->arena, block, old);
    }
    return moved;
}

/* With no block to change, `kind` says what the new one is for. */
static void *fresh(struct limits *l, size_t kind, size_t size)
{
    if (kind == LUA_TSTRING && l->started && size > l->string_most)
        return refuse(l, REFUSED_STRING, size);
    if (!may_grow(l, size))
        return refuse(l, REFUSED_MEMORY, size);
    void *block;
    if (kind == LUA_TUSERDATA && l->learning) {
        l->learning = false;
        cells_size(&l->cells, size);
        l->cells.waiting = LEARNING;
    }
    if (kind == LUA_TUSERDATA && l->cells.waiting != 0 && size == l->cells.block)
        block = cells_take(&l->cells);
    else
        block = take(l, size);
    return block ? grown(l, block, 0, size) : refuse(l, REFUSED_MEMORY, size);
}

void *limits_alloc(void *limits, void *block, size_t old, size_t size)
{
    struct limits *l = limits;
    if (size == 0) {
        l->lua_bytes -= block ? old : 0;
        give(l, block, old);
        return NULL;
    }
    if (!block)
        return fresh(l, old, size);
    if (size > old && !may_grow(l, size - old))
        return refuse(l, REFUSED_MEMORY, size);
    void *moved = resize(l, block, old, size);
    if (moved)
        return grown(l, moved, old, size);
    /* Lua counts on shrinking never to fail; it then takes the block to be the smaller.
     *  */
    return size > old ? refuse(l, REFUSED_MEMORY, size) : grown(l, block, old, size);
}

void limits_learn_cell(lua_State *L)
{
    struct limits *l = limits_of(L);
    l->learning = true;
    cells_payload(&l->cells, lua_newuserdatauv(L, 0, 0));
    lua_pop(L, 1);
}

/* The collector's work is a tenth of a common run and frees next to nothing in it. Is it
 * awake now? */
static bool wake(lua_State *L, struct limits *l)
{
    size_t rest = l->bytes_most / 4 < REST ? l->bytes_most / 4 : REST;
    if (l->resting && l->lua_bytes + l->native_bytes + l->held_bytes > rest) {
        l->resting = false;
        lua_gc(L, LUA_GCRESTART);
    }
    return !l->resting;
}

void limits_native(lua_State *L, size_t bytes)
{
    struct limits *l = limits_of(L);
    const struct graph *g = host_of(L)->graph;
    l->native_bytes = bytes;
    l->graph_bytes = g ? graph_bytes(g) : 0;
    bytes += l->held_bytes;
    if (bytes > l->native_told + NATIVE_STEP) {
        size_t kilobytes = (bytes - l->native_told) / 1024;
        l->native_told = bytes;
        if (wake(L, l))
            lua_gc(L, LUA_GCSTEP, (int)(kilobytes < 1 << 20 ? kilobytes : 1 << 20));
    } else if (bytes < l->native_told) {
        l->native_told = bytes;
    }
    if (!may_grow(l, 0)) {
        refuse(l, REFUSED_MEMORY, 0);
        limits_was_stop(L, L, LUA_ERRMEM);
        limits_raise(L);
    }
}

void limits_hold(lua_State *L, size_t bytes)
{
    struct limits *l = limits_of(L);
    const struct graph *g = host_of(L)->graph;
    size_t others = l->native_bytes - l->graph_bytes;
    l->held_bytes += bytes;
    limits_native(L, others + (g ? graph_bytes(g) : 0));
}

void limits_let_go(lua_State *L, size_t bytes)
{
    struct limits *l = limits_of(L);
    l->held_bytes -= bytes < l->held_bytes ? bytes : l->held_bytes;
}

void limits_graph(lua_State *L)
{
    struct limits *l = limits_of(L);
    struct graph *g = host_of(L)->graph;
    size_t others = l->native_bytes - l->graph_bytes, bytes = graph_bytes(g);
    if (l->lua_bytes + l->held_bytes + others + bytes > l->allowed) {
        /* Before giving up: what no script holds any more goes. Long work, so charged. */
        limits_charge(L, 1000 + l->allowed / 1000);
        lua_gc(L, LUA_GCCOLLECT);
        graph_collect(g);
        bytes = graph_bytes(g);
    }
    limits_native(L, others + bytes);
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
    wake(L, l);
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
