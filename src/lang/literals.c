/* Reads the literals of a text: finds their sites with the pattern of literals.lua, has
 * each settled, and writes the Lua text. */
#include <stdlib.h>
#include <string.h>

#include <lauxlib.h>
#include <lua-lpeg.h>
#include <lua.h>
#include <lualib.h>

#include "base/grow.h"
#include "lang/builtin.h"
#include "lang/pass.h"

struct span pass_span(const struct pass *p, size_t at, size_t end)
{
    return (struct span){ p->source, (uint32_t)at, (uint32_t)(end - at) };
}

static void add_fault(struct pass *p, const struct fault *f)
{
    faults_add(p->faults, f);
    p->refused = true;
}

static void end_for_memory(struct pass *p)
{
    struct fault f = { 0 };
    fault_no_memory(&f);
    add_fault(p, &f);
    p->ended = true;
}

static bool remember(struct pass *p, size_t at, size_t end, bool refused)
{
    struct stretch *settled =
        grow(p->settled, &p->settled_room, p->settled_count, sizeof *settled);
    if (!settled) {
        end_for_memory(p);
        return false;
    }
    p->settled = settled;
    settled[p->settled_count++] =
        (struct stretch){ .at = (uint32_t)at, .end = (uint32_t)end, .refused = refused };
    p->scope.settled = settled;
    p->scope.settled_count = p->settled_count;
    return true;
}

size_t pass_refuse(struct pass *p, const struct fault *f, size_t at, size_t end)
{
    add_fault(p, f);
    remember(p, at, end, true);
    return end;
}

bool pass_look(struct pass *p)
{
    if (scope_to(&p->scope, p->site))
        return true;
    if (p->scope.no_memory) {
        end_for_memory(p);
        return false;
    }
    struct fault f = { 0 };
    fault_set(&f, "nesting-deep", pass_span(p, p->site, p->site + 1),
              "brackets and blocks are nested more than 200 deep here");
    add_fault(p, &f);
    p->ended = true;
    return false;
}

struct token pass_next(const struct pass *p, size_t end, bool *same_line)
{
    struct reader r = reader_at(p->text, p->length, end, 1);
    struct token t = token_read(&r);
    *same_line = t.line == 1;
    return t;
}

bool pass_token_is(const struct pass *p, const struct token *t, const char *word)
{
    return t->length == strlen(word) && memcmp(p->text + t->at, word, t->length) == 0;
}

/* Writes the literal in the place of its text; the first one brings the two names. */
static size_t write_literal(struct pass *p, const struct literal *made, size_t at,
                            size_t end, bool close)
{
    struct script *s = p->script;
    struct literal *list =
        grow(s->literals, &s->literals_room, s->literals_count, sizeof *list);
    if (!list || !remember(p, at, end, false)) {
        end_for_memory(p);
        return end;
    }
    s->literals = list;
    list[s->literals_count++] = *made;
    if (s->literals_count == 1) {
        buf_put(&p->out, p->text, s->start);
        buf_puts(&p->out, "local __lit,__each=...;");
        p->copied = s->start;
    }
    buf_put(&p->out, p->text + p->copied, at - p->copied);
    buf_printf(&p->out,
               made->kind == LITERAL_RANGE ? "(__each(%zu))%s" : "(__lit[%zu])%s",
               s->literals_count, close ? ";" : "");
    p->copied = end;
    return end;
}

size_t settle_literal(struct pass *p, struct literal *made, size_t at, size_t end)
{
    bool close = false;
    struct fault f = { 0 };
    made->at = pass_span(p, at, end);
    if (!operand_stands(p, made, at, end, &close, &f))
        return p->ended || !fault_is_set(&f) ? end : pass_refuse(p, &f, at, end);
    return write_literal(p, made, at, end, close);
}

static size_t refuse_reserved(struct pass *p, const struct token *t)
{
    struct fault f = { 0 };
    fault_set(&f, "name-reserved", pass_span(p, t->at, t->at + t->length),
              "the name `%.*s` is kept for the measures of a script", (int)t->length,
              p->text + t->at);
    fault_hint(&f, "choose another name");
    return pass_refuse(p, &f, t->at, t->at + t->length);
}

/* Settles what the pattern stopped at; returns where it goes on. */
static size_t settle_site(struct pass *p, size_t at)
{
    struct reader r = reader_at(p->text, p->length, at, 1);
    struct token t = token_read(&r);
    size_t end = (size_t)t.at + t.length;
    if (t.kind == TOKEN_BROKEN || t.kind == TOKEN_END) {
        p->ended = true;
        return p->length;
    }
    p->site = at;
    if (t.at != at) /* a long comment stood here */
        return t.at;
    switch (t.kind) {
    case TOKEN_NUMBER: return settle_number(p, at);
    case TOKEN_NAME:
        if (pass_token_is(p, &t, "__lit") || pass_token_is(p, &t, "__each"))
            return refuse_reserved(p, &t);
        return pass_token_is(p, &t, "to") ? settle_to(p, at) : settle_name(p, at);
    case TOKEN_SYMBOL:
        p->compares =
            p->compares || t.symbol == SYMBOL('=', '=') || t.symbol == SYMBOL('~', '=');
        return end;
    default: return end;
    }
}

/* Pushes lpeg.match and the pattern, made on first use and kept in the registry. */
static void push_pattern(lua_State *L)
{
    static const char key = 0; /* its address is the key */
    if (lua_rawgetp(L, LUA_REGISTRYINDEX, &key) == LUA_TNIL) {
        lua_pop(L, 1);
        luaL_requiref(L, "lpeg", luaopen_lpeg, false); /* lpeg */
        const struct builtin *b = builtin_find("lang/literals.lua");
        if (!b)
            luaL_error(L, "the pattern of literals is not built in");
        if (luaL_loadbufferx(L, (const char *)b->data, b->length, b->name, "b") != LUA_OK)
            lua_error(L);
        lua_createtable(L, 2, 0); /* lpeg chunk pair */
        lua_getfield(L, -3, "match");
        lua_rawseti(L, -2, 1);
        lua_rotate(L, -3, 1); /* pair lpeg chunk */
        lua_insert(L, -2);    /* pair chunk lpeg */
        lua_call(L, 1, 1);    /* pair pattern */
        /* LPeg compiles at the first match; when memory ends within that, it would go on
         * with half a pattern later. So the pattern is kept only once it has matched. */
        lua_rawgeti(L, -2, 1);
        lua_pushvalue(L, -2);
        lua_pushliteral(L, "");
        lua_call(L, 2, 0);
        lua_rawseti(L, -2, 2);
        lua_pushvalue(L, -1);
        lua_rawsetp(L, LUA_REGISTRYINDEX, &key);
    }
    lua_rawgeti(L, -1, 1);
    lua_rawgeti(L, -2, 2);
    lua_remove(L, -3);
}

/* In a protected call: LPeg may run out of memory. Nothing here owns anything. */
static int find_sites(lua_State *L)
{
    struct pass *p = lua_touserdata(L, 1);
    push_pattern(L);                        /* pass match pattern */
    lua_pushlstring(L, p->text, p->length); /* pass match pattern text */
    size_t at = p->script->start;
    while (at < p->length && !p->ended) {
        lua_pushvalue(L, 2);
        lua_pushvalue(L, 3);
        lua_pushvalue(L, 4);
        lua_pushinteger(L, (lua_Integer)at + 1);
        lua_call(L, 3, 1);
        at = (size_t)(lua_tointeger(L, -1) - 1);
        lua_pop(L, 1);
        if (at < p->length)
            at = settle_site(p, at);
    }
    return 0;
}

static bool run(struct pass *p)
{
    lua_State *L = p->L;
    if (!lua_checkstack(L, 8)) {
        end_for_memory(p);
        return false;
    }
    lua_pushcfunction(L, find_sites);
    lua_pushlightuserdata(L, p);
    int status = lua_pcall(L, 1, 0, 0);
    if (status == LUA_OK)
        return !p->refused;
    const char *words = lua_tostring(L, -1);
    if (status == LUA_ERRMEM || (words && strstr(words, "not enough memory"))) {
        end_for_memory(p); /* LPeg raises that as a text of its own */
    } else {
        struct fault f = { 0 };
        fault_set(&f, "literals-read", SPAN_NONE, "%s", words ? words : "no message");
        add_fault(p, &f);
    }
    lua_pop(L, 1);
    return false;
}

/* A local name matters only where it could be taken for a part of a compound unit. */
static bool is_unit(void *with, const char *name, size_t length)
{
    struct unit_id id;
    return units_match(with, name, length, &id) == length;
}

static bool finish(struct pass *p)
{
    struct script *s = p->script;
    buf_put(&p->out, p->text + p->copied, p->length - p->copied);
    if (p->compares && s->literals_count > 0)
        warn_of_equals(p);
    s->text_length = p->out.length;
    s->text = buf_take(&p->out);
    if (!s->text)
        end_for_memory(p);
    return s->text != NULL;
}

bool literals_read(lua_State *L, struct host *host, uint32_t source, struct script **out,
                   struct faults *faults)
{
    struct pass p = {
        .L = L, .host = host, .units = host->units, .source = source, .faults = faults
    };
    *out = NULL;
    p.text = source_text(host->sources, source, &p.length);
    if (p.length > SCRIPT_MOST) {
        struct fault f = { 0 };
        fault_set(&f, "file-size", pass_span(&p, 0, 0),
                  "a script may have 1 MB at most, and this one has %zu KB",
                  p.length / 1024);
        fault_hint(&f, "split it into files and bring them together with `use`");
        faults_add(faults, &f);
        return false;
    }
    buf_init(&p.out);
    p.script = calloc(1, sizeof *p.script);
    bool fine = p.script != NULL;
    if (fine) {
        p.script->source = source;
        p.script->start = script_start(p.text, p.length, &p.script->loaded);
        scope_init(&p.scope, p.text, p.length, p.script->start, is_unit, p.units);
        fine = run(&p) && finish(&p);
        scope_clear(&p.scope);
    } else {
        end_for_memory(&p);
    }
    free(p.settled);
    buf_clear(&p.out);
    if (!fine)
        script_free(p.script);
    *out = fine ? p.script : NULL;
    return fine;
}
