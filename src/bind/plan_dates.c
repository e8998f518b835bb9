/* The room "plan": by when work is done and how soon it could be, what holds an act back,
 * how sure its dates are. */
#include <lauxlib.h>
#include <lua.h>

#include "bind/calendar.h"
#include "bind/plan_inner.h"
#include "plan/plan.h"
#include "plan/risk.h"

static void set_date(lua_State *L, const char *key, struct date d)
{
    date_push(L, d);
    lua_setfield(L, -2, key);
}

static void set_text(lua_State *L, const char *key, const char *text)
{
    lua_pushstring(L, text);
    lua_setfield(L, -2, key);
}

static void set_number(lua_State *L, const char *key, double value)
{
    lua_pushnumber(L, value);
    lua_setfield(L, -2, key);
}

static void set_truth(lua_State *L, const char *key, bool value)
{
    lua_pushboolean(L, value);
    lua_setfield(L, -2, key);
}

/* An act by its number, from 1; nothing for none. */
static void set_act(lua_State *L, const char *key, size_t act)
{
    if (act == SCHEDULE_NONE)
        return;
    lua_pushinteger(L, (lua_Integer)act + 1);
    lua_setfield(L, -2, key);
}

/* goals(): { first_year = { acts, planned, not_before }, marked_first =, all = } */
static int l_goals(lua_State *L)
{
    static const char *const names[SCHEDULE_GOALS] = { "first_year", "marked_first",
                                                       "all" };
    const struct plan *plan = plan_of(L);
    lua_createtable(L, 0, SCHEDULE_GOALS);
    for (int i = 0; i < SCHEDULE_GOALS; i++) {
        const struct schedule_goal *goal = &plan->goals[i];
        lua_createtable(L, 0, 3);
        set_number(L, "acts", (double)goal->jobs);
        if (goal->jobs > 0) {
            set_date(L, "planned", goal->finish);
            set_date(L, "not_before", goal->bound);
        }
        lua_setfield(L, -2, names[i]);
    }
    return 1;
}

/* held(act): what keeps it from starting sooner: by, act, least, notice, lead, from,
 * opens, closed_by, closed, crew_away, renewed, busy, too_short, beside, alone, soonest; nil when it is
 * not placed. */
static int l_held(lua_State *L)
{
    static const char *const by[] = { "nothing", "date",     "earliest", "notice",
                                      "after",   "follower", "stands in" };
    const struct plan *plan = plan_of(L);
    const struct plan_act *act = plan_act_at(L, 1);
    const struct schedule_hold *held = &act->held;
    if (act->state != ACT_PLACED)
        return 0;
    lua_createtable(L, 0, 13);
    set_text(L, "by", by[held->by]);
    set_date(L, "from", held->from);
    set_date(L, "alone", held->alone);
    set_date(L, "soonest", act->soonest);
    set_act(L, "act", held->job);
    set_act(L, "busy", held->busy);
    set_act(L, "beside", held->beside);
    set_truth(L, "crew_away", held->crew_away);
    set_truth(L, "too_short", held->too_short);
    if (held->by == SCHEDULE_HELD_NOTICE) {
        const struct act_notice *notice = &plan->acts[held->job].notices[held->notice];
        set_text(L, "notice", notice->name);
        set_number(L, "lead", notice->lead_days);
    }
    if (held->renewed != SCHEDULE_NONE) {
        const struct act_notice *notice =
            &plan->acts[held->renewed_job].notices[held->renewed];
        set_text(L, "renewed", notice->name);
        set_number(L, "lead", notice->lead_days);
    }
    if (held->by == SCHEDULE_HELD_AFTER)
        set_number(L, "least", held->from.day - plan->acts[held->job].finish.day);
    if (held->waits_for_open) {
        set_date(L, "opens", held->opens);
        set_text(L, "closed_by", act->closed_by);
    }
    if (held->waits_for_open && held->was_open)
        set_date(L, "closed", held->closed);
    return 1;
}

/* risk(act): chance (nil when it is not known), whether it is that or more, whether it is
 * low, float_weeks (-1: no end), whether help was sought, helps, the best first: kind, end,
 * chance, from, crew (of a person more: its name). */
static int l_risk(lua_State *L)
{
    static const char *const kinds[] = { "sooner", "person", "next season" };
    static const char *const ends[] = { "not needed", "enough", "short", "leaves out",
                                        "nowhere" };
    const struct plan_act *act = plan_act_at(L, 1);
    lua_createtable(L, 0, 6);
    if (act->state == ACT_PLACED && act->chance >= 0)
        set_number(L, "chance", act->chance);
    set_truth(L, "or_more", act->chance_or_more);
    set_truth(L, "low", act->chance >= 0 && act->chance < RISK_LOW);
    set_number(L, "float_weeks", act->float_weeks);
    set_truth(L, "sought", act->help_sought);
    lua_createtable(L, (int)act->help_count, 0);
    for (size_t i = 0; i < act->help_count; i++) {
        const struct act_help *help = &act->helps[i];
        lua_createtable(L, 0, 5);
        set_text(L, "kind", kinds[help->kind]);
        set_text(L, "end", ends[help->end]);
        set_number(L, "chance", help->chance);
        set_date(L, "from", help->from);
        if (help->kind == HELP_PERSON)
            set_text(L, "crew", plan_of(L)->crews[help->crew].name);
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
    lua_setfield(L, -2, "helps");
    return 1;
}

void plan_dates_open(lua_State *L)
{
    static const luaL_Reg functions[] = {
        { "goals", l_goals }, { "held", l_held }, { "risk", l_risk }, { NULL, NULL }
    };
    luaL_setfuncs(L, functions, 0);
}
