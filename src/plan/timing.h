/* timing.h: gives the acts of a plan their weeks: builds the task of the schedule
 * (work/schedule.h) from acts, limits, crews and notices, and writes what came out back.
 *
 *     if (!plan_schedule(plan, f)) return false;
 *     // plan->acts[i].state, start, finish, crew, reason, notices[].file_by
 *
 * First all limits are asked for. An act that then fits nowhere, or only with a long
 * pause inside, is tried again without the limits of notes, then without those of
 * cautions; the limits of a stop are always asked for. */
#ifndef SPINNEY_PLAN_TIMING_H
#define SPINNEY_PLAN_TIMING_H

#include <stdbool.h>

#include "plan/plan.h"

struct fault;

bool plan_schedule(struct plan *plan, struct fault *f);

#endif
