/* The room "plan": what the schedule made of the acts, what the rules found, totals, and
 * the whole as JSON. */
#include <lauxlib.h>
#include <lua.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "bind/calendar.h"
#include "bind/measure.h"
#include "bind/plan_inner.h"
#include "bind/tell.h"
#include "lang/held.h"
#include "lang/host.h"
#include "lang/raise.h"
#include "plan/export.h"
#include "plan/plan.h"
#include "plan/timing.h"

static int l_schedule(lua_State *L)
{
    struct fault f = { 0 };
    if (!plan_schedule(plan_of(L), &f))
        fault_raise(L, &f);
    return 0;
}

/* tell_risk(): how sure the dates of the schedule are, for risk(act). */
static int l_tell_risk(lua_State *L)
{
    struct fault f = { 0 };
    if (!plan_tell_risk(plan_of(L), &f))
        fault_raise(L, &f);
    return 0;
}

/* No field for "". */
static void tell_some(lua_State *L, const char *key, const char *text)
{
    tell_text(L, key, text[0] ? text : NULL);
}

/* { { from =, to =, hours = }, ... }: the stretches of its work. */
static void push_stretches(lua_State *L, const struct plan_act *act)
{
    lua_createtable(L, (int)act->stretch_count, 0);
    for (size_t i = 0; i < act->stretch_count; i++) {
        lua_createtable(L, 0, 3);
        tell_date(L, "from", act->stretches[i].from);
        tell_date(L, "to", act->stretches[i].to);
        tell_number(L, "hours", act->stretches[i].hours);
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
}

/* { { name =, to =, from =, by =, again = }, ... }: notices to file, `again` when one like
 * it has expired by then. */
static void push_filings(lua_State *L, const struct plan_act *act)
{
    lua_createtable(L, (int)act->filing_count, 0);
    for (size_t i = 0; i < act->filing_count; i++) {
        const struct act_filing *filing = &act->filings[i];
        const struct act_notice *notice = &act->notices[filing->notice];
        lua_createtable(L, 0, 5);
        tell_some(L, "name", notice->name);
        tell_some(L, "to", notice->to);
        tell_date(L, "by", filing->by);
        tell_date(L, "from", filing->from);
        tell_truth(L, "again", filing->by.day > notice->file_by.day);
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
}

/* result(act): state, dates, crew, reason, usable, filings, ... */
static int l_result(lua_State *L)
{
    const struct plan_act *act = plan_act_at(L, 1);
    lua_createtable(L, 0, 12);
    tell_some(L, "state", act_state_word(act->state));
    if (act->state == ACT_PLACED || act->state == ACT_DONE) {
        tell_date(L, "start", act->start);
        tell_date(L, "finish", act->finish);
    }
    if (act->crew != PLAN_NONE) {
        lua_pushinteger(L, (lua_Integer)act->crew + 1);
        lua_setfield(L, -2, "crew");
    }
    tell_some(L, "reason", act->reason);
    tell_some(L, "forbidden", act->forbidden);
    tell_some(L, "conflict", act->conflict);
    tell_number(L, "usable", act->usable);
    lua_pushinteger(L, act->weeks_left);
    lua_setfield(L, -2, "weeks_left");
    tell_truth(L, "carried_over", act->carried_over);
    push_stretches(L, act);
    lua_setfield(L, -2, "stretches");
    push_filings(L, act);
    lua_setfield(L, -2, "filings");
    return 1;
}

/* weeks(act): { { monday =, hours =, there = }, ... }: the weeks of its work, hours of the
 * act, and those that its crew has for all it does then. */
static int l_weeks(lua_State *L)
{
    const struct plan_act *act = plan_act_at(L, 1);
    lua_createtable(L, (int)act->week_count, 0);
    for (size_t i = 0; i < act->week_count; i++) {
        lua_createtable(L, 0, 3);
        tell_date(L, "monday", act->weeks[i].monday);
        tell_number(L, "hours", act->weeks[i].hours);
        tell_number(L, "there", act->weeks[i].there);
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
    return 1;
}

/* breaches(act): the names of the limits that its days break, once each. */
static int l_breaches(lua_State *L)
{
    const struct plan_act *act = plan_act_at(L, 1);
    lua_newtable(L);
    lua_Integer n = 0;
    for (size_t i = 0; i < act->limit_count; i++) {
        bool again = false;
        for (size_t k = 0; k < i; k++)
            again = again || (act->limits[k].broken &&
                              strcmp(act->limits[k].words, act->limits[i].words) == 0);
        if (again || !act->limits[i].broken)
            continue;
        lua_pushstring(L, act->limits[i].words);
        lua_rawseti(L, -2, ++n);
    }
    return 1;
}

/* finding(level, rule, message, ask, source, act, stand, date) */
static int l_finding(lua_State *L)
{
    struct plan *plan = plan_of(L);
    enum finding_level level = plan_level_at(L, 1);
    const char *ask = luaL_checkstring(L, 4), *source = luaL_checkstring(L, 5);
    uint32_t act = lua_isnoneornil(L, 6) ? PLAN_NONE : plan_act_index(L, 6);
    uint32_t stand = plan_stand_or_none(L, 7);
    struct finding *finding =
        plan_add_finding(plan, level, luaL_checkstring(L, 2), luaL_checkstring(L, 3));
    plan_check(L);
    plan_set_text(plan, &finding->ask, ask);
    plan_set_text(plan, &finding->source, source);
    finding->act = act;
    finding->stand = stand;
    finding->has_date = date_at(L, 8, &finding->date);
    plan_check(L);
    return 0;
}

/* total(key, words, measure) */
static int l_total(lua_State *L)
{
    struct plan *plan = plan_of(L);
    plan_set_figure(plan, &plan->totals, luaL_checkstring(L, 1), luaL_checkstring(L, 2),
                    measure_at(L, 3));
    plan_check(L);
    return 0;
}

/* counts(): stops, cautions, notes */
static int l_counts(lua_State *L)
{
    const struct plan *plan = plan_of(L);
    lua_pushinteger(L, (lua_Integer)plan_count_level(plan, FINDING_STOP));
    lua_pushinteger(L, (lua_Integer)plan_count_level(plan, FINDING_CAUTION));
    lua_pushinteger(L, (lua_Integer)plan_count_level(plan, FINDING_NOTE));
    return 3;
}

/* json(): the plan as JSON text. */
static int l_json(lua_State *L)
{
    struct host *host = host_of(L);
    struct fault f = { 0 };
    struct buf *text = held_new(L);
    if (!plan_json(host->plan, host->sources, text, &f))
        fault_raise(L, &f);
    return held_push(L, text);
}

void plan_results_open(lua_State *L)
{
    static const luaL_Reg functions[] = {
        { "schedule", l_schedule }, { "tell_risk", l_tell_risk },
        { "result", l_result },     { "breaches", l_breaches },
        { "finding", l_finding },   { "total", l_total },
        { "counts", l_counts },     { "weeks", l_weeks },
        { "json", l_json },         { NULL, NULL },
    };
    luaL_setfuncs(L, functions, 0);
}
