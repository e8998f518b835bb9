#include "bind/page_blocks.h"

#include <lauxlib.h>
#include <lua.h>

#include "bind/calendar.h"
#include "bind/page_runs.h"
#include "lang/raise.h"
#include "page/doc.h"

#define COUNT(list) (sizeof(list) / sizeof *(list))

/* The one table a method takes, alone at index 2. */
static void table_argument(lua_State *L, const char *what)
{
    lua_settop(L, 2);
    if (lua_type(L, 2) != LUA_TTABLE)
        fault_say(L, "page-value", NULL, "%s of a paper is written in braces", what);
}

static void note_runs(lua_State *L, struct doc *d)
{
    lua_Unsigned count = lua_rawlen(L, 2);
    for (lua_Unsigned i = 1; i <= count; i++) {
        lua_rawgeti(L, 2, (lua_Integer)i);
        page_runs(L, -1, d);
        lua_pop(L, 1);
    }
    if (page_field(L, 2, "ask") != LUA_TNIL) {
        if (d != NULL)
            doc_ask(d);
        page_runs(L, -1, d);
    }
    if (page_field(L, 2, "source") != LUA_TNIL) {
        if (d != NULL)
            doc_source(d);
        page_runs(L, -1, d);
    }
    lua_pop(L, 2);
}

void page_note(lua_State *L, struct doc *d)
{
    static const char *const keys[] = { "level", "ask", "source" };
    static const char *const levels[] = { "stop", "caution", "note" };
    table_argument(L, "a note");
    page_keys(L, 2, "a note", keys, COUNT(keys));
    int level = page_choice(L, 2, "level", levels, COUNT(levels), DOC_LEVEL_NOTE);
    note_runs(L, NULL);
    doc_note(d, (enum doc_level)level);
    note_runs(L, d);
}

/* --- tables ----------------------------------------------------------------------- */

/* The column at the top of the stack; its title stays Lua's. */
static struct doc_column column(lua_State *L)
{
    static const char *const keys[] = { "align", "wrap" };
    static const char *const aligns[] = { "left", "right", "number" };
    struct doc_column c = { .title = NULL, .align = DOC_LEFT, .wrap = true };
    int table = lua_gettop(L);
    if (lua_type(L, table) == LUA_TTABLE) {
        page_keys(L, table, "a column", keys, COUNT(keys));
        int align = page_choice(L, table, "align", aligns, COUNT(aligns), DOC_LEFT);
        c.align = (enum doc_align)align;
        c.wrap = c.align == DOC_LEFT;
        if (page_field(L, table, "wrap") != LUA_TNIL)
            c.wrap = lua_toboolean(L, -1);
        lua_rawgeti(L, table, 1);
    }
    if (lua_type(L, -1) != LUA_TSTRING)
        fault_say(L, "page-value",
                  "write \"Hours\" or { \"Hours\", align = \"number\" }",
                  "a column needs a title");
    c.title = lua_tolstring(L, -1, &c.title_length);
    lua_settop(L, table);
    return c;
}

static size_t columns(lua_State *L, struct doc_column list[DOC_COLUMNS_MOST])
{
    if (page_field(L, 2, "columns") != LUA_TTABLE)
        fault_say(L, "page-value", NULL, "a table needs `columns = { ... }`");
    lua_Unsigned count = lua_rawlen(L, -1);
    if (count < 1 || count > DOC_COLUMNS_MOST)
        fault_say(L, "page-value", NULL, "a table has 1 to %d columns", DOC_COLUMNS_MOST);
    for (lua_Unsigned i = 0; i < count; i++) {
        lua_rawgeti(L, -1, (lua_Integer)i + 1);
        list[i] = column(L);
        lua_pop(L, 1); /* the list keeps it, and with it the title */
    }
    lua_pop(L, 1);
    return count;
}

/* The row at the top of the stack, its cells up to the last column. */
static void row(lua_State *L, size_t most, bool total, struct doc *d)
{
    if (lua_type(L, -1) != LUA_TTABLE)
        fault_say(L, "page-value", NULL, "a row of a table is a list of cells");
    if (d != NULL && total)
        doc_total(d);
    else if (d != NULL)
        doc_row(d);
    for (size_t i = 1; i <= most; i++) {
        lua_rawgeti(L, -1, (lua_Integer)i);
        if (d != NULL)
            doc_cell(d);
        page_runs(L, -1, d);
        lua_pop(L, 1);
    }
    if (lua_rawlen(L, -1) > most)
        fault_say(L, "page-value", NULL,
                  "a row has more cells than the table has columns (%d)", (int)most);
}

static void rows(lua_State *L, size_t most, struct doc *d)
{
    int kind = page_field(L, 2, "rows");
    if (kind != LUA_TTABLE && kind != LUA_TNIL)
        fault_say(L, "page-value", NULL, "`rows` is a list of rows");
    lua_Unsigned count = kind == LUA_TNIL ? 0 : lua_rawlen(L, -1);
    for (lua_Unsigned i = 1; i <= count; i++) {
        lua_rawgeti(L, -1, (lua_Integer)i);
        row(L, most, false, d);
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
    if (page_field(L, 2, "total") != LUA_TNIL)
        row(L, most, true, d);
    lua_pop(L, 1);
}

void page_table(lua_State *L, struct doc *d)
{
    static const char *const keys[] = { "columns", "rows", "total" };
    struct doc_column list[DOC_COLUMNS_MOST];
    table_argument(L, "a table");
    page_keys(L, 2, "a table", keys, COUNT(keys));
    size_t count = columns(L, list);
    rows(L, count, NULL);
    doc_table(d, list, count);
    rows(L, count, d);
}

/* --- strips ----------------------------------------------------------------------- */

/* from, to and mark of the table at the top of the stack. */
static void stretch(lua_State *L, struct strip *s)
{
    static const char *const marks[] = { [STRIP_OPEN] = "open",
                                         [STRIP_PLANNED] = "planned" };
    struct date from = { 0 }, to = { 0 };
    int table = lua_gettop(L);
    int mark = page_choice(L, table, "mark", marks, STRIP_MARKS, STRIP_PLANNED);
    page_field(L, table, "from"), page_field(L, table, "to");
    if (!date_at(L, -2, &from) || !date_at(L, -1, &to) || from.day > to.day)
        fault_say(L, "page-value", "write { from = date, to = date }",
                  "a stretch goes from one date to another that is not before it");
    lua_pop(L, 2);
    if (s != NULL)
        strip_mark(s, (enum strip_mark)mark, from, to);
}

/* The further stretches of the row at the top of the stack. */
static void stretches(lua_State *L, struct strip *s)
{
    static const char *const keys[] = { "from", "to", "mark" };
    lua_Unsigned count = lua_rawlen(L, -1);
    for (lua_Unsigned i = 1; i <= count; i++) {
        if (lua_rawgeti(L, -1, (lua_Integer)i) != LUA_TTABLE)
            fault_say(L, "page-value", NULL,
                      "a stretch of a strip is { from = date, to = date }");
        page_keys(L, -1, "a stretch", keys, COUNT(keys));
        stretch(L, s);
        lua_pop(L, 1);
    }
}

static void strip_rows(lua_State *L, struct strip *s)
{
    static const char *const keys[] = { "label", "from", "to", "mark" };
    if (page_field(L, 2, "rows") != LUA_TTABLE)
        fault_say(L, "page-value", NULL, "a strip needs `rows = { ... }`");
    lua_Unsigned count = lua_rawlen(L, -1);
    for (lua_Unsigned i = 1; i <= count; i++) {
        size_t length;
        if (lua_rawgeti(L, -1, (lua_Integer)i) != LUA_TTABLE)
            fault_say(L, "page-value", NULL, "a row of a strip is { label = text, ... }");
        page_keys(L, -1, "a row of a strip", keys, COUNT(keys));
        if (page_field(L, -1, "label") != LUA_TSTRING)
            fault_say(L, "page-value", NULL, "a row of a strip needs a label");
        const char *label = lua_tolstring(L, -1, &length);
        if (s != NULL)
            strip_row(s, label, length);
        lua_pop(L, 1);
        bool own = page_field(L, -1, "from") != LUA_TNIL;
        lua_pop(L, 1);
        if (own)
            stretch(L, s);
        stretches(L, s);
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
}

void page_strip(lua_State *L, struct doc *d)
{
    static const char *const keys[] = { "rows" };
    table_argument(L, "a strip");
    page_keys(L, 2, "a strip", keys, COUNT(keys));
    strip_rows(L, NULL);
    /* The document owns the strip before Lua is asked again: its calls may jump. */
    struct strip *s = strip_new();
    doc_strip(d, s);
    if (s != NULL)
        strip_rows(L, s);
}
