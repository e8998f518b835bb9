/* waiting.h: acts that are not in the plan as yet, since a visit is still to ask for them;
 * with what they would take, so that the owner knows what may come.
 *
 *     struct plan_waiting *w = plan_add_waiting(plan, "bench/fence", "Fence", "bench/sprouts");
 *     plan_set_text(plan, &w->when, "less than 5,000 stems/ac");
 *     plan_set_figure(plan, &w->figures, "hours", "hours", hours);
 */
#ifndef SPINNEY_PLAN_WAITING_H
#define SPINNEY_PLAN_WAITING_H

#include "plan/plan.h"

struct plan_waiting {
    char *act, *title;      /* the id it will have; what it is called */
    char *visit;            /* id of the visit that decides */
    char *when;             /* what it has to find; "" when the act hangs on another */
    struct figures figures; /* what it would take */
};

/* Borrowed until the next; NULL when out of memory, and plan->failed. */
struct plan_waiting *plan_add_waiting(struct plan *plan, const char *act,
                                      const char *title, const char *visit);
/* All of them, when the plan is freed. */
void plan_clear_waiting(struct plan *plan);

#endif
