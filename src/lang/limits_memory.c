/* What a script may use of memory: Lua's blocks, and what it holds beside them. */
#include <lua.h>
#include <stdlib.h>
#include <string.h>

#include "lang/host.h"
#include "lang/limits_inner.h"
#include "lang/raise.h"
#include "quantity/graph.h"

enum {
    BYTES_CHARGED =
        1024, /* blocks from this size cost ticks: an instruction can make one */
    NATIVE_STEP = 64 * 1024,
    LEARNING = UINT32_MAX /* the number of the cell that tells how a block looks */
};

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

bool limits_wake(lua_State *L, struct limits *l)
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
        if (limits_wake(L, l))
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
