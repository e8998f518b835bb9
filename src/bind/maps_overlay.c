/* shape:buffer, :union, :intersection, :difference, once need "maps" has been said. */
#include <lauxlib.h>
#include <lua.h>
#include <string.h>

#include "base/fault.h"
#include "bind/maps.h"
#include "bind/maps_inner.h"
#include "bind/shape.h"
#include "ground/overlay.h"
#include "lang/host.h"
#include "lang/limits.h"
#include "lang/raise.h"

/* Instructions that a point's share of an overlay takes as long as, about. */
enum { TICKS_A_POINT = 200 };

static const struct shape *charged(lua_State *L, int index)
{
    const struct shape *s = shape_at_index(L, index);
    limits_charge_input(L, TICKS_A_POINT * (1 + s->point_count));
    return s;
}

void maps_raise(lua_State *L, struct fault *f)
{
    const struct limits_input *input = &host_of(L)->limits->input;
    if (strcmp(f->id, "shape-slow") == 0 && input->corners > 0) {
        char what[INPUT_WHAT], mend[INPUT_MEND];
        limits_say_input(input, what, mend);
        f->hint[0] = '\0';
        fault_hint(f, "%s; %s", what, mend);
    }
    fault_raise(L, f);
}

static int give(lua_State *L, bool ok, struct fault *f)
{
    if (!ok)
        maps_raise(L, f);
    shape_made(L);
    return 1;
}

/* shape:buffer(feet, ends, words): what lies within so many feet; `ends` is "round" or
 * "flat", for lines. */
static int l_buffer(lua_State *L)
{
    static const char *const ends[] = { "round", "flat", NULL };
    struct fault f = { 0 };
    const struct shape *s = charged(L, 1);
    double by = luaL_checknumber(L, 2);
    int end = luaL_checkoption(L, 3, "round", ends);
    struct shape *out = shape_push(L, SHAPE_AREAS, luaL_optstring(L, 4, NULL));
    return give(L, overlay_buffer(s, by, end == 1 ? OVERLAY_FLAT : OVERLAY_ROUND, out, &f),
                &f);
}

/* shape:union(other or list of others, words) */
static int l_union(lua_State *L)
{
    struct fault f = { 0 };
    const char *words = luaL_optstring(L, 3, NULL);
    bool many = lua_type(L, 2) == LUA_TTABLE;
    lua_Integer others = many ? luaL_len(L, 2) : 1;
    const struct shape **list =
        lua_newuserdatauv(L, ((size_t)others + 1) * sizeof(const struct shape *), 0);
    list[0] = charged(L, 1);
    for (lua_Integer i = 1; i <= others; i++) {
        if (many)
            lua_rawgeti(L, 2, i);
        else
            lua_pushvalue(L, 2);
        list[i] = charged(L, -1); /* the list holds it */
        lua_pop(L, 1);
    }
    struct shape *out = shape_push(L, list[0]->kind, words);
    return give(L, overlay_union(list, (size_t)others + 1, out, &f), &f);
}

/* shape:intersection(other, words) */
static int l_intersection(lua_State *L)
{
    struct fault f = { 0 };
    const struct shape *a = charged(L, 1), *b = charged(L, 2);
    struct shape *out = shape_push(L, a->kind, luaL_optstring(L, 3, NULL));
    return give(L, overlay_intersection(a, b, out, &f), &f);
}

/* shape:difference(other, words) */
static int l_difference(lua_State *L)
{
    struct fault f = { 0 };
    const struct shape *a = charged(L, 1), *b = charged(L, 2);
    struct shape *out = shape_push(L, a->kind, luaL_optstring(L, 3, NULL));
    return give(L, overlay_difference(a, b, out, &f), &f);
}

void maps_overlay(lua_State *L)
{
    static const luaL_Reg methods[] = {
        { "buffer", l_buffer },
        { "union", l_union },
        { "intersection", l_intersection },
        { "difference", l_difference },
        { NULL, NULL },
    };
    shape_methods(L);
    luaL_setfuncs(L, methods, 0);
    lua_pop(L, 1);
}
