/* risk.h: how sure the dates of a plan are: the schedule made again with other hours and
 * on other ground, in the same order by the same crews.
 *
 *     if (!plan_risk(plan, &task, schedule, f)) return false;
 *     // plan->acts[i].chance, chance_or_more, float_weeks, helps
 *
 * First once with all hours at their high ends, above which they come one time in ten, and
 * on harsh ground (work/schedule_again.h): acts that keep their seasons even then have a
 * chance of RISK_SURE or more, and where all do nothing is tried further. Else the hours are drawn
 * RISK_DRAWS times (fewer for plans of hundreds of acts), acts that share a cause (a tally,
 * a rate) rising and falling together (quantity/draws.h), and with them the weeks in which
 * ground and weather are fit, the same for all acts that wait for the same. The chance is
 * the share of schedules in which the act is finished in the season it is planned for, by
 * its deadline, without a pause that it was not planned with; an act with a stated date
 * needs its ground on that day, and has no chance told where that day is closed. An act
 * with a stand-in that is not finished in its season on the ground of a draw is left out of
 * it, and the stand-in done. The chance of what stands in is that of the draws in which it
 * is needed: what it stands in for is placed in the others.
 *
 * The float is that of schedule_again_float (work/schedule_again.h), with likely hours.
 *
 * For the first RISK_HELPED acts whose chance is below RISK_LOW (fewer in plans of more
 * than RISK_SMALL acts) some things are tried, each with RISK_TRIED of these draws (in its
 * own season by how much it betters the plan in them): to take it and what it waits for
 * before all other work, one more person in its crew or in those of what it waits for (the
 * ACT_HELP_CREWS nearest), its next season. Enough is what brings the chance to RISK_LOW or
 * more without leaving out another act. Not tried is what cannot be: to move a stated date,
 * a person more where no crew is, a season after the deadline. */
#ifndef SPINNEY_PLAN_RISK_H
#define SPINNEY_PLAN_RISK_H

#include <stdbool.h>

struct fault;
struct plan;
struct schedule;
struct schedule_task;

enum { RISK_DRAWS = 512, RISK_TRIED = 128, RISK_HELPED = 6, RISK_SMALL = 60 };
#define RISK_SURE 0.9
#define RISK_LOW  0.8
/* By so much another crew has to better a chance, for it to be told. */
#define RISK_SEEN 0.02

/* `schedule` is that of `task`, whose jobs are the plan's acts. */
bool plan_risk(struct plan *plan, const struct schedule_task *task,
               const struct schedule *schedule, struct fault *f);

#endif
