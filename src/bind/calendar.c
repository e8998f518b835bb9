#include "bind/calendar.h"

#include <lauxlib.h>
#include <lua.h>
#include <stdio.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/suggest.h"
#include "bind/calendar_inner.h"
#include "bind/measure_inner.h"
#include "lang/raise.h"
#include "lang/sandbox.h"

const char calendar_date_key, calendar_day_key, calendar_window_key;

/* ---- the values ---- */

static void push(lua_State *L, const void *key, const void *value, size_t size)
{
    memcpy(lua_newuserdatauv(L, size, 0), value, size);
    lua_rawgetp(L, LUA_REGISTRYINDEX, key);
    lua_setmetatable(L, -2);
}

static bool read(lua_State *L, int index, const void *key, void *out, size_t size)
{
    const void *value = lua_touserdata(L, index);
    if (!value || !lua_getmetatable(L, index))
        return false;
    lua_rawgetp(L, LUA_REGISTRYINDEX, key);
    bool is = lua_rawequal(L, -1, -2);
    lua_pop(L, 2);
    if (is)
        memcpy(out, value, size);
    return is;
}

void date_push(lua_State *L, struct date d)
{
    push(L, &calendar_date_key, &d, sizeof d);
}
void day_push(lua_State *L, struct month_day d)
{
    push(L, &calendar_day_key, &d, sizeof d);
}
void window_push(lua_State *L, struct yearly w)
{
    push(L, &calendar_window_key, &w, sizeof w);
}

bool date_at(lua_State *L, int index, struct date *out)
{
    return read(L, index, &calendar_date_key, out, sizeof *out);
}

bool day_at(lua_State *L, int index, struct month_day *out)
{
    return read(L, index, &calendar_day_key, out, sizeof *out);
}

bool window_at(lua_State *L, int index, struct yearly *out)
{
    return read(L, index, &calendar_window_key, out, sizeof *out);
}

void calendar_words(lua_State *L, int index, char *out, size_t size)
{
    struct date d;
    struct month_day m;
    struct yearly w;
    struct buf b;
    buf_init(&b);
    const char *what = NULL;
    if (date_at(L, index, &d)) {
        what = "a date";
        date_print(d, DATE_PAPER, &b);
    } else if (day_at(L, index, &m)) {
        what = "a day";
        month_day_print(m, &b);
    } else if (window_at(L, index, &w)) {
        what = "a window";
        yearly_print(w, &b);
    }
    if (what)
        snprintf(out, size, "%s (%s)", what, b.data);
    buf_clear(&b);
    if (!what)
        operand_words(L, index, out, size);
}

void calendar_refuse(lua_State *L, const char *symbol)
{
    char left[160], right[160];
    struct fault f = { .id = NULL };
    calendar_words(L, 1, left, sizeof left);
    calendar_words(L, 2, right, sizeof right);
    bool compares = symbol[0] == '<';
    fault_set(&f, "operand-kind", SPAN_NONE,
              compares ? "cannot compare %s with %s" : "cannot work out %s %s %s", left,
              compares ? right : symbol, right);
    if (!compares && (lua_type(L, 1) == LUA_TNUMBER || lua_type(L, 2) == LUA_TNUMBER))
        fault_hint(&f, "days have a unit too: Oct 14 2026 + 3 d");
    else if (*symbol == '+')
        fault_hint(&f, "a date and a time that passes: Oct 14 2026 + 2 wk");
    operator_fault(L, &f, symbol);
}

int calendar_method(lua_State *L, const char *const *parts)
{
    lua_pushvalue(L, 2);
    if (lua_rawget(L, lua_upvalueindex(1)) != LUA_TNIL)
        return 1;
    char words[160], hint[100];
    const char *key = lua_type(L, 2) == LUA_TSTRING ? lua_tostring(L, 2) : "that";
    struct suggest s = suggest_for(key, strlen(key));
    for (; *parts; parts++)
        suggest_offer(&s, *parts);
    lua_pushnil(L);
    while (lua_next(L, lua_upvalueindex(1))) {
        lua_pop(L, 1);
        suggest_offer(&s, lua_tostring(L, -1)); /* keys are ours: all texts */
    }
    snprintf(hint, sizeof hint, "did you mean `%s`?", s.best ? s.best : "");
    calendar_words(L, 1, words, sizeof words);
    fault_say(L, "calendar-part", s.best ? hint : NULL, "%s has no `%s`", words, key);
}

static int closed(lua_State *L)
{
    char words[160];
    calendar_words(L, 1, words, sizeof words);
    fault_say(L, "calendar-part", "make a new one", "%s cannot be changed", words);
}

static int push_text(lua_State *L)
{
    char words[600], *open, *close;
    calendar_words(L, 1, words, sizeof words);
    open = strchr(words, '(');
    close = strrchr(words, ')');
    lua_pushlstring(L, open + 1, close ? (size_t)(close - open - 1) : strlen(open + 1));
    return 1;
}

void calendar_kind(lua_State *L, const char *name, const void *key, lua_CFunction index,
                   const luaL_Reg *operators, const luaL_Reg *methods)
{
    lua_createtable(L, 0, 12);
    luaL_setfuncs(L, operators, 0);
    lua_pushstring(L, name);
    lua_setfield(L, -2, "__name");
    lua_pushboolean(L, 0);
    lua_setfield(L, -2, "__metatable");
    lua_pushcfunction(L, push_text);
    lua_setfield(L, -2, "__tostring");
    lua_pushcfunction(L, closed);
    lua_setfield(L, -2, "__newindex");
    lua_newtable(L);
    luaL_setfuncs(L, methods, 0);
    lua_pushcclosure(L, index, 1);
    lua_setfield(L, -2, "__index");
    lua_rawsetp(L, LUA_REGISTRYINDEX, key);
}

void calendar_open(lua_State *L)
{
    sandbox_vocabulary(L);
    calendar_dates(L);
    calendar_year(L);
    lua_pop(L, 1);
}
