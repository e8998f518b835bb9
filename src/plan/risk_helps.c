/* What would help acts whose chance is low: each is tried. */
#include "plan/risk_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"

static size_t placed_in(const struct risk *r, const struct schedule_again *again)
{
    size_t placed = 0;
    for (size_t i = 0; i < r->plan->act_count; i++)
        placed += schedule_again_of(again, i).placed;
    return placed;
}

/* As it is planned now, it may pause too. */
static bool is_as_whole(const struct risk *r, struct schedule_again_of now, size_t act)
{
    return now.placed &&
           (!now.carried_over || schedule_of(r->schedule, act)->carried_over);
}

static bool keeps_season(const struct risk *r, const struct schedule_again *again,
                         size_t act, struct date last)
{
    struct schedule_again_of now = schedule_again_of(again, act);
    return is_as_whole(r, now, act) && now.finish.day <= last.day;
}

/* The chance of the act, in its season or (`help` is that) in the one it comes into. */
static bool find_chance(const struct risk *r, struct schedule_again *again, size_t act,
                        struct act_help *help, struct fault *f)
{
    struct risk_count count = { 0, 0 };
    bool other = help->kind == HELP_NEXT_SEASON;
    struct date last = schedule_again_season(again, act);
    for (size_t k = 0; k < r->draws; k++) {
        if (!risk_is_tried(r, k))
            continue;
        if (!risk_again(r, again, k, f))
            return false;
        if (schedule_again_of(again, act).not_needed)
            continue;
        count.needed++;
        count.kept +=
            other ? keeps_season(r, again, act, last) : risk_keeps(r, again, act);
    }
    help->chance = risk_share(count);
    /* In the same season: by how much it differs from the plan in the same draws. */
    if (!other)
        help->chance += r->plan->acts[act].chance - risk_share(r->tried[act]);
    help->chance = fmin(fmax(help->chance, 0), 1);
    help->end = help->chance >= RISK_LOW ? HELP_ENOUGH : HELP_SHORT;
    return true;
}

static bool attempt(const struct risk *r, struct schedule_again *again, size_t act,
                    size_t placed, struct act_help *help, struct fault *f)
{
    if (!risk_settle(r, again, f))
        return false;
    struct schedule_again_of planned = schedule_again_of(again, act);
    help->from = planned.start;
    if (!planned.not_needed && !is_as_whole(r, planned, act))
        help->end = HELP_NOWHERE;
    else if (placed_in(r, again) < placed)
        help->end = HELP_LEAVES_OUT;
    else if (planned.not_needed)
        help->end = HELP_NOT_NEEDED;
    else
        return find_chance(r, again, act, help, f);
    return true;
}

/* The best first; of those alike, the least trouble. */
static void put_help(struct plan_act *act, struct act_help help)
{
    size_t at = act->help_count++;
    for (; at > 0; at--) {
        const struct act_help *before = &act->helps[at - 1];
        bool better = help.end != before->end ? help.end < before->end
                                              : help.chance > before->chance;
        if (!better)
            break;
        act->helps[at] = *before;
    }
    act->helps[at] = help;
}

/* A person more elsewhere is no news where it does not help at all. */
static bool is_worth_telling(const struct plan_act *act, const struct act_help *help)
{
    return help->kind != HELP_PERSON || help->crew == act->crew ||
           help->end == HELP_ENOUGH || help->end == HELP_NOT_NEEDED ||
           (help->end == HELP_SHORT && help->chance >= act->chance + RISK_SEEN);
}

static bool help_with(struct risk *r, const struct schedule_task *task, size_t act,
                      struct act_help help, size_t placed, struct fault *f)
{
    struct schedule_again *again = schedule_again_new(task, r->schedule, f);
    if (again && help.kind == HELP_SOONER)
        schedule_again_prefer(again, act);
    bool fine = again && attempt(r, again, act, placed, &help, f);
    schedule_again_free(again);
    if (fine && is_worth_telling(&r->plan->acts[act], &help))
        put_help(&r->plan->acts[act], help);
    return fine;
}

static bool help_by_person(struct risk *r, size_t act, uint32_t crew, size_t placed,
                           struct fault *f)
{
    struct schedule_task task = *r->task;
    struct schedule_crew *crews = malloc(task.crew_count * sizeof *crews);
    if (!crews)
        return fault_no_memory(f);
    memcpy(crews, task.crews, task.crew_count * sizeof *crews);
    crews[crew].people++;
    task.crews = crews;
    struct act_help help = { .kind = HELP_PERSON, .crew = crew };
    bool fine = help_with(r, &task, act, help, placed, f);
    free(crews);
    return fine;
}

static void add_crew(uint32_t crew, uint32_t *crews, size_t *count)
{
    bool known = crew == PLAN_NONE || *count == ACT_HELP_CREWS;
    for (size_t i = 0; i < *count; i++)
        known = known || crews[i] == crew;
    if (!known)
        crews[(*count)++] = crew;
}

/* A person more in its own crew, or in that of what it waits for, the nearest first. */
static bool help_by_people(struct risk *r, size_t act, size_t placed, struct fault *f)
{
    uint32_t crews[ACT_HELP_CREWS];
    size_t crew_count = 0, count = 1, acts = r->plan->act_count;
    size_t *chain = malloc(acts * sizeof *chain);
    bool *seen = calloc(acts, sizeof *seen);
    bool fine = (chain && seen) || fault_no_memory(f);
    if (fine) {
        chain[0] = act;
        seen[act] = true;
    }
    for (size_t i = 0; fine && i < count; i++) {
        const struct schedule_job *job = &r->task->jobs[chain[i]];
        if (r->plan->acts[chain[i]].state != ACT_PLACED)
            continue; /* done, or not placed: no person makes it earlier */
        add_crew(r->plan->acts[chain[i]].crew, crews, &crew_count);
        for (size_t k = 0; k < job->after_count + job->has_along; k++) {
            size_t before = k < job->after_count ? job->after[k].job : job->along;
            if (!seen[before])
                chain[count++] = before;
            seen[before] = true;
        }
    }
    for (size_t i = 0; fine && i < crew_count; i++)
        fine = help_by_person(r, act, crews[i], placed, f);
    free(chain);
    free(seen);
    return fine;
}

static bool help_next_season(struct risk *r, size_t act, size_t placed, struct fault *f)
{
    struct schedule_task task = *r->task;
    const struct schedule_result *planned = schedule_of(r->schedule, act);
    if (!planned->season_ends || task.jobs[act].latest.given ||
        task.jobs[act].fixed.given)
        return true;
    struct schedule_job *jobs = malloc(task.job_count * sizeof *jobs);
    if (!jobs)
        return fault_no_memory(f);
    memcpy(jobs, task.jobs, task.job_count * sizeof *jobs);
    jobs[act].earliest =
        (struct schedule_day_given){ true, { planned->season_last.day + 1 } };
    task.jobs = jobs;
    struct act_help help = { .kind = HELP_NEXT_SEASON };
    bool fine = help_with(r, &task, act, help, placed, f);
    free(jobs);
    return fine;
}

bool risk_helps(struct risk *r, struct fault *f)
{
    size_t placed = 0, helped = 0, most = RISK_HELPED, acts = r->plan->act_count;
    if (acts > RISK_SMALL)
        most = 1 + (RISK_HELPED - 1) * RISK_SMALL / acts;
    bool fine = true;
    for (size_t i = 0; i < acts; i++)
        placed += schedule_of(r->schedule, i)->state == SCHEDULE_PLACED;
    for (size_t i = 0; fine && i < acts && helped < most; i++) {
        struct plan_act *act = &r->plan->acts[i];
        if (!risk_has_chance(r, i) || act->chance >= RISK_LOW)
            continue;
        helped++;
        act->help_sought = true;
        struct act_help sooner = { .kind = HELP_SOONER };
        fine = (r->task->jobs[i].fixed.given ||
                help_with(r, r->task, i, sooner, placed, f)) &&
               help_by_people(r, i, placed, f) && help_next_season(r, i, placed, f);
    }
    return fine;
}
