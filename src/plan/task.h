/* task.h: what the schedule is asked (work/schedule.h), made from a plan's acts, limits,
 * crews and notices.
 *
 *     struct plan_task t;
 *     if (plan_task_init(&t, plan, f)) {
 *         plan_task_fill(&t, plan, level);
 *         struct schedule *s = schedule_new(&t.task, f);
 *     }
 *     plan_task_clear(&t);
 */
#ifndef SPINNEY_PLAN_TASK_H
#define SPINNEY_PLAN_TASK_H

#include "plan/plan.h"
#include "work/schedule.h"

struct fault;

struct plan_task {
    struct schedule_task task;
    /* What it borrows from; it borrows from the plan too. */
    struct schedule_job *jobs;
    struct schedule_crew *crews;
    struct schedule_condition *conditions;
    size_t *able;                  /* all jobs' crew lists, one after another */
    struct schedule_limit *limits; /* likewise */
    struct schedule_after *afters;
    struct schedule_notice *notices;
};

/* Room for all that the plan holds now. To be cleared, also on failure. */
bool plan_task_init(struct plan_task *t, const struct plan *plan, struct fault *f);
void plan_task_clear(struct plan_task *t);
/* Of each act only those limits are asked that are as weighty as `level`, by act, or more.
 * May be called again. */
void plan_task_fill(struct plan_task *t, const struct plan *plan,
                    const enum finding_level *level);

#endif
