#include "plan/timing.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "plan/risk.h"
#include "plan/task.h"
#include "plan/visits.h"

/* The task, and what came of it. */
struct timing {
    struct plan_task task;
    /* By act: the lightest limits still asked for; and when it first paused for long. */
    enum finding_level *level, *paused_at;
    bool *paused; /* by act: placed, with a long pause inside */
    struct schedule *schedule;
};

static void timing_clear(struct timing *d)
{
    schedule_free(d->schedule);
    plan_task_clear(&d->task);
    free(d->level);
    free(d->paused);
    free(d->paused_at);
}

static bool timing_make(const struct plan *plan, struct timing *d, struct fault *f)
{
    size_t acts = plan->act_count + 1;
    d->level = calloc(acts, sizeof *d->level);
    d->paused = calloc(acts, sizeof *d->paused);
    d->paused_at = calloc(acts, sizeof *d->paused_at);
    return plan_task_init(&d->task, plan, f) &&
           ((d->level && d->paused && d->paused_at) || fault_no_memory(f));
}

/* Do the act's own window and its yearly limits leave any day of a year? */
static bool any_day(const struct plan_act *act, enum finding_level lightest)
{
    if (act->opening_count > 0)
        return true; /* its dates are for the schedule to judge */
    struct yearly open = act->open;
    for (size_t i = 0; i < act->limit_count; i++)
        if (!act->limits[i].dated && act->limits[i].level <= lightest)
            open = yearly_minus(open, act->limits[i].days);
    return !yearly_is_none(open);
}

/* Goes on to the next weightier level at which less is asked of the act; false when there
 * is none. */
static bool ask_less(const struct plan_act *act, enum finding_level *level)
{
    while (*level > FINDING_STOP) {
        enum finding_level had = *level;
        *level = had == FINDING_NOTE ? FINDING_CAUTION : FINDING_STOP;
        for (size_t i = 0; i < act->limit_count; i++)
            if (act->limits[i].level == had)
                return true;
    }
    return false;
}

/* Schedules tried while it is found out which limits have to be broken. */
enum { TRIES_TO_RELAX = 40 };

static bool closes(const struct limit *limit, struct date d)
{
    return limit->dated ? limit->from.day <= d.day && d.day <= limit->to.day
                        : yearly_has(limit->days, d);
}

/* The start counts too: the plan may state it, and the crew come later. Of what was really
 * done only the day is known on which it was finished. */
static void find_broken(struct plan_act *act, const struct schedule_result *r)
{
    for (size_t i = 0; i < act->limit_count; i++) {
        struct limit *limit = &act->limits[i];
        limit->broken = closes(limit, act->state == ACT_DONE ? act->finish : r->start);
        for (size_t k = 0; k < r->day_count && !limit->broken; k++)
            limit->broken = closes(limit, r->days[k].day);
    }
}

static void take_days(struct plan *plan, struct plan_act *act,
                      const struct schedule_result *r)
{
    for (size_t i = 0; i < r->day_count; i++)
        plan_add_day(plan, act, r->days[i].day, r->days[i].hours);
    for (size_t i = 0; i < r->week_count; i++) {
        const struct schedule_work *week = &r->weeks[i];
        plan_add_week(plan, act,
                      (struct act_week){ week->day, week->hours, week->there });
    }
}

static void take(struct plan *plan, struct plan_act *act, const struct schedule_result *r)
{
    if (act->state != ACT_DONE) {
        act->state = r->state == SCHEDULE_PLACED     ? ACT_PLACED
                     : r->state == SCHEDULE_UNPLACED ? ACT_UNPLACED
                                                     : ACT_NOT_NEEDED;
        act->start = r->start;
        act->finish = r->finish;
    }
    act->stretch_count = act->week_count = act->filing_count = 0;
    if (act->state == ACT_PLACED || act->state == ACT_DONE)
        find_broken(act, r);
    if (act->state == ACT_PLACED)
        take_days(plan, act, r);
    act->crew = r->crew == SCHEDULE_NONE ? PLAN_NONE : (uint32_t)r->crew;
    act->weeks_left = r->weeks_left;
    act->usable = r->usable;
    act->carried_over = r->carried_over;
    act->soonest = r->soonest;
    act->held = r->held;
    plan_set_text(plan, &act->reason, r->reason ? r->reason : "");
    plan_set_text(plan, &act->forbidden, r->forbidden ? r->forbidden : "");
    plan_set_text(plan, &act->conflict, r->conflict ? r->conflict : "");
    plan_set_text(plan, &act->closed_by, r->closed_by ? r->closed_by : "");
    for (size_t i = 0; i < r->filing_count; i++) {
        const struct schedule_filing *filing = &r->filings[i];
        struct act_notice *notice = &act->notices[filing->notice];
        plan_add_filing(plan, act,
                        (struct act_filing){ filing->notice, filing->from, filing->by });
        if (notice->placed)
            continue; /* the first filing is the notice's own */
        notice->placed = true;
        notice->file_from = filing->from;
        notice->file_by = filing->by;
    }
}

/* Asks less of the acts that do not fit; false when nothing more can be asked less of. */
static bool relax(const struct plan *plan, struct timing *d, const struct schedule *s)
{
    bool again = false;
    for (size_t i = 0; i < plan->act_count; i++) {
        const struct schedule_result *r = schedule_of(s, i);
        if (r->state == SCHEDULE_PLACED && !r->carried_over)
            continue;
        if (r->state == SCHEDULE_NOT_NEEDED)
            continue;
        if (r->state == SCHEDULE_PLACED && !d->paused[i]) {
            d->paused[i] = true;
            d->paused_at[i] = d->level[i];
        }
        again = ask_less(&plan->acts[i], &d->level[i]) || again;
    }
    return again;
}

/* Acts that pause however little is asked of them keep the limits with which they were
 * placed: breaking more of them gained nothing. False when there are none. */
static bool restore(const struct plan *plan, struct timing *d, const struct schedule *s)
{
    bool any = false;
    for (size_t i = 0; i < plan->act_count; i++) {
        const struct schedule_result *r = schedule_of(s, i);
        if (!d->paused[i] || r->state != SCHEDULE_PLACED || !r->carried_over)
            continue;
        any = any || d->level[i] != d->paused_at[i];
        d->level[i] = d->paused_at[i];
    }
    return any;
}

static bool solve_again(const struct plan *plan, struct timing *d, size_t tries,
                        bool rough, struct fault *f)
{
    schedule_free(d->schedule);
    plan_task_fill(&d->task, plan, d->level);
    d->task.task.tries = tries;
    d->task.task.rough = rough;
    d->schedule = schedule_new(&d->task.task, f);
    return d->schedule != NULL;
}

static bool timing_solve(const struct plan *plan, struct timing *d, struct fault *f)
{
    for (size_t i = 0; i < plan->act_count; i++) {
        d->level[i] = FINDING_NOTE;
        while (!any_day(&plan->acts[i], d->level[i]) &&
               ask_less(&plan->acts[i], &d->level[i])) {
        }
    }
    /* Most plans need no more than the first; the next ones only show what else to ask. */
    bool rough = false;
    if (!solve_again(plan, d, TRIES_TO_RELAX, false, f))
        return false;
    while (relax(plan, d, d->schedule)) {
        rough = true;
        if (!solve_again(plan, d, TRIES_TO_RELAX, true, f))
            return false;
    }
    bool again = restore(plan, d, d->schedule) || rough;
    return (!again && schedule_outcome(d->schedule).proven) ||
           solve_again(plan, d, 0, false, f);
}

static bool timing_fill(struct plan *plan, struct timing *d, struct fault *f)
{
    if (!timing_make(plan, d, f) || !timing_solve(plan, d, f))
        return false;
    for (size_t i = 0; i < plan->act_count; i++)
        take(plan, &plan->acts[i], schedule_of(d->schedule, i));
    memcpy(plan->goals, schedule_outcome(d->schedule).goals, sizeof plan->goals);
    return plan_count_visits(plan, d->schedule, f) &&
           (!plan->failed || fault_no_memory(f));
}

bool plan_schedule(struct plan *plan, struct fault *f)
{
    plan_forget_timing(plan);
    plan->timing = calloc(1, sizeof *plan->timing);
    if (!plan->timing)
        return fault_no_memory(f);
    if (timing_fill(plan, plan->timing, f))
        return true;
    plan_forget_timing(plan);
    return false;
}

bool plan_tell_risk(struct plan *plan, struct fault *f)
{
    assert(plan->timing);
    bool fine = plan_risk(plan, &plan->timing->task.task, plan->timing->schedule, f);
    plan_forget_timing(plan);
    return fine;
}

void plan_forget_timing(struct plan *plan)
{
    if (plan->timing)
        timing_clear(plan->timing);
    free(plan->timing);
    plan->timing = NULL;
}
