/* frame:handout: flags and shapes as a text of GPX, KML or GeoJSON (ground/handout.h). */
#include <lauxlib.h>
#include <lua.h>
#include <math.h>

#include "base/fault.h"
#include "bind/maps_inner.h"
#include "bind/shape.h"
#include "ground/frame.h"
#include "ground/geojson.h"
#include "ground/gpx.h"
#include "ground/handout.h"
#include "ground/kml.h"
#include "lang/held.h"
#include "lang/limits.h"
#include "lang/raise.h"

/* Instructions that a point takes as long as: turned to degrees, and written. */
enum { TICKS_A_POINT = 300 };

static bool lonlat(void *owner, struct point at, double *lon, double *lat)
{
    struct position p = frame_place(owner, at);
    *lon = p.lon;
    *lat = p.lat;
    return isfinite(p.lon) && isfinite(p.lat);
}

/* The text stays the table's, which holds it: so no number that would become one. */
static const char *text(lua_State *L, int table, const char *key, bool needed)
{
    int kind = lua_getfield(L, table, key);
    if (kind != LUA_TSTRING && (needed || kind != LUA_TNIL))
        luaL_error(L, "`%s` is a text", key);
    const char *words = lua_tostring(L, -1);
    lua_pop(L, 1);
    return words;
}

static double number(lua_State *L, int table, const char *key)
{
    lua_getfield(L, table, key);
    double value = luaL_checknumber(L, -1);
    lua_pop(L, 1);
    return value;
}

/* The list in that field, on the stack; its length. An absent one is empty. */
static size_t open_list(lua_State *L, int table, const char *key)
{
    lua_getfield(L, table, key);
    if (lua_isnil(L, -1))
        return 0;
    luaL_checktype(L, -1, LUA_TTABLE);
    return (size_t)luaL_len(L, -1);
}

static void read_flags(lua_State *L, int table, struct handout *h)
{
    h->flag_count = open_list(L, table, "flags");
    int list = lua_gettop(L);
    struct handout_flag *flags =
        lua_newuserdatauv(L, (h->flag_count + 1) * sizeof *flags, 0);
    for (size_t i = 0; i < h->flag_count; i++) {
        lua_rawgeti(L, list, (lua_Integer)i + 1);
        int at = lua_gettop(L);
        luaL_checktype(L, at, LUA_TTABLE);
        flags[i] = (struct handout_flag){ text(L, at, "name", true),
                                          text(L, at, "kind", false),
                                          text(L, at, "note", false),
                                          { number(L, at, "x"), number(L, at, "y") } };
        lua_pop(L, 1);
    }
    h->flags = flags;
}

static void read_shapes(lua_State *L, int table, struct handout *h)
{
    h->shape_count = open_list(L, table, "shapes");
    int list = lua_gettop(L);
    struct handout_shape *shapes =
        lua_newuserdatauv(L, (h->shape_count + 1) * sizeof *shapes, 0);
    for (size_t i = 0; i < h->shape_count; i++) {
        lua_rawgeti(L, list, (lua_Integer)i + 1);
        int at = lua_gettop(L);
        luaL_checktype(L, at, LUA_TTABLE);
        lua_getfield(L, at, "shape"); /* the table holds it */
        const struct shape *s = shape_at_index(L, -1);
        shapes[i] = (struct handout_shape){ text(L, at, "name", true),
                                            text(L, at, "kind", false),
                                            text(L, at, "note", false), s };
        limits_charge(L, TICKS_A_POINT * (1 + s->point_count));
        lua_settop(L, at - 1);
    }
    h->shapes = shapes;
}

int frame_handout(lua_State *L, struct frame *frame)
{
    static const char *const names[] = { "gpx", "kml", "geojson", NULL };
    static bool (*const write[])(const struct handout *, struct buf *, struct fault *) = {
        gpx_write, kml_write, geojson_write
    };
    struct fault f = { 0 };
    int format = luaL_checkoption(L, 2, NULL, names);
    luaL_checktype(L, 3, LUA_TTABLE);
    lua_settop(L, 3); /* all texts and shapes are held by the table at 3 */
    struct handout h = { .title = text(L, 3, "title", false),
                         .route = text(L, 3, "route", false),
                         .lonlat = lonlat,
                         .owner = frame };
    read_flags(L, 3, &h);
    read_shapes(L, 3, &h);
    limits_charge(L, TICKS_A_POINT * (1 + 2 * h.flag_count));
    struct buf *out = held_new(L);
    if (!write[format](&h, out, &f))
        fault_raise(L, &f);
    return held_push(L, out);
}
