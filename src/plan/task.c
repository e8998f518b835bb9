#include "plan/task.h"

#include <stdlib.h>
#include <string.h>

#include "base/fault.h"

bool plan_task_init(struct plan_task *t, const struct plan *plan, struct fault *f)
{
    size_t able = 0, limits = 0, links = 0, notices = 0;
    for (size_t i = 0; i < plan->act_count; i++) {
        able += plan->acts[i].crew_count;
        limits += plan->acts[i].limit_count;
        links += plan->acts[i].link_count;
        notices += plan->acts[i].notice_count;
    }
    *t = (struct plan_task){
        .jobs = calloc(plan->act_count + 1, sizeof *t->jobs),
        .crews = calloc(plan->crew_count + 1, sizeof *t->crews),
        .conditions = calloc(plan->condition_count + 1, sizeof *t->conditions),
        .able = calloc(able + 1, sizeof *t->able),
        .limits = calloc(limits + 1, sizeof *t->limits),
        .afters = calloc(links + 1, sizeof *t->afters),
        .notices = calloc(notices + 1, sizeof *t->notices),
    };
    return (t->jobs && t->crews && t->conditions && t->able && t->limits && t->afters &&
            t->notices) ||
           fault_no_memory(f);
}

void plan_task_clear(struct plan_task *t)
{
    free(t->jobs);
    free(t->crews);
    free(t->conditions);
    free(t->able);
    free(t->limits);
    free(t->afters);
    free(t->notices);
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

static void fill_lists(const struct plan *plan, size_t index, struct plan_task *t,
                       const enum finding_level *level, struct cursors *at)
{
    const struct plan_act *act = &plan->acts[index];
    struct schedule_job *job = &t->jobs[index];
    job->crews = t->able + at->able;
    job->crew_count = act->crew_count;
    for (size_t i = 0; i < act->crew_count; i++)
        t->able[at->able++] = act->crews[i];
    job->limits = t->limits + at->limits;
    for (size_t i = 0; i < act->limit_count; i++) {
        const struct limit *limit = &act->limits[i];
        if (limit->level > level[index])
            continue;
        t->limits[at->limits++] =
            (struct schedule_limit){ limit->words, limit->days, limit->dated, limit->from,
                                     limit->to };
        job->limit_count++;
    }
    job->after = t->afters + at->afters;
    job->after_count = act->link_count;
    for (size_t i = 0; i < act->link_count; i++) {
        const struct link *link = &act->links[i];
        t->afters[at->afters++] = (struct schedule_after){ link->act, link->least_days,
                                                           link->most_days, false };
    }
    job->notices = t->notices + at->notices;
    job->notice_count = act->notice_count;
    for (size_t i = 0; i < act->notice_count; i++) {
        const struct act_notice *notice = &act->notices[i];
        t->notices[at->notices++] = (struct schedule_notice){
            notice->name, notice->lead_days, notice->expires_days == -1,
            notice->expires_days > 0 ? notice->expires_days : 0, notice->filed
        };
    }
}

static void fill_job(const struct plan *plan, size_t index, struct plan_task *t,
                     const enum finding_level *level, struct cursors *at)
{
    const struct plan_act *act = &plan->acts[index];
    struct schedule_job *job = &t->jobs[index];
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
    fill_lists(plan, index, t, level, at);
}

void plan_task_fill(struct plan_task *t, const struct plan *plan,
                    const enum finding_level *level)
{
    struct cursors at = { 0 };
    for (size_t i = 0; i < plan->act_count; i++)
        fill_job(plan, i, t, level, &at);
    for (size_t i = 0; i < plan->crew_count; i++)
        fill_crew(&plan->crews[i], &t->crews[i]);
    for (size_t i = 0; i < plan->condition_count; i++) {
        t->conditions[i].words = plan->conditions[i].name;
        memcpy(t->conditions[i].chance, plan->conditions[i].chance,
               sizeof t->conditions[i].chance);
    }
    t->task = (struct schedule_task){
        .start = plan->starts,
        .jobs = t->jobs,
        .job_count = plan->act_count,
        .crews = t->crews,
        .crew_count = plan->crew_count,
        .conditions = t->conditions,
        .condition_count = plan->condition_count,
    };
}
