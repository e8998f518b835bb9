/* need "sides": the ground on one side of a shape, as a shape (ground/side.h). */
#include <lauxlib.h>
#include <lua.h>

#include "base/fault.h"
#include "bind/rooms.h"
#include "bind/shape.h"
#include "ground/side.h"
#include "lang/limits.h"
#include "lang/raise.h"

/* Instructions that a point of a line takes as long as, about; and how many points make
 * each take as long again, for all look at one another. */
enum { TICKS_A_POINT = 100, POINTS_AGAIN = 1000 };

static void take_shape(struct shape *to, struct shape *from)
{
    *to = *from;
    *from = (struct shape){ .kind = from->kind };
}

/* of(shape, side, ground, name, words): side is "north", "east", "south" or "west" of the
 * shape; ground an area, what will be parted by it. The area on that side, the lines by
 * which the ends of a line were carried on, and the feet of its loops. */
static int l_of(lua_State *L)
{
    static const char *const sides[] = { "north", "east", "south", "west", NULL };
    struct fault f = { 0 };
    struct sided made;
    struct side_ask ask = { .of = shape_at_index(L, 1),
                            .side = (enum side)luaL_checkoption(L, 2, NULL, sides),
                            .ground = shape_at_index(L, 3),
                            .name = luaL_optstring(L, 4, NULL) };
    const char *words = luaL_optstring(L, 5, NULL);
    luaL_argcheck(L, ask.ground->kind == SHAPE_AREAS, 3, "an area is wanted");
    size_t count = ask.of->point_count;
    limits_charge_input(L, TICKS_A_POINT * (1 + count) * (1 + count / POINTS_AGAIN));
    struct shape *area = shape_push(L, SHAPE_AREAS, words);
    struct shape *carried = shape_push(L, SHAPE_LINES, words);
    if (!side_of(&ask, &made, &f))
        fault_raise(L, &f);
    take_shape(area, &made.area);
    take_shape(carried, &made.carried);
    shape_made(L);
    lua_pushvalue(L, -2);
    shape_made(L);
    lua_insert(L, -2); /* area, area, carried */
    lua_pushnumber(L, made.loops);
    return 3;
}

int sides_room(lua_State *L)
{
    static const luaL_Reg functions[] = { { "of", l_of }, { NULL, NULL } };
    luaL_newlib(L, functions);
    return 1;
}
