/* visits.h: on how many days each crew comes, once the schedule is made.
 *
 *     if (!plan_count_visits(plan, schedule, f)) return false;
 *     travel = plan->crews[i].visits * plan->crews[i].travel_hours;
 *
 * A day on which a crew works at several acts is one visit. What is done already is left
 * out: its days are not known. */
#ifndef SPINNEY_PLAN_VISITS_H
#define SPINNEY_PLAN_VISITS_H

#include <stdbool.h>

struct fault;
struct plan;
struct schedule;

/* Fills in `visits` and `planned_hours` of every crew. */
bool plan_count_visits(struct plan *plan, const struct schedule *s, struct fault *f);

#endif
