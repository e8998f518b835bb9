/* need "maps": opens maps (and frames: maps_frame.c), and gives their features as shapes
 * (bind/shape.h). */
#include "bind/maps.h"

#include <lauxlib.h>
#include <lua.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/fault.h"
#include "bind/maps_inner.h"
#include "bind/shape.h"
#include "bind/tell.h"
#include "ground/frame.h"
#include "ground/map.h"
#include "lang/host.h"
#include "lang/limits.h"
#include "lang/raise.h"
#include "lang/watchdog.h"

static const char MAP[] = "map";

enum { TICKS_A_POINT = 200 };

/* ---- maps ---- */

struct held_map {
    struct map *map;
    size_t bytes;
};

static const struct map *map_at(lua_State *L, int index)
{
    struct held_map *h = luaL_checkudata(L, index, MAP);
    if (!h->map)
        luaL_error(L, "this map is gone");
    return h->map;
}

static int map_gc(lua_State *L)
{
    struct held_map *h = luaL_checkudata(L, 1, MAP);
    map_free(h->map);
    limits_let_go(L, h->bytes);
    *h = (struct held_map){ NULL, 0 };
    return 0;
}

/* About what a map takes: the points, and a few words of each feature. */
static size_t map_bytes(const struct map *map)
{
    return map->points * 2 * sizeof(struct point) + map->count * 512;
}

static const char *text_field(lua_State *L, int index, const char *key)
{
    if (lua_type(L, index) != LUA_TTABLE)
        return NULL;
    lua_getfield(L, index, key); /* stays on the stack, which holds it */
    return lua_isnil(L, -1) ? NULL : luaL_checkstring(L, -1);
}

/* A reader that never ends is the map's fault. */
static void suspect_reading(const char *name)
{
    char what[200];
    snprintf(what, sizeof what, "reading the map `%s` takes too long", name);
    watchdog_suspect(what,
                     "open it in the program that it comes from, and save it again");
}

static void note_input(lua_State *L, const struct held_map *h)
{
    struct limits_input input = { .corners = h->map->points,
                                  .features = h->map->count,
                                  .bytes = h->bytes };
    snprintf(input.name, sizeof input.name, "%s", h->map->file);
    limits_input(L, &input);
}

/* read(name, { field =, kind_field =, swapped = }): a map, found as `use` finds files. */
static int l_read(lua_State *L)
{
    struct fault f = { 0 };
    const char *name = luaL_checkstring(L, 1);
    struct map_ask ask = { .name_field = text_field(L, 2, "field"),
                           .kind_field = text_field(L, 2, "kind_field") };
    if (lua_type(L, 2) == LUA_TTABLE) {
        lua_getfield(L, 2, "swapped");
        ask.swapped = lua_toboolean(L, -1);
    }
    struct map_files *files = map_files_new(L);
    int files_at = lua_gettop(L);
    struct held_map *h = lua_newuserdatauv(L, sizeof *h, 0);
    *h = (struct held_map){ NULL, 0 };
    luaL_setmetatable(L, MAP);
    if (!map_is_named(name, &f) || !map_files_find(L, name, files, &f))
        fault_raise(L, &f);
    struct map_file list[1 + BESIDE_MOST];
    size_t bytes = 0;
    for (size_t i = 0; i < files->count; i++) {
        const struct found *found = &files->found[i];
        list[i] = (struct map_file){ found->name, found->text.data, found->text.length };
        bytes += found->text.length;
    }
    limits_charge_bytes(L, 16 * bytes);
    suspect_reading(name);
    h->map = map_read(list, files->count, &ask, &f);
    if (!h->map) {
        limits_suspect(L);
        fault_raise(L, &f);
    }
    h->bytes = map_bytes(h->map);
    note_input(L, h);
    limits_hold(L, h->bytes);
    lua_pushcfunction(L, map_files_clear); /* their bytes are not needed any more */
    lua_pushvalue(L, files_at);
    lua_call(L, 1, 0);
    return 1;
}

/* map:count() */
static int l_count(lua_State *L)
{
    lua_pushinteger(L, (lua_Integer)map_at(L, 1)->count);
    return 1;
}

/* map:middle(): lon, lat of the middle of the box round all of it */
static int l_map_middle(lua_State *L)
{
    struct position p = map_middle(map_at(L, 1));
    lua_pushnumber(L, p.lon);
    lua_pushnumber(L, p.lat);
    return 2;
}

/* map:about(): { file =, system =, datum =, unsaid =, without_shape = }: the name of its
 * coordinates; the same where they were turned to degrees, else nil; whether it left that
 * unsaid; how many features are nowhere. */
static int l_about(lua_State *L)
{
    const struct map *map = map_at(L, 1);
    lua_createtable(L, 0, 5);
    lua_pushstring(L, map->file);
    lua_setfield(L, -2, "file");
    tell_text(L, "system", map->system[0] ? map->system : NULL);
    tell_text(L, "datum", map->datum[0] ? map->datum : NULL);
    lua_pushboolean(L, map->unsaid);
    lua_setfield(L, -2, "unsaid");
    lua_pushinteger(L, (lua_Integer)map->without_shape);
    lua_setfield(L, -2, "without_shape");
    return 1;
}

static const struct map_feature *feature_at(lua_State *L, size_t *index)
{
    const struct map *map = map_at(L, 1);
    lua_Integer i = luaL_checkinteger(L, 2);
    luaL_argcheck(L, i >= 1 && (size_t)i <= map->count, 2, "no such feature");
    *index = (size_t)i - 1;
    return &map->features[*index];
}

/* map:feature(i): { name =, kind =, layer =, form = "area", attributes = { { field =,
 * text = }, ... } }; what it does not say is nil. */
static int l_feature(lua_State *L)
{
    size_t index;
    const struct map_feature *feature = feature_at(L, &index);
    lua_createtable(L, 0, 5);
    tell_text(L, "name", feature->name);
    tell_text(L, "kind", feature->kind);
    tell_text(L, "layer", feature->layer);
    tell_text(L, "form", shape_kind_word(feature->degrees.kind));
    lua_createtable(L, (int)feature->attribute_count, 0);
    for (size_t i = 0; i < feature->attribute_count; i++) {
        lua_createtable(L, 0, 2);
        tell_text(L, "field", feature->attributes[i].field);
        tell_text(L, "text", feature->attributes[i].text);
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
    lua_setfield(L, -2, "attributes");
    return 1;
}

/* What was mended, for the author to read; nil when nothing was. */
static void push_mended(lua_State *L, const struct clean_done *done)
{
    if (!done->words[0]) {
        lua_pushnil(L);
        return;
    }
    lua_createtable(L, 0, 3);
    tell_text(L, "words", done->words);
    lua_pushnumber(L, done->moved);
    lua_setfield(L, -2, "moved");
    lua_pushnumber(L, done->share);
    lua_setfield(L, -2, "share");
}

/* map:shape(i, frame, { as_area =, most_moved = share, name = }): the feature as a shape,
 * and { words =, moved = ft2, share = } when it was mended. */
static int l_shape(lua_State *L)
{
    struct fault f = { 0 };
    size_t index;
    struct clean_done done = { 0 };
    const struct map *map = map_at(L, 1);
    const struct map_feature *feature = feature_at(L, &index);
    const struct frame *frame = maps_frame_at(L, 3);
    struct clean_ask ask = clean_ask_plain(NULL);
    bool as_area = false;
    if (lua_type(L, 4) == LUA_TTABLE) {
        ask.name = text_field(L, 4, "name");
        lua_getfield(L, 4, "most_moved");
        ask.most_moved = luaL_optnumber(L, -1, ask.most_moved);
        lua_getfield(L, 4, "as_area");
        as_area = lua_toboolean(L, -1);
    }
    const char *words = feature->name
                            ? lua_pushfstring(L, "%s of map %s", feature->name, map->file)
                            : lua_pushfstring(L, "map %s", map->file);
    limits_charge_input(L, TICKS_A_POINT * (1 + feature->degrees.point_count));
    struct shape *out = shape_push(L, feature->degrees.kind, words);
    if (!map_shape(map, index, frame, &ask, as_area, out, &done, &f))
        maps_raise(L, &f);
    shape_made(L);
    if (done.gap > 0 && done.gap <= CLEAN_GAP_SAID) { /* no warning, but no secret */
        char feet[32];
        snprintf(feet, sizeof feet, "%.0f", fmax(done.gap, 1));
        lua_pushfstring(L, "%s, closed over %s ft", words, feet);
        lua_setiuservalue(L, -2, 1);
    }
    push_mended(L, &done);
    return 2;
}

/* ---- the room ---- */

int luaopen_maps(lua_State *L)
{
    static const luaL_Reg map_methods[] = {
        { "count", l_count },     { "middle", l_map_middle }, { "about", l_about },
        { "feature", l_feature }, { "shape", l_shape },       { NULL, NULL },
    };
    static const luaL_Reg functions[] = {
        { "read", l_read },
        { NULL, NULL },
    };
    maps_class(L, MAP, map_methods, map_gc);
    maps_overlay(L);
    luaL_newlib(L, functions);
    maps_frames(L);
    return 1;
}
