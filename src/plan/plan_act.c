/* The acts of a plan: what each asks for, and the lists of what the schedule made of it. */
#include <stdlib.h>
#include <string.h>

#include "plan/plan_inner.h"

void plan_clear_act(struct plan *plan, struct plan_act *act)
{
    char *texts[] = { act->id,       act->kind,   act->title,  act->prescription,
                      act->chain,    act->during, act->reason, act->forbidden,
                      act->conflict, act->closed_by, act->skill };
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        free(texts[i]);
    plan_clear_figures(plan, &act->figures);
    for (size_t i = 0; i < act->limit_count; i++)
        free(act->limits[i].words);
    for (size_t i = 0; i < act->notice_count; i++) {
        free(act->notices[i].name);
        free(act->notices[i].to);
    }
    free(act->limits);
    free(act->notices);
    free(act->links);
    free(act->openings);
    free(act->crews);
    free(act->stretches);
    free(act->weeks);
    free(act->filings);
}

uint32_t plan_add_act(struct plan *plan, const char *id, const char *kind, uint32_t stand,
                      struct span at)
{
    struct plan_act *list =
        plan_grow(plan, plan->acts, &plan->act_room, plan->act_count, sizeof *list);
    if (!list)
        return PLAN_NONE;
    plan->acts = list;
    struct plan_act *act = memset(&list[plan->act_count++], 0, sizeof *list);
    act->id = plan_copy(plan, id);
    act->kind = plan_copy(plan, kind);
    act->title = plan_copy(plan, kind);
    act->prescription = plan_copy(plan, "");
    act->chain = plan_copy(plan, "");
    act->during = plan_copy(plan, "");
    act->reason = plan_copy(plan, "");
    act->forbidden = plan_copy(plan, "");
    act->conflict = plan_copy(plan, "");
    act->closed_by = plan_copy(plan, "");
    act->skill = plan_copy(plan, "");
    act->stand = stand;
    act->at = at;
    act->open = yearly_all();
    act->condition = -1;
    act->fallback = act->fallback_of = act->along = act->crew = PLAN_NONE;
    act->usable = 1;
    act->chance = act->float_weeks = -1;
    if (plan->failed) {
        plan_clear_act(plan, act);
        plan->act_count--;
        return PLAN_NONE;
    }
    return (uint32_t)(plan->act_count - 1);
}

void plan_add_limit(struct plan *plan, uint32_t act, const char *words,
                    struct limit limit)
{
    struct plan_act *owner = &plan->acts[act];
    struct limit *list = plan_grow(plan, owner->limits, &owner->limit_room,
                                   owner->limit_count, sizeof *list);
    if (!list)
        return;
    owner->limits = list;
    limit.words = plan_copy(plan, words);
    if (limit.words)
        list[owner->limit_count++] = limit;
}

struct act_notice *plan_add_notice(struct plan *plan, uint32_t act, const char *name,
                                   const char *to, int lead_days, int expires_days)
{
    struct plan_act *owner = &plan->acts[act];
    struct act_notice *list = plan_grow(plan, owner->notices, &owner->notice_room,
                                        owner->notice_count, sizeof *list);
    if (!list)
        return NULL;
    owner->notices = list;
    struct act_notice *out = &list[owner->notice_count];
    *out = (struct act_notice){ .name = plan_copy(plan, name),
                                .to = plan_copy(plan, to),
                                .lead_days = lead_days,
                                .expires_days = expires_days };
    if (out->name && out->to) {
        owner->notice_count++;
        return out;
    }
    free(out->name);
    free(out->to);
    return NULL;
}

void plan_add_link(struct plan *plan, uint32_t act, struct link link)
{
    struct plan_act *owner = &plan->acts[act];
    struct link *list =
        plan_grow(plan, owner->links, &owner->link_room, owner->link_count, sizeof *list);
    if (!list)
        return;
    owner->links = list;
    struct link *out = memset(&list[owner->link_count++], 0, sizeof *list);
    *out = link;
}

void plan_add_able(struct plan *plan, uint32_t act, uint32_t crew)
{
    struct plan_act *owner = &plan->acts[act];
    uint32_t *more = realloc(owner->crews, (owner->crew_count + 1) * sizeof *more);
    if (!more) {
        plan->failed = true;
        return;
    }
    more[owner->crew_count++] = crew;
    owner->crews = more;
}

void plan_add_day(struct plan *plan, struct plan_act *act, struct date day, double hours)
{
    if (act->stretch_count > 0) {
        struct stretch *last = &act->stretches[act->stretch_count - 1];
        if (day.day - last->to.day <= ACT_PAUSE) {
            last->to = day;
            last->hours += hours;
            return;
        }
    }
    struct stretch *list = plan_grow(plan, act->stretches, &act->stretch_room,
                                     act->stretch_count, sizeof *list);
    if (!list)
        return;
    act->stretches = list;
    list[act->stretch_count++] = (struct stretch){ day, day, hours };
}

void plan_add_week(struct plan *plan, struct plan_act *act, struct act_week week)
{
    struct act_week *list =
        plan_grow(plan, act->weeks, &act->week_room, act->week_count, sizeof *list);
    if (!list)
        return;
    act->weeks = list;
    list[act->week_count++] = week;
}

void plan_add_filing(struct plan *plan, struct plan_act *act, struct act_filing filing)
{
    struct act_filing *list =
        plan_grow(plan, act->filings, &act->filing_room, act->filing_count, sizeof *list);
    if (!list)
        return;
    act->filings = list;
    list[act->filing_count++] = filing;
}

void plan_add_opening(struct plan *plan, uint32_t act, struct schedule_span days)
{
    struct plan_act *of = &plan->acts[act];
    struct schedule_span *list =
        plan_grow(plan, of->openings, &of->opening_room, of->opening_count, sizeof *list);
    if (!list)
        return;
    of->openings = list;
    list[of->opening_count++] = days;
}

const char *act_state_word(enum act_state state)
{
    switch (state) {
    case ACT_UNPLACED: return "unplaced";
    case ACT_PLACED: return "placed";
    case ACT_DONE: return "done";
    case ACT_NOT_NEEDED: return "not needed";
    }
    return "";
}
