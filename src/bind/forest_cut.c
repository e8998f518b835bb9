/* Cutting: what a marking rule takes out of a stock and what it leaves. */
#include <lauxlib.h>
#include <lua.h>
#include <math.h>

#include "base/fault.h"
#include "bind/forest_trees.h"
#include "forest/release.h"
#include "forest/stock.h"
#include "forest/thin.h"
#include "lang/host.h"
#include "lang/raise.h"

enum { KEEPS_MOST = 16 };

static const char *const measures[] = { "trees", "basal area", NULL };

static size_t read_keeps(lua_State *L, int index, struct stock_keep keeps[KEEPS_MOST])
{
    if (lua_isnoneornil(L, index))
        return 0;
    luaL_checktype(L, index, LUA_TTABLE);
    size_t count = (size_t)luaL_len(L, index);
    luaL_argcheck(L, count <= KEEPS_MOST, index, "too many kinds of trees to keep");
    static const char *const orders[] = { "as found", "largest", "smallest", NULL };
    for (size_t i = 0; i < count; i++) {
        lua_rawgeti(L, index, (lua_Integer)i + 1);
        int row = lua_gettop(L);
        keeps[i] = (struct stock_keep){ .pick = trees_pick(L, row), .amount = HUGE_VAL };
        if (lua_getfield(L, row, "amount") != LUA_TNIL)
            keeps[i].amount = luaL_checknumber(L, -1);
        lua_getfield(L, row, "measure");
        keeps[i].measure = (enum stock_measure)luaL_checkoption(L, -1, "trees", measures);
        lua_getfield(L, row, "order");
        keeps[i].order = (enum stock_order)luaL_checkoption(L, -1, "as found", orders);
        lua_settop(L, row - 1);
    }
    return count;
}

static double number_in(lua_State *L, int index, const char *key, double otherwise)
{
    double value =
        lua_getfield(L, index, key) == LUA_TNIL ? otherwise : luaL_checknumber(L, -1);
    lua_pop(L, 1);
    return value;
}

/* limits = { { "oak", 16 }, { "white oak", 20 } }: a later row has the last word; what no
 * row names is not taken when `limits_only` is true. */
static void read_limits(lua_State *L, int index, struct thin *rule)
{
    if (lua_getfield(L, index, "limits") != LUA_TNIL) {
        int list = lua_gettop(L);
        lua_getfield(L, index, "limits_only");
        for (size_t s = 0; lua_toboolean(L, -1) && s < SPECIES_MOST; s++)
            rule->least_in[s] = HUGE_VAL;
        lua_pop(L, 1);
        for (lua_Integer i = 1, count = luaL_len(L, list); i <= count; i++) {
            lua_rawgeti(L, list, i);
            lua_rawgeti(L, -1, 1);
            struct stock_pick named = trees_pick(L, lua_gettop(L));
            lua_rawgeti(L, -2, 2);
            double least = luaL_checknumber(L, -1);
            for (size_t s = 0; s < SPECIES_MOST; s++)
                if (species_set_has(&named.species, s))
                    rule->least_in[s] = least;
            lua_pop(L, 3);
        }
    }
    lua_pop(L, 1);
}

/* order = { "red maple", "aspen" }: the first goes first, what is not named goes last. */
static void read_order(lua_State *L, int index, struct thin *rule)
{
    if (lua_getfield(L, index, "order") != LUA_TNIL) {
        int list = lua_gettop(L);
        lua_Integer count = luaL_len(L, list);
        luaL_argcheck(L, count < UINT16_MAX, index, "too many species in a row");
        for (size_t s = 0; s < SPECIES_MOST; s++)
            rule->rank[s] = (uint16_t)count;
        for (lua_Integer i = count; i >= 1; i--) {
            lua_rawgeti(L, list, i);
            struct stock_pick named = trees_pick(L, lua_gettop(L));
            for (size_t s = 0; s < SPECIES_MOST; s++)
                if (species_set_has(&named.species, s))
                    rule->rank[s] = (uint16_t)(i - 1);
            lua_pop(L, 1);
        }
    }
    lua_pop(L, 1);
}

static struct thin read_rule(lua_State *L, int index, const struct stock_pick *what)
{
    static const char *const from[] = { "across", "below", "above", NULL };
    struct thin rule = thin_of(what);
    rule.amount = number_in(L, index, "share", 1);
    double to = number_in(L, index, "to", -1);
    if (to >= 0) {
        rule.until = THIN_TO;
        rule.amount = to;
    }
    lua_getfield(L, index, "measure");
    rule.measure = (enum stock_measure)luaL_checkoption(L, -1, "trees", measures);
    lua_getfield(L, index, "from");
    rule.from = (enum thin_from)luaL_checkoption(L, -1, "across", from);
    lua_pop(L, 2);
    read_limits(L, index, &rule);
    read_order(L, index, &rule);
    return rule;
}

/* crop = which keep has the crop trees, counted from 1; 0 when there are none. */
static size_t read_crop(lua_State *L, int index, size_t keep_count, struct release *r)
{
    size_t crop = (size_t)number_in(L, index, "crop", 0);
    luaL_argcheck(L, crop <= keep_count, index, "no such trees are kept");
    r->sides = number_in(L, index, "sides", 4);
    r->gap_ft = number_in(L, index, "gap", 0);
    r->evenness = number_in(L, index, "evenness", 0.5);
    r->crown_start = number_in(L, index, "crown_start", 0);
    r->crown_slope = number_in(L, index, "crown_slope", 0);
    return crop;
}

/* Sets the keeps aside, the crop trees in a stock of their own as well, and fells what
 * touches them. */
static struct stock *cut_around(struct stock *rest, struct stock *aside,
                                struct stock_keep *keeps, size_t count, size_t crop,
                                const struct release *r, const struct species_table *t,
                                struct fault *f)
{
    struct stock *chosen = stock_none(rest, f), *taken = NULL;
    if (chosen && stock_set_aside(rest, aside, keeps, crop - 1, f) &&
        stock_set_aside(rest, chosen, keeps + crop - 1, 1, f)) {
        stock_add(aside, chosen);
        if (stock_set_aside(rest, aside, keeps + crop, count - crop, f))
            taken = release_take(rest, chosen, aside, r, t, f);
    }
    stock_free(chosen);
    return taken;
}

static struct trees *cut_out_of(lua_State *L, int before)
{
    struct trees *t = trees_new(L);
    lua_pushvalue(L, before);
    lua_setiuservalue(L, -2, 1);
    return t;
}

/* without(other, ...): these trees but those, which are of the same stand. */
int trees_without(lua_State *L)
{
    int count = lua_gettop(L);
    struct fault f = { 0 };
    const struct stock *before = trees_stock(L, 1);
    struct trees *left = cut_out_of(L, 1);
    left->stock = stock_copy(before, &f);
    if (!left->stock)
        fault_raise(L, &f);
    for (int i = 2; i <= count; i++) {
        const struct stock *other = trees_stock(L, i);
        if (stock_inventory(other) != stock_inventory(before))
            return luaL_argerror(L, i, "trees of another stand");
        stock_remove(left->stock, other);
    }
    return 1;
}

/* cut(what, how, keeps): taken, left, and a list of how much each keep found. `how` has
 * share or to with measure, from, limits, order (see above), or crop with sides, gap in
 * ft, evenness, and crown_start and crown_slope of species that have none. */
int trees_cut(lua_State *L)
{
    lua_settop(L, 4);
    luaL_checktype(L, 3, LUA_TTABLE);
    const struct stock *before = trees_stock(L, 1);
    struct stock_pick what = trees_pick(L, 2);
    struct stock_keep keeps[KEEPS_MOST];
    size_t count = read_keeps(L, 4, keeps);
    struct thin rule = read_rule(L, 3, &what);
    struct release r = { .rule = &rule };
    size_t crop = read_crop(L, 3, count, &r);
    struct trees *taken = cut_out_of(L, 1), *left = cut_out_of(L, 1);
    struct fault f = { 0 };
    if (crop > 0) {
        struct stock *aside = stock_none(before, &f);
        left->stock = stock_copy(before, &f);
        if (aside && left->stock)
            taken->stock = cut_around(left->stock, aside, keeps, count, crop, &r,
                                      host_of(L)->species, &f);
        if (taken->stock)
            stock_add(left->stock, aside);
        stock_free(aside);
    } else {
        (void)thin_cut(before, &rule, keeps, count, &taken->stock, &left->stock, &f);
    }
    if (fault_is_set(&f))
        fault_raise(L, &f);
    lua_createtable(L, (int)count, 0);
    for (size_t i = 0; i < count; i++) {
        lua_pushnumber(L, keeps[i].kept);
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
    return 3;
}
