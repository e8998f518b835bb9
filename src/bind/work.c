/* need "work": the built-in Lua's hand on the work room: spray mixes, seed, planting and
 * hours. Measures in, measures out; what is not known is left out (nil). */
#include <lauxlib.h>
#include <lua.h>

#include "base/fault.h"
#include "bind/measure.h"
#include "bind/rooms.h"
#include "lang/raise.h"
#include "work/labor.h"
#include "work/mixes.h"
#include "work/planting.h"
#include "work/seeding.h"

static struct qty need_measure(lua_State *L, int index)
{
    struct qty q = measure_at(L, index);
    if (!qty_is(q))
        luaL_argerror(L, index, "a measure is wanted");
    return q;
}

/* A measure, or QTY_NONE for nil. */
static struct qty may_measure(lua_State *L, int index)
{
    return lua_isnoneornil(L, index) ? QTY_NONE : need_measure(L, index);
}

/* Borrowed from the table, which the caller's stack keeps. */
static struct qty field(lua_State *L, int table, const char *key)
{
    lua_getfield(L, table, key);
    struct qty q = measure_at(L, -1);
    if (!qty_is(q) && !lua_isnil(L, -1))
        luaL_error(L, "`%s` is no measure", key);
    lua_pop(L, 1);
    return q;
}

static struct qty need_field(lua_State *L, int table, const char *key)
{
    struct qty q = field(L, table, key);
    if (!qty_is(q))
        luaL_error(L, "`%s` is wanted", key);
    return q;
}

struct part {
    const char *key;
    struct qty take;
};

/* Pushes a table of what is known. Running out of memory between two of them ends the run,
 * and with it the graph that holds the rest. */
static int push_parts(lua_State *L, const struct part *parts, int count)
{
    lua_createtable(L, 0, count);
    for (int i = 0; i < count; i++) {
        measure_push(L, parts[i].take);
        lua_setfield(L, -2, parts[i].key);
    }
    return 1;
}

static int give(lua_State *L, struct qty take, const struct fault *f)
{
    measure_result(L, take, f);
    return 1;
}

/* mix { area, rate, amount, share, product_rate, strength, tank, carrier }:
 * { finished, product, carrier, loads, spare, ingredient, ingredient_per_area } */
static int l_mix(lua_State *L)
{
    luaL_checktype(L, 1, LUA_TTABLE);
    lua_settop(L, 1);
    lua_getfield(L, 1, "carrier");
    struct mixes_wish wish = {
        .area = field(L, 1, "area"),
        .rate = need_field(L, 1, "rate"),
        .amount = field(L, 1, "amount"),
        .share = field(L, 1, "share"),
        .product_rate = field(L, 1, "product_rate"),
        .strength = field(L, 1, "strength"),
        .tank = field(L, 1, "tank"),
        .carrier = luaL_checkstring(L, 2),
    };
    luaL_argcheck(L, qty_is(wish.area) != qty_is(wish.amount), 1, "`area` or `amount`");
    luaL_argcheck(L, qty_is(wish.share) != qty_is(wish.product_rate), 1,
                  "`share` or `product_rate`");
    struct fault f = { 0 };
    struct mixes_parts parts;
    if (!mixes_plan(measure_graph(L), &wish, &parts, &f))
        fault_raise(L, &f);
    const struct part out[] = {
        { "finished", parts.finished },
        { "product", parts.product },
        { "carrier", parts.carrier },
        { "loads", parts.loads },
        { "spare", parts.spare },
        { "ingredient", parts.ingredient },
        { "ingredient_per_area", parts.ingredient_per_area },
    };
    return push_parts(L, out, sizeof out / sizeof out[0]);
}

/* seed { area, rate, purity, germination }: { pure_live, live_share, bulk } */
static int l_seed(lua_State *L)
{
    luaL_checktype(L, 1, LUA_TTABLE);
    struct seeding_wish wish = {
        .area = need_field(L, 1, "area"),
        .rate = need_field(L, 1, "rate"),
        .purity = need_field(L, 1, "purity"),
        .germination = need_field(L, 1, "germination"),
    };
    struct fault f = { 0 };
    struct seeding_parts parts;
    if (!seeding_plan(measure_graph(L), &wish, &parts, &f))
        fault_raise(L, &f);
    const struct part out[] = { { "pure_live", parts.pure_live },
                                { "live_share", parts.live_share },
                                { "bulk", parts.bulk } };
    return push_parts(L, out, sizeof out / sizeof out[0]);
}

/* plants_on_area(area, between rows, in the row, triangular) */
static int l_plants_on_area(lua_State *L)
{
    struct qty area = need_measure(L, 1), row = need_measure(L, 2);
    struct qty in_row = need_measure(L, 3);
    struct fault f = { 0 };
    return give(
        L, planting_on_area(measure_graph(L), area, row, in_row, lua_toboolean(L, 4), &f),
        &f);
}

/* plants_in_rows(length, in the row, rows): rows as a measure without unit. */
static int l_plants_in_rows(lua_State *L)
{
    struct qty length = need_measure(L, 1), in_row = need_measure(L, 2);
    struct qty rows = need_measure(L, 3);
    struct fault f = { 0 };
    return give(L, planting_in_rows(measure_graph(L), length, in_row, rows, &f), &f);
}

/* plants_to_order(plants, extra, survival): the last two may be nil. */
static int l_plants_to_order(lua_State *L)
{
    struct qty plants = need_measure(L, 1), extra = may_measure(L, 2);
    struct qty survival = may_measure(L, 3);
    struct fault f = { 0 };
    return give(L, planting_order(measure_graph(L), plants, extra, survival, &f), &f);
}

/* hours(amount, rate, what): "what hours" is its name. */
static int l_hours(lua_State *L)
{
    struct qty amount = need_measure(L, 1), rate = need_measure(L, 2);
    const char *name = luaL_checkstring(L, 3);
    struct fault f = { 0 };
    return give(L, labor_by_rate(measure_graph(L), amount, rate, name, &f), &f);
}

int work_room(lua_State *L)
{
    static const luaL_Reg functions[] = {
        { "mix", l_mix },
        { "seed", l_seed },
        { "plants_on_area", l_plants_on_area },
        { "plants_in_rows", l_plants_in_rows },
        { "plants_to_order", l_plants_to_order },
        { "hours", l_hours },
        { NULL, NULL },
    };
    luaL_newlib(L, functions);
    return 1;
}
