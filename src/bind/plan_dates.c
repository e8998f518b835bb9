/* The room "plan": by when work is done and how soon it could be, what holds an act back,
 * how sure its dates are. */
#include <lauxlib.h>
#include <lua.h>

#include "bind/plan_inner.h"
#include "bind/tell.h"
#include "plan/plan.h"
#include "plan/risk.h"

/* An act by its number, from 1; nothing for none. */
static void tell_act(lua_State *L, const char *key, size_t act)
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
        tell_number(L, "acts", (double)goal->jobs);
        if (goal->jobs > 0) {
            tell_date(L, "planned", goal->finish);
            tell_date(L, "not_before", goal->bound);
        }
        lua_setfield(L, -2, names[i]);
    }
    return 1;
}

/* held(act): what keeps it from starting sooner: by, act, least, notice, lead, from,
 * opens, closed_by, closed, crew_away, renewed, renewed_lead, busy, too_short, beside,
 * alone, soonest; nil when it is not placed. */
static int l_held(lua_State *L)
{
    static const char *const by[] = { "nothing", "date",     "earliest", "notice",
                                      "after",   "follower", "stands in" };
    const struct plan *plan = plan_of(L);
    const struct plan_act *act = plan_act_at(L, 1);
    const struct schedule_hold *held = &act->held;
    if (act->state != ACT_PLACED)
        return 0;
    lua_createtable(L, 0, 15);
    tell_text(L, "by", by[held->by]);
    tell_date(L, "from", held->from);
    tell_date(L, "alone", held->alone);
    tell_date(L, "soonest", act->soonest);
    tell_act(L, "act", held->job);
    tell_act(L, "busy", held->busy);
    tell_act(L, "beside", held->beside);
    tell_truth(L, "crew_away", held->crew_away);
    tell_truth(L, "too_short", held->too_short);
    if (held->by == SCHEDULE_HELD_NOTICE) {
        const struct act_notice *notice = &plan->acts[held->job].notices[held->notice];
        tell_text(L, "notice", notice->name);
        tell_number(L, "lead", notice->lead_days);
    }
    if (held->renewed != SCHEDULE_NONE) {
        const struct act_notice *notice =
            &plan->acts[held->renewed_job].notices[held->renewed];
        tell_text(L, "renewed", notice->name);
        tell_number(L, "renewed_lead", notice->lead_days);
    }
    if (held->by == SCHEDULE_HELD_AFTER)
        tell_number(L, "least", held->from.day - plan->acts[held->job].finish.day);
    if (held->waits_for_open) {
        tell_date(L, "opens", held->opens);
        tell_text(L, "closed_by", act->closed_by);
    }
    if (held->waits_for_open && held->was_open)
        tell_date(L, "closed", held->closed);
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
        tell_number(L, "chance", act->chance);
    tell_truth(L, "or_more", act->chance_or_more);
    tell_truth(L, "low", act->chance >= 0 && act->chance < RISK_LOW);
    tell_number(L, "float_weeks", act->float_weeks);
    tell_truth(L, "sought", act->help_sought);
    lua_createtable(L, (int)act->help_count, 0);
    for (size_t i = 0; i < act->help_count; i++) {
        const struct act_help *help = &act->helps[i];
        lua_createtable(L, 0, 5);
        tell_text(L, "kind", kinds[help->kind]);
        tell_text(L, "end", ends[help->end]);
        tell_number(L, "chance", help->chance);
        tell_date(L, "from", help->from);
        if (help->kind == HELP_PERSON)
            tell_text(L, "crew", plan_of(L)->crews[help->crew].name);
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
