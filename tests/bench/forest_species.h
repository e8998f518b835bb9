/* forest_species.h: the built-in species with all their traits, for measurements: what
 * stdlib/species.lua, biomass.lua, crowns.lua, regrowth.lua and wildlife.lua say, read by
 * a bare Lua from the top of the source tree.
 *
 *     struct species_table *t = forest_species();
 */
#ifndef SPINNEY_BENCH_FOREST_SPECIES_H
#define SPINNEY_BENCH_FOREST_SPECIES_H

#include <lauxlib.h>
#include <lua.h>
#include <lualib.h>
#include <math.h>
#include <string.h>

#include "base/fault.h"
#include "forest/biomass.h"
#include "forest/species.h"

enum { FOREST_LIST_MOST = 16 };

static inline const char *forest_text(lua_State *L, int row, const char *key)
{
    lua_getfield(L, row, key);
    const char *s = lua_tostring(L, -1); /* the row keeps it */
    lua_pop(L, 1);
    return s;
}

static inline void forest_texts(lua_State *L, int row, const char *key,
                                const char *out[FOREST_LIST_MOST])
{
    lua_getfield(L, row, key);
    size_t n = 0;
    for (lua_Integer i = 1; lua_istable(L, -1) && i <= luaL_len(L, -1); i++) {
        if (n + 1 == FOREST_LIST_MOST)
            luaL_error(L, "too many %s", key);
        lua_rawgeti(L, -1, i);
        out[n++] = lua_tostring(L, -1);
        lua_pop(L, 1);
    }
    out[n] = NULL;
    lua_pop(L, 1);
}

static inline struct species_table *forest_table(lua_State *L)
{
    return lua_touserdata(L, lua_upvalueindex(1));
}

/* add(row) */
static inline int forest_add(lua_State *L)
{
    const char *aliases[FOREST_LIST_MOST], *groups[FOREST_LIST_MOST];
    struct fault f = { .id = NULL };
    forest_texts(L, 1, "aliases", aliases);
    forest_texts(L, 1, "groups", groups);
    struct species_row row = { .name = forest_text(L, 1, "name"),
                               .plural = forest_text(L, 1, "plural"),
                               .scientific = forest_text(L, 1, "scientific"),
                               .code = forest_text(L, 1, "code"),
                               .aliases = aliases,
                               .groups = groups,
                               .tons_source = forest_text(L, 1, "tons_source"),
                               .source = forest_text(L, 1, "source"),
                               .layer = "stdlib" };
    for (size_t i = 0; species_flag_at(i); i++) {
        lua_getfield(L, 1, species_flag_at(i));
        if (lua_toboolean(L, -1))
            row.flags |= species_flag_find(species_flag_at(i));
        lua_pop(L, 1);
    }
    lua_getfield(L, 1, "tons_per_cord");
    row.tons_per_cord = lua_tonumber(L, -1);
    if (!species_add(forest_table(L), &row, &f))
        return luaL_error(L, "%s", f.message);
    return 0;
}

/* species_fill(name, traits) */
static inline int forest_fill(lua_State *L)
{
    size_t length, index;
    const char *name = luaL_checklstring(L, 1, &length);
    double traits[SPECIES_TRAITS];
    struct fault f = { .id = NULL };
    for (size_t i = 0; i < SPECIES_TRAITS; i++) {
        lua_getfield(L, 2, species_trait_word(i));
        traits[i] = luaL_optnumber(L, -1, NAN);
        lua_pop(L, 1);
    }
    if (!species_find(forest_table(L), name, length, &index, &f) ||
        !species_fill_traits(forest_table(L), index, traits, forest_text(L, 2, "source"),
                             &f))
        return luaL_error(L, "%s", f.message);
    return 0;
}

static inline int forest_known(lua_State *L)
{
    size_t length, index;
    const char *name = luaL_checklstring(L, 1, &length);
    struct fault f = { .id = NULL };
    lua_pushboolean(L, species_find(forest_table(L), name, length, &index, &f));
    return 1;
}

static inline int forest_groups(lua_State *L)
{
    const struct biomass_group *g;
    lua_newtable(L);
    for (lua_Integer i = 1; (g = biomass_group_at((size_t)(i - 1))) != NULL; i++) {
        lua_newtable(L);
        lua_pushstring(L, g->name);
        lua_setfield(L, -2, "name");
        lua_pushnumber(L, g->b0);
        lua_setfield(L, -2, "b0");
        lua_pushnumber(L, g->b1);
        lua_setfield(L, -2, "b1");
        lua_rawseti(L, -2, i);
    }
    return 1;
}

/* NULL, and told on standard error, when the modules do not load. */
static inline struct species_table *forest_species(void)
{
    static const luaL_Reg functions[] = { { "add", forest_add },
                                          { "species_fill", forest_fill },
                                          { "species_known", forest_known },
                                          { "biomass_groups", forest_groups },
                                          { NULL, NULL } };
    static const char text[] =
        "local forest = ...\n"
        "function need(name) assert(name == 'forest') return forest end\n"
        "for _, row in ipairs(dofile 'stdlib/species.lua') do forest.add(row) end\n"
        "dofile 'stdlib/biomass.lua' dofile 'stdlib/crowns.lua'\n"
        "local sprouting = dofile('stdlib/regrowth.lua').sprouting\n"
        "local wildlife = dofile 'stdlib/wildlife.lua'\n"
        "for _, list in ipairs { sprouting, wildlife.mast } do\n"
        "  for _, row in ipairs(list) do forest.species_fill(row[1], row[2]) end\n"
        "end\n";
    struct species_table *t = species_table_new();
    lua_State *L = luaL_newstate();
    if (!t || !L) {
        species_table_free(t);
        return NULL;
    }
    luaL_openlibs(L);
    bool good = luaL_loadstring(L, text) == LUA_OK;
    luaL_newlibtable(L, functions);
    lua_pushlightuserdata(L, t);
    luaL_setfuncs(L, functions, 1);
    good = good && lua_pcall(L, 1, 0, 0) == LUA_OK;
    if (!good)
        fprintf(stderr, "species: %s\n", lua_tostring(L, -1));
    lua_close(L);
    if (good)
        return t;
    species_table_free(t);
    return NULL;
}

#endif
