#include "plan/waiting.h"

#include <stdlib.h>

#include "plan/plan_inner.h"

static void clear(struct plan *plan, struct plan_waiting *w)
{
    free(w->act);
    free(w->title);
    free(w->visit);
    free(w->when);
    plan_clear_figures(plan, &w->figures);
}

struct plan_waiting *plan_add_waiting(struct plan *plan, const char *act,
                                      const char *title, const char *visit)
{
    struct plan_waiting *list = plan_grow(plan, plan->waiting, &plan->waiting_room,
                                          plan->waiting_count, sizeof *list);
    if (!list)
        return NULL;
    plan->waiting = list;
    struct plan_waiting *out = &list[plan->waiting_count];
    *out = (struct plan_waiting){ .act = NULL };
    plan_set_text(plan, &out->act, act);
    plan_set_text(plan, &out->title, title);
    plan_set_text(plan, &out->visit, visit);
    plan_set_text(plan, &out->when, "");
    if (plan->failed) {
        clear(plan, out);
        return NULL;
    }
    plan->waiting_count++;
    return out;
}

void plan_clear_waiting(struct plan *plan)
{
    for (size_t i = 0; i < plan->waiting_count; i++)
        clear(plan, &plan->waiting[i]);
    free(plan->waiting);
}
