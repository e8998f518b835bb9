/* timing.h: gives the acts of a plan their weeks: builds the task of the schedule
 * (work/schedule.h) from acts, limits, crews and notices, and writes what came out back.
 *
 *     if (!plan_schedule(plan, f)) return false;
 *     // plan->acts[i].state, start, finish, crew, reason, notices[].file_by
 *
 * Soft limits are kept out of where other days are left: first all limits are asked for,
 * and an act that then fits nowhere is tried again under its hard limits alone. */
#ifndef SPINNEY_PLAN_TIMING_H
#define SPINNEY_PLAN_TIMING_H

#include <stdbool.h>

#include "plan/plan.h"

struct fault;

bool plan_schedule(struct plan *plan, struct fault *f);
/* Does a day of the act's work fall on a day that this limit closes? */
bool plan_breaches(const struct plan_act *act, const struct limit *limit);

#endif
