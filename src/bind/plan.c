/* need "plan": the built-in Lua's hand on the plan of the run (plan/plan.h): it puts in
 * stands, crews, acts and limits; plan_results.c reads back what the schedule made of
 * them. Acts, stands and crews are told by numbers from 1, their place in the plan. */
#include <lauxlib.h>
#include <lua.h>
#include <string.h>

#include "base/fault.h"
#include "bind/calendar.h"
#include "bind/measure.h"
#include "bind/plan_inner.h"
#include "bind/rooms.h"
#include "lang/face.h"
#include "lang/host.h"
#include "lang/raise.h"
#include "plan/waiting.h"
#include "work/schedule.h"

struct plan *plan_of(lua_State *L)
{
    return host_of(L)->plan;
}

uint32_t plan_index_at(lua_State *L, int index, size_t count, const char *what)
{
    lua_Integer i = luaL_checkinteger(L, index);
    if (i < 1 || (size_t)i > count)
        luaL_error(L, "no %s of that number", what);
    return (uint32_t)(i - 1);
}

struct plan_act *plan_act_at(lua_State *L, int index)
{
    struct plan *plan = plan_of(L);
    return &plan->acts[plan_index_at(L, index, plan->act_count, "act")];
}

uint32_t plan_act_index(lua_State *L, int index)
{
    return plan_index_at(L, index, plan_of(L)->act_count, "act");
}

uint32_t plan_stand_or_none(lua_State *L, int index)
{
    if (lua_isnoneornil(L, index))
        return PLAN_NONE;
    return plan_index_at(L, index, plan_of(L)->stand_count, "stand");
}

void plan_check(lua_State *L)
{
    if (!plan_of(L)->failed)
        return;
    struct fault f = { 0 };
    fault_no_memory(&f);
    fault_raise(L, &f);
}

enum finding_level plan_level_at(lua_State *L, int index)
{
    static const char *const levels[] = { "stop", "caution", "note", NULL };
    return (enum finding_level)luaL_checkoption(L, index, NULL, levels);
}

struct date plan_date_at(lua_State *L, int index)
{
    struct date d;
    if (!date_at(L, index, &d))
        luaL_argerror(L, index, "a date is wanted");
    return d;
}

/* property(name, region, county, walked, starts) */
static int l_property(lua_State *L)
{
    struct plan *plan = plan_of(L);
    plan_set_text(plan, &plan->property, luaL_checkstring(L, 1));
    plan_set_text(plan, &plan->region, luaL_optstring(L, 2, ""));
    plan_set_text(plan, &plan->county, luaL_optstring(L, 3, ""));
    plan->has_walked = date_at(L, 4, &plan->walked);
    plan->starts = plan_date_at(L, 5);
    plan_check(L);
    return 0;
}

static int l_starts(lua_State *L)
{
    date_push(L, plan_of(L)->starts);
    return 1;
}

/* The years that a schedule can reach. */
static int l_first_year(lua_State *L)
{
    lua_pushinteger(L, date_civil(plan_of(L)->starts).year);
    return 1;
}

static int l_last_year(lua_State *L)
{
    lua_pushinteger(L, date_civil(plan_of(L)->starts).year + SCHEDULE_YEARS);
    return 1;
}

/* stand(name, place, walked in words) -> number */
static int l_stand(lua_State *L)
{
    struct plan *plan = plan_of(L);
    uint32_t i = plan_add_stand(plan, luaL_checkstring(L, 1), face_span(L, 2));
    plan_check(L);
    plan_set_text(plan, &plan->stands[i].walked, luaL_checkstring(L, 3));
    plan_check(L);
    lua_pushinteger(L, (lua_Integer)i + 1);
    return 1;
}

/* stand_figure(stand, species or nil, key, words, measure) */
static int l_stand_figure(lua_State *L)
{
    struct plan *plan = plan_of(L);
    struct plan_stand *stand =
        &plan->stands[plan_index_at(L, 1, plan->stand_count, "stand")];
    const char *species = luaL_optstring(L, 2, NULL);
    struct figures *figures = &stand->figures;
    if (species) {
        struct stand_row *row = NULL;
        for (size_t i = 0; i < stand->row_count; i++)
            if (strcmp(stand->rows[i].species, species) == 0)
                row = &stand->rows[i];
        if (!row)
            row = plan_add_row(plan, (uint32_t)(stand - plan->stands), species);
        plan_check(L);
        figures = &row->figures;
    }
    plan_set_figure(plan, figures, luaL_checkstring(L, 3), luaL_checkstring(L, 4),
                    measure_at(L, 5));
    plan_check(L);
    return 0;
}

/* stand_ground(stand, key, words, measure): acres of it by what is done there */
static int l_stand_ground(lua_State *L)
{
    struct plan *plan = plan_of(L);
    struct plan_stand *stand =
        &plan->stands[plan_index_at(L, 1, plan->stand_count, "stand")];
    plan_set_figure(plan, &stand->ground, luaL_checkstring(L, 2), luaL_checkstring(L, 3),
                    measure_at(L, 4));
    plan_check(L);
    return 0;
}

int plan_room(lua_State *L)
{
    static const luaL_Reg functions[] = {
        { "property", l_property },
        { "starts", l_starts },
        { "first_year", l_first_year },
        { "last_year", l_last_year },
        { "stand", l_stand },
        { "stand_figure", l_stand_figure },
        { "stand_ground", l_stand_ground },
        { NULL, NULL },
    };
    luaL_newlib(L, functions);
    plan_acts_open(L);
    plan_results_open(L);
    plan_outlook_open(L);
    plan_ways_open(L);
    plan_dates_open(L);
    plan_crews_open(L);
    return 1;
}
