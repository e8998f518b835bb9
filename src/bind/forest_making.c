/* Trees made from cruise notes or an estimate by eye (forest_stock.h). */
#include <lauxlib.h>
#include <lua.h>
#include <stdio.h>
#include <string.h>

#include "base/fault.h"
#include "bind/forest_stock.h"
#include "bind/forest_trees.h"
#include "forest/cruise.h"
#include "forest/eye.h"
#include "forest/stock.h"
#include "forest/tally.h"
#include "lang/face.h"
#include "lang/host.h"
#include "lang/load.h"
#include "lang/raise.h"
#include "lang/script.h"

/* The stock of all trees over the inventory that the object on top holds. */
static int finish(lua_State *L, struct trees *t, struct fault *f)
{
    if (t->inv)
        t->stock = stock_of(t->inv, f);
    if (fault_is_set(f))
        fault_raise(L, f);
    return 1;
}

/* A text that is not written where it is given: the line in it is told in words. */
static void tell_line(struct fault *f, const char *text)
{
    unsigned line = 1;
    for (uint32_t i = 0; i < f->at.at; i++)
        line += text[i] == '\n';
    size_t length = strlen(f->message);
    snprintf(f->message + length, sizeof f->message - length, " (line %u of the notes)",
             line);
}

/* Faults of a text inside a string are put at their bytes in the source. */
static void tell_faults(lua_State *L, struct faults *all, const char *text,
                        struct span call, const char *key)
{
    struct host *host = host_of(L);
    struct script *script = load_script(host, call.source);
    struct span inside = SPAN_NONE;
    if (script)
        inside = script_string_at(script, host->sources, call, key);
    for (size_t i = 0; i < all->count; i++) {
        struct fault *f = &all->list[i];
        if (inside.source == 0)
            tell_line(f, text);
        f->at = inside.source ? script_inside_string(script, host->sources, inside,
                                                     f->at.at, f->at.length)
                              : call;
        host_chain_tell(L, f);
        faults_add(&host->faults, f);
    }
    host->faults.more += all->more;
}

int forest_tally(lua_State *L)
{
    struct host *host = host_of(L);
    size_t length;
    const char *text = luaL_checklstring(L, 1, &length);
    const char *stand = luaL_checkstring(L, 2), *key = luaL_checkstring(L, 4);
    struct span call = face_span(L, 3);
    struct faults faults = { 0 };
    struct fault f = { 0 };
    struct trees *t = trees_new(L);
    struct tally *tally = tally_read(text, length, SPAN_NONE, host->species, &faults);
    if (!tally) {
        tell_faults(L, &faults, text, call, key);
        return 0;
    }
    t->inv = cruise_inventory(tally, host->species, stand, call, &f);
    tally_free(tally);
    return finish(L, t, &f);
}

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
    return finish(L, t, &f);
}
