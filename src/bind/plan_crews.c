/* The room "plan": crews: their weeks, a longest day, other hours in parts of the year and
 * on certain dates, days off; and what the schedule made of them. */
#include <lauxlib.h>
#include <lua.h>

#include "bind/calendar.h"
#include "bind/plan_inner.h"
#include "plan/plan.h"

static uint32_t crew_index(lua_State *L)
{
    return plan_index_at(L, 1, plan_of(L)->crew_count, "crew");
}

/* crew(name, people, hours a week of each, travel hours, from, to, off) -> number */
static int l_crew(lua_State *L)
{
    struct plan *plan = plan_of(L);
    uint32_t i = plan_add_crew(plan, luaL_checkstring(L, 1));
    plan_check(L);
    struct plan_crew *crew = &plan->crews[i];
    crew->people = (int)luaL_checkinteger(L, 2);
    crew->hours_each_week = luaL_checknumber(L, 3);
    crew->travel_hours = luaL_checknumber(L, 4);
    crew->has_from = date_at(L, 5, &crew->from);
    crew->has_to = date_at(L, 6, &crew->to);
    crew->off = yearly_none();
    if (!lua_isnoneornil(L, 7) && !window_at(L, 7, &crew->off))
        return luaL_argerror(L, 7, "a window is wanted");
    lua_pushinteger(L, (lua_Integer)i + 1);
    return 1;
}

/* crew_rate(crew, USD an hour of one person) */
static int l_crew_rate(lua_State *L)
{
    plan_of(L)->crews[crew_index(L)].rate = luaL_checknumber(L, 2);
    return 0;
}

/* crew_day(crew, hours of each on one day at most) */
static int l_crew_day(lua_State *L)
{
    plan_of(L)->crews[crew_index(L)].day_hours = luaL_checknumber(L, 2);
    return 0;
}

/* Two dates from `index` on. */
static bool span_at(lua_State *L, int index, struct schedule_span *out)
{
    return date_at(L, index, &out->from) && date_at(L, index + 1, &out->to);
}

/* crew_hours(crew, week, day, window); crew_hours(crew, week, day, from, to): hours of
 * each, nil where nothing is said of them. */
static int l_crew_hours(lua_State *L)
{
    uint32_t crew = crew_index(L);
    struct schedule_hours hours = { .week_each = luaL_optnumber(L, 2, -1),
                                    .day_each = luaL_optnumber(L, 3, -1) };
    hours.dated = span_at(L, 4, &hours.dates);
    if (!hours.dated && !window_at(L, 4, &hours.days))
        return luaL_argerror(L, 4, "a window or two dates are wanted");
    plan_add_crew_hours(plan_of(L), crew, hours);
    plan_check(L);
    return 0;
}

/* crew_off(crew, from, to) */
static int l_crew_off(lua_State *L)
{
    uint32_t crew = crew_index(L);
    struct schedule_span days;
    if (!span_at(L, 2, &days))
        return luaL_argerror(L, 2, "two dates are wanted");
    plan_add_day_off(plan_of(L), crew, days);
    plan_check(L);
    return 0;
}

/* visits(crew): days on which it comes, and hours of work on them */
static int l_visits(lua_State *L)
{
    const struct plan_crew *crew = &plan_of(L)->crews[crew_index(L)];
    lua_pushinteger(L, crew->visits);
    lua_pushnumber(L, crew->planned_hours);
    return 2;
}

void plan_crews_open(lua_State *L)
{
    static const luaL_Reg functions[] = {
        { "crew", l_crew },
        { "crew_rate", l_crew_rate },
        { "crew_day", l_crew_day },
        { "crew_hours", l_crew_hours },
        { "crew_off", l_crew_off },
        { "visits", l_visits },
        { NULL, NULL },
    };
    luaL_setfuncs(L, functions, 0);
}
