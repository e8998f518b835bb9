#include "bind/page_runs.h"

#include <lauxlib.h>
#include <lua.h>
#include <string.h>

#include "base/buf.h"
#include "base/num.h"
#include "base/suggest.h"
#include "bind/calendar.h"
#include "bind/measure.h"
#include "lang/raise.h"
#include "page/doc.h"

#define COUNT(list) (sizeof(list) / sizeof *(list))

enum { RUN_DEPTH = 3 }; /* lists of runs inside one another */

int page_field(lua_State *L, int index, const char *key)
{
    index = lua_absindex(L, index);
    lua_pushstring(L, key);
    return lua_rawget(L, index);
}

void page_keys(lua_State *L, int index, const char *what, const char *const *keys,
               size_t count)
{
    index = lua_absindex(L, index);
    luaL_checkstack(L, 4, NULL);
    for (lua_pushnil(L); lua_next(L, index) != 0; lua_pop(L, 1)) {
        if (lua_type(L, -2) != LUA_TSTRING)
            continue;
        size_t length, i = 0;
        const char *key = lua_tolstring(L, -2, &length);
        while (i < count && strcmp(keys[i], key) != 0)
            i++;
        if (i < count)
            continue;
        struct suggest s = suggest_for(key, length);
        for (i = 0; i < count; i++)
            suggest_offer(&s, keys[i]);
        const char *hint = NULL;
        if (s.best != NULL)
            hint = lua_pushfstring(L, "did you mean `%s`?", s.best);
        fault_say(L, "page-key", hint, "%s of a paper knows no `%s`", what, key);
    }
}

int page_choice(lua_State *L, int index, const char *key, const char *const *names,
                int count, int otherwise)
{
    int found = -1;
    page_field(L, index, key);
    if (lua_isnil(L, -1))
        found = otherwise;
    for (int i = 0; i < count && lua_type(L, -1) == LUA_TSTRING; i++) {
        if (strcmp(lua_tostring(L, -1), names[i]) == 0)
            found = i;
    }
    if (found < 0) {
        luaL_Buffer all;
        luaL_buffinit(L, &all);
        for (int i = 0; i < count; i++) {
            luaL_addstring(&all, i == 0 ? "\"" : i + 1 == count ? " or \"" : ", \"");
            luaL_addstring(&all, names[i]);
            luaL_addstring(&all, "\"");
        }
        luaL_pushresult(&all);
        fault_say(L, "page-value", NULL, "`%s` is one of %s", key, lua_tostring(L, -1));
    }
    lua_pop(L, 1);
    return found;
}

static void put_buf(struct buf *text, struct doc *d)
{
    if (text->failed)
        doc_fail(d);
    else
        doc_text(d, text->data, text->length);
    buf_clear(text);
}

/* A bare number reads as papers print one. */
static void put_number(lua_State *L, int index, struct doc *d)
{
    struct buf text;
    buf_init(&text);
    num_trade(&text, lua_tonumber(L, index));
    put_buf(&text, d);
}

static void put_day(struct month_day day, struct doc *d)
{
    struct buf text;
    buf_init(&text);
    month_day_print(day, &text);
    put_buf(&text, d);
}

static void put_window(struct yearly days, struct doc *d)
{
    struct buf text;
    buf_init(&text);
    yearly_print(days, &text);
    put_buf(&text, d);
}

__attribute__((noreturn)) static void refuse_run(lua_State *L, int index)
{
    static const char hint[] = "write a text, a number, a measure, a date, "
                               "{ strong = text }, { value = measure } or "
                               "{ bare = measure }";
    fault_say(L, "page-run", hint, "a paper cannot print a %s", luaL_typename(L, index));
}

/* { bare = measure }, { bare = measure, spread = true }: without the unit. */
static void put_bare(lua_State *L, int table, struct qty q, struct doc *d)
{
    int kind = page_field(L, table, "spread");
    bool spread = lua_toboolean(L, -1);
    lua_pop(L, 1);
    if (!qty_is(q) || (kind != LUA_TNIL && kind != LUA_TBOOLEAN))
        refuse_run(L, table);
    if (d != NULL)
        doc_bare(d, q, spread);
}

/* { strong = text }, { value = measure } or { bare = measure } at the top of the stack. */
static void put_marked(lua_State *L, struct doc *d)
{
    static const char *const keys[] = { "strong", "value", "bare", "spread" };
    int table = lua_gettop(L);
    size_t length;
    page_keys(L, table, "a run", keys, COUNT(keys));
    int strong = page_field(L, table, "strong"), value = page_field(L, table, "value");
    int bare = page_field(L, table, "bare"), spread = page_field(L, table, "spread");
    struct qty q = measure_at(L, value == LUA_TNIL ? table + 3 : table + 2);
    int said = (strong != LUA_TNIL) + (value != LUA_TNIL) + (bare != LUA_TNIL);
    if (said != 1 || (spread != LUA_TNIL && bare == LUA_TNIL))
        refuse_run(L, table);
    if (bare != LUA_TNIL)
        put_bare(L, table, q, d);
    else if (strong != LUA_TSTRING && !qty_is(q))
        refuse_run(L, table);
    else if (d != NULL && strong == LUA_TSTRING) {
        const char *text = lua_tolstring(L, table + 1, &length);
        doc_strong(d, text, length);
    } else if (d != NULL) {
        doc_figure(d, q, false);
    }
    lua_settop(L, table);
}

/* A measure, date, day or window at the top of the stack. */
static void put_value(lua_State *L, struct doc *d)
{
    struct qty q = measure_at(L, -1);
    struct date when;
    struct month_day day;
    struct yearly days;
    if (qty_is(q)) {
        if (d != NULL)
            doc_figure(d, q, true);
    } else if (date_at(L, -1, &when)) {
        if (d != NULL)
            doc_date(d, when);
    } else if (day_at(L, -1, &day)) {
        if (d != NULL)
            put_day(day, d);
    } else if (window_at(L, -1, &days)) {
        if (d != NULL)
            put_window(days, d);
    } else {
        refuse_run(L, -1);
    }
}

static void put_run(lua_State *L, struct doc *d, int depth);

static void put_list(lua_State *L, struct doc *d, int depth)
{
    int table = lua_gettop(L);
    lua_Unsigned count = lua_rawlen(L, table);
    if (depth == 0)
        fault_say(L, "page-run", "take the inner braces away",
                  "runs of text lie %d lists deep", RUN_DEPTH + 1);
    for (lua_Unsigned i = 1; i <= count; i++) {
        lua_rawgeti(L, table, (lua_Integer)i);
        put_run(L, d, depth - 1);
        lua_pop(L, 1);
    }
}

/* The run at the top of the stack. */
static void put_run(lua_State *L, struct doc *d, int depth)
{
    size_t length;
    luaL_checkstack(L, 8, NULL);
    switch (lua_type(L, -1)) {
    case LUA_TSTRING: {
        const char *text = lua_tolstring(L, -1, &length);
        if (d != NULL)
            doc_text(d, text, length);
        return;
    }
    case LUA_TNUMBER:
        if (d != NULL)
            put_number(L, -1, d);
        return;
    case LUA_TTABLE:
        if (lua_rawlen(L, -1) == 0 && (lua_pushnil(L), lua_next(L, -2)) != 0) {
            lua_pop(L, 2);
            put_marked(L, d);
        } else {
            put_list(L, d, depth);
        }
        return;
    default: put_value(L, d);
    }
}

void page_runs(lua_State *L, int index, struct doc *d)
{
    if (lua_isnoneornil(L, index))
        return;
    lua_pushvalue(L, index);
    put_run(L, d, RUN_DEPTH);
    lua_pop(L, 1);
}
