/* risk.h: how sure the dates of a plan are: the schedule made again with other hours, in
 * the same order by the same crews.
 *
 *     if (!plan_risk(plan, &task, schedule, f)) return false;
 *     // plan->acts[i].chance, chance_or_more, float_weeks, helps
 *
 * First once with all hours at their high ends, above which they come one time in ten:
 * acts that keep their seasons even then have a chance of RISK_SURE or more, and where all
 * do nothing is tried further. Else the hours are drawn RISK_DRAWS times (fewer for plans of
 * hundreds of acts), acts that share a cause
 * (a tally, a rate) rising and falling together (quantity/draws.h), and the chance is the
 * share of schedules in which the act is finished in the season it is planned for, by its
 * deadline, without a pause that it was not planned with.
 *
 * For the first RISK_HELPED acts whose chance is below RISK_LOW, three things are tried,
 * each with RISK_TRIED of these draws: to take it before all other work, one more person in its crew,
 * its next season. Kept is what brings the chance to RISK_LOW or more without leaving out
 * another act. */
#ifndef SPINNEY_PLAN_RISK_H
#define SPINNEY_PLAN_RISK_H

#include <stdbool.h>

struct fault;
struct plan;
struct schedule;
struct schedule_task;

enum { RISK_DRAWS = 512, RISK_TRIED = 128, RISK_HELPED = 6 };
#define RISK_SURE 0.9
#define RISK_LOW 0.8

/* `schedule` is that of `task`, whose jobs are the plan's acts. */
bool plan_risk(struct plan *plan, const struct schedule_task *task,
               const struct schedule *schedule, struct fault *f);

#endif
