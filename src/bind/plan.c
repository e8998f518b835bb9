/* need "plan": the built-in Lua's hand on the plan of the run (plan/plan.h): it puts in
 * stands, crews, acts, limits and findings, and reads back what the schedule made of them.
 * Acts, stands and crews are told by numbers from 1, their place in the plan. */
#include <lauxlib.h>
#include <lua.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "bind/calendar.h"
#include "bind/measure.h"
#include "bind/rooms.h"
#include "lang/face.h"
#include "lang/host.h"
#include "lang/raise.h"
#include "plan/export.h"
#include "plan/plan.h"
#include "plan/timing.h"
#include "work/schedule.h"

static struct plan *plan_of(lua_State *L) { return host_of(L)->plan; }

static uint32_t index_at(lua_State *L, int index, size_t count, const char *what) {
    lua_Integer i = luaL_checkinteger(L, index);
    if (i < 1 || (size_t)i > count) luaL_error(L, "no %s of that number", what);
    return (uint32_t)(i - 1);
}
static struct plan_act *act_at(lua_State *L, int index) {
    struct plan *plan = plan_of(L);
    return &plan->acts[index_at(L, index, plan->act_count, "act")];
}
static uint32_t act_index(lua_State *L, int index) {
    return index_at(L, index, plan_of(L)->act_count, "act");
}
static uint32_t stand_or_none(lua_State *L, int index) {
    if (lua_isnoneornil(L, index)) return PLAN_NONE;
    return index_at(L, index, plan_of(L)->stand_count, "stand");
}
static void done(lua_State *L) {
    if (!plan_of(L)->failed) return;
    struct fault f = { 0 };
    fault_no_memory(&f);
    fault_raise(L, &f);
}
static struct date date_check(lua_State *L, int index) {
    struct date d;
    if (!date_at(L, index, &d)) luaL_argerror(L, index, "a date is wanted");
    return d;
}

/* property(name, region, county, walked, starts) */
static int l_property(lua_State *L) {
    struct plan *plan = plan_of(L);
    plan_set_text(plan, &plan->property, luaL_checkstring(L, 1));
    plan_set_text(plan, &plan->region, luaL_optstring(L, 2, ""));
    plan_set_text(plan, &plan->county, luaL_optstring(L, 3, ""));
    plan->has_walked = date_at(L, 4, &plan->walked);
    plan->starts = date_check(L, 5);
    done(L);
    return 0;
}

static int l_starts(lua_State *L) {
    date_push(L, plan_of(L)->starts);
    return 1;
}

/* The years that a schedule can reach. */
static int l_first_year(lua_State *L) {
    lua_pushinteger(L, date_civil(plan_of(L)->starts).year);
    return 1;
}
static int l_last_year(lua_State *L) {
    lua_pushinteger(L, date_civil(plan_of(L)->starts).year + SCHEDULE_YEARS);
    return 1;
}

/* stand(name, place, walked in words) -> number */
static int l_stand(lua_State *L) {
    struct plan *plan = plan_of(L);
    uint32_t i = plan_add_stand(plan, luaL_checkstring(L, 1), face_span(L, 2));
    done(L);
    plan_set_text(plan, &plan->stands[i].walked, luaL_checkstring(L, 3));
    done(L);
    lua_pushinteger(L, (lua_Integer)i + 1);
    return 1;
}

/* stand_figure(stand, species or nil, key, words, measure) */
static int l_stand_figure(lua_State *L) {
    struct plan *plan = plan_of(L);
    struct plan_stand *stand =
        &plan->stands[index_at(L, 1, plan->stand_count, "stand")];
    const char *species = luaL_optstring(L, 2, NULL);
    struct figures *figures = &stand->figures;
    if (species) {
        struct stand_row *row = NULL;
        for (size_t i = 0; i < stand->row_count; i++)
            if (strcmp(stand->rows[i].species, species) == 0) row = &stand->rows[i];
        if (!row) row = plan_add_row(plan, (uint32_t)(stand - plan->stands), species);
        done(L);
        figures = &row->figures;
    }
    plan_set_figure(plan, figures, luaL_checkstring(L, 3), luaL_checkstring(L, 4),
                    measure_at(L, 5));
    done(L);
    return 0;
}

/* crew(name, people, hours a week of each, travel hours, from, to, off) -> number */
static int l_crew(lua_State *L) {
    struct plan *plan = plan_of(L);
    uint32_t i = plan_add_crew(plan, luaL_checkstring(L, 1));
    done(L);
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

/* act(id, kind, title, stand, place, prescription, chain) -> number */
static int l_act(lua_State *L) {
    struct plan *plan = plan_of(L);
    uint32_t i = plan_add_act(plan, luaL_checkstring(L, 1), luaL_checkstring(L, 2),
                              stand_or_none(L, 4), face_span(L, 5));
    done(L);
    struct plan_act *act = &plan->acts[i];
    plan_set_text(plan, &act->title, luaL_checkstring(L, 3));
    plan_set_text(plan, &act->prescription, luaL_optstring(L, 6, ""));
    plan_set_text(plan, &act->chain, luaL_optstring(L, 7, ""));
    done(L);
    lua_pushinteger(L, (lua_Integer)i + 1);
    return 1;
}

/* figure(act, key, words, measure) */
static int l_figure(lua_State *L) {
    plan_set_figure(plan_of(L), &act_at(L, 1)->figures, luaL_checkstring(L, 2),
                    luaL_checkstring(L, 3), measure_at(L, 4));
    done(L);
    return 0;
}

/* open(act, window, words) */
static int l_open(lua_State *L) {
    struct plan_act *act = act_at(L, 1);
    if (!window_at(L, 2, &act->open)) return luaL_argerror(L, 2, "a window is wanted");
    plan_set_text(plan_of(L), &act->during, luaL_checkstring(L, 3));
    done(L);
    return 0;
}

static const char *const LEVELS[] = { "stop", "caution", "note", NULL };

/* limit(act, words, level, window) */
static int l_limit(lua_State *L) {
    uint32_t act = act_index(L, 1);
    struct limit limit = { .level = (enum finding_level)luaL_checkoption(L, 3, NULL, LEVELS) };
    luaL_checkstring(L, 2);
    if (!window_at(L, 4, &limit.days)) return luaL_argerror(L, 4, "a window is wanted");
    /* plan_add_limit copies the words. */
    char words[200];
    strncpy(words, lua_tostring(L, 2), sizeof words - 1);
    words[sizeof words - 1] = '\0';
    limit.words = words;
    plan_add_limit(plan_of(L), act, &limit);
    done(L);
    return 0;
}

/* limit_dates(act, words, level, from, to) */
static int l_limit_dates(lua_State *L) {
    uint32_t act = act_index(L, 1);
    char words[200];
    strncpy(words, luaL_checkstring(L, 2), sizeof words - 1);
    words[sizeof words - 1] = '\0';
    struct limit limit = { .words = words,
                           .level = (enum finding_level)luaL_checkoption(L, 3, NULL, LEVELS),
                           .dated = true, .from = date_check(L, 4), .to = date_check(L, 5) };
    plan_add_limit(plan_of(L), act, &limit);
    done(L);
    return 0;
}

/* notice(act, name, to, lead days, expiry days) */
static int l_notice(lua_State *L) {
    uint32_t act = act_index(L, 1);
    char name[200], to[200];
    strncpy(name, luaL_checkstring(L, 2), sizeof name - 1);
    strncpy(to, luaL_checkstring(L, 3), sizeof to - 1);
    name[sizeof name - 1] = to[sizeof to - 1] = '\0';
    struct act_notice notice = { .name = name, .to = to,
                                 .lead_days = (int)luaL_checkinteger(L, 4),
                                 .expires_days = (int)luaL_checkinteger(L, 5) };
    plan_add_notice(plan_of(L), act, &notice);
    done(L);
    return 0;
}

/* condition(act, name, twelve chances) */
static int l_condition(lua_State *L) {
    struct plan *plan = plan_of(L);
    struct plan_act *act = act_at(L, 1);
    const char *name = luaL_checkstring(L, 2);
    luaL_checktype(L, 3, LUA_TTABLE);
    for (size_t i = 0; i < plan->condition_count; i++)
        if (strcmp(plan->conditions[i].name, name) == 0) act->condition = (int)i;
    if (act->condition >= 0) return 0;
    double chance[12];
    for (int i = 0; i < 12; i++) {
        lua_rawgeti(L, 3, i + 1);
        chance[i] = luaL_checknumber(L, -1);
        lua_pop(L, 1);
    }
    uint32_t c = plan_add_condition(plan, name, chance);
    done(L);
    act->condition = (int)c;
    return 0;
}

/* link(act, before, least days, most days) */
static int l_link(lua_State *L) {
    uint32_t act = act_index(L, 1);
    struct link link = { act_index(L, 2), (int)luaL_checkinteger(L, 3),
                         (int)luaL_checkinteger(L, 4) };
    plan_add_link(plan_of(L), act, link);
    done(L);
    return 0;
}

/* able(act, crew); unable(act, skill or nil); nobody(act, days) */
static int l_able(lua_State *L) {
    struct plan *plan = plan_of(L);
    plan_add_able(plan, act_index(L, 1), index_at(L, 2, plan->crew_count, "crew"));
    done(L);
    return 0;
}
static int l_unable(lua_State *L) {
    struct plan_act *act = act_at(L, 1);
    plan_set_text(plan_of(L), &act->skill, luaL_optstring(L, 2, ""));
    done(L);
    return 0;
}
static int l_nobody(lua_State *L) {
    struct plan_act *act = act_at(L, 1);
    act->nobody = true;
    act->span_days = (int)luaL_optinteger(L, 2, 1);
    return 0;
}

static int l_along(lua_State *L) {
    act_at(L, 1)->along = act_index(L, 2);
    return 0;
}
static int l_fixed(lua_State *L) {
    struct plan_act *act = act_at(L, 1);
    act->fixed = date_check(L, 2);
    act->has_fixed = true;
    return 0;
}
static int l_earliest(lua_State *L) {
    struct plan_act *act = act_at(L, 1);
    struct date d = date_check(L, 2);
    if (!act->has_earliest || d.day > act->earliest.day) act->earliest = d;
    act->has_earliest = true;
    return 0;
}
static int l_latest(lua_State *L) {
    struct plan_act *act = act_at(L, 1);
    act->latest = date_check(L, 2);
    act->has_latest = true;
    return 0;
}
/* fallback(act, the act to do instead) */
static int l_fallback(lua_State *L) {
    struct plan_act *act = act_at(L, 1);
    uint32_t instead = act_index(L, 2);
    act->fallback = instead;
    plan_of(L)->acts[instead].fallback_of = act_index(L, 1);
    return 0;
}
/* was_done(act, from, to) */
static int l_was_done(lua_State *L) {
    struct plan_act *act = act_at(L, 1);
    act->start = date_check(L, 2);
    act->finish = date_check(L, 3);
    act->state = ACT_DONE;
    return 0;
}

static int l_schedule(lua_State *L) {
    struct fault f = { 0 };
    if (!plan_schedule(plan_of(L), &f)) fault_raise(L, &f);
    return 0;
}

static const char *state_word(enum act_state state) {
    switch (state) {
    case ACT_UNPLACED: return "unplaced";
    case ACT_PLACED: return "placed";
    case ACT_DONE: return "done";
    case ACT_NOT_NEEDED: return "not needed";
    }
    return "";
}

static void set_date(lua_State *L, const char *key, struct date d) {
    date_push(L, d);
    lua_setfield(L, -2, key);
}
static void set_text(lua_State *L, const char *key, const char *text) {
    if (!text[0]) return;
    lua_pushstring(L, text);
    lua_setfield(L, -2, key);
}

/* { { from =, to = }, ... }: the stretches of its work. */
static void push_stretches(lua_State *L, const struct plan_act *act)
{
    lua_createtable(L, (int)act->stretch_count, 0);
    for (size_t i = 0; i < act->stretch_count; i++) {
        lua_createtable(L, 0, 2);
        set_date(L, "from", act->stretches[i].from);
        set_date(L, "to", act->stretches[i].to);
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
}

/* result(act): state, dates, crew, reason, usable, notices, ... */
static int l_result(lua_State *L) {
    const struct plan_act *act = act_at(L, 1);
    lua_createtable(L, 0, 12);
    set_text(L, "state", state_word(act->state));
    if (act->state == ACT_PLACED || act->state == ACT_DONE) {
        set_date(L, "start", act->start);
        set_date(L, "finish", act->finish);
    }
    if (act->crew != PLAN_NONE) {
        lua_pushinteger(L, (lua_Integer)act->crew + 1);
        lua_setfield(L, -2, "crew");
    }
    set_text(L, "reason", act->reason);
    set_text(L, "forbidden", act->forbidden);
    set_text(L, "conflict", act->conflict);
    lua_pushnumber(L, act->usable);
    lua_setfield(L, -2, "usable");
    lua_pushinteger(L, act->weeks_left);
    lua_setfield(L, -2, "weeks_left");
    lua_pushboolean(L, act->carried_over);
    lua_setfield(L, -2, "carried_over");
    push_stretches(L, act);
    lua_setfield(L, -2, "stretches");
    lua_newtable(L);
    lua_Integer n = 0;
    for (size_t i = 0; i < act->notice_count; i++) {
        if (!act->notices[i].placed) continue;
        lua_createtable(L, 0, 4);
        set_text(L, "name", act->notices[i].name);
        set_text(L, "to", act->notices[i].to);
        set_date(L, "by", act->notices[i].file_by);
        set_date(L, "from", act->notices[i].file_from);
        lua_rawseti(L, -2, ++n);
    }
    lua_setfield(L, -2, "notices");
    return 1;
}

/* breaches(act): the names of the limits that its days break, once each. */
static int l_breaches(lua_State *L) {
    const struct plan_act *act = act_at(L, 1);
    lua_newtable(L);
    lua_Integer n = 0;
    for (size_t i = 0; i < act->limit_count; i++) {
        bool again = false;
        for (size_t k = 0; k < i; k++)
            again = again || (act->limits[k].broken &&
                              strcmp(act->limits[k].words, act->limits[i].words) == 0);
        if (again || !act->limits[i].broken) continue;
        lua_pushstring(L, act->limits[i].words);
        lua_rawseti(L, -2, ++n);
    }
    return 1;
}

/* finding(level, rule, message, ask, source, act, stand, date) */
static int l_finding(lua_State *L) {
    struct plan *plan = plan_of(L);
    struct finding finding = { .level = (enum finding_level)luaL_checkoption(L, 1, NULL, LEVELS) };
    char *texts[4];
    for (int i = 0; i < 4; i++) texts[i] = (char *)(uintptr_t)luaL_checkstring(L, 2 + i);
    finding.rule = texts[0];
    finding.message = texts[1];
    finding.ask = texts[2];
    finding.source = texts[3];
    finding.act = lua_isnoneornil(L, 6) ? PLAN_NONE : act_index(L, 6);
    finding.stand = stand_or_none(L, 7);
    finding.has_date = date_at(L, 8, &finding.date);
    plan_add_finding(plan, &finding);
    done(L);
    return 0;
}

/* total(key, words, measure) */
static int l_total(lua_State *L) {
    struct plan *plan = plan_of(L);
    plan_set_figure(plan, &plan->totals, luaL_checkstring(L, 1), luaL_checkstring(L, 2),
                    measure_at(L, 3));
    done(L);
    return 0;
}

/* counts(): stops, cautions, notes */
static int l_counts(lua_State *L) {
    const struct plan *plan = plan_of(L);
    lua_pushinteger(L, (lua_Integer)plan_count_level(plan, FINDING_STOP));
    lua_pushinteger(L, (lua_Integer)plan_count_level(plan, FINDING_CAUTION));
    lua_pushinteger(L, (lua_Integer)plan_count_level(plan, FINDING_NOTE));
    return 3;
}

/* json(): the plan as JSON text. */
static int l_json(lua_State *L) {
    struct host *host = host_of(L);
    struct buf out;
    struct fault f = { 0 };
    buf_init(&out);
    bool ok = plan_json(host->plan, host->sources, &out, &f);
    luaL_Buffer text;
    luaL_buffinit(L, &text);
    if (ok) luaL_addlstring(&text, out.data, out.length);
    buf_clear(&out);
    if (!ok) fault_raise(L, &f);
    luaL_pushresult(&text);
    return 1;
}

int plan_room(lua_State *L) {
    static const luaL_Reg functions[] = {
        { "property", l_property },
        { "starts", l_starts },
        { "first_year", l_first_year },
        { "last_year", l_last_year },
        { "stand", l_stand },
        { "stand_figure", l_stand_figure },
        { "crew", l_crew },
        { "act", l_act },
        { "figure", l_figure },
        { "open", l_open },
        { "limit", l_limit },
        { "limit_dates", l_limit_dates },
        { "notice", l_notice },
        { "condition", l_condition },
        { "link", l_link },
        { "able", l_able },
        { "unable", l_unable },
        { "nobody", l_nobody },
        { "along", l_along },
        { "fixed", l_fixed },
        { "earliest", l_earliest },
        { "latest", l_latest },
        { "fallback", l_fallback },
        { "was_done", l_was_done },
        { "schedule", l_schedule },
        { "result", l_result },
        { "breaches", l_breaches },
        { "finding", l_finding },
        { "total", l_total },
        { "counts", l_counts },
        { "json", l_json },
        { NULL, NULL },
    };
    luaL_newlib(L, functions);
    return 1;
}
