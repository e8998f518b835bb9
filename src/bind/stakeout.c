/* need "stakeout": flags of shapes (ground/flags.h), the order in which they are walked
 * (ground/stakeout.h), and shapes one by one (handout.h tells which hole is whose). */
#include "bind/stakeout.h"

#include <lauxlib.h>
#include <lua.h>
#include <math.h>

#include "base/fault.h"
#include "bind/ask.h"
#include "bind/shape.h"
#include "ground/flags.h"
#include "ground/handout.h"
#include "ground/stakeout.h"
#include "lang/limits.h"
#include "lang/raise.h"

static const char FLAGS[] = "flags", ORDER[] = "flags in order";

/* Instructions that a point takes as long as for each flag it may become, and two flags
 * looked at for a shorter way, about. */
enum { TICKS_A_POINT = 50, TICKS_A_PAIR = 20 };

/* ---- what Lua frees, whatever is raised ---- */

static int flags_gc(lua_State *L)
{
    flags_free(luaL_checkudata(L, 1, FLAGS));
    return 0;
}

static int order_gc(lua_State *L)
{
    stakeout_free(luaL_checkudata(L, 1, ORDER));
    return 0;
}

static void set_number(lua_State *L, double value, const char *key)
{
    if (isnan(value))
        return; /* not known: not there */
    lua_pushnumber(L, value);
    lua_setfield(L, -2, key);
}

static double number_field(lua_State *L, int table, const char *key, double otherwise)
{
    lua_getfield(L, table, key);
    double value = luaL_optnumber(L, -1, otherwise);
    lua_pop(L, 1);
    return value;
}

static struct point point_fields(lua_State *L, int table)
{
    lua_getfield(L, table, "x");
    lua_getfield(L, table, "y");
    struct point p = { luaL_checknumber(L, -2), luaL_checknumber(L, -1) };
    lua_pop(L, 2);
    return p;
}

/* ---- flags ---- */

static const char *const kinds[] = { "opening", "trail", "buffer", "corner", "flag", NULL };

/* The flags of the item on top: { kind =, name =, shape =, within = }. */
static void add_item(lua_State *L, struct flags *all)
{
    struct fault f = { 0 };
    luaL_checktype(L, -1, LUA_TTABLE);
    int item = lua_gettop(L);
    lua_getfield(L, item, "kind");
    enum flag_kind kind = (enum flag_kind)luaL_checkoption(L, -1, NULL, kinds);
    lua_getfield(L, item, "name");
    const char *name = luaL_checkstring(L, -1);
    lua_getfield(L, item, "shape");
    const struct shape *s = shape_at_index(L, -1);
    lua_getfield(L, item, "within");
    bool bends = !lua_isnil(L, -1);
    double within = luaL_optnumber(L, -1, 0);
    limits_charge_input(L, TICKS_A_POINT * (1 + s->point_count));
    bool good = bends ? flags_bends(all, kind, name, s, within, &f)
                      : flags_center(all, name, s, &f);
    if (!good)
        fault_raise(L, &f);
    lua_settop(L, item);
}

static void push_flags(lua_State *L, const struct flags *all)
{
    lua_createtable(L, (int)all->count, 0);
    for (size_t i = 0; i < all->count; i++) {
        const struct flag *flag = &all->list[i];
        lua_createtable(L, 0, 5);
        lua_pushinteger(L, (lua_Integer)flag->run);
        lua_setfield(L, -2, "run");
        lua_pushstring(L, flag->name);
        lua_setfield(L, -2, "name");
        lua_pushstring(L, flag_kind_word(flag->kind));
        lua_setfield(L, -2, "kind");
        set_number(L, flag->at.x, "x");
        set_number(L, flag->at.y, "y");
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
}

/* flags { { kind = "opening", name =, shape = }, { kind = "trail", name =, shape =,
 * within = ft }, ... }: { { name =, kind =, x =, y =, run = }, ... }. Without `within` an item
 * has one flag at its center, else one at each bend, end or corner. */
static int l_flags(lua_State *L)
{
    luaL_checktype(L, 1, LUA_TTABLE);
    lua_settop(L, 1);
    struct flags *all = ask_held(L, sizeof *all, FLAGS, flags_gc);
    lua_Integer count = luaL_len(L, 1);
    for (lua_Integer i = 1; i <= count; i++) {
        lua_rawgeti(L, 1, i);
        add_item(L, all);
        lua_pop(L, 1);
    }
    push_flags(L, all);
    return 1;
}

/* ---- their order ---- */

/* Places alone: the names stay with Lua. */
static const struct flag *read_places(lua_State *L, int list, size_t *count)
{
    luaL_checktype(L, list, LUA_TTABLE);
    *count = (size_t)luaL_len(L, list);
    struct flag *flags = lua_newuserdatauv(L, (*count + 1) * sizeof *flags, 0);
    for (size_t i = 0; i < *count; i++) {
        lua_rawgeti(L, list, (lua_Integer)i + 1);
        luaL_checktype(L, -1, LUA_TTABLE);
        lua_getfield(L, -1, "run");
        lua_Integer run = luaL_optinteger(L, -1, 0);
        lua_pop(L, 1);
        flags[i] = (struct flag){ NULL, FLAG_OTHER, point_fields(L, lua_gettop(L)),
                                  run > 0 ? (size_t)run : 0 };
        lua_pop(L, 1);
    }
    return flags;
}

static void push_order(lua_State *L, const struct stakeout *out)
{
    lua_createtable(L, (int)out->count, 1);
    for (size_t i = 0; i < out->count; i++) {
        const struct stake *s = &out->stakes[i];
        lua_createtable(L, 0, 5);
        lua_pushinteger(L, (lua_Integer)s->flag + 1);
        lua_setfield(L, -2, "flag");
        if (!s->first) {
            set_number(L, s->azimuth, "azimuth");
            set_number(L, s->magnetic, "magnetic");
            set_number(L, s->distance_ft, "distance");
            set_number(L, s->paces, "paces");
        }
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
    set_number(L, out->length_ft, "length");
}

/* Flags side by side that have the same `run`, which is not 0, stay so.
 * order(flags, { start = { x =, y = }, returns =, declination = deg, pace = ft }):
 * { { flag = index, azimuth =, magnetic =, distance = ft, paces = }, ..., length = ft };
 * of the first without a start only its flag, and no paces without a pace. */
static int l_order(lua_State *L)
{
    struct fault f = { 0 };
    struct point start;
    lua_settop(L, 2);
    luaL_checktype(L, 2, LUA_TTABLE);
    struct stakeout_ask ask = { .declination = number_field(L, 2, "declination", 0),
                                .pace_ft = number_field(L, 2, "pace", 0) };
    lua_getfield(L, 2, "returns");
    ask.returns = lua_toboolean(L, -1);
    if (lua_getfield(L, 2, "start") == LUA_TTABLE) {
        start = point_fields(L, lua_gettop(L));
        ask.start = &start;
    }
    ask.flags = read_places(L, 1, &ask.count);
    if (ask.count <= STAKEOUT_FLAGS_MOST)
        limits_charge_input(L, TICKS_A_PAIR * ask.count * ask.count);
    struct stakeout *out = ask_held(L, sizeof *out, ORDER, order_gc);
    if (!stakeout_plan(&ask, out, &f))
        fault_raise(L, &f);
    push_order(L, out);
    return 1;
}

/* ---- one by one ---- */

static bool add_holes(const struct shape *s, size_t ring, struct shape *out,
                      struct fault *f)
{
    for (size_t i = 0; i < s->part_count; i++) {
        const struct shape_part *p = &s->parts[i];
        if (p->hole && handout_holder(s, i) == ring &&
            !shape_add_part(out, s->points + p->first, p->count, true, f))
            return false;
    }
    return true;
}

/* singles(shape): each of its areas (with its holes), lines or runs of points as a shape
 * of its own, in their order, with the words of the whole. */
static int l_singles(lua_State *L)
{
    struct fault f = { 0 };
    const struct shape *s = shape_at_index(L, 1);
    const char *words = shape_words(L, 1);
    lua_settop(L, 1);
    limits_charge_input(L, TICKS_A_POINT * (1 + s->point_count));
    lua_newtable(L);
    lua_Integer count = 0;
    for (size_t i = 0; i < s->part_count; i++) {
        const struct shape_part *p = &s->parts[i];
        if (p->hole)
            continue;
        struct shape *one = shape_push(L, s->kind, words);
        if (!shape_add_part(one, s->points + p->first, p->count, false, &f) ||
            !add_holes(s, i, one, &f))
            fault_raise(L, &f);
        shape_made(L);
        lua_rawseti(L, -2, ++count);
    }
    return 1;
}

int stakeout_room(lua_State *L)
{
    static const luaL_Reg functions[] = {
        { "flags", l_flags },
        { "order", l_order },
        { "singles", l_singles },
        { NULL, NULL },
    };
    luaL_newlib(L, functions);
    lua_pushinteger(L, STAKEOUT_FLAGS_MOST);
    lua_setfield(L, -2, "most");
    return 1;
}
