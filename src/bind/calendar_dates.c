/* Dates as values of a script. */
#include <math.h>
#include <string.h>

#include "base/fault.h"
#include "bind/calendar_inner.h"
#include "bind/measure_inner.h"
#include "lang/host.h"
#include "lang/raise.h"

static struct unit_id unit_of(lua_State *L, const char *name)
{
    struct unit_id unit = UNIT_NUMBER;
    struct fault f = { .id = NULL };
    if (!units_find(host_of(L)->units, name, strlen(name), &unit, &f))
        fault_raise(L, &f);
    return unit;
}

/* Months go by the calendar, everything else by days. */
static void push_moved(lua_State *L, struct date d, struct qty by, int direction,
                       const char *symbol)
{
    struct fault f = { .id = NULL };
    const struct graph *g = host_of(L)->graph;
    struct unit_id day = unit_of(L, "d"), month = unit_of(L, "mo"),
                   said = graph_unit(g, by);
    char words[80];
    measure_text(L, by, words, sizeof words);
    if (!measure_fits(L, by, day)) {
        fault_set(&f, "date-move", SPAN_NONE, "a date does not move by %s", words);
        fault_hint(&f, "a time that passes: d, wk, mo or yr");
        operator_fault(L, &f, symbol);
    }
    if (graph_is_uncertain(g, by)) {
        fault_set(&f, "date-move", SPAN_NONE,
                  "a date does not move by an uncertain time, %s", words);
        fault_hint(&f, "say one time, or `wait = 3 to 6 wk` in an act");
        operator_fault(L, &f, symbol);
    }
    double months = graph_value_in(g, by, month), days = graph_value_in(g, by, day);
    bool by_months = (said.i == month.i || said.i == unit_of(L, "yr").i) &&
                     fabs(months - round(months)) < 1e-9 * fmax(1, fabs(months));
    double steps = by_months ? months : days;
    if (fabs(steps - round(steps)) > 1e-9 * fmax(1, fabs(steps))) {
        fault_set(&f, "date-move", SPAN_NONE, "a date moves by whole days, not by %s",
                  words);
        operator_fault(L, &f, symbol);
    }
    /* more than the calendar holds, and still an int */
    int whole = (int)round(fmax(-1e6, fmin(1e6, steps))) * direction;
    bool moved =
        by_months ? date_add_months(d, whole, &d, &f) : date_add_days(d, whole, &d, &f);
    if (!moved)
        operator_fault(L, &f, symbol);
    date_push(L, d);
}

static int date_add(lua_State *L)
{
    struct date d;
    int date_first = date_at(L, 1, &d);
    struct qty by = measure_at(L, date_first ? 2 : 1);
    if (!qty_is(by) || (!date_first && !date_at(L, 2, &d)))
        calendar_refuse(L, "+");
    push_moved(L, d, by, 1, "+");
    return 1;
}

static int date_subtract(lua_State *L)
{
    struct date a, b;
    struct fault f = { .id = NULL };
    struct qty by = measure_at(L, 2);
    if (!date_at(L, 1, &a))
        calendar_refuse(L, "-");
    if (qty_is(by)) {
        push_moved(L, a, by, -1, "-");
        return 1;
    }
    if (!date_at(L, 2, &b))
        calendar_refuse(L, "-");
    measure_result(L,
                   graph_leaf(host_of(L)->graph, a.day - b.day, unit_of(L, "d"),
                              measure_origin(L, "days between two dates"), &f),
                   &f);
    return 1;
}

static int date_equal(lua_State *L)
{
    struct date a, b;
    lua_pushboolean(L, date_at(L, 1, &a) && date_at(L, 2, &b) && a.day == b.day);
    return 1;
}

static int date_less(lua_State *L)
{
    struct date a, b;
    if (!date_at(L, 1, &a) || !date_at(L, 2, &b))
        calendar_refuse(L, "<");
    lua_pushboolean(L, a.day < b.day);
    return 1;
}

static int date_less_equal(lua_State *L)
{
    struct date a, b;
    if (!date_at(L, 1, &a) || !date_at(L, 2, &b))
        calendar_refuse(L, "<=");
    lua_pushboolean(L, a.day <= b.day);
    return 1;
}

static const char *const parts_of_date[] = { "year", "month", "day", "weekday", NULL };

/* d.year, d.month, d.day, d.weekday (1 Monday to 7 Sunday). */
static int date_index(lua_State *L)
{
    struct date d;
    const char *key = lua_type(L, 2) == LUA_TSTRING ? lua_tostring(L, 2) : "";
    if (!date_at(L, 1, &d))
        return 0;
    struct civil c = date_civil(d);
    if (strcmp(key, "year") == 0)
        lua_pushinteger(L, c.year);
    else if (strcmp(key, "month") == 0)
        lua_pushinteger(L, c.month);
    else if (strcmp(key, "day") == 0)
        lua_pushinteger(L, c.day);
    else if (strcmp(key, "weekday") == 0)
        lua_pushinteger(L, date_weekday(d));
    else
        return calendar_method(L, parts_of_date);
    return 1;
}

/* date(2026, 10, 14) */
static int word_date(lua_State *L)
{
    struct fault f = { .id = NULL };
    struct date d;
    lua_Integer part[3];
    for (int i = 0; i < 3; i++) {
        part[i] = luaL_checkinteger(L, i + 1);
        if (part[i] > 100000 || part[i] < -100000)
            part[i] = 100000;
    }
    if (!date_make((int)part[0], (int)part[1], (int)part[2], &d, &f))
        fault_raise(L, &f);
    date_push(L, d);
    return 1;
}

void calendar_dates(lua_State *L)
{
    static const luaL_Reg operators[] = {
        { "__add", date_add }, { "__sub", date_subtract },  { "__eq", date_equal },
        { "__lt", date_less }, { "__le", date_less_equal }, { NULL, NULL }
    };
    static const luaL_Reg none[] = { { NULL, NULL } };
    static const luaL_Reg functions[] = { { "date", word_date }, { NULL, NULL } };
    calendar_kind(L, "date", &calendar_date_key, date_index, operators, none);
    luaL_setfuncs(L, functions, 0);
}
