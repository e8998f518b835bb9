#include "plan/plan.h"

#include <stdlib.h>
#include <string.h>

#include "base/grow.h"
#include "plan/outlook.h"
#include "plan/timing.h"
#include "plan/waiting.h"
#include "plan/ways_told.h"

struct plan *plan_new(struct graph *g)
{
    struct plan *plan = calloc(1, sizeof *plan);
    if (!plan)
        return NULL;
    plan->graph = g;
    return plan;
}

static void figures_clear(struct graph *g, struct figures *figures)
{
    for (size_t i = 0; i < figures->count; i++) {
        free(figures->list[i].key);
        free(figures->list[i].words);
        graph_release(g, figures->list[i].value);
    }
    free(figures->list);
}

void plan_clear_figures(struct plan *plan, struct figures *figures)
{
    figures_clear(plan->graph, figures);
}

static void stand_clear(struct plan *plan, struct plan_stand *stand)
{
    free(stand->name);
    free(stand->walked);
    figures_clear(plan->graph, &stand->figures);
    figures_clear(plan->graph, &stand->ground);
    for (size_t i = 0; i < stand->row_count; i++) {
        free(stand->rows[i].species);
        figures_clear(plan->graph, &stand->rows[i].figures);
    }
    free(stand->rows);
    outlook_clear(plan, stand);
    ways_clear(plan, stand);
}

static void act_clear(struct plan *plan, struct plan_act *act)
{
    char *texts[] = { act->id,       act->kind,   act->title,  act->prescription,
                      act->chain,    act->during, act->reason, act->forbidden,
                      act->conflict, act->closed_by, act->skill };
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        free(texts[i]);
    figures_clear(plan->graph, &act->figures);
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

static void finding_clear(struct finding *finding)
{
    free(finding->rule);
    free(finding->message);
    free(finding->ask);
    free(finding->source);
}

void plan_free(struct plan *plan)
{
    if (!plan)
        return;
    plan_forget_timing(plan);
    for (size_t i = 0; i < plan->stand_count; i++)
        stand_clear(plan, &plan->stands[i]);
    for (size_t i = 0; i < plan->act_count; i++)
        act_clear(plan, &plan->acts[i]);
    for (size_t i = 0; i < plan->crew_count; i++) {
        free(plan->crews[i].name);
        free(plan->crews[i].hours);
        free(plan->crews[i].days_off);
    }
    for (size_t i = 0; i < plan->condition_count; i++)
        free(plan->conditions[i].name);
    for (size_t i = 0; i < plan->finding_count; i++)
        finding_clear(&plan->findings[i]);
    figures_clear(plan->graph, &plan->totals);
    free(plan->stands);
    free(plan->acts);
    free(plan->crews);
    free(plan->conditions);
    free(plan->findings);
    plan_clear_waiting(plan);
    free(plan->property);
    free(plan->region);
    free(plan->county);
    free(plan);
}

static char *copy(struct plan *plan, const char *text)
{
    size_t length = text ? strlen(text) : 0;
    char *out = malloc(length + 1);
    if (!out) {
        plan->failed = true;
        return NULL;
    }
    if (length > 0)
        memcpy(out, text, length);
    out[length] = '\0';
    return out;
}

void plan_set_text(struct plan *plan, char **where, const char *text)
{
    char *out = copy(plan, text);
    if (!out)
        return;
    free(*where);
    *where = out;
}

uint32_t plan_add_stand(struct plan *plan, const char *name, struct span at)
{
    struct plan_stand *list =
        grow(plan->stands, &plan->stand_room, plan->stand_count, sizeof *list);
    if (!list) {
        plan->failed = true;
        return PLAN_NONE;
    }
    plan->stands = list;
    struct plan_stand *stand = memset(&list[plan->stand_count++], 0, sizeof *list);
    stand->name = copy(plan, name);
    stand->walked = copy(plan, "");
    stand->at = at;
    if (plan->failed) {
        stand_clear(plan, stand);
        plan->stand_count--;
        return PLAN_NONE;
    }
    return (uint32_t)(plan->stand_count - 1);
}

struct stand_row *plan_add_row(struct plan *plan, uint32_t stand, const char *species)
{
    struct plan_stand *owner = &plan->stands[stand];
    struct stand_row *list =
        grow(owner->rows, &owner->row_room, owner->row_count, sizeof *list);
    if (!list) {
        plan->failed = true;
        return NULL;
    }
    owner->rows = list;
    struct stand_row *row = memset(&list[owner->row_count++], 0, sizeof *list);
    row->species = copy(plan, species);
    if (plan->failed) {
        free(row->species);
        owner->row_count--;
        return NULL;
    }
    return row;
}

uint32_t plan_add_crew(struct plan *plan, const char *name)
{
    struct plan_crew *list =
        grow(plan->crews, &plan->crew_room, plan->crew_count, sizeof *list);
    if (!list) {
        plan->failed = true;
        return PLAN_NONE;
    }
    plan->crews = list;
    struct plan_crew *crew = memset(&list[plan->crew_count++], 0, sizeof *list);
    crew->name = copy(plan, name);
    crew->people = 1;
    if (plan->failed) {
        free(crew->name);
        plan->crew_count--;
        return PLAN_NONE;
    }
    return (uint32_t)(plan->crew_count - 1);
}

void plan_add_crew_hours(struct plan *plan, uint32_t crew, struct schedule_hours hours)
{
    struct plan_crew *of = &plan->crews[crew];
    struct schedule_hours *list =
        grow(of->hours, &of->hours_room, of->hours_count, sizeof *list);
    if (!list) {
        plan->failed = true;
        return;
    }
    of->hours = list;
    list[of->hours_count++] = hours;
}

void plan_add_day_off(struct plan *plan, uint32_t crew, struct schedule_span days)
{
    struct plan_crew *of = &plan->crews[crew];
    struct schedule_span *list =
        grow(of->days_off, &of->day_off_room, of->day_off_count, sizeof *list);
    if (!list) {
        plan->failed = true;
        return;
    }
    of->days_off = list;
    list[of->day_off_count++] = days;
}

uint32_t plan_add_condition(struct plan *plan, const char *name, const double chance[12])
{
    struct condition *list = grow(plan->conditions, &plan->condition_room,
                                  plan->condition_count, sizeof *list);
    if (!list) {
        plan->failed = true;
        return PLAN_NONE;
    }
    plan->conditions = list;
    struct condition *c = memset(&list[plan->condition_count++], 0, sizeof *list);
    c->name = copy(plan, name);
    memcpy(c->chance, chance, sizeof c->chance);
    if (plan->failed) {
        free(c->name);
        plan->condition_count--;
        return PLAN_NONE;
    }
    return (uint32_t)(plan->condition_count - 1);
}

uint32_t plan_add_act(struct plan *plan, const char *id, const char *kind, uint32_t stand,
                      struct span at)
{
    struct plan_act *list =
        grow(plan->acts, &plan->act_room, plan->act_count, sizeof *list);
    if (!list) {
        plan->failed = true;
        return PLAN_NONE;
    }
    plan->acts = list;
    struct plan_act *act = memset(&list[plan->act_count++], 0, sizeof *list);
    act->id = copy(plan, id);
    act->kind = copy(plan, kind);
    act->title = copy(plan, kind);
    act->prescription = copy(plan, "");
    act->chain = copy(plan, "");
    act->during = copy(plan, "");
    act->reason = copy(plan, "");
    act->forbidden = copy(plan, "");
    act->conflict = copy(plan, "");
    act->closed_by = copy(plan, "");
    act->skill = copy(plan, "");
    act->stand = stand;
    act->at = at;
    act->open = yearly_all();
    act->condition = -1;
    act->fallback = act->fallback_of = act->along = act->crew = PLAN_NONE;
    act->usable = 1;
    act->chance = act->float_weeks = -1;
    if (plan->failed) {
        act_clear(plan, act);
        plan->act_count--;
        return PLAN_NONE;
    }
    return (uint32_t)(plan->act_count - 1);
}

void plan_add_limit(struct plan *plan, uint32_t act, const char *words,
                    struct limit limit)
{
    struct plan_act *owner = &plan->acts[act];
    struct limit *list =
        grow(owner->limits, &owner->limit_room, owner->limit_count, sizeof *list);
    if (!list) {
        plan->failed = true;
        return;
    }
    owner->limits = list;
    limit.words = copy(plan, words);
    if (limit.words)
        list[owner->limit_count++] = limit;
}

struct act_notice *plan_add_notice(struct plan *plan, uint32_t act, const char *name,
                                   const char *to, int lead_days, int expires_days)
{
    struct plan_act *owner = &plan->acts[act];
    struct act_notice *list =
        grow(owner->notices, &owner->notice_room, owner->notice_count, sizeof *list);
    if (!list) {
        plan->failed = true;
        return NULL;
    }
    owner->notices = list;
    struct act_notice *out = &list[owner->notice_count];
    *out = (struct act_notice){ .name = copy(plan, name),
                                .to = copy(plan, to),
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
        grow(owner->links, &owner->link_room, owner->link_count, sizeof *list);
    if (!list) {
        plan->failed = true;
        return;
    }
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
    struct stretch *list =
        grow(act->stretches, &act->stretch_room, act->stretch_count, sizeof *list);
    if (!list) {
        plan->failed = true;
        return;
    }
    act->stretches = list;
    list[act->stretch_count++] = (struct stretch){ day, day, hours };
}

void plan_add_week(struct plan *plan, struct plan_act *act, struct act_week week)
{
    struct act_week *list =
        grow(act->weeks, &act->week_room, act->week_count, sizeof *list);
    if (!list) {
        plan->failed = true;
        return;
    }
    act->weeks = list;
    list[act->week_count++] = week;
}

void plan_add_filing(struct plan *plan, struct plan_act *act, struct act_filing filing)
{
    struct act_filing *list =
        grow(act->filings, &act->filing_room, act->filing_count, sizeof *list);
    if (!list) {
        plan->failed = true;
        return;
    }
    act->filings = list;
    list[act->filing_count++] = filing;
}

void plan_add_opening(struct plan *plan, uint32_t act, struct schedule_span days)
{
    struct plan_act *of = &plan->acts[act];
    struct schedule_span *list =
        grow(of->openings, &of->opening_room, of->opening_count, sizeof *list);
    if (!list) {
        plan->failed = true;
        return;
    }
    of->openings = list;
    list[of->opening_count++] = days;
}

struct finding *plan_add_finding(struct plan *plan, enum finding_level level,
                                 const char *rule, const char *message)
{
    struct finding *list =
        grow(plan->findings, &plan->finding_room, plan->finding_count, sizeof *list);
    if (!list) {
        plan->failed = true;
        return NULL;
    }
    plan->findings = list;
    struct finding *out = &list[plan->finding_count];
    *out = (struct finding){ .level = level,
                             .rule = copy(plan, rule),
                             .message = copy(plan, message),
                             .ask = copy(plan, ""),
                             .source = copy(plan, ""),
                             .act = PLAN_NONE,
                             .stand = PLAN_NONE };
    if (plan->failed) {
        finding_clear(out);
        return NULL;
    }
    plan->finding_count++;
    return out;
}

void plan_set_figure(struct plan *plan, struct figures *figures, const char *key,
                     const char *words, struct qty value)
{
    struct qty held = graph_hold(plan->graph, value);
    for (size_t i = 0; i < figures->count; i++) {
        if (strcmp(figures->list[i].key, key) != 0)
            continue;
        graph_release(plan->graph, figures->list[i].value);
        figures->list[i].value = held;
        plan_set_text(plan, &figures->list[i].words, words);
        return;
    }
    struct figure *list =
        grow(figures->list, &figures->room, figures->count, sizeof *list);
    if (!list) {
        plan->failed = true;
        graph_release(plan->graph, held);
        return;
    }
    figures->list = list;
    struct figure *figure = memset(&list[figures->count++], 0, sizeof *list);
    figure->key = copy(plan, key);
    figure->words = copy(plan, words);
    figure->value = held;
    if (!figure->key || !figure->words) {
        free(figure->key);
        free(figure->words);
        graph_release(plan->graph, held);
        figures->count--;
    }
}

struct qty plan_figure(const struct figures *figures, const char *key)
{
    for (size_t i = 0; i < figures->count; i++)
        if (strcmp(figures->list[i].key, key) == 0)
            return figures->list[i].value;
    return QTY_NONE;
}

size_t plan_count_level(const struct plan *plan, enum finding_level level)
{
    size_t count = 0;
    for (size_t i = 0; i < plan->finding_count; i++)
        if (plan->findings[i].level == level)
            count++;
    return count;
}

bool plan_has_stop(const struct plan *plan)
{
    return plan_count_level(plan, FINDING_STOP) > 0;
}

const char *finding_level_word(enum finding_level level)
{
    switch (level) {
    case FINDING_STOP: return "stop";
    case FINDING_CAUTION: return "caution";
    case FINDING_NOTE: return "note";
    }
    return "";
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
