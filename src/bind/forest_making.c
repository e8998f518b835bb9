/* Trees made from an estimate by eye (forest_stock.h). */
#include <lauxlib.h>
#include <lua.h>

#include "base/fault.h"
#include "bind/forest_stock.h"
#include "bind/forest_trees.h"
#include "forest/eye.h"
#include "forest/stock.h"
#include "lang/face.h"
#include "lang/host.h"
#include "lang/raise.h"

static double number_field(lua_State *L, int index, const char *key)
{
    lua_getfield(L, index, key);
    double value = luaL_checknumber(L, -1);
    lua_pop(L, 1);
    return value;
}

static size_t read_shares(lua_State *L, int index,
                          struct eye_share shares[EYE_SHARES_MOST])
{
    lua_getfield(L, index, "shares");
    size_t count = (size_t)luaL_len(L, -1);
    luaL_argcheck(L, count <= EYE_SHARES_MOST, index, "too many species");
    for (size_t i = 0; i < count; i++) {
        lua_rawgeti(L, -1, (lua_Integer)i + 1);
        shares[i] = (struct eye_share){ .percent = number_field(L, -1, "percent") };
        lua_getfield(L, -1, "species");
        size_t length;
        const char *word = luaL_checklstring(L, -1, &length);
        struct fault f = { 0 };
        if (!species_find(host_of(L)->species, word, length, &shares[i].species, &f))
            fault_raise(L, &f);
        lua_pop(L, 2);
    }
    lua_pop(L, 1);
    return count;
}

int forest_estimate(lua_State *L)
{
    struct host *host = host_of(L);
    const char *stand = luaL_checkstring(L, 1);
    struct span call = face_span(L, 2);
    luaL_checktype(L, 3, LUA_TTABLE);
    struct eye_share shares[EYE_SHARES_MOST];
    size_t count = read_shares(L, 3, shares);
    lua_getfield(L, 3, "walked");
    bool walked = lua_toboolean(L, -1);
    lua_getfield(L, 3, "of_trees");
    bool of_trees = lua_toboolean(L, -1);
    lua_pop(L, 2);
    struct eye_estimate e = {
        .basis = walked ? INVENTORY_EYE : INVENTORY_GUESS,
        .judged = of_trees ? JUDGED_TREES : JUDGED_BASAL_AREA,
        .low = number_field(L, 3, "low"),
        .likely = number_field(L, 3, "likely"),
        .high = number_field(L, 3, "high"),
        .least_in = number_field(L, 3, "least"),
        .most_in = number_field(L, 3, "most"),
        .shares = shares,
        .share_count = count,
        .at = call,
    };
    struct eye_rules rules = { number_field(L, 3, "density_percent"),
                               number_field(L, 3, "share_points"),
                               number_field(L, 3, "diameter_percent"),
                               number_field(L, 3, "not_walked_times") };
    struct fault f = { 0 };
    struct trees *t = trees_new(L);
    t->inv = eye_inventory(&e, &rules, host->species, stand, call, &f);
    if (!t->inv) {
        fault_place(&f, call);
        host_chain_tell(L, &f);
        faults_add(&host->faults, &f);
        return 0;
    }
    return trees_finish(L, t, &f);
}
