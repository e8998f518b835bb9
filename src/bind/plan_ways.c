/* need "plan": what was found of a stand's openings and trails (plan/ways_told.h). */
#include <lauxlib.h>
#include <lua.h>

#include "bind/measure.h"
#include "bind/plan_inner.h"
#include "plan/ways_told.h"

static uint32_t stand_at(lua_State *L)
{
    return plan_index_at(L, 1, plan_of(L)->stand_count, "stand");
}

static const char *const list_words[] = { "openings", "dead_ends", "candidates", NULL };

/* ways_row(stand, list, act, words, { key, number, key, number, ... }): a row is added.
 * */
static int l_ways_row(lua_State *L)
{
    struct plan *plan = plan_of(L);
    uint32_t stand = stand_at(L), act = plan_act_index(L, 3);
    int list = luaL_checkoption(L, 2, NULL, list_words);
    const char *words = luaL_optstring(L, 4, "");
    luaL_checktype(L, 5, LUA_TTABLE);
    lua_Integer count = luaL_len(L, 5);
    ways_add_row(plan, stand, (enum ways_list)list, act, words);
    plan_check(L);
    struct ways_told *told = plan->stands[stand].ways;
    struct ways_row *row = &told->rows[list][told->count[list] - 1];
    for (lua_Integer i = 1; i + 1 <= count; i += 2) {
        lua_rawgeti(L, 5, i);
        lua_rawgeti(L, 5, i + 1);
        ways_set_number(plan, row, luaL_checkstring(L, -2), luaL_checknumber(L, -1));
        plan_check(L);
        lua_pop(L, 2);
    }
    return 0;
}

/* ways_figure(stand, list or nil, key, words, measure): of the row added last to that
 * list, or of the whole. */
static int l_ways_figure(lua_State *L)
{
    struct plan *plan = plan_of(L);
    struct ways_told *told = ways_of_stand(plan, stand_at(L));
    plan_check(L);
    struct figures *figures = &told->figures;
    if (!lua_isnil(L, 2)) {
        int list = luaL_checkoption(L, 2, NULL, list_words);
        if (told->count[list] == 0)
            return luaL_error(L, "no row is added to the list");
        figures = &told->rows[list][told->count[list] - 1].figures;
    }
    plan_set_figure(plan, figures, luaL_checkstring(L, 3), luaL_checkstring(L, 4),
                    measure_at(L, 5));
    plan_check(L);
    return 0;
}

void plan_ways_open(lua_State *L)
{
    static const luaL_Reg functions[] = {
        { "ways_row", l_ways_row },
        { "ways_figure", l_ways_figure },
        { NULL, NULL },
    };
    luaL_setfuncs(L, functions, 0);
}
