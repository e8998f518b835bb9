/* What can be asked of one measure, as methods (width:number "ft") and, some, as
 * functions of the vocabulary (number(width, "ft")). */
#include <lauxlib.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/buf.h"
#include "base/num.h"
#include "base/suggest.h"
#include "bind/measure_inner.h"
#include "lang/host.h"
#include "lang/limits.h"
#include "lang/raise.h"
#include "quantity/spread.h"

enum { SPREAD_TICKS = 20000 };

/* ---- units ---- */

/* Its address is the registry's key of a table: by the text of a unit, the unit. What a
 * text says is read once; units are added, never changed. */
static const char units_key;

static void push_units(lua_State *L)
{
    if (lua_rawgetp(L, LUA_REGISTRYINDEX, &units_key) == LUA_TTABLE)
        return;
    lua_pop(L, 1);
    lua_newtable(L);
    lua_pushvalue(L, -1);
    lua_rawsetp(L, LUA_REGISTRYINDEX, &units_key);
}

static struct unit_id read_unit(lua_State *L, int index)
{
    size_t length;
    struct unit_id unit;
    struct fault f = { .id = NULL };
    const char *text = lua_tolstring(L, index, &length);
    if (!units_find(host_of(L)->units, text, length, &unit, &f))
        fault_raise(L, &f);
    return unit;
}

struct unit_id measure_unit(lua_State *L, int index)
{
    struct unit_id unit;
    if (lua_type(L, index) != LUA_TSTRING) {
        char words[80];
        operand_words(L, index, words, sizeof words);
        fault_say(L, "unit-missing", "number(width, \"ft\")",
                  "a unit in quotes is wanted here, this is %s", words);
    }
    index = lua_absindex(L, index);
    push_units(L);
    lua_pushvalue(L, index);
    if (lua_rawget(L, -2) == LUA_TNUMBER) {
        unit.i = (uint16_t)lua_tointeger(L, -1);
    } else {
        unit = read_unit(L, index);
        lua_pushvalue(L, index);
        lua_pushinteger(L, (lua_Integer)unit.i);
        lua_rawset(L, -4);
    }
    lua_pop(L, 2);
    return unit;
}

bool measure_fits(lua_State *L, struct qty q, struct unit_id unit)
{
    const struct host *host = host_of(L);
    struct unit_id own = graph_unit(host->graph, q);
    return own.i == unit.i ||
           (dim_equal(graph_dim(host->graph, q), unit_dim(host->units, unit)) &&
            unit_is_per_land(host->units, own) == unit_is_per_land(host->units, unit));
}

static void check_fits(lua_State *L, struct qty q, struct unit_id unit)
{
    const struct host *host = host_of(L);
    if (measure_fits(L, q, unit))
        return;
    char words[80], kind[80];
    struct buf b;
    measure_text(L, q, words, sizeof words);
    buf_init(&b);
    unit_says(host->units, graph_unit(host->graph, q), &b);
    snprintf(kind, sizeof kind, "%s", b.data);
    buf_clear(&b);
    fault_say(L, "dimension-say", NULL, "%s is %s and cannot be said in %s", words, kind,
              unit_name(host->units, unit, false));
}

struct qty measure_check(lua_State *L, int index, struct unit_id unit)
{
    struct qty q = measure_at(L, index);
    if (!qty_is(q)) {
        char words[80];
        operand_words(L, index, words, sizeof words);
        fault_say(L, "operand-kind", NULL, "a measure in %s is wanted here, this is %s",
                  unit_name(host_of(L)->units, unit, false), words);
    }
    check_fits(L, q, unit);
    return q;
}

static struct qty self(lua_State *L)
{
    struct qty q = measure_at(L, 1);
    if (!qty_is(q))
        fault_say(L, "operand-kind", "width:number \"ft\", with a colon",
                  "this works on a measure");
    return q;
}

/* Without a unit named, only what is a bare number (a percent too) has an answer. */
static struct unit_id number_unit(lua_State *L, struct qty q, int index)
{
    struct unit_id unit = UNIT_NUMBER;
    if (!lua_isnoneornil(L, index))
        unit = measure_unit(L, index);
    else if (!measure_fits(L, q, unit))
        fault_say(L, "unit-missing", "number(width, \"ft\")",
                  "say in which unit the number is wanted");
    check_fits(L, q, unit);
    return unit;
}

int push_number(lua_State *L, struct qty q, int index)
{
    struct unit_id unit = number_unit(L, q, index);
    lua_pushnumber(L, graph_value_in(host_of(L)->graph, q, unit));
    return 1;
}

int push_count(lua_State *L, struct qty q, int index)
{
    struct unit_id unit = number_unit(L, q, index);
    double value = graph_value_in(host_of(L)->graph, q, unit), whole = round(value);
    if (fabs(value - whole) > 1e-9 * fmax(1, fabs(whole)) || fabs(whole) > 9e15) {
        char words[80];
        measure_text(L, q, words, sizeof words);
        fault_say(L, "count-whole", "ceil(x) or floor(x) first", "%s is no whole count",
                  words);
    }
    lua_pushinteger(L, (lua_Integer)whole);
    return 1;
}

/* ---- methods ---- */

static int method_number(lua_State *L)
{
    return push_number(L, self(L), 2);
}
static int method_count(lua_State *L)
{
    return push_count(L, self(L), 2);
}

/* The same quantity, said in another unit. */
static int method_say(lua_State *L)
{
    struct fault f = { .id = NULL };
    struct qty q = self(L);
    struct unit_id unit = measure_unit(L, 2);
    check_fits(L, q, unit);
    measure_result(L, graph_say_in(host_of(L)->graph, q, unit, &f), &f);
    return 1;
}

/* The same quantity under a name, as `why` tells it. */
static int method_named(lua_State *L)
{
    struct fault f = { .id = NULL };
    struct graph *g = host_of(L)->graph;
    struct qty q = self(L);
    const char *name = luaL_checkstring(L, 2);
    struct origin from = measure_origin(L, NULL);
    q = graph_hold(g, q, &f);
    if (!graph_name(g, &q, name, from, &f)) {
        graph_release(g, q);
        fault_raise(L, &f);
    }
    measure_push(L, q);
    return 1;
}

/* The 10th or 90th percentile, as a bare number. */
static int push_percentile(lua_State *L, bool high)
{
    struct fault f = { .id = NULL };
    struct qty q = self(L);
    struct spread s;
    struct unit_id unit = number_unit(L, q, 2);
    if (graph_is_uncertain(host_of(L)->graph, q))
        limits_charge(L, SPREAD_TICKS);
    if (!spread_of(host_of(L)->graph, &q, 1, &s, &f))
        fault_raise(L, &f);
    lua_pushnumber(L, (high ? s.high : s.low) / unit_factor(host_of(L)->units, unit));
    return 1;
}

static int method_low(lua_State *L)
{
    return push_percentile(L, false);
}
static int method_high(lua_State *L)
{
    return push_percentile(L, true);
}

/* A text that equal measures have in common, for keys of tables: "15 ft" also for 180 in.
 *  */
static int method_key(lua_State *L)
{
    const struct host *host = host_of(L);
    struct qty q = self(L);
    struct unit_id own = graph_unit(host->graph, q);
    struct unit_id usual = unit_usual(host->units, graph_dim(host->graph, q));
    bool per_land = unit_is_per_land(host->units, own);
    double value =
        per_land ? graph_value(host->graph, q) : graph_value_in(host->graph, q, usual);
    char text[160];
    struct buf b;
    buf_init(&b);
    num_data(&b, value);
    buf_putc(&b, ' ');
    if (per_land) /* its dimension does not tell it from a plain one */
        unit_says(host->units, own, &b);
    else
        buf_puts(&b, unit_name(host->units, usual, false));
    snprintf(text, sizeof text, "%s", b.data);
    buf_clear(&b);
    lua_pushstring(L, text);
    return 1;
}

static const luaL_Reg methods[] = {
    { "count", method_count }, { "high", method_high },
    { "key", method_key },     { "low", method_low },
    { "named", method_named }, { "number", method_number },
    { "say", method_say },     { NULL, NULL }
};

/* Upvalue 1: the methods. */
int measure_index(lua_State *L)
{
    lua_pushvalue(L, 2);
    if (lua_rawget(L, lua_upvalueindex(1)) != LUA_TNIL)
        return 1;
    char words[80];
    const char *key = lua_type(L, 2) == LUA_TSTRING ? lua_tostring(L, 2) : "that";
    struct suggest s = suggest_for(key, strlen(key));
    for (const luaL_Reg *m = methods; m->name; m++)
        suggest_offer(&s, m->name);
    measure_text(L, measure_at(L, 1), words, sizeof words);
    if (lua_type(L, 2) != LUA_TSTRING)
        fault_say(L, "measure-part", "number(width, \"ft\") is the bare number",
                  "a measure (%s) is no list and has no parts", words);
    char hint[80];
    snprintf(hint, sizeof hint, "did you mean `%s`?", s.best ? s.best : "number");
    fault_say(L, "measure-part",
              s.best ? hint : "number(width, \"ft\") is the bare number",
              "a measure (%s) has no `%s`", words, key);
}

void measure_methods(lua_State *L)
{
    luaL_setfuncs(L, methods, 0);
}
