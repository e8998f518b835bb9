/* The functions of the vocabulary that make measures or take them. Where a library
 * function of the same name exists (math.max), bare numbers still go to that one. */
#include <lauxlib.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "bind/measure_inner.h"
#include "lang/host.h"
#include "lang/limits.h"
#include "lang/load.h"
#include "lang/raise.h"
#include "lang/sandbox.h"
#include "quantity/spread.h"

enum { CHANCE_TICKS = 20000 };

/* Its address is the registry's key of how often range() was called on each line. */
static const char ranges_key;

static void check_operand(lua_State *L, int index, const char *function)
{
    if (lua_type(L, index) == LUA_TNUMBER || qty_is(measure_at(L, index)))
        return;
    char words[80];
    operand_words(L, index, words, sizeof words);
    fault_say(L, "operand-kind", NULL, "`%s` takes measures and numbers, this is %s",
              function, words);
}

/* measure(n, "ft") */
static int word_measure(lua_State *L)
{
    struct fault f = { .id = NULL };
    if (lua_type(L, 1) != LUA_TNUMBER) {
        char words[80];
        operand_words(L, 1, words, sizeof words);
        fault_say(L, "operand-kind", "measure(3, \"ft\")",
                  "`measure` takes a bare number and a unit, this is %s", words);
    }
    struct unit_id unit = measure_unit(L, 2);
    measure_result(L,
                   graph_leaf(measure_graph(L), lua_tonumber(L, 1), unit,
                              measure_origin(L, NULL), &f),
                   &f);
    return 1;
}

/* number(m, "ft"), count(m, "plants"): a bare number is its own. */
static int word_number(lua_State *L)
{
    check_operand(L, 1, "number");
    if (lua_type(L, 1) != LUA_TNUMBER)
        return push_number(L, measure_at(L, 1), 2);
    lua_settop(L, 1);
    return 1;
}

static int word_count(lua_State *L)
{
    check_operand(L, 1, "count");
    return push_count(L, operand_at(L, 1), 2);
}

/* ---- ranges ---- */

/* How often this line has been here, from 0: part of the key of its draws. */
static uint32_t occurrence(lua_State *L, struct span at)
{
    lua_Integer line = (lua_Integer)((uint64_t)at.source << 32 | at.at);
    if (lua_rawgetp(L, LUA_REGISTRYINDEX, &ranges_key) != LUA_TTABLE) {
        lua_pop(L, 1);
        lua_newtable(L);
        lua_pushvalue(L, -1);
        lua_rawsetp(L, LUA_REGISTRYINDEX, &ranges_key);
    }
    lua_rawgeti(L, -1, line);
    lua_Integer times = lua_tointeger(L, -1);
    lua_pushinteger(L, times + 1);
    lua_rawseti(L, -3, line);
    lua_pop(L, 2);
    return (uint32_t)times;
}

/* One of low, high, around: a bare number, or a certain measure when `like` is one. */
static double range_end(lua_State *L, int index, struct unit_id *unit, bool *measured)
{
    struct qty q = measure_at(L, index);
    if (!qty_is(q) && lua_type(L, index) == LUA_TNUMBER && !(index > 1 && *measured))
        return lua_tonumber(L, index);
    if (!qty_is(q) || (index > 1 && !*measured)) {
        char words[80];
        operand_words(L, index, words, sizeof words);
        fault_say(L, "range-ends", "range(2, 3, \"h\"), or range(2 h, 3 h)",
                  "the ends of a range are two numbers or two measures, this is %s",
                  words);
    }
    if (graph_is_uncertain(measure_graph(L), q))
        fault_say(L, "range-ends", NULL,
                  "the ends of a range cannot be ranges themselves");
    if (index == 1)
        *unit = graph_unit(measure_graph(L), q);
    *measured = true;
    measure_check(L, index, *unit);
    return graph_value_in(measure_graph(L), q, *unit);
}

/* range(low, high [, around] [, unit]) */
static int word_range(lua_State *L)
{
    struct fault f = { .id = NULL };
    struct unit_id unit = UNIT_NUMBER;
    bool measured = false;
    int top = lua_gettop(L);
    if (top > 2 && lua_type(L, top) == LUA_TSTRING && !qty_is(measure_at(L, 1)))
        unit = measure_unit(L, top--);
    double low = range_end(L, 1, &unit, &measured),
           high = range_end(L, 2, &unit, &measured);
    double around = low + (high - low) / 2;
    if (top > 2 && !lua_isnil(L, 3))
        around = range_end(L, 3, &unit, &measured);
    struct origin from = measure_origin(L, NULL);
    uint64_t key;
    if (!load_draw_key(host_of(L), from.at, false, occurrence(L, from.at), &key, &f))
        fault_raise(L, &f);
    measure_result(
        L, graph_range(measure_graph(L), low, around, high, unit, key, from, &f), &f);
    return 1;
}

/* chance(a, b): that a exceeds b, as a percent. */
static int word_chance(lua_State *L)
{
    struct fault f = { .id = NULL };
    double chance;
    struct unit_id percent;
    check_operand(L, 1, "chance");
    check_operand(L, 2, "chance");
    struct qty a = operand_at(L, 1), b = operand_at(L, 2);
    limits_charge(L, CHANCE_TICKS);
    if (!spread_chance(measure_graph(L), a, b, &chance, &f) ||
        !units_find(host_of(L)->units, "percent", 7, &percent, &f))
        fault_raise(L, &f);
    struct origin from = measure_origin(L, "chance that one exceeds the other");
    measure_result(L, graph_leaf(measure_graph(L), chance * 100, percent, from, &f), &f);
    return 1;
}

/* same(a, b, within): no further apart than that; without `within`, equal as printed. */
static int word_same(lua_State *L)
{
    struct fault f = { .id = NULL };
    struct graph *g = measure_graph(L);
    int order;
    lua_settop(L, 3);
    for (int i = 1; i <= 3; i++) {
        if (i < 3 || !lua_isnil(L, i))
            check_operand(L, i, "same");
    }
    struct qty a = operand_at(L, 1), b = operand_at(L, 2);
    bool within = !lua_isnil(L, 3);
    struct qty apart = within ? operand_at(L, 3) : QTY_NONE;
    if (!graph_compare(g, a, b, &order, &f) ||
        (within && !graph_fits(g, a, apart, "compare", &f)))
        fault_raise(L, &f);
    bool same = order == 0;
    if (within)
        same = fabs(graph_value(g, a) - graph_value(g, b)) <=
               graph_value(g, apart) * (1 + 1e-12);
    lua_pushboolean(L, same);
    return 1;
}

/* ---- of several ---- */

static bool any_measure(lua_State *L)
{
    for (int i = lua_gettop(L); i > 0; i--) {
        if (qty_is(measure_at(L, i)))
            return true;
    }
    return false;
}

static int original(lua_State *L)
{
    return lua_tocfunction(L, lua_upvalueindex(1))(L);
}

static int extreme(lua_State *L, const char *function,
                   struct qty (*pick)(struct graph *, struct qty, struct qty,
                                      struct fault *))
{
    if (!any_measure(L))
        return original(L);
    struct fault f = { .id = NULL };
    int n = lua_gettop(L);
    limits_charge(L, (uint64_t)n);
    check_operand(L, 1, function);
    operand_at(L, 1);
    for (int i = 2; i <= n; i++) {
        check_operand(L, i, function);
        struct qty b = operand_at(L, i);
        measure_result(L, pick(measure_graph(L), measure_at(L, 1), b, &f), &f);
        lua_replace(L, 1);
    }
    lua_settop(L, 1);
    return 1;
}

static int word_min(lua_State *L)
{
    return extreme(L, "min", graph_min);
}
static int word_max(lua_State *L)
{
    return extreme(L, "max", graph_max);
}

/* Leaves a table of the summands at 1: of a list, or of the arguments. */
static lua_Integer summands(lua_State *L)
{
    int n = lua_gettop(L);
    if (n == 1 && lua_istable(L, 1)) {
        lua_Integer length = (lua_Integer)lua_rawlen(L, 1);
        limits_charge(L, (uint64_t)length);
        lua_createtable(L, length < 1 << 20 ? (int)length : 0, 0);
        for (lua_Integer i = 1; i <= length; i++) {
            lua_geti(L, 1, i);
            lua_rawseti(L, 2, i);
        }
        lua_replace(L, 1);
        return length;
    }
    lua_createtable(L, n, 0);
    lua_insert(L, 1);
    for (int i = n; i >= 1; i--)
        lua_rawseti(L, 1, i);
    return n;
}

/* sum(a, b, ...) or sum { ... }: one sum, of measures, or of bare numbers. */
static int word_sum(lua_State *L)
{
    struct fault f = { .id = NULL };
    lua_Integer n = summands(L);
    bool measured = false;
    limits_charge(L, (uint64_t)n * 4);
    for (lua_Integer i = 1; i <= n; i++) {
        lua_rawgeti(L, 1, i);
        check_operand(L, -1, "sum");
        measured = measured || lua_type(L, -1) != LUA_TNUMBER;
        lua_pop(L, 1);
    }
    if (!measured) {
        lua_pushinteger(L, 0);
        for (lua_Integer i = 1; i <= n; i++) {
            lua_rawgeti(L, 1, i);
            lua_arith(L, LUA_OPADD);
        }
        return 1;
    }
    struct qty *terms = lua_newuserdatauv(L, (size_t)n * sizeof *terms, 0);
    for (lua_Integer i = 1; i <= n; i++) {
        lua_rawgeti(L, 1, i);
        terms[i - 1] = operand_at(L, -1);
        lua_rawseti(L, 1, i); /* the table keeps those made of numbers */
    }
    measure_result(L, graph_sum(measure_graph(L), terms, (size_t)n, &f), &f);
    return 1;
}

/* ---- of one ---- */

/* ceil(m [, unit]), floor likewise: to a whole number of the unit it is said in. */
static int rounded(lua_State *L, struct qty (*round_to)(struct graph *, struct qty,
                                                        struct unit_id, struct fault *))
{
    struct fault f = { .id = NULL };
    struct qty q = measure_at(L, 1);
    if (!qty_is(q))
        return original(L);
    struct unit_id unit = graph_unit(measure_graph(L), q);
    if (!lua_isnoneornil(L, 2)) {
        unit = measure_unit(L, 2);
        measure_check(L, 1, unit);
    }
    measure_result(L, round_to(measure_graph(L), q, unit, &f), &f);
    return 1;
}

static int word_ceil(lua_State *L)
{
    return rounded(L, graph_ceil);
}
static int word_floor(lua_State *L)
{
    return rounded(L, graph_floor);
}

static int word_sqrt(lua_State *L)
{
    struct fault f = { .id = NULL };
    struct qty q = measure_at(L, 1);
    if (!qty_is(q))
        return original(L);
    measure_result(L, graph_power(measure_graph(L), q, 1, 2, &f), &f);
    return 1;
}

/* The greater of x and -x: right in every draw, not only at the likely value. */
static int word_abs(lua_State *L)
{
    struct fault f = { .id = NULL };
    struct qty q = measure_at(L, 1);
    if (!qty_is(q))
        return original(L);
    measure_result(L, graph_negate(measure_graph(L), q, &f), &f);
    measure_result(L, graph_max(measure_graph(L), q, measure_at(L, -1), &f), &f);
    return 1;
}

static int word_key(lua_State *L)
{
    if (!qty_is(measure_at(L, 1))) {
        lua_settop(L, 1);
        return 1;
    }
    lua_getfield(L, 1, "key");
    lua_pushvalue(L, 1);
    lua_call(L, 1, 1);
    return 1;
}

void measure_functions(lua_State *L)
{
    static const luaL_Reg functions[] = {
        { "chance", word_chance },   { "count", word_count },   { "key", word_key },
        { "measure", word_measure }, { "number", word_number }, { "range", word_range },
        { "same", word_same },       { "sum", word_sum },       { NULL, NULL }
    };
    static const luaL_Reg wider[] = { { "abs", word_abs },     { "ceil", word_ceil },
                                      { "floor", word_floor }, { "max", word_max },
                                      { "min", word_min },     { "sqrt", word_sqrt },
                                      { NULL, NULL } };
    luaL_setfuncs(L, functions, 0);
    sandbox_library(L, "math");
    for (const luaL_Reg *w = wider; w->name; w++) {
        lua_getfield(L, -1, w->name);
        lua_pushcclosure(L, w->func, 1); /* upvalue: Lua's own */
        lua_pushvalue(L, -1);
        lua_setfield(L, -3, w->name);
        lua_setfield(L, -3, w->name);
    }
    lua_pop(L, 1);
}
