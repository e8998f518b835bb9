/* plan_inner.h: what the modules that put something into a plan share.
 *
 *     struct limit *list = plan_grow(plan, act->limits, &act->limit_room, act->limit_count,
 *                                    sizeof *list);
 *     if (!list) return;                 // out of memory: plan->failed is set
 *     act->limits = list;
 */
#ifndef SPINNEY_PLAN_PLAN_INNER_H
#define SPINNEY_PLAN_PLAN_INNER_H

#include "plan/plan.h"

/* As grow (base/grow.h); sets plan->failed when there is no memory. */
void *plan_grow(struct plan *plan, void *array, size_t *room, size_t count, size_t size);
/* A copy that the caller frees, "" of NULL; NULL and plan->failed when there is no memory. */
char *plan_copy(struct plan *plan, const char *text);
/* Frees what the act holds; the act itself is the plan's. */
void plan_clear_act(struct plan *plan, struct plan_act *act);

#endif
