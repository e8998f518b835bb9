/* Days of any year, and windows: sets of such days. */
#include <string.h>

#include "base/fault.h"
#include "bind/calendar_inner.h"
#include "lang/raise.h"

static int day_order(lua_State *L, const char *symbol)
{
    struct month_day a, b;
    if (!day_at(L, 1, &a) || !day_at(L, 2, &b))
        calendar_refuse(L, symbol);
    return a.month != b.month ? a.month - b.month : a.day - b.day;
}

static int day_equal(lua_State *L)
{
    struct month_day a, b;
    lua_pushboolean(L, day_at(L, 1, &a) && day_at(L, 2, &b) && a.month == b.month &&
                           a.day == b.day);
    return 1;
}

static int day_less(lua_State *L)
{
    lua_pushboolean(L, day_order(L, "<") < 0);
    return 1;
}

static int day_less_equal(lua_State *L)
{
    lua_pushboolean(L, day_order(L, "<=") <= 0);
    return 1;
}

static const char *const parts_of_day[] = { "month", "day", NULL };

static int day_index(lua_State *L)
{
    struct month_day d;
    const char *key = lua_type(L, 2) == LUA_TSTRING ? lua_tostring(L, 2) : "";
    if (!day_at(L, 1, &d))
        return 0;
    if (strcmp(key, "month") == 0)
        lua_pushinteger(L, d.month);
    else if (strcmp(key, "day") == 0)
        lua_pushinteger(L, d.day);
    else
        return calendar_method(L, parts_of_day);
    return 1;
}

/* day:in_year(2027): the date. */
static int day_in_year(lua_State *L)
{
    struct fault f = { .id = NULL };
    struct month_day m;
    struct date d;
    if (!day_at(L, 1, &m))
        fault_say(L, "operand-kind", NULL, "this works on a day, such as Nov 15");
    lua_Integer year = luaL_checkinteger(L, 2);
    if (year > 100000 || year < -100000)
        year = 100000;
    if (!date_make((int)year, m.month, m.day, &d, &f))
        fault_raise(L, &f);
    date_push(L, d);
    return 1;
}

/* ---- windows ---- */

static int combine(lua_State *L, const char *symbol,
                   struct yearly (*of)(struct yearly, struct yearly))
{
    struct yearly a, b;
    if (!window_at(L, 1, &a) || !window_at(L, 2, &b))
        calendar_refuse(L, symbol);
    window_push(L, of(a, b));
    return 1;
}

static int window_add(lua_State *L)
{
    return combine(L, "+", yearly_or);
}
static int window_multiply(lua_State *L)
{
    return combine(L, "*", yearly_and);
}
static int window_subtract(lua_State *L)
{
    return combine(L, "-", yearly_minus);
}

static int window_equal(lua_State *L)
{
    struct yearly a, b;
    lua_pushboolean(L, window_at(L, 1, &a) && window_at(L, 2, &b) && yearly_equal(a, b));
    return 1;
}

static struct yearly self(lua_State *L)
{
    struct yearly w;
    if (!window_at(L, 1, &w))
        fault_say(L, "operand-kind", "season:has(d), with a colon",
                  "this works on a window");
    return w;
}

static struct date date_check(lua_State *L, int index)
{
    struct date d;
    char words[160];
    if (date_at(L, index, &d))
        return d;
    calendar_words(L, index, words, sizeof words);
    fault_say(L, "operand-kind", "a date has a year: Nov 15 2026",
              "a date is wanted here, this is %s", words);
}

/* window:has(date or day) */
static int window_has(lua_State *L)
{
    struct yearly w = self(L);
    struct month_day m;
    if (day_at(L, 2, &m))
        lua_pushboolean(L, yearly_has_day(w, m));
    else
        lua_pushboolean(L, yearly_has(w, date_check(L, 2)));
    return 1;
}

/* window:next(date): the first open day from then on, nil when there is none. */
static int window_next(lua_State *L)
{
    struct date d;
    if (yearly_next(self(L), date_check(L, 2), &d))
        date_push(L, d);
    else
        lua_pushnil(L);
    return 1;
}

/* window:days(from, to), window:weeks(from, to): how many are open. */
static int window_days(lua_State *L)
{
    lua_pushinteger(L, yearly_count(self(L), date_check(L, 2), date_check(L, 3)));
    return 1;
}

static int window_weeks(lua_State *L)
{
    lua_pushinteger(L, yearly_weeks_open(self(L), date_check(L, 2), date_check(L, 3)));
    return 1;
}

static int window_index(lua_State *L)
{
    static const char *const none[] = { NULL };
    return calendar_method(L, none);
}

/* window(from, to): of two days. */
static int word_window(lua_State *L)
{
    struct window w;
    if (!day_at(L, 1, &w.from) || !day_at(L, 2, &w.to))
        fault_say(L, "operand-kind", "window(Nov 15, Mar 31)",
                  "`window` takes two days of any year");
    window_push(L, yearly_of(w));
    return 1;
}

void calendar_year(lua_State *L)
{
    static const luaL_Reg day_operators[] = { { "__eq", day_equal },
                                              { "__lt", day_less },
                                              { "__le", day_less_equal },
                                              { NULL, NULL } };
    static const luaL_Reg window_operators[] = { { "__add", window_add },
                                                 { "__mul", window_multiply },
                                                 { "__sub", window_subtract },
                                                 { "__eq", window_equal },
                                                 { NULL, NULL } };
    static const luaL_Reg day_methods[] = { { "in_year", day_in_year }, { NULL, NULL } };
    static const luaL_Reg window_methods[] = { { "days", window_days },
                                               { "has", window_has },
                                               { "next", window_next },
                                               { "weeks", window_weeks },
                                               { NULL, NULL } };
    static const luaL_Reg functions[] = { { "window", word_window }, { NULL, NULL } };
    calendar_kind(L, "day", &calendar_day_key, day_index, day_operators, day_methods);
    calendar_kind(L, "window", &calendar_window_key, window_index, window_operators,
                  window_methods);
    luaL_setfuncs(L, functions, 0);
}
