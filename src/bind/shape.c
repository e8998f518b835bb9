#include "bind/shape.h"

#include <lauxlib.h>
#include <lua.h>
#include <string.h>

#include "base/fault.h"
#include "ground/along.h"
#include "ground/apart.h"
#include "lang/limits.h"
#include "lang/raise.h"

/* Instructions that a point takes as long as, about. */
enum { TICKS_A_POINT = 20 };

static const char SHAPE[] = "shape";
static const char *const kind_words[] = { "point", "line", "area", NULL };

struct held_shape {
    struct shape shape;
    size_t bytes; /* as told to the limits */
};

const char *shape_kind_word(enum shape_kind kind)
{
    return kind_words[kind];
}

static struct held_shape *held(lua_State *L, int index)
{
    return luaL_checkudata(L, index, SHAPE);
}

const struct shape *shape_at_index(lua_State *L, int index)
{
    return &held(L, index)->shape;
}

const char *shape_words(lua_State *L, int index)
{
    lua_getiuservalue(L, index, 1);
    const char *words = lua_tostring(L, -1);
    lua_pop(L, 1);
    return words ? words : "";
}

void shape_made(lua_State *L)
{
    struct held_shape *h = held(L, -1);
    h->bytes = h->shape.point_room * sizeof *h->shape.points +
               h->shape.part_room * sizeof *h->shape.parts;
    limits_hold(L, h->bytes);
}

static int shape_gc(lua_State *L)
{
    struct held_shape *h = held(L, 1);
    shape_free(&h->shape);
    limits_let_go(L, h->bytes);
    h->bytes = 0;
    return 0;
}

/* ---- methods ---- */

static int l_kind(lua_State *L)
{
    lua_pushstring(L, shape_kind_word(shape_at_index(L, 1)->kind));
    return 1;
}

static int l_words(lua_State *L)
{
    held(L, 1);
    lua_getiuservalue(L, 1, 1);
    return 1;
}

static int l_area(lua_State *L)
{
    lua_pushnumber(L, shape_area(shape_at_index(L, 1)));
    return 1;
}

static int l_length(lua_State *L)
{
    lua_pushnumber(L, shape_length(shape_at_index(L, 1)));
    return 1;
}

static int l_is_empty(lua_State *L)
{
    lua_pushboolean(L, shape_is_empty(shape_at_index(L, 1)));
    return 1;
}

static int push_point(lua_State *L, struct point p)
{
    lua_pushnumber(L, p.x);
    lua_pushnumber(L, p.y);
    return 2;
}

static const struct shape *not_empty(lua_State *L)
{
    const struct shape *s = shape_at_index(L, 1);
    if (shape_is_empty(s))
        luaL_error(L, "an empty shape has no place");
    return s;
}

static int l_center(lua_State *L)
{
    return push_point(L, shape_center(not_empty(L)));
}

static int l_inside(lua_State *L)
{
    return push_point(L, shape_inside(not_empty(L)));
}

/* box(): west, south, east, north */
static int l_box(lua_State *L)
{
    struct shape_box b = shape_box(not_empty(L));
    lua_pushnumber(L, b.west);
    lua_pushnumber(L, b.south);
    lua_pushnumber(L, b.east);
    lua_pushnumber(L, b.north);
    return 4;
}

static struct point point_at(lua_State *L, int index)
{
    return (struct point){ luaL_checknumber(L, index), luaL_checknumber(L, index + 1) };
}

static int l_has(lua_State *L)
{
    const struct shape *s = shape_at_index(L, 1);
    lua_pushboolean(L, shape_has(s, point_at(L, 2)));
    return 1;
}

/* distance(x, y): ft, and the x, y of the nearest. */
static int l_distance(lua_State *L)
{
    const struct shape *s = not_empty(L);
    struct point nearest = { 0, 0 };
    lua_pushnumber(L, shape_distance(s, point_at(L, 2), &nearest));
    return 1 + push_point(L, nearest);
}

/* rim_distance(x, y): the same, also from inside. */
static int l_rim_distance(lua_State *L)
{
    const struct shape *s = not_empty(L);
    struct point nearest = { 0, 0 };
    lua_pushnumber(L, shape_rim_distance(s, point_at(L, 2), &nearest));
    return 1 + push_point(L, nearest);
}

/* apart(other): ft between the two, 0 when they touch or overlap; inf for empty ones. */
static int l_apart(lua_State *L)
{
    struct fault f = { 0 };
    const struct shape *a = shape_at_index(L, 1), *b = shape_at_index(L, 2);
    double ft;
    limits_charge_input(L, TICKS_A_POINT * (1 + a->point_count + b->point_count));
    if (!shape_apart(a, b, &ft, &f))
        fault_raise(L, &f);
    lua_pushnumber(L, ft);
    return 1;
}

/* The line from one place along it to another. */
static bool add_stretch(struct shape *out, const struct point *line, size_t count,
                        const struct along *a, struct point *room, struct fault *f)
{
    size_t put = 0;
    double start = 0;
    room[put++] = a->begin;
    for (size_t i = 1; i + 1 < count; i++) {
        start += point_gap(line[i - 1], line[i]);
        if (start > a->from && start < a->to)
            room[put++] = line[i];
    }
    room[put++] = a->end;
    return shape_add_part(out, room, put, false, f);
}

/* beside(area, feet): the stretches of these lines that have some of the area within so
 * many feet, square to them; lines, a part each. */
static int l_beside(lua_State *L)
{
    struct fault f = { 0 };
    const struct shape *s = shape_at_index(L, 1), *area = shape_at_index(L, 2);
    double feet = luaL_checknumber(L, 3);
    const char *words = luaL_optstring(L, 4, shape_words(L, 1));
    luaL_argcheck(L, s->kind == SHAPE_LINES, 1, "lines are wanted");
    limits_charge_input(L, TICKS_A_POINT * (1 + s->point_count + area->point_count));
    struct point *room = lua_newuserdatauv(L, (s->point_count + 2) * sizeof *room, 0);
    struct shape *out = shape_push(L, SHAPE_LINES, words);
    struct along_list found = { .list = NULL };
    bool ok = true;
    for (size_t i = 0; ok && i < s->part_count; i++) {
        const struct point *line = s->points + s->parts[i].first;
        size_t count = s->parts[i].count, first = found.count;
        ok = along_beside(line, count, area, feet, &found, &f);
        for (size_t k = first; ok && k < found.count; k++)
            ok = add_stretch(out, line, count, &found.list[k], room, &f);
    }
    along_free(&found);
    if (!ok)
        fault_raise(L, &f);
    shape_made(L);
    return 1;
}

static int l_parts(lua_State *L)
{
    const struct shape *s = shape_at_index(L, 1);
    lua_createtable(L, (int)s->part_count, 0);
    for (size_t i = 0; i < s->part_count; i++) {
        const struct shape_part *p = &s->parts[i];
        lua_createtable(L, (int)(2 * p->count), p->hole);
        for (size_t k = 0; k < p->count; k++) {
            lua_pushnumber(L, s->points[p->first + k].x);
            lua_rawseti(L, -2, (lua_Integer)(2 * k + 1));
            lua_pushnumber(L, s->points[p->first + k].y);
            lua_rawseti(L, -2, (lua_Integer)(2 * k + 2));
        }
        if (p->hole) {
            lua_pushboolean(L, 1);
            lua_setfield(L, -2, "hole");
        }
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
    return 1;
}

static void open_metatable(lua_State *L)
{
    static const luaL_Reg methods[] = {
        { "kind", l_kind },
        { "words", l_words },
        { "area", l_area },
        { "length", l_length },
        { "is_empty", l_is_empty },
        { "center", l_center },
        { "inside", l_inside },
        { "box", l_box },
        { "has", l_has },
        { "distance", l_distance },
        { "rim_distance", l_rim_distance },
        { "apart", l_apart },
        { "beside", l_beside },
        { "parts", l_parts },
        { NULL, NULL },
    };
    if (luaL_newmetatable(L, SHAPE)) {
        luaL_newlib(L, methods);
        lua_setfield(L, -2, "__index");
        lua_pushcfunction(L, shape_gc);
        lua_setfield(L, -2, "__gc");
        lua_pushboolean(L, 0);
        lua_setfield(L, -2, "__metatable");
    }
}

void shape_methods(lua_State *L)
{
    open_metatable(L);
    lua_getfield(L, -1, "__index");
    lua_remove(L, -2);
}

struct shape *shape_push(lua_State *L, enum shape_kind kind, const char *words)
{
    struct held_shape *h = lua_newuserdatauv(L, sizeof *h, 1);
    *h = (struct held_shape){ .shape = { .kind = kind } };
    open_metatable(L);
    lua_setmetatable(L, -2);
    lua_pushstring(L, words ? words : "");
    lua_setiuservalue(L, -2, 1);
    return &h->shape;
}

/* ---- need "shapes" ---- */

/* Adds the part on top, a list of x and y in turn. */
static void add_part(lua_State *L, struct shape *s)
{
    struct fault f = { 0 };
    luaL_checktype(L, -1, LUA_TTABLE);
    int part = lua_gettop(L);
    size_t count = (size_t)luaL_len(L, part) / 2;
    bool hole = lua_getfield(L, part, "hole") != LUA_TNIL && lua_toboolean(L, -1);
    struct point *points = lua_newuserdatauv(L, (count + 1) * sizeof *points, 0);
    for (size_t i = 0; i < count; i++) {
        lua_rawgeti(L, part, (lua_Integer)(2 * i + 1));
        lua_rawgeti(L, part, (lua_Integer)(2 * i + 2));
        points[i] = (struct point){ luaL_checknumber(L, -2), luaL_checknumber(L, -1) };
        lua_pop(L, 2);
    }
    if (!shape_add_part(s, points, count, hole, &f))
        fault_raise(L, &f);
    lua_settop(L, part);
}

/* make(kind, parts, words) */
static int l_make(lua_State *L)
{
    int kind = luaL_checkoption(L, 1, NULL, kind_words);
    luaL_checktype(L, 2, LUA_TTABLE);
    struct shape *s = shape_push(L, (enum shape_kind)kind, luaL_optstring(L, 3, NULL));
    int at = lua_gettop(L);
    lua_Integer parts = luaL_len(L, 2);
    for (lua_Integer i = 1; i <= parts; i++) {
        lua_rawgeti(L, 2, i);
        add_part(L, s);
        lua_settop(L, at);
    }
    shape_made(L);
    return 1;
}

int shapes_room(lua_State *L)
{
    static const luaL_Reg functions[] = { { "make", l_make }, { NULL, NULL } };
    luaL_newlib(L, functions);
    return 1;
}
