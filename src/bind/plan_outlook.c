/* need "plan": what will stand in a stand (plan/outlook.h). */
#include <lauxlib.h>
#include <lua.h>

#include "bind/measure.h"
#include "bind/plan_inner.h"
#include "plan/outlook.h"

static uint32_t stand_at(lua_State *L)
{
    return plan_index_at(L, 1, plan_of(L)->stand_count, "stand");
}

/* The whole number in the field of the table at `index`, or OUTLOOK_NONE. */
static int year_of(lua_State *L, int index, const char *key)
{
    lua_getfield(L, index, key);
    int year = (int)luaL_optinteger(L, -1, OUTLOOK_NONE);
    lua_pop(L, 1);
    return year;
}

/* expected(stand, { when, year, season, use }): a time is added. */
static int l_expected(lua_State *L)
{
    struct plan *plan = plan_of(L);
    uint32_t stand = stand_at(L);
    luaL_checktype(L, 2, LUA_TTABLE);
    lua_getfield(L, 2, "use");
    lua_getfield(L, 2, "when");
    const char *use = luaL_optstring(L, 3, ""), *when = luaL_checkstring(L, 4);
    struct outlook_time *time = outlook_add_time(plan, stand, when);
    plan_check(L);
    time->year = year_of(L, 2, "year");
    time->season = year_of(L, 2, "season");
    plan_set_text(plan, &time->use, use);
    plan_check(L);
    return 0;
}

/* expected_figure(stand, key, words, measure or nil): of the time added last. */
static int l_expected_figure(lua_State *L)
{
    struct plan *plan = plan_of(L);
    const struct plan_stand *stand = &plan->stands[stand_at(L)];
    if (stand->time_count == 0)
        return luaL_error(L, "no time is added to the stand");
    plan_set_figure(plan, &stand->times[stand->time_count - 1].figures,
                    luaL_checkstring(L, 2), luaL_checkstring(L, 3), measure_at(L, 4));
    plan_check(L);
    return 0;
}

/* stage(stand, { act, first_season, hides_lying ... }) */
static int l_stage(lua_State *L)
{
    struct plan *plan = plan_of(L);
    uint32_t stand = stand_at(L);
    luaL_checktype(L, 2, LUA_TTABLE);
    lua_getfield(L, 2, "act");
    struct outlook_stage *stage = outlook_add_stage(plan, stand, luaL_checkstring(L, 3));
    plan_check(L);
    for (int i = 0; i < OUTLOOK_YEARS; i++)
        stage->years[i] = year_of(L, 2, outlook_year_word((enum outlook_year)i));
    return 0;
}

void plan_outlook_open(lua_State *L)
{
    static const luaL_Reg functions[] = {
        { "expected", l_expected },
        { "expected_figure", l_expected_figure },
        { "stage", l_stage },
        { NULL, NULL },
    };
    luaL_setfuncs(L, functions, 0);
}
