/* timing.h: gives the acts of a plan their weeks: has the schedule of its task made
 * (plan/task.h, work/schedule.h) and writes what came out back.
 *
 *     if (!plan_schedule(plan, f)) return false;
 *     // plan->acts[i].state, start, finish, crew, reason, notices[].file_by
 *     if (!plan_tell_risk(plan, f)) return false;
 *
 * First all limits are asked for. An act that then fits nowhere, or only with a long
 * pause inside, is tried again without the limits of notes, then without those of
 * cautions; the limits of a stop are always asked for. */
#ifndef SPINNEY_PLAN_TIMING_H
#define SPINNEY_PLAN_TIMING_H

#include <stdbool.h>

#include "plan/plan.h"

struct fault;

/* Keeps the schedule for plan_tell_risk. */
bool plan_schedule(struct plan *plan, struct fault *f);
/* How sure these dates are (plan/risk.h), once; acts and crews as they were then. By itself
 * since it draws hours: what has been drawn ahead by then (spread_ahead) is not drawn again.
 */
bool plan_tell_risk(struct plan *plan, struct fault *f);
/* For plan_free. */
void plan_forget_timing(struct plan *plan);

#endif
