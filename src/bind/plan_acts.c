/* The room "plan": acts: what each is, when and by whom it may be done, what it waits for;
 * and those that a visit may ask for. */
#include <lauxlib.h>
#include <lua.h>
#include <string.h>

#include "bind/calendar.h"
#include "bind/measure.h"
#include "bind/plan_inner.h"
#include "lang/face.h"
#include "plan/waiting.h"

/* Days of a lead, a lag, an expiry or of work. Nothing is planned further off than a
 * hundred years, and sums of such days and dates stay in bounds. */
static int days_at(lua_State *L, int index)
{
    enum { DAYS_MOST = 100 * 366 };
    lua_Integer days = luaL_checkinteger(L, index);
    return (int)(days > DAYS_MOST ? DAYS_MOST : days < -DAYS_MOST ? -DAYS_MOST : days);
}

/* act(id, kind, title, stand, place, prescription, chain) -> number */
static int l_act(lua_State *L)
{
    struct plan *plan = plan_of(L);
    uint32_t i = plan_add_act(plan, luaL_checkstring(L, 1), luaL_checkstring(L, 2),
                              plan_stand_or_none(L, 4), face_span(L, 5));
    plan_check(L);
    struct plan_act *act = &plan->acts[i];
    plan_set_text(plan, &act->title, luaL_checkstring(L, 3));
    plan_set_text(plan, &act->prescription, luaL_optstring(L, 6, ""));
    plan_set_text(plan, &act->chain, luaL_optstring(L, 7, ""));
    plan_check(L);
    lua_pushinteger(L, (lua_Integer)i + 1);
    return 1;
}

/* first(act): to be done before others */
static int l_first(lua_State *L)
{
    plan_act_at(L, 1)->first = true;
    return 0;
}

/* figure(act, key, words, measure) */
static int l_figure(lua_State *L)
{
    plan_set_figure(plan_of(L), &plan_act_at(L, 1)->figures, luaL_checkstring(L, 2),
                    luaL_checkstring(L, 3), measure_at(L, 4));
    plan_check(L);
    return 0;
}

/* open(act, window or nil for no day of every year, words) */
static int l_open(lua_State *L)
{
    struct plan_act *act = plan_act_at(L, 1);
    act->open = yearly_none();
    if (!lua_isnil(L, 2) && !window_at(L, 2, &act->open))
        return luaL_argerror(L, 2, "a window is wanted");
    plan_set_text(plan_of(L), &act->during, luaL_checkstring(L, 3));
    plan_check(L);
    return 0;
}

/* opening(act, from, to): days that are open beside its window */
static int l_opening(lua_State *L)
{
    uint32_t act = plan_act_index(L, 1);
    struct schedule_span days = { plan_date_at(L, 2), plan_date_at(L, 3) };
    plan_add_opening(plan_of(L), act, days);
    plan_check(L);
    return 0;
}

/* in_one_week(act) */
static int l_in_one_week(lua_State *L)
{
    plan_act_at(L, 1)->in_one_week = true;
    return 0;
}

/* limit(act, words, level, window) */
static int l_limit(lua_State *L)
{
    uint32_t act = plan_act_index(L, 1);
    const char *words = luaL_checkstring(L, 2);
    struct limit limit = { .level = plan_level_at(L, 3) };
    if (!window_at(L, 4, &limit.days))
        return luaL_argerror(L, 4, "a window is wanted");
    plan_add_limit(plan_of(L), act, words, limit);
    plan_check(L);
    return 0;
}

/* limit_dates(act, words, level, from, to) */
static int l_limit_dates(lua_State *L)
{
    uint32_t act = plan_act_index(L, 1);
    const char *words = luaL_checkstring(L, 2);
    struct limit limit = { .level = plan_level_at(L, 3),
                           .dated = true,
                           .from = plan_date_at(L, 4),
                           .to = plan_date_at(L, 5) };
    plan_add_limit(plan_of(L), act, words, limit);
    plan_check(L);
    return 0;
}

/* notice(act, name, to, lead days, expiry days, filed): `filed` a date or nil */
static int l_notice(lua_State *L)
{
    struct date filed = { 0 };
    bool given = date_at(L, 6, &filed);
    struct act_notice *notice =
        plan_add_notice(plan_of(L), plan_act_index(L, 1), luaL_checkstring(L, 2),
                        luaL_checkstring(L, 3), days_at(L, 4), days_at(L, 5));
    plan_check(L);
    notice->filed = (struct schedule_day_given){ given, filed };
    return 0;
}

/* condition(act, name, twelve chances) */
static int l_condition(lua_State *L)
{
    struct plan *plan = plan_of(L);
    struct plan_act *act = plan_act_at(L, 1);
    const char *name = luaL_checkstring(L, 2);
    luaL_checktype(L, 3, LUA_TTABLE);
    for (size_t i = 0; i < plan->condition_count; i++)
        if (strcmp(plan->conditions[i].name, name) == 0)
            act->condition = (int)i;
    if (act->condition >= 0)
        return 0;
    double chance[12];
    for (int i = 0; i < 12; i++) {
        lua_rawgeti(L, 3, i + 1);
        chance[i] = luaL_checknumber(L, -1);
        lua_pop(L, 1);
    }
    uint32_t c = plan_add_condition(plan, name, chance);
    plan_check(L);
    act->condition = (int)c;
    return 0;
}

/* link(act, before, least days, most days) */
static int l_link(lua_State *L)
{
    uint32_t act = plan_act_index(L, 1);
    struct link link = { plan_act_index(L, 2), days_at(L, 3), days_at(L, 4) };
    plan_add_link(plan_of(L), act, link);
    plan_check(L);
    return 0;
}

/* able(act, crew); needs(act, the skill that its crews have); nobody(act, days);
 * days(act, days) of a crew */
static int l_able(lua_State *L)
{
    struct plan *plan = plan_of(L);
    plan_add_able(plan, plan_act_index(L, 1),
                  plan_index_at(L, 2, plan->crew_count, "crew"));
    plan_check(L);
    return 0;
}

static int l_needs(lua_State *L)
{
    struct plan_act *act = plan_act_at(L, 1);
    plan_set_text(plan_of(L), &act->skill, luaL_checkstring(L, 2));
    plan_check(L);
    return 0;
}

static int l_nobody(lua_State *L)
{
    struct plan_act *act = plan_act_at(L, 1);
    act->nobody = true;
    act->span_days = lua_isnoneornil(L, 2) ? 1 : days_at(L, 2);
    return 0;
}

static int l_days(lua_State *L)
{
    plan_act_at(L, 1)->span_days = days_at(L, 2);
    return 0;
}

static int l_along(lua_State *L)
{
    plan_act_at(L, 1)->along = plan_act_index(L, 2);
    return 0;
}

static int l_fixed(lua_State *L)
{
    struct plan_act *act = plan_act_at(L, 1);
    act->fixed = plan_date_at(L, 2);
    act->has_fixed = true;
    return 0;
}

static int l_earliest(lua_State *L)
{
    struct plan_act *act = plan_act_at(L, 1);
    struct date d = plan_date_at(L, 2);
    if (!act->has_earliest || d.day > act->earliest.day)
        act->earliest = d;
    act->has_earliest = true;
    return 0;
}

static int l_latest(lua_State *L)
{
    struct plan_act *act = plan_act_at(L, 1);
    act->latest = plan_date_at(L, 2);
    act->has_latest = true;
    return 0;
}

/* fallback(act, the act to do instead) */
static int l_fallback(lua_State *L)
{
    struct plan_act *act = plan_act_at(L, 1);
    uint32_t instead = plan_act_index(L, 2);
    act->fallback = instead;
    plan_of(L)->acts[instead].fallback_of = plan_act_index(L, 1);
    return 0;
}

/* waiting(id, title, visit, when, { key, words, measure, ... }): an act that waits for what
 * a visit finds */
static int l_waiting(lua_State *L)
{
    struct plan *plan = plan_of(L);
    const char *when = luaL_checkstring(L, 4);
    luaL_checktype(L, 5, LUA_TTABLE);
    struct plan_waiting *w = plan_add_waiting(
        plan, luaL_checkstring(L, 1), luaL_checkstring(L, 2), luaL_checkstring(L, 3));
    plan_check(L);
    plan_set_text(plan, &w->when, when);
    for (lua_Integer i = 1; i + 2 <= luaL_len(L, 5); i += 3) {
        lua_rawgeti(L, 5, i);
        lua_rawgeti(L, 5, i + 1);
        lua_rawgeti(L, 5, i + 2);
        plan_set_figure(plan, &w->figures, luaL_checkstring(L, -3),
                        luaL_checkstring(L, -2), measure_at(L, -1));
        lua_pop(L, 3);
    }
    plan_check(L);
    return 0;
}

/* was_done(act, from, to) */
static int l_was_done(lua_State *L)
{
    struct plan_act *act = plan_act_at(L, 1);
    act->start = plan_date_at(L, 2);
    act->finish = plan_date_at(L, 3);
    act->state = ACT_DONE;
    return 0;
}

void plan_acts_open(lua_State *L)
{
    static const luaL_Reg functions[] = {
        { "act", l_act },
        { "figure", l_figure },
        { "first", l_first },
        { "open", l_open },
        { "opening", l_opening },
        { "in_one_week", l_in_one_week },
        { "limit", l_limit },
        { "limit_dates", l_limit_dates },
        { "notice", l_notice },
        { "condition", l_condition },
        { "link", l_link },
        { "able", l_able },
        { "needs", l_needs },
        { "nobody", l_nobody },
        { "days", l_days },
        { "along", l_along },
        { "fixed", l_fixed },
        { "earliest", l_earliest },
        { "latest", l_latest },
        { "fallback", l_fallback },
        { "was_done", l_was_done },
        { "waiting", l_waiting },
        { NULL, NULL },
    };
    luaL_setfuncs(L, functions, 0);
}
