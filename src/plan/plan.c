#include "plan/plan.h"

#include <stdlib.h>
#include <string.h>

#include "base/grow.h"
#include "plan/outlook.h"
#include "plan/plan_inner.h"
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
        plan_clear_act(plan, &plan->acts[i]);
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

void *plan_grow(struct plan *plan, void *array, size_t *room, size_t count, size_t size)
{
    void *grown = grow(array, room, count, size);
    if (!grown)
        plan->failed = true;
    return grown;
}

char *plan_copy(struct plan *plan, const char *text)
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
    char *out = plan_copy(plan, text);
    if (!out)
        return;
    free(*where);
    *where = out;
}

uint32_t plan_add_stand(struct plan *plan, const char *name, struct span at)
{
    struct plan_stand *list =
        plan_grow(plan, plan->stands, &plan->stand_room, plan->stand_count, sizeof *list);
    if (!list)
        return PLAN_NONE;
    plan->stands = list;
    struct plan_stand *stand = memset(&list[plan->stand_count++], 0, sizeof *list);
    stand->name = plan_copy(plan, name);
    stand->walked = plan_copy(plan, "");
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
        plan_grow(plan, owner->rows, &owner->row_room, owner->row_count, sizeof *list);
    if (!list)
        return NULL;
    owner->rows = list;
    struct stand_row *row = memset(&list[owner->row_count++], 0, sizeof *list);
    row->species = plan_copy(plan, species);
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
        plan_grow(plan, plan->crews, &plan->crew_room, plan->crew_count, sizeof *list);
    if (!list)
        return PLAN_NONE;
    plan->crews = list;
    struct plan_crew *crew = memset(&list[plan->crew_count++], 0, sizeof *list);
    crew->name = plan_copy(plan, name);
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
        plan_grow(plan, of->hours, &of->hours_room, of->hours_count, sizeof *list);
    if (!list)
        return;
    of->hours = list;
    list[of->hours_count++] = hours;
}

void plan_add_day_off(struct plan *plan, uint32_t crew, struct schedule_span days)
{
    struct plan_crew *of = &plan->crews[crew];
    struct schedule_span *list =
        plan_grow(plan, of->days_off, &of->day_off_room, of->day_off_count, sizeof *list);
    if (!list)
        return;
    of->days_off = list;
    list[of->day_off_count++] = days;
}

uint32_t plan_add_condition(struct plan *plan, const char *name, const double chance[12])
{
    struct condition *list = plan_grow(plan, plan->conditions, &plan->condition_room,
                                       plan->condition_count, sizeof *list);
    if (!list)
        return PLAN_NONE;
    plan->conditions = list;
    struct condition *c = memset(&list[plan->condition_count++], 0, sizeof *list);
    c->name = plan_copy(plan, name);
    memcpy(c->chance, chance, sizeof c->chance);
    if (plan->failed) {
        free(c->name);
        plan->condition_count--;
        return PLAN_NONE;
    }
    return (uint32_t)(plan->condition_count - 1);
}

struct finding *plan_add_finding(struct plan *plan, enum finding_level level,
                                 const char *rule, const char *message)
{
    struct finding *list = plan_grow(plan, plan->findings, &plan->finding_room,
                                     plan->finding_count, sizeof *list);
    if (!list)
        return NULL;
    plan->findings = list;
    struct finding *out = &list[plan->finding_count];
    *out = (struct finding){ .level = level,
                             .rule = plan_copy(plan, rule),
                             .message = plan_copy(plan, message),
                             .ask = plan_copy(plan, ""),
                             .source = plan_copy(plan, ""),
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
        plan_grow(plan, figures->list, &figures->room, figures->count, sizeof *list);
    if (!list) {
        graph_release(plan->graph, held);
        return;
    }
    figures->list = list;
    struct figure *figure = memset(&list[figures->count++], 0, sizeof *list);
    figure->key = plan_copy(plan, key);
    figure->words = plan_copy(plan, words);
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
