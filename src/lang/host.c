#include "lang/host.h"

#include <lauxlib.h>
#include <lua.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "base/files.h"
#include "bind/rooms.h"
#include "forest/species.h"
#include "lang/face.h"
#include "lang/finder.h"
#include "lang/limits.h"
#include "lang/load.h"
#include "lang/raise.h"
#include "lang/sandbox.h"
#include "lang/settings.h"
#include "plan/plan.h"
#include "quantity/graph.h"

enum { SCRIPT_BYTES = 1 << 20 };

struct settings settings_plain(void)
{
    return (struct settings){ .width = 80 };
}

struct host *host_of(lua_State *L)
{
    return *(struct host **)lua_getextraspace(L);
}

static void print_to(void *owner, const char *text, size_t length)
{
    buf_put(owner, text, length);
}

/* Opens everything that can raise; runs protected. */
static int open_all(lua_State *L)
{
    struct host *host = lua_touserdata(L, 1);
    sandbox_open(L, host);
    sandbox_print_to(L, print_to, host->printed);
    sandbox_seed(L, 1);
    sandbox_room(L, "host", face_room);
    rooms_open(L);
    face_install(L);
    return 0;
}

/* The species and the knowledge every plan starts from, then the packs; protected. */
static int open_book(lua_State *L)
{
    sandbox_need(L, "book");
    lua_getfield(L, -1, "open");
    lua_call(L, 0, 0);
    return 0;
}

static bool open_state(struct host *host, struct fault *f)
{
    host->L = lua_newstate(limits_alloc, host->limits);
    if (!host->L)
        return fault_no_memory(f);
    *(struct host **)lua_getextraspace(host->L) = host;
    lua_State *L = host->L;
    lua_pushcfunction(L, open_all);
    lua_pushlightuserdata(L, host);
    if (lua_pcall(L, 1, 0, 0) != LUA_OK) {
        const char *words = lua_tostring(L, -1);
        return fault_set(f, "start", SPAN_NONE, "the vocabulary cannot be opened: %s",
                         words ? words : "out of memory");
    }
    limits_start(L);
    limits_trust(L); /* until load.c comes upon a script that could go on for ever */
    return true;
}

static bool open_packs(struct host *host, struct fault *f)
{
    for (size_t i = 0; i < host->settings->pack_count; i++)
        if (!finder_add_pack(host->finder, host->settings->packs[i], f))
            return false;
    return true;
}

static void apply_limits(struct limits *limits, const struct settings *settings)
{
    /* More than this is no limit at all, and would not fit the integers below. */
    const double most = 9e15;
    limits_init(limits);
    if (settings->steps > 0)
        limits->ticks_most = (uint64_t)fmin(settings->steps * 1e6, most);
    if (settings->memory > 0)
        limits->bytes_most = (size_t)fmin(settings->memory * 1048576.0, most);
}

struct host *host_new(const struct settings *settings, struct fault *f)
{
    struct host *host = calloc(1, sizeof *host);
    if (!host) {
        fault_no_memory(f);
        return NULL;
    }
    host->settings = settings;
    host->trace = settings->trace;
    host->limits = calloc(1, sizeof *host->limits);
    if (host->limits)
        apply_limits(host->limits, settings);
    host->printed = calloc(1, sizeof *host->printed);
    host->sources = sources_new();
    host->units = units_new();
    host->graph = host->units ? graph_new(host->units) : NULL;
    host->plan = host->graph ? plan_new(host->graph) : NULL;
    host->species = species_table_new();
    host->finder = finder_new();
    host->loads = loads_new();
    if (host->printed)
        buf_init(host->printed);
    if (!host->limits || !host->printed || !host->sources || !host->plan ||
        !host->species || !host->finder || !host->loads) {
        fault_no_memory(f);
        goto failed;
    }
    if (!open_packs(host, f) || !open_state(host, f))
        goto failed;
    /* What is wrong in a pack is told as the plan's own faults are: with its place. */
    struct fault wrong = { 0 };
    if (!host_protect(host->L, open_book, NULL, &wrong) && fault_is_set(&wrong))
        host_told(host, &wrong);
    return host;
failed:
    host_free(host);
    return NULL;
}

void host_free(struct host *host)
{
    if (!host)
        return;
    plan_free(host->plan); /* holds quantities of the graph */
    if (host->L)
        lua_close(host->L);
    if (host->limits)
        limits_clear(host->limits);
    graph_free(host->graph);
    units_free(host->units);
    species_table_free(host->species);
    finder_free(host->finder);
    loads_free(host->loads);
    sources_free(host->sources);
    if (host->printed)
        buf_clear(host->printed);
    free(host->printed);
    free(host->limits);
    free(host);
}

void host_told(struct host *host, const struct fault *f)
{
    bool follows = f->of_nothing || (f->id && strcmp(f->id, "internal") == 0);
    if (follows && host->faults.count > 0 && !host->trace)
        return;
    faults_add(&host->faults, f);
}

/* What a stage raised joins the faults, unless it only said that there are some. */
static bool stage_failed(struct host *host, const struct fault *f)
{
    if (fault_is_set(f))
        host_told(host, f);
    return false;
}

/* Calls MODULE.NAME(argument) of the built-in Lua; the answer, a text, is appended. */
struct call {
    const char *module, *name, *argument;
    struct buf *out;
};

static int call_module(lua_State *L)
{
    struct call *call = lua_touserdata(L, 1);
    sandbox_need(L, call->module);
    lua_getfield(L, -1, call->name);
    if (call->argument)
        lua_pushstring(L, call->argument);
    else
        lua_pushnil(L);
    lua_call(L, 1, 1);
    if (lua_type(L, -1) == LUA_TSTRING && call->out) {
        size_t length;
        const char *text = lua_tolstring(L, -1, &length);
        buf_put(call->out, text, length);
    }
    return 0;
}

static bool stage(struct host *host, struct call call)
{
    struct fault f = { 0 };
    if (host->faults.count > 0)
        return false;
    if (!host_protect(host->L, call_module, &call, &f))
        return stage_failed(host, &f);
    return host->faults.count == 0;
}

bool host_run(struct host *host, const char *path, enum host_aim aim)
{
    static const char *const aims[] = { "write", "ask", "check" };
    struct fault f = { 0 };
    struct buf text;
    if (host->faults.count > 0)
        return false; /* a pack is wrong */
    bool ok = finder_set_property(host->finder, path, &f) &&
              file_read(path, SCRIPT_BYTES, &text, &f);
    if (!ok)
        return stage_failed(host, &f);
    host->main_source = sources_add(host->sources, path, text.data, text.length);
    buf_clear(&text);
    if (host->main_source == 0) {
        fault_no_memory(&f);
        return stage_failed(host, &f);
    }
    static const struct layer plan = { LAYER_PLAN, 0, "plan" };
    if (!load_source(host, host->main_source, path, &plan, &f) ||
        host->faults.count > 0) {
        /* Names left without a table are told along with what else is wrong, but not
         * after a text that could not even be read. */
        return stage_failed(host, &f);
    }
    return stage(host, (struct call){ "settle", "run", aims[aim], NULL });
}

bool host_report(struct host *host, const char *paper, struct buf *out)
{
    return stage(host, (struct call){ "report", paper, NULL, out });
}

bool host_file(struct host *host, const char *name, struct buf *out)
{
    return stage(host, (struct call){ "report", "file", name, out });
}

bool host_why(struct host *host, const char *name, const char *kind, struct buf *out)
{
    if (kind)
        return stage(host, (struct call){ "why_layers", kind, name, out });
    return stage(host, (struct call){ "why", "text", name, out });
}

bool host_help(struct host *host, const char *word, struct buf *out)
{
    return stage(host, (struct call){ "help", "text", word, out });
}

bool host_map(struct host *host, const char *path, struct buf *out)
{
    struct fault f = { 0 };
    const char *stroke = strrchr(path, '/');
    if (!finder_set_property(host->finder, path, &f))
        return stage_failed(host, &f);
    return stage(host,
                 (struct call){ "map_list", "text", stroke ? stroke + 1 : path, out });
}

bool host_has_stop(const struct host *host)
{
    return plan_has_stop(host->plan);
}
