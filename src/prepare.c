/* Reads the scripts that are built in and writes them as C (lang/prepared.h), while
 * spinney is built:
 *     prepare OUT.c
 * A slip in one of them ends the build with the message that a script's author would see. */
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <lauxlib.h>
#include <lua.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/source.h"
#include "lang/builtin.h"
#include "lang/host.h"
#include "lang/limits.h"
#include "lang/prepared.h"
#include "lang/raise.h"
#include "lang/sandbox.h"
#include "quantity/unit.h"

/* The program that writes them has none. */
const struct prepared prepared_list[] = { { 0 } };
const size_t prepared_count = 0;

struct work {
    struct host host;
    struct limits limits;
    struct buf out, list; /* the file; the table at its end */
    const struct builtin *script;
    uint32_t source;
    struct script *read;
    struct fault fault;
};

static int open_all(lua_State *L)
{
    sandbox_open(L, lua_touserdata(L, 1));
    return 0;
}

static bool begin(struct work *w)
{
    limits_init(&w->limits);
    buf_init(&w->out);
    buf_init(&w->list);
    w->host.limits = &w->limits;
    w->host.sources = sources_new();
    w->host.units = units_new();
    w->host.L = lua_newstate(limits_alloc, &w->limits);
    if (!w->host.sources || !w->host.units || !w->host.L)
        return false;
    *(struct host **)lua_getextraspace(w->host.L) = &w->host;
    return host_protect(w->host.L, open_all, &w->host, &w->fault);
}

static void end(struct work *w)
{
    if (w->host.L)
        lua_close(w->host.L);
    limits_clear(&w->limits);
    units_free(w->host.units);
    sources_free(w->host.sources);
    buf_clear(&w->out);
    buf_clear(&w->list);
}

static void write_bytes(struct buf *out, const char *data, size_t length)
{
    for (size_t i = 0; i < length; i++)
        buf_printf(out, "%u,%s", (unsigned)(unsigned char)data[i],
                   i % 24 == 23 ? "\n" : "");
}

static int write_code(lua_State *L, const void *data, size_t length, void *out)
{
    (void)L;
    write_bytes(out, data, length);
    return 0;
}

static void write_day(struct buf *out, struct month_day d)
{
    buf_printf(out, "{ %d, %d }", d.month, d.day);
}

/* Numbers as %a, which no reader of C rounds. */
static void write_literal(struct buf *out, const struct units *units,
                          const struct literal *l)
{
    buf_printf(out, "{ %d, %" PRIu32 ", %" PRIu32 ", %a, %a, %a, ", (int)l->kind,
               l->at.at, l->at.length, l->low, l->value, l->high);
    bool measure = l->kind == LITERAL_MEASURE || l->kind == LITERAL_RANGE;
    if (measure && l->unit.i != UNIT_NUMBER.i)
        buf_printf(out, "\"%s\", ", unit_name(units, l->unit, false));
    else
        buf_puts(out, "NULL, ");
    buf_printf(out, "%s, { %" PRId32 " }, ", l->around ? "true" : "false", l->date.day);
    write_day(out, l->day);
    buf_puts(out, ", { ");
    write_day(out, l->window.from);
    buf_puts(out, ", ");
    write_day(out, l->window.to);
    buf_puts(out, " } },\n");
}

/* Compiles what was read and writes it. Runs protected. */
static int write_script(lua_State *L)
{
    struct work *w = lua_touserdata(L, 1);
    size_t number = w->source, count = script_literals(w->read), length;
    const char *lua = script_lua(w->read, &length);
    sandbox_script_env(L);
    if (!host_load(L, w->script->name, lua, length, &w->fault))
        fault_raise(L, &w->fault);
    buf_printf(&w->out, "static const unsigned char code_%zu[] = {\n", number);
    size_t before = w->out.length;
    if (lua_dump(L, write_code, &w->out, 0) != 0 || w->out.length == before)
        luaL_error(L, "the bytecode could not be written");
    buf_printf(&w->out, "};\nstatic const struct prepared_literal literals_%zu[] = {\n",
               number);
    for (size_t i = 0; i < count; i++)
        write_literal(&w->out, w->host.units, script_literal(w->read, i));
    buf_puts(&w->out, "{ 0 } };\n");
    buf_printf(&w->list, "{ \"%s\", code_%zu, sizeof code_%zu, literals_%zu, %zu },\n",
               w->script->name, number, number, number, count);
    return 0;
}

static bool prepare(struct work *w)
{
    struct host *host = &w->host;
    const char *text = (const char *)w->script->data;
    w->source = sources_add(host->sources, w->script->name, text, w->script->length);
    if (w->source == 0)
        return fault_no_memory(&w->fault);
    if (!literals_read(host->L, host, w->source, &w->read, &host->faults))
        return false;
    bool done = host_protect(host->L, write_script, w, &w->fault);
    script_free(w->read);
    return done;
}

static bool write_file(const struct work *w, const char *path)
{
    FILE *file = fopen(path, "wb");
    if (!file)
        return false;
    bool good = fputs("#include \"lang/prepared.h\"\n\n", file) >= 0 &&
                fwrite(w->out.data, 1, w->out.length, file) == w->out.length &&
                fputs("\nconst struct prepared prepared_list[] = {\n", file) >= 0 &&
                fwrite(w->list.data, 1, w->list.length, file) == w->list.length &&
                fprintf(file, "{ 0 } };\nconst size_t prepared_count = %zu;\n",
                        (size_t)w->source) >= 0;
    return fclose(file) == 0 && good;
}

/* What is wrong with the scripts, on standard error; a warning counts here. */
static bool tell(struct work *w)
{
    struct buf words;
    buf_init(&words);
    faults_add(&w->host.faults, &w->fault);
    for (size_t i = 0; i < w->host.warnings.count; i++)
        fault_show(w->host.sources, &w->host.warnings.list[i], "warning", &words);
    for (size_t i = 0; i < w->host.faults.count; i++)
        fault_show(w->host.sources, &w->host.faults.list[i], "error", &words);
    fwrite(words.data, 1, words.length, stderr);
    bool wrong = words.length > 0;
    buf_clear(&words);
    return wrong;
}

int main(int count, char **words)
{
    if (count != 2) {
        fputs("usage: prepare OUT.c\n", stderr);
        return 64;
    }
    struct work w = { .source = 0 };
    bool good = begin(&w);
    for (size_t i = 0; good && (w.script = builtin_at(i)) != NULL; i++)
        good = w.script->bytecode || prepare(&w);
    if (tell(&w))
        good = false;
    else if (w.out.failed || w.list.failed || (good && !write_file(&w, words[1])))
        good = false;
    end(&w);
    if (!good)
        fprintf(stderr, "prepare: %s could not be written\n", words[1]);
    return good ? 0 : 1;
}
