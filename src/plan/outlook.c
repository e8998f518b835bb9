#include "plan/outlook.h"

#include <stdlib.h>

#include "plan/plan_inner.h"

struct outlook_time *outlook_add_time(struct plan *plan, uint32_t stand, const char *when)
{
    struct plan_stand *owner = &plan->stands[stand];
    struct outlook_time *list =
        plan_grow(plan, owner->times, &owner->time_room, owner->time_count, sizeof *list);
    if (!list)
        return NULL;
    owner->times = list;
    struct outlook_time *out = &list[owner->time_count++];
    *out = (struct outlook_time){ .year = OUTLOOK_NONE, .season = OUTLOOK_NONE };
    plan_set_text(plan, &out->when, when);
    plan_set_text(plan, &out->use, "");
    return plan->failed ? NULL : out;
}

struct outlook_stage *outlook_add_stage(struct plan *plan, uint32_t stand,
                                        const char *act)
{
    struct plan_stand *owner = &plan->stands[stand];
    struct outlook_stage *list = plan_grow(plan, owner->stages, &owner->stage_room,
                                           owner->stage_count, sizeof *list);
    if (!list)
        return NULL;
    owner->stages = list;
    struct outlook_stage *out = &list[owner->stage_count++];
    out->act = NULL;
    for (int i = 0; i < OUTLOOK_YEARS; i++)
        out->years[i] = OUTLOOK_NONE;
    plan_set_text(plan, &out->act, act);
    return plan->failed ? NULL : out;
}

void outlook_clear(struct plan *plan, struct plan_stand *stand)
{
    for (size_t i = 0; i < stand->time_count; i++) {
        free(stand->times[i].when);
        free(stand->times[i].use);
        plan_clear_figures(plan, &stand->times[i].figures);
    }
    for (size_t i = 0; i < stand->stage_count; i++)
        free(stand->stages[i].act);
    free(stand->times);
    free(stand->stages);
}

const char *outlook_year_word(enum outlook_year year)
{
    static const char *const words[] = {
        [OUTLOOK_FIRST_SEASON] = "first_season",
        [OUTLOOK_HIDES_LYING] = "hides_lying",
        [OUTLOOK_HIDES_STANDING] = "hides_standing",
        [OUTLOOK_BEST_BROWSE] = "best_browse",
        [OUTLOOK_USEFUL_UNTIL] = "useful_until",
        [OUTLOOK_NEXT_CUT] = "next_cut",
    };
    return words[year];
}
