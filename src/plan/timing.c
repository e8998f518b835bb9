#include "plan/timing.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "plan/risk.h"
#include "plan/visits.h"
#include "work/schedule.h"

/* The task, everything it borrows from, and what came of it. */
struct timing {
    struct schedule_task task;
    struct schedule_job *jobs;
    struct schedule_crew *crews;
    struct schedule_condition *conditions;
    size_t *able;                  /* all jobs' crew lists, one after another */
    struct schedule_limit *limits; /* likewise */
    struct schedule_after *afters;
    struct schedule_notice *notices;
    enum finding_level *level; /* by act: the lightest limits still asked for */
    bool *paused;              /* by act: placed, with a long pause inside */
    enum finding_level *paused_at; /* by act: what was asked of it when that was first so */
    struct schedule *schedule;
};

static void timing_clear(struct timing *d)
{
    schedule_free(d->schedule);
    free(d->jobs);
    free(d->crews);
    free(d->conditions);
    free(d->able);
    free(d->limits);
    free(d->afters);
    free(d->notices);
    free(d->level);
    free(d->paused);
    free(d->paused_at);
}

static void *some(size_t count, size_t size)
{
    return calloc(count ? count : 1, size);
}

static bool timing_make(const struct plan *plan, struct timing *d)
{
    size_t able = 0, limits = 0, links = 0, notices = 0;
    for (size_t i = 0; i < plan->act_count; i++) {
        able += plan->acts[i].crew_count;
        limits += plan->acts[i].limit_count;
        links += plan->acts[i].link_count;
        notices += plan->acts[i].notice_count;
    }
    *d = (struct timing){
        .jobs = some(plan->act_count, sizeof *d->jobs),
        .crews = some(plan->crew_count, sizeof *d->crews),
        .conditions = some(plan->condition_count, sizeof *d->conditions),
        .able = some(able, sizeof *d->able),
        .limits = some(limits, sizeof *d->limits),
        .afters = some(links, sizeof *d->afters),
        .notices = some(notices, sizeof *d->notices),
        .level = some(plan->act_count, sizeof *d->level),
        .paused = some(plan->act_count, sizeof *d->paused),
        .paused_at = some(plan->act_count, sizeof *d->paused_at),
    };
    return d->jobs && d->crews && d->conditions && d->able && d->limits && d->afters &&
           d->notices && d->level && d->paused && d->paused_at;
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

static void fill_crew(const struct plan_crew *from, struct schedule_crew *to)
{
    to->name = from->name;
    to->people = from->people;
    to->rate = from->rate;
    to->hours_each = from->hours_each_week;
    to->day_each = from->day_hours;
    to->hours = from->hours;
    to->hours_count = from->hours_count;
    to->travel = from->travel_hours;
    to->days_off = from->days_off;
    to->day_off_count = from->day_off_count;
    to->from = (struct schedule_day_given){ from->has_from, from->from };
    to->to = (struct schedule_day_given){ from->has_to, from->to };
    to->off = from->off;
}

/* Where the next lists of a job begin. */
struct cursors {
    size_t able, limits, afters, notices;
};

static void fill_lists(const struct plan *plan, size_t index, struct timing *d,
                       struct cursors *at)
{
    const struct plan_act *act = &plan->acts[index];
    struct schedule_job *job = &d->jobs[index];
    job->crews = d->able + at->able;
    job->crew_count = act->crew_count;
    for (size_t i = 0; i < act->crew_count; i++)
        d->able[at->able++] = act->crews[i];
    job->limits = d->limits + at->limits;
    for (size_t i = 0; i < act->limit_count; i++) {
        const struct limit *limit = &act->limits[i];
        if (limit->level > d->level[index])
            continue;
        d->limits[at->limits++] =
            (struct schedule_limit){ limit->words, limit->days, limit->dated, limit->from,
                                     limit->to };
        job->limit_count++;
    }
    job->after = d->afters + at->afters;
    job->after_count = act->link_count;
    for (size_t i = 0; i < act->link_count; i++) {
        const struct link *link = &act->links[i];
        d->afters[at->afters++] = (struct schedule_after){ link->act, link->least_days,
                                                           link->most_days, false };
    }
    job->notices = d->notices + at->notices;
    job->notice_count = act->notice_count;
    for (size_t i = 0; i < act->notice_count; i++) {
        const struct act_notice *notice = &act->notices[i];
        d->notices[at->notices++] = (struct schedule_notice){
            notice->name, notice->lead_days, notice->expires_days == -1,
            notice->expires_days > 0 ? notice->expires_days : 0, notice->filed
        };
    }
}

static void fill_job(const struct plan *plan, size_t index, struct timing *d,
                     struct cursors *at)
{
    const struct plan_act *act = &plan->acts[index];
    struct schedule_job *job = &d->jobs[index];
    struct qty hours = plan_figure(&act->figures, "hours");
    struct unit_id hour;
    struct fault none = { 0 };
    *job = (struct schedule_job){ .name = act->id, .open = act->open };
    if (qty_is(hours) && units_find(graph_units(plan->graph), "h", 1, &hour, &none))
        job->hours = graph_value_in(plan->graph, hours, hour);
    job->days = act->span_days;
    job->who = act->nobody ? SCHEDULE_NOBODY : SCHEDULE_LISTED;
    job->needs = act->skill[0] ? act->skill : NULL;
    job->open_words = act->during[0] ? act->during : NULL;
    job->openings = act->openings;
    job->opening_count = act->opening_count;
    job->in_one_week = act->in_one_week;
    job->has_condition = act->condition >= 0;
    if (job->has_condition)
        job->condition = (size_t)act->condition;
    job->earliest = (struct schedule_day_given){ act->has_earliest, act->earliest };
    job->first = act->first;
    job->latest = (struct schedule_day_given){ act->has_latest, act->latest };
    job->fixed = (struct schedule_day_given){ act->has_fixed, act->fixed };
    job->done = act->state == ACT_DONE;
    job->was = (struct schedule_span){ act->start, act->finish };
    job->has_along = act->along != PLAN_NONE;
    if (job->has_along)
        job->along = act->along;
    job->has_otherwise = act->fallback != PLAN_NONE;
    if (job->has_otherwise)
        job->otherwise = act->fallback;
    fill_lists(plan, index, d, at);
}

/* Schedules tried while it is found out which limits have to be broken. */
enum { TRIES_TO_RELAX = 40 };

static struct schedule *solve(const struct plan *plan, struct timing *d, size_t tries,
                              bool rough, struct fault *f)
{
    struct cursors at = { 0 };
    for (size_t i = 0; i < plan->act_count; i++)
        fill_job(plan, i, d, &at);
    for (size_t i = 0; i < plan->crew_count; i++)
        fill_crew(&plan->crews[i], &d->crews[i]);
    for (size_t i = 0; i < plan->condition_count; i++) {
        d->conditions[i].words = plan->conditions[i].name;
        memcpy(d->conditions[i].chance, plan->conditions[i].chance,
               sizeof d->conditions[i].chance);
    }
    d->task = (struct schedule_task){
        .start = plan->starts,
        .jobs = d->jobs,
        .job_count = plan->act_count,
        .crews = d->crews,
        .crew_count = plan->crew_count,
        .conditions = d->conditions,
        .condition_count = plan->condition_count,
        .tries = tries,
        .rough = rough,
    };
    return schedule_new(&d->task, f);
}

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
    d->schedule = solve(plan, d, tries, rough, f);
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
    if (!timing_make(plan, d))
        return fault_no_memory(f);
    if (!timing_solve(plan, d, f))
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
    bool fine = plan_risk(plan, &plan->timing->task, plan->timing->schedule, f);
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
