/* need "forest": what grows back: the equations of forest/regrowth.h over measures, and
 * the young growth of 15 years as plain numbers. */
#include <lua.h>

#include "base/fault.h"
#include "bind/forest_parts.h"
#include "bind/measure.h"
#include "forest/regrowth.h"
#include "forest/sprouts.h"
#include "forest/suckers.h"
#include "lang/host.h"
#include "lang/raise.h"

/* An equation made ready: found by its name once, its units read. */
struct ready {
    const struct regrowth_formula *r;
    struct unit_id unit, in[FORMULA_OPERANDS_MOST];
};

/* Its address is the registry's key of a table: by name, the equation made ready. */
static const char ready_key;

static struct unit_id unit_of(lua_State *L, const char *name)
{
    lua_pushstring(L, name);
    struct unit_id unit = measure_unit(L, -1);
    lua_pop(L, 1);
    return unit;
}

static const struct ready *make_ready(lua_State *L)
{
    const struct regrowth_formula *r = regrowth_formula_find(luaL_checkstring(L, 1));
    luaL_argcheck(L, r != NULL, 1, "no such equation");
    struct ready *ready = lua_newuserdatauv(L, sizeof *ready, 0);
    *ready = (struct ready){ .r = r, .unit = unit_of(L, r->unit) };
    for (size_t i = 0; i < r->operand_count; i++)
        ready->in[i] = unit_of(L, r->operands[i].unit);
    return ready;
}

/* The equation of the name at 1, kept by the registry. */
static const struct ready *ready_at(lua_State *L)
{
    if (lua_rawgetp(L, LUA_REGISTRYINDEX, &ready_key) != LUA_TTABLE) {
        lua_pop(L, 1);
        lua_newtable(L);
        lua_pushvalue(L, -1);
        lua_rawsetp(L, LUA_REGISTRYINDEX, &ready_key);
    }
    lua_pushvalue(L, 1);
    lua_rawget(L, -2);
    const struct ready *ready = lua_touserdata(L, -1);
    lua_pop(L, 1);
    if (ready == NULL) {
        lua_pushvalue(L, 1);
        ready = make_ready(L);
        lua_rawset(L, -3);
    }
    lua_pop(L, 1);
    return ready;
}

/* The plain numbers of the table at 3, and what is prepared of them. */
static size_t numbers_at(lua_State *L, const struct regrowth_formula *r,
                         double with[FORMULA_WITH_MOST])
{
    luaL_checktype(L, 3, LUA_TTABLE);
    for (size_t i = 0; i < r->with_count; i++) {
        lua_rawgeti(L, 3, (lua_Integer)i + 1);
        with[i] = luaL_checknumber(L, -1);
        lua_pop(L, 1);
    }
    return regrowth_prepare(r, with);
}

static int no_measure(lua_State *L, const struct regrowth_formula *r, size_t i)
{
    return luaL_error(L, "%s: operand %d (%s) is no measure", r->of.name, (int)i + 1,
                      r->operands[i].name);
}

/* regrowth(name, { measures }, { numbers }, words of the source): the equation's value. */
static int l_regrowth(lua_State *L)
{
    double with[FORMULA_WITH_MOST];
    struct operand operands[FORMULA_OPERANDS_MOST];
    const struct ready *ready = ready_at(L);
    const struct regrowth_formula *r = ready->r;
    const char *words = luaL_optstring(L, 4, NULL);
    luaL_checktype(L, 2, LUA_TTABLE);
    lua_settop(L, 4);
    size_t count = numbers_at(L, r, with);
    luaL_checkstack(L, FORMULA_OPERANDS_MOST, NULL);
    for (size_t i = 0; i < r->operand_count; i++) {
        lua_rawgeti(L, 2, (lua_Integer)i + 1); /* stays on the stack, and so held */
        struct qty q = measure_at(L, -1);
        if (!qty_is(q))
            return no_measure(L, r, i);
        operands[i] = (struct operand){ q, ready->in[i], r->operands[i].name };
    }
    struct fault f = { 0 };
    struct qty q = graph_formula(host_of(L)->graph, &r->of, with, count, operands,
                                 r->operand_count, ready->unit,
                                 (struct origin){ SPAN_NONE, words }, &f);
    measure_result(L, q, &f);
    return 1;
}

/* regrowth_number(name, { measures or numbers }, { numbers }): the bare likely number, in
 * the unit of the equation; numbers are taken to be in the units that it asks for. */
static int l_regrowth_number(lua_State *L)
{
    double with[FORMULA_WITH_MOST], x[FORMULA_OPERANDS_MOST];
    const struct ready *ready = ready_at(L);
    const struct regrowth_formula *r = ready->r;
    const struct graph *g = host_of(L)->graph;
    luaL_checktype(L, 2, LUA_TTABLE);
    numbers_at(L, r, with);
    for (size_t i = 0; i < r->operand_count; i++) {
        if (lua_rawgeti(L, 2, (lua_Integer)i + 1) == LUA_TNUMBER) {
            x[i] = lua_tonumber(L, -1);
        } else {
            struct qty q = measure_at(L, -1);
            if (!qty_is(q) || !measure_fits(L, q, ready->in[i]))
                return no_measure(L, r, i);
            x[i] = graph_value_in(g, q, ready->in[i]);
        }
        lua_pop(L, 1);
    }
    lua_pushnumber(L, r->of.value(x, with));
    return 1;
}

static double field(lua_State *L, int index, const char *key, double otherwise)
{
    lua_getfield(L, index, key);
    double value = luaL_optnumber(L, -1, otherwise);
    lua_pop(L, 1);
    return value;
}

/* suckers(what is known and doubted, years): { stems, mean, dominant } a year, plain. */
static int l_suckers(lua_State *L)
{
    enum { YEARS_MOST = 30 };
    luaL_checktype(L, 1, LUA_TTABLE);
    lua_Integer years = luaL_optinteger(L, 2, 15);
    luaL_argcheck(L, years >= 1 && years <= YEARS_MOST, 2, "1 to 30 years");
    const struct sucker_factors usual = sucker_usual;
    struct sucker_site site = {
        field(L, 1, "aspen", 0),       field(L, 1, "age", 45),
        field(L, 1, "sick", 0),        field(L, 1, "residual", 0),
        field(L, 1, "rutted", 0),      field(L, 1, "passes", 0),
        field(L, 1, "season_left", 1), field(L, 1, "site_index", 70)
    };
    struct sucker_factors x = {
        field(L, 1, "full", usual.full),
        field(L, 1, "season", usual.season),
        field(L, 1, "room", usual.room),
        field(L, 1, "bitten", usual.bitten),
        field(L, 1, "pace", usual.pace),
        field(L, 1, "shade_slows", usual.shade_slows),
        field(L, 1, "browse_slows", usual.browse_slows),
        field(L, 1, "traffic_slows", usual.traffic_slows),
        field(L, 1, "mean_part", usual.mean_part),
    };
    struct sucker_year out[YEARS_MOST];
    suckers_grow(&site, &x, (size_t)years, out);
    lua_createtable(L, (int)years, 0);
    for (int i = 0; i < (int)years; i++) {
        lua_createtable(L, 0, 3);
        lua_pushnumber(L, out[i].stems);
        lua_setfield(L, -2, "stems");
        lua_pushnumber(L, out[i].mean);
        lua_setfield(L, -2, "mean");
        lua_pushnumber(L, out[i].dominant);
        lua_setfield(L, -2, "dominant");
        lua_rawseti(L, -2, i + 1);
    }
    return 1;
}

/* suckers_on_ground(share rutted, passes): the share of suckers that is left, plain. */
static int l_suckers_on_ground(lua_State *L)
{
    lua_pushnumber(L, suckers_on_ground(luaL_checknumber(L, 1), luaL_checknumber(L, 2)));
    return 1;
}

/* sprouts_odds(from, share, to, share, diameter): percent, plain. */
static int l_sprouts_odds(lua_State *L)
{
    lua_pushnumber(L, sprouts_odds(luaL_checknumber(L, 1), luaL_checknumber(L, 2),
                                   luaL_checknumber(L, 3), luaL_checknumber(L, 4),
                                   luaL_checknumber(L, 5)));
    return 1;
}

const luaL_Reg forest_regrowth_functions[] = {
    { "regrowth", l_regrowth },
    { "regrowth_number", l_regrowth_number },
    { "suckers", l_suckers },
    { "suckers_on_ground", l_suckers_on_ground },
    { "sprouts_odds", l_sprouts_odds },
    { NULL, NULL },
};
