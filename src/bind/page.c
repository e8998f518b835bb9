#include "bind/page.h"

#include <lauxlib.h>
#include <lua.h>

#include "base/buf.h"
#include "base/fault.h"
#include "bind/page_blocks.h"
#include "bind/page_csv.h"
#include "bind/page_ical.h"
#include "bind/page_runs.h"
#include "lang/held.h"
#include "lang/host.h"
#include "lang/limits.h"
#include "lang/raise.h"
#include "lang/settings.h"
#include "page/terminal.h"

struct paper {
    struct doc *doc; /* NULL when closed */
    size_t counted;  /* bytes of it in the total */
};

/* Their addresses are keys of the registry: the metatables of documents and of texts
 * being printed, and the bytes of all documents (a full userdata holding a size_t). */
static const char paper_key, total_key;

/* --- the value -------------------------------------------------------------------- */

static struct paper *paper_at(lua_State *L, int index)
{
    struct paper *p = lua_touserdata(L, index);
    if (p == NULL || lua_islightuserdata(L, index) || !lua_getmetatable(L, index))
        return NULL;
    lua_rawgetp(L, LUA_REGISTRYINDEX, &paper_key);
    bool same = lua_rawequal(L, -1, -2);
    lua_pop(L, 2);
    return same ? p : NULL;
}

struct doc *page_doc_at(lua_State *L, int index)
{
    struct paper *p = paper_at(L, index);
    return p == NULL ? NULL : p->doc;
}

static size_t *total_of(lua_State *L)
{
    lua_rawgetp(L, LUA_REGISTRYINDEX, &total_key);
    size_t *total = lua_touserdata(L, -1);
    lua_pop(L, 1);
    return total;
}

/* Documents lie outside Lua's memory; they count towards the same limit. */
static void count_bytes(lua_State *L, struct paper *p)
{
    size_t *total = total_of(L), bytes = p->doc == NULL ? 0 : doc_bytes(p->doc);
    *total = *total - p->counted + bytes;
    p->counted = bytes;
}

static int close_paper(lua_State *L)
{
    struct paper *p = paper_at(L, 1);
    if (p != NULL && p->doc != NULL) {
        doc_free(p->doc);
        p->doc = NULL;
        count_bytes(L, p);
    }
    return 0;
}

static struct paper *self(lua_State *L)
{
    struct paper *p = paper_at(L, 1);
    if (p == NULL)
        fault_say(L, "page-self", "write d:paragraph(...), with a colon",
                  "this works on a document of page.doc()");
    if (p->doc == NULL)
        fault_say(L, "page-self", NULL, "this document is closed");
    return p;
}

/* The end of every method: counts what was added. */
static int done(lua_State *L, struct paper *p)
{
    struct graph *g = host_of(L)->graph;
    count_bytes(L, p);
    limits_native(L, *total_of(L) + graph_bytes(g));
    return 0;
}

/* page.doc(): an empty document. */
static int l_doc(lua_State *L)
{
    struct paper *p = lua_newuserdatauv(L, sizeof *p, 0);
    *p = (struct paper){ NULL, 0 };
    lua_rawgetp(L, LUA_REGISTRYINDEX, &paper_key);
    lua_setmetatable(L, -2);
    p->doc = doc_new(host_of(L)->graph);
    if (p->doc == NULL) {
        struct fault f = { .id = NULL };
        fault_no_memory(&f);
        fault_raise(L, &f);
    }
    done(L, p);
    return 1;
}

/* --- text ------------------------------------------------------------------------- */

/* Arguments from `first` on are runs: checked without a document, written with one. */
static void arguments(lua_State *L, int first, struct doc *d)
{
    int count = lua_gettop(L);
    for (int i = first; i <= count; i++)
        page_runs(L, i, d);
}

/* heading(level, runs...): level 1 to 3. */
static int l_heading(lua_State *L)
{
    struct paper *p = self(L);
    int whole = 0;
    lua_Integer level = lua_tointegerx(L, 2, &whole);
    if (!whole || level < 1 || level > 3)
        fault_say(L, "page-value", NULL, "the level of a heading is 1, 2 or 3");
    arguments(L, 3, NULL);
    doc_heading(p->doc, (int)level);
    arguments(L, 3, p->doc);
    return done(L, p);
}

static int l_paragraph(lua_State *L)
{
    struct paper *p = self(L);
    arguments(L, 2, NULL);
    doc_paragraph(p->doc);
    arguments(L, 2, p->doc);
    return done(L, p);
}

static int l_item(lua_State *L)
{
    struct paper *p = self(L);
    arguments(L, 2, NULL);
    doc_item(p->doc);
    arguments(L, 2, p->doc);
    return done(L, p);
}

/* definition(key, runs...) */
static int l_definition(lua_State *L)
{
    struct paper *p = self(L);
    size_t length;
    if (lua_type(L, 2) != LUA_TSTRING)
        fault_say(L, "page-value", "write d:definition(\"Walked\", date)",
                  "the key of a definition is a text");
    arguments(L, 3, NULL);
    const char *key = lua_tolstring(L, 2, &length);
    doc_definition(p->doc, key, length);
    arguments(L, 3, p->doc);
    return done(L, p);
}

static int l_rule(lua_State *L)
{
    struct paper *p = self(L);
    doc_rule(p->doc);
    return done(L, p);
}

static int l_blank(lua_State *L)
{
    struct paper *p = self(L);
    doc_blank(p->doc);
    return done(L, p);
}

/* note { level = "stop" | "caution" | "note", runs..., ask = runs, source = runs } */
static int l_note(lua_State *L)
{
    struct paper *p = self(L);
    page_note(L, p->doc);
    return done(L, p);
}

/* table { columns = {...}, rows = {...}, total = {...} } */
static int l_table(lua_State *L)
{
    struct paper *p = self(L);
    page_table(L, p->doc);
    return done(L, p);
}

/* strip { rows = { { label = text, from = date, to = date, stretches... } } } */
static int l_strip(lua_State *L)
{
    struct paper *p = self(L);
    page_strip(L, p->doc);
    return done(L, p);
}

/* --- printing --------------------------------------------------------------------- */

/* terminal(document): its text, in the columns and with the colour of the run. */
static int l_terminal(lua_State *L)
{
    struct paper *p = self(L);
    const struct settings *settings = host_of(L)->settings;
    struct terminal_look look = { settings->width, settings->colour };
    struct fault f = { .id = NULL };
    struct buf *text = held_new(L);
    if (!terminal_print(p->doc, look, text, &f))
        fault_raise(L, &f);
    return held_push(L, text);
}

/* --- the room --------------------------------------------------------------------- */

int page_room(lua_State *L)
{
    static const luaL_Reg methods[] = {
        { "heading", l_heading },       { "paragraph", l_paragraph },
        { "item", l_item },             { "definition", l_definition },
        { "note", l_note },             { "table", l_table },
        { "strip", l_strip },           { "rule", l_rule },
        { "blank", l_blank },           { NULL, NULL },
    };
    static const luaL_Reg meta[] = {
        { "__gc", close_paper }, { "__close", close_paper }, { NULL, NULL },
    };
    static const luaL_Reg functions[] = {
        { "doc", l_doc },       { "terminal", l_terminal }, { "csv", page_csv },
        { "fixed", page_fixed }, { "ical", page_ical },     { NULL, NULL },
    };
    size_t *total = lua_newuserdatauv(L, sizeof *total, 0);
    *total = 0;
    lua_rawsetp(L, LUA_REGISTRYINDEX, &total_key);
    luaL_newlib(L, meta);
    luaL_newlib(L, methods); /* meta methods */
    lua_setfield(L, -2, "__index");
    lua_pushliteral(L, "document");
    lua_setfield(L, -2, "__name");
    lua_pushboolean(L, false);
    lua_setfield(L, -2, "__metatable");
    lua_rawsetp(L, LUA_REGISTRYINDEX, &paper_key);
    luaL_newlib(L, functions);
    return 1;
}
