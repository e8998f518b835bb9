/* need "forest": cruise arithmetic, and what plots hold beside the living trees. */
#include <lauxlib.h>
#include <lua.h>
#include <math.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/num.h"
#include "bind/forest_parts.h"
#include "bind/forest_trees.h"
#include "bind/measure.h"
#include "forest/cruise_equations.h"
#include "forest/figure.h"
#include "forest/plot_counts.h"
#include "forest/tally.h"
#include "lang/host.h"
#include "lang/raise.h"

/* The species that were asked for; NULL for all of them, and for those not told. */
static const struct species_set *asked(const struct stock_pick *pick)
{
    struct species_set all = species_set_all();
    return memcmp(&all, &pick->species, sizeof all) == 0 ? NULL : &pick->species;
}

/* The mean over plots as a measure, `times` what the values are in `unit`. */
static int give(lua_State *L, const double *values, const bool *taken, double times,
                const char *unit, const char *what)
{
    struct fault f = { 0 };
    struct estimate e;
    struct qty q = QTY_NONE;
    const struct stock *s = trees_stock(L, 1);
    const struct inventory *inv = stock_inventory(s);
    char note[80] = "";
    size_t count = plot_count(inv, taken);
    if (count < inv->plots)
        snprintf(note, sizeof note, "regeneration on %zu of them", count);
    if (plot_estimate(inv, values, taken, &e, &f)) {
        e.value *= times;
        e.low *= times;
        e.high *= times;
        if (strcmp(unit, "percent") == 0)
            e.high = fmin(e.high, 100);
        q = figure_leaf(host_of(L)->graph, s, &e, unit, what, *note ? note : NULL, &f);
    }
    measure_result(L, q, &f);
    return 1;
}

/* Not counted, which is not the same as none. */
static int not_told(lua_State *L)
{
    lua_pushnil(L);
    return 1;
}

/* snags(stock, which, words), dens likewise: `which` as for trees, without it those of no
 * told species too; nil when the notes never speak of them. */
static int marked(lua_State *L, bool snags)
{
    double values[TALLY_PLOTS_MOST];
    const struct inventory *inv = stock_inventory(trees_stock(L, 1));
    struct stock_pick pick = trees_pick(L, 2);
    if (inv->plots == 0 || !(snags ? inv->snags_told : inv->dens_told))
        return not_told(L);
    if (snags)
        plot_snags(inv, asked(&pick), pick.from_in, pick.below_in, values);
    else
        plot_dens(inv, asked(&pick), pick.from_in, pick.below_in, values);
    return give(L, values, NULL, 1, "trees/ac", luaL_checkstring(L, 3));
}

static int l_snags(lua_State *L)
{
    return marked(L, true);
}

static int l_dens(lua_State *L)
{
    return marked(L, false);
}

/* A bound that runs through a class of the notes. */
static void refuse_cut(lua_State *L, const struct inventory_stems *s)
{
    struct buf class;
    buf_init(&class);
    bool open = isinf(s->below_ft);
    if (open && s->from_ft <= 0) {
        fault_say(L, "tally-height", "ask without `from` and `below`",
                  "some regeneration was counted without its height");
    }
    buf_puts(&class, open ? "over " : s->from_ft > 0 ? "" : "under ");
    if (s->from_ft > 0)
        num_trade(&class, s->from_ft);
    if (s->from_ft > 0 && !open)
        buf_puts(&class, "-");
    if (!open)
        num_trade(&class, s->below_ft);
    char said[40];
    snprintf(said, sizeof said, "%s", class.data ? class.data : "");
    buf_clear(&class);
    fault_say(L, "tally-height", "set `at_least` and `below` where a class starts or ends",
              "the class %s ft of these notes lies on both sides of a height asked for",
              said);
}

/* regeneration(stock, which, words, least): `from` and `below` of `which` in feet of
 * height. Stems per acre, or with `least` the percent of small plots that hold as many;
 * nil when none was taken. */
static int l_regeneration(lua_State *L)
{
    double values[TALLY_PLOTS_MOST];
    const struct inventory *inv = stock_inventory(trees_stock(L, 1));
    struct stock_pick pick = trees_pick(L, 2);
    const char *what = luaL_checkstring(L, 3);
    lua_Integer least = luaL_optinteger(L, 4, 0);
    luaL_argcheck(L, least >= 0 && least <= TALLY_STEMS_MOST, 4, "how many stems");
    if (inv->plots == 0 || plot_count(inv, inv->stems_taken) == 0)
        return not_told(L);
    const struct inventory_stems *cut =
        plot_stems_cut(inv, asked(&pick), pick.from_in, pick.below_in);
    if (cut)
        refuse_cut(L, cut);
    if (least > 0)
        plot_stocked(inv, asked(&pick), pick.from_in, pick.below_in, (unsigned)least,
                     values);
    else
        plot_stems(inv, asked(&pick), pick.from_in, pick.below_in, values);
    return give(L, values, inv->stems_taken, least > 0 ? 100 : 1,
                least > 0 ? "percent" : "stems/ac", what);
}

/* cruise_equation(name, operand, ...): measures in, a measure out. */
static int l_equation(lua_State *L)
{
    struct fault f = { 0 };
    struct qty x[4];
    const struct cruise_equation *e = cruise_equation_find(luaL_checkstring(L, 1));
    luaL_argcheck(L, e, 1, "no such equation");
    size_t count = cruise_equation_operands(e);
    for (size_t i = 0; i < count; i++) {
        x[i] = measure_at(L, (int)i + 2);
        luaL_argcheck(L, qty_is(x[i]), (int)i + 2, "a measure is wanted");
    }
    measure_result(L, cruise_equation(host_of(L)->graph, e, x, &f), &f);
    return 1;
}

const luaL_Reg forest_cruise_functions[] = {
    { "snags", l_snags },
    { "dens", l_dens },
    { "regeneration", l_regeneration },
    { "cruise_equation", l_equation },
    { NULL, NULL },
};
