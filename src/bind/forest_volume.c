/* need "forest": wood of a log, a tree, a cord, a pound at a time: log rules, equations. */
#include <lua.h>
#include <math.h>
#include <string.h>

#include "base/fault.h"
#include "bind/forest_parts.h"
#include "bind/forest_wood.h"
#include "bind/measure.h"
#include "forest/tree_volume.h"
#include "forest/volume.h"
#include "forest/wood.h"
#include "lang/host.h"

/* The words of the rules, as luaL_checkoption wants them. */
enum log_rule wood_rule_at(lua_State *L, int index)
{
    const char *words[LOG_RULES + 1];
    for (size_t i = 0; i <= LOG_RULES; i++)
        words[i] = log_rule_word(i);
    return (enum log_rule)luaL_checkoption(L, index, words[0], words);
}

enum biomass_part wood_part_at(lua_State *L, int index)
{
    const char *words[BIOMASS_PARTS + 1];
    for (size_t i = 0; i <= BIOMASS_PARTS; i++)
        words[i] = biomass_part_word(i);
    return (enum biomass_part)luaL_checkoption(L, index, words[0], words);
}

/* ---- equations over measures ---- */

static double log_computed(const double *x, const double *with)
{
    return log_rule_board_feet((enum log_rule)with[0], x[0], x[1]);
}
static double log_scaled(const double *x, const double *with)
{
    return log_rule_scaled((enum log_rule)with[0], x[0], x[1]);
}
static double girard(const double *x, const double *with)
{
    return tree_girard((enum log_rule)with[0], x[0], x[1], x[2]);
}
static double beers_cords(const double *x, const double *with)
{
    (void)with;
    return volume_beers_cords(x[0], x[1]);
}
static double beers_cubic_feet(const double *x, const double *with)
{
    return volume_beers_cubic_feet(x[0], x[1], with[0] > 0);
}
static double beers_board_feet(const double *x, const double *with)
{
    (void)with;
    return volume_beers_board_feet(x[0], x[1]);
}
static double cords_by_diameter(const double *x, const double *with)
{
    (void)with;
    return volume_cords_by_diameter(x[0]);
}
static double wood_density(const double *x, const double *with)
{
    (void)with;
    return 62.43 * x[0] * (1 + x[1] / 100);
}
/* with: b0, b1, softwood, part */
static double tree_biomass(const double *x, const double *with)
{
    return biomass_dry_kg(with[0], with[1], x[0]) *
           biomass_part((enum biomass_part)with[3], with[2] > 0, x[0]) *
           BIOMASS_POUNDS_PER_KG;
}

enum { OPERANDS_MOST = 3, WITH_MOST = 4 };
struct equation {
    struct formula formula;
    const char *word, *unit, *names[OPERANDS_MOST], *units[OPERANDS_MOST];
};

static const struct equation equations[] = {
    { { "board feet of a log", log_computed }, "log", "board ft",
      { "diameter", "length" }, { "in", "ft" } },
    { { "board feet of a log as scaled", log_scaled }, "log scaled", "board ft",
      { "diameter", "length" }, { "in", "ft" } },
    { { "board feet of a tree", girard }, "tree", "board ft",
      { "diameter", "16-ft logs", "form class" }, { "in", NULL, NULL } },
    { { "cords of a tree", beers_cords }, "composite cords", "cord",
      { "diameter", "merchantable height" }, { "in", "ft" } },
    { { "cubic feet of a tree", beers_cubic_feet }, "composite cubic feet", "ft3",
      { "diameter", "merchantable height" }, { "in", "ft" } },
    { { "board feet of a tree", beers_board_feet }, "composite board feet", "board ft",
      { "diameter", "merchantable height" }, { "in", "ft" } },
    { { "cords of a tree by diameter", cords_by_diameter }, "cords", "cord",
      { "diameter" }, { "in" } },
    { { "weight of wood", wood_density }, "weight", "lb/ft3",
      { "specific gravity", "moisture" }, { NULL, "percent" } },
    { { "dry weight of a tree", tree_biomass }, "biomass", "lb", { "diameter" },
      { "in" } },
};

static const struct equation *equation_at(lua_State *L, int index)
{
    const char *word = luaL_checkstring(L, index);
    for (size_t i = 0; i < sizeof equations / sizeof equations[0]; i++)
        if (strcmp(equations[i].word, word) == 0)
            return &equations[i];
    luaL_argerror(L, index, "no such equation");
    return NULL;
}

static bool operand_at(lua_State *L, int index, const struct equation *e, size_t i,
                       struct operand *out, struct fault *f)
{
    struct graph *g = measure_graph(L);
    *out = (struct operand){ QTY_NONE, UNIT_NUMBER, e->names[i] };
    if (e->units[i] &&
        !units_find(host_of(L)->units, e->units[i], strlen(e->units[i]), &out->in, f))
        return false;
    struct qty q = measure_at(L, index);
    out->of = qty_is(q) ? graph_hold(g, q)
                        : graph_leaf(g, lua_tonumber(L, index), UNIT_NUMBER,
                                     measure_origin(L, NULL), f);
    return qty_is(out->of);
}

/* wood_equation(word, source, { constants }, operands ...) */
static int l_wood_equation(lua_State *L)
{
    struct fault f = { 0 };
    const struct equation *e = equation_at(L, 1);
    const char *source = luaL_checkstring(L, 2);
    luaL_checktype(L, 3, LUA_TTABLE);
    double with[WITH_MOST] = { 0 };
    for (lua_Integer i = 1; i <= WITH_MOST; i++) {
        lua_rawgeti(L, 3, i);
        with[i - 1] = luaL_optnumber(L, -1, 0);
        lua_pop(L, 1);
    }
    size_t count = 0;
    for (; count < OPERANDS_MOST && e->names[count]; count++)
        if (!qty_is(measure_at(L, 4 + (int)count)))
            luaL_checknumber(L, 4 + (int)count); /* raises before anything is held */
    struct operand of[OPERANDS_MOST] = { { .of = QTY_NONE } };
    struct unit_id unit;
    bool good = units_find(host_of(L)->units, e->unit, strlen(e->unit), &unit, &f);
    for (size_t i = 0; i < count && good; i++)
        good = operand_at(L, 4 + (int)i, e, i, &of[i], &f);
    struct qty q = QTY_NONE;
    if (good)
        q = graph_formula(measure_graph(L), &e->formula, with, WITH_MOST, of, count, unit,
                          (struct origin){ SPAN_NONE, source }, &f);
    for (size_t i = 0; i < count; i++)
        if (qty_is(of[i].of))
            graph_release(measure_graph(L), of[i].of);
    measure_result(L, q, &f);
    return 1;
}

/* ---- what there is ---- */

/* log_rule(word): number, source, from and to in inches, from and to in feet, has it
 * form-class tables? */
static int l_log_rule(lua_State *L)
{
    enum log_rule rule = wood_rule_at(L, 1);
    struct log_rule_range r = log_rule_range(rule);
    lua_pushinteger(L, (lua_Integer)rule);
    lua_pushstring(L, log_rule_source(rule));
    lua_pushnumber(L, r.from_in);
    lua_pushnumber(L, r.to_in);
    lua_pushnumber(L, r.from_ft);
    lua_pushnumber(L, r.to_ft);
    lua_pushboolean(L, tree_girard_has(rule));
    return 7;
}

/* log_rules(), biomass_parts(): their words. */
static int l_log_rules(lua_State *L)
{
    lua_newtable(L);
    for (size_t i = 0; log_rule_word(i); i++) {
        lua_pushstring(L, log_rule_word(i));
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
    return 1;
}
static int l_biomass_parts(lua_State *L)
{
    lua_newtable(L);
    for (size_t i = 0; biomass_part_word(i); i++) {
        lua_pushstring(L, biomass_part_word(i));
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
    return 1;
}

/* biomass_part(word): its number. */
static int l_biomass_part(lua_State *L)
{
    lua_pushinteger(L, (lua_Integer)wood_part_at(L, 1));
    return 1;
}

/* biomass_groups(): { { name, b0, b1, softwood } } */
static int l_biomass_groups(lua_State *L)
{
    lua_newtable(L);
    const struct biomass_group *group;
    for (size_t i = 0; (group = biomass_group_at(i)) != NULL; i++) {
        lua_createtable(L, 0, 4);
        lua_pushstring(L, group->name);
        lua_setfield(L, -2, "name");
        lua_pushnumber(L, group->b0);
        lua_setfield(L, -2, "b0");
        lua_pushnumber(L, group->b1);
        lua_setfield(L, -2, "b1");
        lua_pushboolean(L, group->softwood);
        lua_setfield(L, -2, "softwood");
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
    return 1;
}

/* is_softwood(species) */
static int l_is_softwood(lua_State *L)
{
    size_t length, index;
    const char *word = luaL_checklstring(L, 1, &length);
    struct fault f = { 0 };
    struct species_set soft = wood_softwoods(host_of(L)->species);
    lua_pushboolean(L, species_find(host_of(L)->species, word, length, &index, &f) &&
                           species_set_has(&soft, index));
    return 1;
}

/* tons_per_cord(species): green tons and where they come from, or nothing. */
static int l_tons_per_cord(lua_State *L)
{
    size_t length, index;
    const char *word = luaL_checklstring(L, 1, &length);
    struct fault f = { 0 };
    if (!species_find(host_of(L)->species, word, length, &index, &f))
        return 0;
    const struct species *s = species_at(host_of(L)->species, index);
    if (s->tons_per_cord <= 0)
        return 0;
    lua_pushnumber(L, s->tons_per_cord);
    lua_pushstring(L, s->tons_source);
    return 2;
}

const luaL_Reg forest_volume_functions[] = {
    { "wood_equation", l_wood_equation },
    { "log_rule", l_log_rule },
    { "log_rules", l_log_rules },
    { "biomass_parts", l_biomass_parts },
    { "biomass_part", l_biomass_part },
    { "biomass_groups", l_biomass_groups },
    { "is_softwood", l_is_softwood },
    { "tons_per_cord", l_tons_per_cord },
    { NULL, NULL },
};
