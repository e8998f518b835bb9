/* need "forest": the built-in Lua's hand on the forest room: the species table, and trees
 * on an acre ("stock" objects, from a tally or an estimate) that answer with measures.
 *
 * Which trees are meant is told by nil (all), a species or group ("oak"), a list of them,
 * or a table { species = list, except = list, from = inches, below = inches }. */
#include <lauxlib.h>
#include <lua.h>
#include <math.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/suggest.h"
#include "bind/forest_parts.h"
#include "bind/forest_stock.h"
#include "bind/rooms.h"
#include "forest/species.h"
#include "lang/host.h"
#include "lang/raise.h"

static struct species_table *table_of(lua_State *L)
{
    return host_of(L)->species;
}

enum { LIST_MOST = 32 };

/* Reads a list of texts (or nil) into `out`, ended by NULL; the texts stay the
 * table's. */
static void read_list(lua_State *L, int row, const char *key, const char *out[])
{
    size_t count = 0;
    if (lua_getfield(L, row, key) == LUA_TTABLE) {
        lua_Integer length = luaL_len(L, -1);
        for (lua_Integer i = 1; i <= length && count < LIST_MOST; i++) {
            lua_rawgeti(L, -1, i);
            if (lua_type(L, -1) == LUA_TSTRING)
                out[count++] = lua_tostring(L, -1);
            lua_pop(L, 1);
        }
    }
    out[count] = NULL;
    lua_pop(L, 1);
}

static const char *read_text(lua_State *L, int row, const char *key)
{
    lua_getfield(L, row, key);
    const char *text = lua_type(L, -1) == LUA_TSTRING ? lua_tostring(L, -1) : NULL;
    lua_pop(L, 1); /* the row keeps it */
    return text;
}

static double read_number(lua_State *L, int row, const char *key)
{
    lua_getfield(L, row, key);
    double value = lua_isnumber(L, -1) ? lua_tonumber(L, -1) : 0;
    lua_pop(L, 1);
    return value;
}

/* Flags as fields of the row (suckers = true) or as a list `traits`. */
static unsigned read_flags(lua_State *L, int row)
{
    unsigned flags = 0;
    const char *word;
    for (size_t i = 0; (word = species_flag_at(i)) != NULL; i++) {
        lua_getfield(L, row, word);
        if (lua_toboolean(L, -1))
            flags |= species_flag_find(word);
        lua_pop(L, 1);
    }
    const char *traits[LIST_MOST + 1];
    read_list(L, row, "traits", traits);
    for (size_t i = 0; traits[i]; i++)
        flags |= species_flag_find(traits[i]);
    return flags;
}

/* Traits as fields of the row (crown_slope = 1.8). False when it has none. */
static bool read_traits(lua_State *L, int row, double traits[SPECIES_TRAITS])
{
    bool any = false;
    for (size_t i = 0; i < SPECIES_TRAITS; i++)
        traits[i] = NAN;
    for (lua_pushnil(L); lua_next(L, row) != 0; lua_pop(L, 1)) {
        if (lua_type(L, -1) != LUA_TNUMBER || lua_type(L, -2) != LUA_TSTRING)
            continue;
        const char *key = lua_tostring(L, -2);
        for (size_t i = 0; i < SPECIES_TRAITS; i++) {
            if (strcmp(key, species_trait_word(i)) != 0)
                continue;
            traits[i] = lua_tonumber(L, -1);
            any = true;
        }
    }
    return any;
}

/* species_fill(name, traits): traits for what is not known yet; `source` says from
 * where. */
static int l_species_fill(lua_State *L)
{
    size_t length, index;
    const char *word = luaL_checklstring(L, 1, &length);
    luaL_checktype(L, 2, LUA_TTABLE);
    double traits[SPECIES_TRAITS];
    struct fault f = { 0 };
    const char *source = read_text(L, 2, "source");
    if (species_find(table_of(L), word, length, &index, &f) && read_traits(L, 2, traits))
        species_fill_traits(table_of(L), index, traits, source ? source : "", &f);
    if (fault_is_set(&f))
        return luaL_error(L, "%s", f.message);
    return 0;
}

/* species_trait(name, word): the number and its source, or nothing. */
static int l_species_trait(lua_State *L)
{
    size_t length, index;
    const char *name = luaL_checklstring(L, 1, &length);
    const char *word = luaL_checkstring(L, 2);
    struct fault f = { 0 };
    if (!species_find(table_of(L), name, length, &index, &f))
        return 0;
    const struct species *s = species_at(table_of(L), index);
    for (size_t i = 0; i < SPECIES_TRAITS; i++) {
        if (strcmp(species_trait_word(i), word) != 0 || isnan(s->traits[i]))
            continue;
        lua_pushnumber(L, s->traits[i]);
        lua_pushstring(L, s->traits_source[i]);
        return 2;
    }
    return 0;
}

/* species_add(row, layer): true, or false and the words and hint of the fault. */
static int l_species_add(lua_State *L)
{
    luaL_checktype(L, 1, LUA_TTABLE);
    const char *aliases[LIST_MOST + 1], *groups[LIST_MOST + 1];
    read_list(L, 1, "aliases", aliases);
    read_list(L, 1, "groups", groups);
    double traits[SPECIES_TRAITS];
    struct species_row row = {
        .name = read_text(L, 1, "name"),
        .plural = read_text(L, 1, "plural"),
        .scientific = read_text(L, 1, "scientific"),
        .code = read_text(L, 1, "code"),
        .aliases = aliases,
        .groups = groups,
        .flags = read_flags(L, 1),
        .tons_per_cord = read_number(L, 1, "tons_per_cord"),
        .tons_source = read_text(L, 1, "tons_source"),
        .source = read_text(L, 1, "source"),
        .traits = read_traits(L, 1, traits) ? traits : NULL,
        .traits_source = read_text(L, 1, "traits_source"),
        .layer = luaL_checkstring(L, 2),
    };
    struct fault f = { 0 };
    lua_pushboolean(L, species_add(table_of(L), &row, &f));
    if (!fault_is_set(&f))
        return 1;
    lua_pushstring(L, f.message);
    lua_pushstring(L, f.hint[0] ? f.hint : NULL);
    return 3;
}

/* species_known(word): is it a species, a group or a flag's word? */
static int l_species_known(lua_State *L)
{
    size_t length;
    const char *word = luaL_checklstring(L, 1, &length);
    struct species_set set;
    struct fault f = { 0 };
    lua_pushboolean(L, species_select(table_of(L), word, length, &set, &f));
    return 1;
}

/* species_one(word): is it one species? Else nil, the fault's id, message and hint. */
static int l_species_one(lua_State *L)
{
    size_t length, index;
    const char *word = luaL_checklstring(L, 1, &length);
    struct fault f = { 0 };
    if (species_find(table_of(L), word, length, &index, &f)) {
        lua_pushboolean(L, true);
        return 1;
    }
    lua_pushnil(L);
    lua_pushstring(L, f.id);
    lua_pushstring(L, f.message);
    lua_pushstring(L, f.hint[0] ? f.hint : NULL);
    return 4;
}

static int l_species_near(lua_State *L)
{
    size_t length;
    const char *word = luaL_checklstring(L, 1, &length);
    struct suggest s = suggest_for(word, length);
    species_offer(table_of(L), &s);
    lua_pushstring(L, s.best);
    return 1;
}

static int l_species_names(lua_State *L)
{
    const struct species_table *t = table_of(L);
    lua_newtable(L);
    for (size_t i = 0; i < species_count(t); i++) {
        lua_pushstring(L, species_at(t, i)->name);
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
    return 1;
}

/* species_breadth(word): how many species of the table it means; the narrower of two words
 * has the last say. 0 of a word that is none. */
static int l_species_breadth(lua_State *L)
{
    size_t length;
    const char *word = luaL_checklstring(L, 1, &length);
    struct species_set set;
    struct fault f = { 0 };
    const struct species_table *t = table_of(L);
    lua_Integer count = 0;
    if (species_select(t, word, length, &set, &f))
        for (size_t i = 0; i < species_count(t); i++)
            count += species_set_has(&set, i);
    lua_pushinteger(L, count);
    return 1;
}

/* species_among(word, group): do the two words share a species? Unknown words share
 * none. */
static int l_species_among(lua_State *L)
{
    size_t a_length, b_length;
    const char *a = luaL_checklstring(L, 1, &a_length);
    const char *b = luaL_checklstring(L, 2, &b_length);
    struct species_set left, right;
    struct fault f = { 0 };
    const struct species_table *t = table_of(L);
    lua_pushboolean(L, species_select(t, a, a_length, &left, &f) &&
                           species_select(t, b, b_length, &right, &f) &&
                           species_set_meets(&left, &right));
    return 1;
}

/* species_info(word): name, scientific, code, source, layer, replaced of one species. */
static int l_species_info(lua_State *L)
{
    size_t length, index;
    const char *word = luaL_checklstring(L, 1, &length);
    struct fault f = { 0 };
    if (!species_find(table_of(L), word, length, &index, &f))
        return 0;
    const struct species *s = species_at(table_of(L), index);
    const char *const pairs[][2] = {
        { "name", s->name },   { "scientific", s->scientific },
        { "code", s->code },   { "source", s->source },
        { "layer", s->layer }, { "replaced", s->replaced_layer }
    };
    lua_createtable(L, 0, 7);
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
        lua_pushstring(L, pairs[i][1]);
        lua_setfield(L, -2, pairs[i][0]);
    }
    lua_newtable(L);
    const char *group;
    for (size_t i = 0; (group = species_group_at(table_of(L), index, i)) != NULL; i++) {
        lua_pushstring(L, group);
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
    lua_setfield(L, -2, "groups");
    return 1;
}

int forest_room(lua_State *L)
{
    static const luaL_Reg functions[] = {
        { "species_add", l_species_add },
        { "species_known", l_species_known },
        { "species_one", l_species_one },
        { "species_near", l_species_near },
        { "species_names", l_species_names },
        { "species_among", l_species_among },
        { "species_breadth", l_species_breadth },
        { "species_info", l_species_info },
        { "species_fill", l_species_fill },
        { "species_trait", l_species_trait },
        { "tally", forest_tally },
        { "estimate", forest_estimate },
        { "tally_stands", forest_tally_stands },
        { "notes", forest_notes },
        { NULL, NULL },
    };
    static const luaL_Reg *const parts[] = {
        forest_cruise_functions,   forest_density_functions, forest_precision_functions,
        forest_volume_functions,   forest_wood_functions,    forest_site_functions,
        forest_regrowth_functions, forest_wildlife_functions
    };
    luaL_newlib(L, functions);
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        luaL_setfuncs(L, parts[i], 0);
    forest_stock_open(L);
    return 1;
}
