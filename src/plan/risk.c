#include "plan/risk_parts.h"

#include <assert.h>
#include <stdlib.h>

#include "base/fault.h"

bool risk_has_chance(const struct risk *r, size_t act)
{
    return r->plan->acts[act].state == ACT_PLACED &&
           !schedule_of(r->schedule, act)->out_of_season;
}

bool risk_keeps(const struct risk *r, const struct schedule_again *again, size_t act)
{
    const struct schedule_result *planned = schedule_of(r->schedule, act);
    struct schedule_again_of now = schedule_again_of(again, act);
    return now.placed && !now.unfit && (!now.carried_over || planned->carried_over) &&
           (!planned->season_ends || now.finish.day <= planned->season_last.day);
}

double risk_share(struct risk_count count)
{
    return count.needed == 0 ? 1 : (double)count.kept / (double)count.needed;
}

bool risk_again(const struct risk *r, struct schedule_again *again, size_t draw,
                struct fault *f)
{
    /* Those that help is tried with share out the chances of the ground among them too. */
    static_assert((int)SCHEDULE_GROUND_EVEN == (int)RISK_TRIED, "as many as are tried");
    size_t step = r->draws / RISK_TRIED;
    if (r->ground)
        schedule_again_ground(again, SCHEDULE_GROUND_DRAWN,
                              draw % step * RISK_TRIED + draw / step);
    return schedule_again(again, risk_row(r, draw), f);
}

bool risk_is_tried(const struct risk *r, size_t draw)
{
    size_t step = r->draws / RISK_TRIED;
    return draw % step == step / 2;
}

/* Its season may end, or its date be stated: then weeks without its ground may cost it. */
static bool waits_for_ground(const struct risk *r, size_t act)
{
    const struct schedule_job *job = &r->task->jobs[act];
    if (!job->has_condition || !risk_has_chance(r, act))
        return false;
    bool sure = true;
    for (int m = 0; m < 12; m++) {
        double chance = r->task->conditions[job->condition].chance[m];
        sure = sure && (chance <= 0 || chance >= 1);
    }
    return !sure;
}

/* The schedule as it is, made by what makes the others: its float. */
static bool find_float(struct risk *r, struct fault *f)
{
    size_t acts = r->plan->act_count;
    int *weeks = malloc((acts + 1) * sizeof *weeks);
    bool fine = weeks || fault_no_memory(f);
    fine = fine && schedule_again(r->again, r->likely, f) &&
           schedule_again_float(r->again, weeks, f);
    for (size_t i = 0; fine && i < acts; i++)
        r->plan->acts[i].float_weeks = weeks[i];
    free(weeks);
    return fine;
}

/* With all hours at their high ends, on harsh ground: do all keep their seasons? */
static bool all_keep(struct risk *r, bool *all, struct fault *f)
{
    if (r->ground)
        schedule_again_ground(r->again, SCHEDULE_GROUND_HARSH, 0);
    if (!schedule_again(r->again, r->high, f))
        return false;
    *all = true;
    for (size_t i = 0; i < r->plan->act_count; i++)
        *all = *all && (!risk_has_chance(r, i) || risk_keeps(r, r->again, i));
    return true;
}

bool risk_settle(const struct risk *r, struct schedule_again *again, struct fault *f)
{
    schedule_again_ground(again, SCHEDULE_GROUND_PLANNED, 0);
    return schedule_again(again, r->likely, f) && schedule_again_settle(again, f);
}

static bool count_kept(struct risk *r, struct fault *f)
{
    if (!risk_settle(r, r->again, f))
        return false;
    for (size_t k = 0; k < r->draws; k++) {
        if (!risk_again(r, r->again, k, f))
            return false;
        for (size_t i = 0; i < r->plan->act_count; i++) {
            bool needed =
                risk_has_chance(r, i) && !schedule_again_of(r->again, i).not_needed;
            bool keeps = needed && risk_keeps(r, r->again, i),
                 tried = risk_is_tried(r, k);
            r->counts[i].needed += needed;
            r->counts[i].kept += keeps;
            r->tried[i].needed += needed && tried;
            r->tried[i].kept += keeps && tried;
        }
    }
    return true;
}

static bool find_chances(struct risk *r, struct fault *f)
{
    bool all = true, doubt = r->uncertain_count > 0 || r->ground;
    if (doubt && !all_keep(r, &all, f))
        return false;
    bool drawn = !all;
    if (drawn && !(risk_draw(r, f) && count_kept(r, f)))
        return false;
    for (size_t i = 0; i < r->plan->act_count; i++) {
        struct plan_act *act = &r->plan->acts[i];
        if (!risk_has_chance(r, i))
            continue;
        act->chance = drawn ? risk_share(r->counts[i]) : doubt ? RISK_SURE : 1;
        act->chance_or_more = doubt && !drawn;
    }
    return true;
}

static bool find_risk(struct risk *r, struct fault *f)
{
    r->again = schedule_again_new(r->task, r->schedule, f);
    for (size_t i = 0; i < r->plan->act_count; i++)
        r->ground = r->ground || waits_for_ground(r, i);
    return r->again && find_float(r, f) && risk_high(r, f) && find_chances(r, f) &&
           (!r->drawn || risk_helps(r, f));
}

bool plan_risk(struct plan *plan, const struct schedule_task *task,
               const struct schedule *schedule, struct fault *f)
{
    struct risk r = { .plan = plan, .task = task, .schedule = schedule };
    size_t room = plan->act_count + 1;
    r.likely = calloc(room, sizeof *r.likely);
    r.high = calloc(room, sizeof *r.high);
    r.counts = calloc(room, sizeof *r.counts);
    r.tried = calloc(room, sizeof *r.tried);
    r.uncertain = calloc(room, sizeof *r.uncertain);
    bool fine =
        (r.likely && r.high && r.counts && r.tried && r.uncertain) || fault_no_memory(f);
    for (size_t i = 0; fine && i < plan->act_count; i++)
        r.likely[i] = r.high[i] = task->jobs[i].hours;
    fine = fine && find_risk(&r, f);
    schedule_again_free(r.again);
    free(r.likely);
    free(r.high);
    free(r.counts);
    free(r.tried);
    free(r.uncertain);
    free(r.drawn);
    return fine;
}
