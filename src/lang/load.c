#include "lang/load.h"

#include <lauxlib.h>
#include <lua.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "base/grow.h"
#include "bind/calendar.h"
#include "bind/measure.h"
#include "lang/builtin.h"
#include "lang/draw_keys.h"
#include "lang/host.h"
#include "lang/limits.h"
#include "lang/prepared.h"
#include "lang/raise.h"
#include "lang/sandbox.h"
#include "lang/script.h"
#include "lang/syntax.h"
#include "quantity/graph.h"

enum {
    RUNNING_MOST = 32,
    TRUSTED_BYTES = 1 << 16 /* of scripts from outside; longer ones are watched anyway */
};

struct load {
    char key[FOUND_NAME];
    char own_name[FOUND_NAME]; /* without the folder of the plan: for draws */
    uint32_t source;
    struct layer layer;
    struct script *script;
    const struct prepared *prepared; /* of a script that is built in, else NULL */
    uint32_t *evaluated;             /* how often each range literal was read */
    struct draw_keys *draws;         /* made when its first range is read */
    bool running;
};

struct loads {
    struct load **list; /* each its own block: closures of a script keep a pointer */
    size_t count, room;
    size_t bytes_outside; /* of scripts that are not built in */
};

struct loads *loads_new(void)
{
    return calloc(1, sizeof(struct loads));
}

void loads_free(struct loads *all)
{
    if (!all)
        return;
    for (size_t i = 0; i < all->count; i++) {
        script_free(all->list[i]->script);
        free(all->list[i]->evaluated);
        draw_keys_free(all->list[i]->draws);
        free(all->list[i]);
    }
    free(all->list);
    free(all);
}

static struct load *of_source(const struct loads *all, uint32_t source)
{
    for (size_t i = 0; i < all->count; i++)
        if (all->list[i]->source == source)
            return all->list[i];
    return NULL;
}

static struct load *of_key(const struct loads *all, const char *key)
{
    for (size_t i = 0; i < all->count; i++)
        if (strcmp(all->list[i]->key, key) == 0)
            return all->list[i];
    return NULL;
}

const struct layer *load_layer(const struct host *host, uint32_t source)
{
    static const struct layer built_in = { LAYER_BUILT_IN, 0, "built-in" };
    const struct load *load = of_source(host->loads, source);
    return load ? &load->layer : &built_in;
}

struct script *load_script(const struct host *host, uint32_t source)
{
    const struct load *load = of_source(host->loads, source);
    return load ? load->script : NULL;
}

int load_count(const struct host *host)
{
    return (int)host->loads->count;
}

bool load_draw_key(struct host *host, struct span at, bool literal, uint32_t occurrence,
                   uint64_t *key, struct fault *f)
{
    struct load *load = host->loads ? of_source(host->loads, at.source) : NULL;
    *key = graph_key("", at.at, occurrence);
    if (!load)
        return true;
    if (!load->draws)
        load->draws = draw_keys_new(host->sources, at.source, load->own_name);
    if (!load->draws)
        return fault_no_memory(f);
    struct place p = source_place(host->sources, at);
    *key = draw_keys_at(load->draws, p.line, literal ? p.column : 0, occurrence);
    return true;
}

/* __each(n): the n-th literal, a range, is a new quantity each time it is read. Upvalue
 * 1: the load. */
static int each(lua_State *L)
{
    struct host *host = host_of(L);
    struct load *load = lua_touserdata(L, lua_upvalueindex(1));
    size_t index = (size_t)(luaL_checkinteger(L, 1) - 1);
    const struct literal *literal = script_literal(load->script, index);
    struct fault f = { 0 };
    struct qty q = QTY_NONE;
    uint64_t key;
    if (load_draw_key(host, literal->at, true, load->evaluated[index]++, &key, &f))
        q = graph_range(host->graph, literal->low, literal->value, literal->high,
                        literal->unit, key, (struct origin){ literal->at, NULL }, &f);
    if (fault_is_set(&f)) {
        fault_place(&f, literal->at);
        fault_raise(L, &f);
    }
    measure_push(L, q);
    return 1;
}

static bool push_literal(lua_State *L, struct host *host, const struct literal *literal,
                         struct fault *f)
{
    switch (literal->kind) {
    case LITERAL_MEASURE: {
        struct qty q = graph_leaf(host->graph, literal->value, literal->unit,
                                  (struct origin){ literal->at, NULL }, f);
        if (!qty_is(q)) {
            fault_place(f, literal->at);
            return false;
        }
        measure_push(L, q);
        return true;
    }
    case LITERAL_DATE: date_push(L, literal->date); return true;
    case LITERAL_DAY: day_push(L, literal->day); return true;
    case LITERAL_WINDOW: window_push(L, yearly_of(literal->window)); return true;
    case LITERAL_RANGE: lua_pushboolean(L, false); return true; /* made by each() */
    }
    return false;
}

/* What start() needs, across the protected call. */
struct start {
    struct host *host;
    struct load *load;
    struct fault fault;
};

/* The plan and the files of its property share their names; a pack, a region and a
 * prescription each have names of their own, so that none disturbs another. */
static const char plan_env_key = 0;

void load_env(lua_State *L)
{
    if (lua_rawgetp(L, LUA_REGISTRYINDEX, &plan_env_key) == LUA_TTABLE)
        return;
    lua_pop(L, 1);
    sandbox_script_env(L);
    lua_pushvalue(L, -1);
    lua_rawsetp(L, LUA_REGISTRYINDEX, &plan_env_key);
}

/* Replaces the environment on top by the script's chunk in it. */
static void compile(lua_State *L, struct host *host, const struct load *load,
                    struct fault *f)
{
    const char *name = source_name(host->sources, load->source);
    if (load->prepared) {
        const char *code = (const char *)load->prepared->code;
        if (luaL_loadbufferx(L, code, load->prepared->code_length, name, "b") != LUA_OK)
            lua_error(L);
        lua_insert(L, -2);
        lua_setupvalue(L, -2, 1);
        return;
    }
    size_t length;
    const char *text = script_lua(load->script, &length);
    if (host_load(L, name, text, length, f))
        return;
    if (strcmp(f->id, "syntax") == 0)
        syntax_more(L, load->source, f, &host->faults);
    fault_raise(L, f);
}

/* Compiles and calls the text with its literals. Runs protected. */
static int start(lua_State *L)
{
    struct start *s = lua_touserdata(L, 1);
    struct host *host = s->host;
    struct load *load = s->load;
    size_t count = script_literals(load->script);
    if (load->layer.kind == LAYER_PROPERTY || load->layer.kind == LAYER_PLAN)
        load_env(L);
    else
        sandbox_script_env(L);
    compile(L, host, load, &s->fault);
    lua_createtable(L, (int)count, 0); /* chunk literals */
    for (size_t i = 0; i < count; i++) {
        if (!push_literal(L, host, script_literal(load->script, i), &s->fault))
            fault_raise(L, &s->fault);
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
    lua_pushlightuserdata(L, load);
    lua_pushcclosure(L, each, 1); /* chunk literals each */
    lua_call(L, 2, 0);
    return 0;
}

static struct load *add(struct host *host, uint32_t source, const char *key,
                        const char *own_name, const struct layer *layer)
{
    struct loads *all = host->loads;
    struct load **list = grow(all->list, &all->room, all->count, sizeof *list);
    if (!list)
        return NULL;
    all->list = list;
    struct load *load = calloc(1, sizeof *load);
    if (!load)
        return NULL;
    snprintf(load->key, sizeof load->key, "%s", key);
    snprintf(load->own_name, sizeof load->own_name, "%s", own_name);
    load->source = source;
    load->layer = *layer;
    load->layer.order = layer->kind == LAYER_PACK ? layer->order : (int)all->count;
    all->list[all->count++] = load;
    return load;
}

/* What is built in was read when the program was built. */
static bool read_text(struct host *host, struct load *load, struct fault *f)
{
    if (load->layer.kind < LAYER_PACK)
        load->prepared = prepared_find(load->key);
    if (!load->prepared)
        return literals_read(host->L, host, load->source, &load->script, &host->faults);
    size_t length;
    const char *text = source_text(host->sources, load->source, &length);
    load->script =
        script_of_prepared(load->source, text, length, load->prepared, host->units, f);
    return load->script != NULL;
}

/* A script from outside that could run on and on is watched from its start, and so is all
 * that comes after it: its functions may be called later. */
static void watch(struct host *host, struct load *load)
{
    if (load->layer.kind < LAYER_PACK)
        return;
    size_t length;
    script_text(load->script, &length);
    host->loads->bytes_outside += length;
    if (host->loads->bytes_outside > TRUSTED_BYTES ||
        script_may_loop(load->script, host->sources))
        limits_watch(host->L);
}

static bool run(struct host *host, uint32_t source, const char *key, const char *own_name,
                const struct layer *layer, struct fault *f)
{
    struct load *load = add(host, source, key, own_name, layer);
    if (!load)
        return fault_no_memory(f);
    if (!read_text(host, load, f))
        return false;
    size_t count = script_literals(load->script);
    load->evaluated = calloc(count ? count : 1, sizeof *load->evaluated);
    if (!load->evaluated)
        return fault_no_memory(f);
    watch(host, load);
    struct start s = { .host = host, .load = load };
    load->running = true;
    bool ok = host_protect(host->L, start, &s, f);
    load->running = false;
    return ok;
}

bool load_source(struct host *host, uint32_t source, const char *key,
                 const struct layer *layer, struct fault *f)
{
    const char *slash = strrchr(key, '/');
    return run(host, source, key, slash ? slash + 1 : key, layer, f);
}

/* "plan.rx uses property.rx uses plan.rx": the scripts that run, and the one asked
 * for. */
static bool circle(const struct host *host, const struct load *again, struct span from,
                   struct fault *f)
{
    char chain[300];
    size_t at = 0;
    const struct loads *all = host->loads;
    bool inside = false;
    for (size_t i = 0; i < all->count; i++) {
        inside = inside || all->list[i] == again;
        if (!inside || !all->list[i]->running)
            continue;
        int wrote = snprintf(chain + at, sizeof chain - at, "%s uses ",
                             source_name(host->sources, all->list[i]->source));
        if (wrote < 0 || (size_t)wrote >= sizeof chain - at)
            break;
        at += (size_t)wrote;
    }
    return fault_set(f, "use-circle", from,
                     "these scripts use each other in a circle: %s%s", chain,
                     source_name(host->sources, again->source));
}

static bool load_found(struct host *host, struct found *file, const struct layer *layer,
                       struct span from, struct fault *f)
{
    const struct load *before = of_key(host->loads, file->name);
    if (before)
        return before->running ? circle(host, before, from, f) : true;
    size_t running = 0;
    for (size_t i = 0; i < host->loads->count; i++)
        running += host->loads->list[i]->running;
    if (running >= RUNNING_MOST)
        return fault_set(f, "use-deep", from, "more than %d scripts use one another",
                         RUNNING_MOST);
    uint32_t source =
        sources_add(host->sources, file->name, file->text.data, file->text.length);
    if (source == 0)
        return fault_no_memory(f);
    return run(host, source, file->name, file->name + file->folder, layer, f);
}

static void layer_words(struct layer *layer, const char *kind, const char *name)
{
    snprintf(layer->words, sizeof layer->words, "%s%s%s", kind, name ? " " : "",
             name ? name : "");
}

bool load_use(struct host *host, const char *name, struct span from, struct fault *f)
{
    struct found file;
    bool ok = finder_read(host->finder, name, &file, f);
    if (ok) {
        struct layer layer = { .kind = file.layer, .order = file.order };
        if (file.layer == LAYER_PACK)
            layer_words(&layer, "pack",
                        finder_pack_name(host->finder, (size_t)file.order - 1));
        else
            layer_words(&layer, file.layer == LAYER_PROPERTY ? "property" : "built-in",
                        NULL);
        ok = load_found(host, &file, &layer, from, f);
    } else {
        fault_place(f, from);
    }
    found_clear(&file);
    return ok;
}

bool load_from_pack(struct host *host, size_t pack, const char *name, struct fault *f)
{
    struct found file;
    bool ok = finder_read_pack(host->finder, pack, name, &file, f);
    if (ok) {
        struct layer layer = { .kind = LAYER_PACK, .order = file.order };
        layer_words(&layer, "pack", finder_pack_name(host->finder, pack));
        ok = load_found(host, &file, &layer, SPAN_NONE, f);
    }
    found_clear(&file);
    return ok;
}

static bool load_built_in(struct host *host, const char *name, enum layer_kind kind,
                          const char *words, struct fault *f)
{
    const struct builtin *built_in = builtin_find(name);
    if (!built_in || built_in->bytecode)
        return false;
    struct found file = { .layer = kind };
    buf_init(&file.text);
    snprintf(file.name, sizeof file.name, "%s", name);
    buf_put(&file.text, (const char *)built_in->data, built_in->length);
    struct layer layer = { .kind = kind };
    layer_words(&layer, words, NULL);
    bool ok = file.text.failed ? fault_no_memory(f)
                               : load_found(host, &file, &layer, SPAN_NONE, f);
    found_clear(&file);
    return ok;
}

bool load_named(struct host *host, const char *name, enum layer_kind kind,
                const char *words, struct fault *f)
{
    bool found = load_built_in(host, name, kind, words, f);
    for (size_t i = 0; i < finder_packs(host->finder) && !fault_is_set(f); i++)
        found = load_from_pack(host, i, name, f) || found;
    return found;
}
