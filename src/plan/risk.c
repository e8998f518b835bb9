#include "plan/risk.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "plan/plan.h"
#include "quantity/draws.h"
#include "quantity/node.h"
#include "quantity/select.h"
#include "work/schedule.h"

/* Acts whose hours are drawn at once: it bounds the memory, nothing else. */
enum { AT_ONCE = 256 };

struct risk {
    struct plan *plan;
    const struct schedule_task *task;
    const struct schedule *schedule;
    double *likely, *high; /* hours by act */
    double *drawn;         /* `draws` rows of hours by act; NULL: they were not needed */
    double per_hour;       /* base units in an hour */
    struct draws *first_draws;
    size_t *kept;          /* by act: draws in which it kept its season */
    size_t *uncertain;     /* acts whose hours are */
    size_t uncertain_count, draws;
    size_t pick[RISK_DRAWS]; /* which of the draws they are, little work first */
};

/* ---- weeks of float ---- */

enum { NO_END = INT32_MAX };

/* Days that the act may be later, as far as those that wait for it are known. */
static int slack_of(const struct plan *plan, const int *slack, size_t after, size_t before)
{
    const struct plan_act *a = &plan->acts[after], *b = &plan->acts[before];
    int least = NO_END;
    if (a->state != ACT_PLACED)
        return NO_END;
    for (size_t i = 0; i < a->link_count; i++) {
        if (a->links[i].act != before || slack[after] == NO_END)
            continue;
        int gap = a->start.day - b->finish.day - a->links[i].least_days;
        int days = slack[after] + (gap > 0 ? gap : 0);
        least = days < least ? days : least;
    }
    if (a->along == before && slack[after] < least)
        least = slack[after];
    return least;
}

/* From its own season, then from what waits for it, until nothing gets less: in rounds,
 * since a plan's order is not that of its work. */
static bool find_float(struct risk *r, struct fault *f)
{
    struct plan *plan = r->plan;
    int *slack = malloc((plan->act_count + 1) * sizeof *slack);
    if (!slack)
        return fault_no_memory(f);
    for (size_t i = 0; i < plan->act_count; i++) {
        const struct schedule_result *of = schedule_of(r->schedule, i);
        bool ends = plan->acts[i].state == ACT_PLACED && of->season_ends;
        int days = of->season_last.day - of->finish.day;
        slack[i] = ends ? (days > 0 ? days : 0) : NO_END;
    }
    bool again = true;
    for (size_t round = 0; again && round < plan->act_count; round++) {
        again = false;
        for (size_t i = plan->act_count; i-- > 0;) {
            const struct plan_act *act = &plan->acts[i];
            for (size_t k = 0; k < act->link_count + 1; k++) {
                uint32_t before = k < act->link_count ? act->links[k].act : act->along;
                if (before == PLAN_NONE || plan->acts[before].state != ACT_PLACED)
                    continue;
                int less = slack_of(plan, slack, i, before);
                again = again || less < slack[before];
                slack[before] = less < slack[before] ? less : slack[before];
            }
        }
    }
    for (size_t i = 0; i < plan->act_count; i++)
        plan->acts[i].float_weeks = slack[i] == NO_END ? -1 : slack[i] / 7;
    free(slack);
    return true;
}

/* ---- hours ---- */

static bool is_drawn(const struct plan *plan, const struct plan_act *act)
{
    struct qty hours = plan_figure(&act->figures, "hours");
    return (act->state == ACT_PLACED || act->state == ACT_UNPLACED) && !act->nobody &&
           qty_is(hours) && graph_is_uncertain(plan->graph, hours);
}

/* A draw that cannot be worked out, or an endless one, counts at its likely value. */
static double sound(double hours, double likely)
{
    return isfinite(hours) && hours >= 0 ? hours : likely;
}

struct total {
    double hours;
    size_t draw;
};

static int by_hours(const void *a, const void *b)
{
    const struct total *x = a, *y = b;
    if (x->hours != y->hours)
        return x->hours < y->hours ? -1 : 1;
    return x->draw < y->draw ? -1 : x->draw > y->draw;
}

/* Which draws are taken: evenly from those of little work to those of much, so that a few
 * hundred are nearly as sure as all. */
static bool pick_draws(struct risk *r, const struct draws *d, size_t count, struct fault *f)
{
    struct total *totals = malloc(SPREAD_DRAWS * sizeof *totals);
    if (!totals)
        return fault_no_memory(f);
    for (size_t k = 0; k < SPREAD_DRAWS; k++) {
        totals[k] = (struct total){ 0, k };
        for (size_t i = 0; i < count; i++)
            totals[k].hours += sound(draws_row(d, i)[k], 0);
    }
    qsort(totals, SPREAD_DRAWS, sizeof *totals, by_hours);
    size_t step = SPREAD_DRAWS / r->draws;
    for (size_t k = 0; k < r->draws; k++)
        r->pick[k] = totals[k * step + step / 2].draw;
    free(totals);
    return true;
}

/* Draws of the hours of some acts, from the `first` of those uncertain on. */
static struct draws *draws_from(const struct risk *r, size_t first, size_t count,
                                struct fault *f)
{
    uint32_t nodes[AT_ONCE];
    const struct plan *plan = r->plan;
    for (size_t i = 0; i < count; i++) {
        const struct plan_act *act = &plan->acts[r->uncertain[first + i]];
        nodes[i] = graph_node_of(plan->graph, plan_figure(&act->figures, "hours"));
    }
    return draws_of(plan->graph, nodes, count, f);
}

/* Entries of one cut, a mowing of three years: acts of the same hours share their draws. */
static void take_high(struct risk *r, const struct draws *d, size_t first, size_t count)
{
    double high[AT_ONCE];
    bool known[AT_ONCE] = { false };
    for (size_t i = 0; i < count; i++) {
        size_t act = r->uncertain[first + i], row = draws_row_number(d, i);
        if (!known[row])
            high[row] = select_percentiles(draws_row(d, i), SPREAD_DRAWS).high;
        known[row] = true;
        r->high[act] = sound(high[row] / r->per_hour, r->likely[act]);
    }
}

static void take_drawn(struct risk *r, const struct draws *d, size_t first, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        size_t act = r->uncertain[first + i];
        const double *row = draws_row(d, i);
        for (size_t k = 0; k < r->draws; k++)
            r->drawn[k * r->plan->act_count + act] =
                sound(row[r->pick[k]] / r->per_hour, r->likely[act]);
    }
}

static size_t at_once(const struct risk *r, size_t first)
{
    size_t left = r->uncertain_count - first;
    return left < AT_ONCE ? left : AT_ONCE;
}

/* The high ends of all; keeps the first draws, which most often are all. */
static bool find_high(struct risk *r, struct fault *f)
{
    struct unit_id hour;
    if (!units_find(graph_units(r->plan->graph), "h", 1, &hour, f))
        return false;
    r->per_hour = unit_factor(graph_units(r->plan->graph), hour);
    for (size_t i = 0; i < r->uncertain_count; i += AT_ONCE) {
        struct draws *d = draws_from(r, i, at_once(r, i), f);
        if (!d)
            return false;
        take_high(r, d, i, at_once(r, i));
        if (i == 0)
            r->first_draws = d;
        else
            draws_free(d);
    }
    return true;
}

static bool draw_hours(struct risk *r, struct fault *f)
{
    size_t acts = r->plan->act_count;
    r->draws = acts <= 100 ? RISK_DRAWS : acts <= 400 ? RISK_DRAWS / 2 : RISK_TRIED;
    r->drawn = malloc(r->draws * acts * sizeof *r->drawn);
    if (!r->drawn)
        return fault_no_memory(f);
    for (size_t k = 0; k < r->draws; k++)
        memcpy(r->drawn + k * acts, r->likely, acts * sizeof *r->likely);
    if (!pick_draws(r, r->first_draws, at_once(r, 0), f))
        return false;
    take_drawn(r, r->first_draws, 0, at_once(r, 0));
    for (size_t i = AT_ONCE; i < r->uncertain_count; i += AT_ONCE) {
        struct draws *d = draws_from(r, i, at_once(r, i), f);
        if (!d)
            return false;
        take_drawn(r, d, i, at_once(r, i));
        draws_free(d);
    }
    return true;
}

/* ---- chances ---- */

/* Is the act finished in the season that it is planned for? */
static bool keeps(const struct risk *r, const struct schedule_again *again, size_t act)
{
    const struct schedule_result *planned = schedule_of(r->schedule, act);
    struct schedule_again_of now = schedule_again_of(again, act);
    return now.placed && (!now.carried_over || planned->carried_over) &&
           (!planned->season_ends || now.finish.day <= planned->season_last.day);
}

static bool has_chance(const struct plan_act *act)
{
    return act->state == ACT_PLACED;
}

static bool count_kept(struct risk *r, struct schedule_again *again, struct fault *f)
{
    for (size_t k = 0; k < r->draws; k++) {
        if (!schedule_again(again, r->drawn + k * r->plan->act_count, f))
            return false;
        for (size_t i = 0; i < r->plan->act_count; i++)
            r->kept[i] += has_chance(&r->plan->acts[i]) && keeps(r, again, i);
    }
    for (size_t i = 0; i < r->plan->act_count; i++)
        if (has_chance(&r->plan->acts[i]))
            r->plan->acts[i].chance = (double)r->kept[i] / (double)r->draws;
    return true;
}

static bool find_chances(struct risk *r, struct fault *f)
{
    struct schedule_again *again = schedule_again_new(r->task, r->schedule, f);
    bool fine = again && schedule_again(again, r->high, f), all = true;
    for (size_t i = 0; fine && i < r->plan->act_count; i++) {
        struct plan_act *act = &r->plan->acts[i];
        if (!has_chance(act))
            continue;
        act->chance = r->uncertain_count > 0 ? RISK_SURE : 1;
        act->chance_or_more = r->uncertain_count > 0;
        all = all && keeps(r, again, i);
    }
    if (fine && !all && r->uncertain_count > 0) {
        for (size_t i = 0; i < r->plan->act_count; i++)
            r->plan->acts[i].chance_or_more = false;
        fine = draw_hours(r, f) && count_kept(r, again, f);
    }
    schedule_again_free(again);
    return fine;
}

/* ---- what would help ---- */

/* What another way of doing it comes to. */
struct attempt {
    double chance;     /* of the act it is tried for */
    struct date start; /* its own, with likely hours */
    bool helps;
};

/* Can so many of the draws still be kept, enough to help? */
static bool is_hopeful(size_t kept, size_t tried)
{
    return (double)(kept + RISK_TRIED - tried) >= RISK_LOW * RISK_TRIED;
}

/* `next`: its season is the one it comes into, not the one it was planned for. */
static bool attempt(struct risk *r, struct schedule_again *again, size_t act, bool next,
                    size_t placed, struct attempt *out, struct fault *f)
{
    size_t kept = 0, now_placed = 0;
    *out = (struct attempt){ .helps = false };
    if (!schedule_again(again, r->likely, f))
        return false;
    for (size_t i = 0; i < r->plan->act_count; i++)
        now_placed += schedule_again_of(again, i).placed;
    struct schedule_again_of planned = schedule_again_of(again, act);
    struct date last = schedule_again_season(again, act);
    out->start = planned.start;
    out->helps = planned.placed && !planned.carried_over && now_placed >= placed;
    size_t step = r->draws / RISK_TRIED;
    for (size_t k = 0; k < RISK_TRIED && out->helps; k++) {
        const double *hours = r->drawn + (k * step + step / 2) * r->plan->act_count;
        if (!schedule_again(again, hours, f))
            return false;
        struct schedule_again_of now = schedule_again_of(again, act);
        kept += next ? now.placed && !now.carried_over && now.finish.day <= last.day
                     : keeps(r, again, act);
        out->helps = is_hopeful(kept, k + 1);
    }
    out->chance = (double)kept / RISK_TRIED;
    return true;
}

static bool help_with(struct risk *r, const struct schedule_task *task, size_t act,
                      enum act_help_kind kind, size_t placed, struct fault *f)
{
    struct plan_act *of = &r->plan->acts[act];
    struct attempt a = { .helps = false };
    of->helps_tried[kind] = true;
    struct schedule_again *again = schedule_again_new(task, r->schedule, f);
    if (again && kind == HELP_SOONER)
        schedule_again_prefer(again, act);
    bool fine = again && attempt(r, again, act, kind == HELP_NEXT_SEASON, placed, &a, f);
    schedule_again_free(again);
    if (fine && a.helps)
        of->helps[of->help_count++] = (struct act_help){ kind, a.chance, a.start };
    return fine;
}

static bool help_by_person(struct risk *r, size_t act, size_t placed, struct fault *f)
{
    struct schedule_task task = *r->task;
    uint32_t crew = r->plan->acts[act].crew;
    if (crew == PLAN_NONE)
        return true;
    struct schedule_crew *crews = malloc(task.crew_count * sizeof *crews);
    if (!crews)
        return fault_no_memory(f);
    memcpy(crews, task.crews, task.crew_count * sizeof *crews);
    crews[crew].people++;
    task.crews = crews;
    bool fine = help_with(r, &task, act, HELP_PERSON, placed, f);
    free(crews);
    return fine;
}

static bool help_next_season(struct risk *r, size_t act, size_t placed, struct fault *f)
{
    struct schedule_task task = *r->task;
    const struct schedule_result *planned = schedule_of(r->schedule, act);
    if (!planned->season_ends || task.jobs[act].latest.given || task.jobs[act].fixed.given)
        return true;
    struct schedule_job *jobs = malloc(task.job_count * sizeof *jobs);
    if (!jobs)
        return fault_no_memory(f);
    memcpy(jobs, task.jobs, task.job_count * sizeof *jobs);
    jobs[act].earliest =
        (struct schedule_day_given){ true, { planned->season_last.day + 1 } };
    task.jobs = jobs;
    bool fine = help_with(r, &task, act, HELP_NEXT_SEASON, placed, f);
    free(jobs);
    return fine;
}

static bool find_helps(struct risk *r, struct fault *f)
{
    size_t placed = 0, helped = 0;
    bool fine = true;
    for (size_t i = 0; i < r->plan->act_count; i++)
        placed += schedule_of(r->schedule, i)->state == SCHEDULE_PLACED;
    for (size_t i = 0; fine && i < r->plan->act_count && helped < RISK_HELPED; i++) {
        struct plan_act *act = &r->plan->acts[i];
        if (!has_chance(act) || act->chance >= RISK_LOW)
            continue;
        helped++;
        fine = (r->task->jobs[i].fixed.given ||
                help_with(r, r->task, i, HELP_SOONER, placed, f)) &&
               help_by_person(r, i, placed, f) && help_next_season(r, i, placed, f);
    }
    return fine;
}

/* ---- the whole ---- */

bool plan_risk(struct plan *plan, const struct schedule_task *task,
               const struct schedule *schedule, struct fault *f)
{
    struct risk r = { .plan = plan, .task = task, .schedule = schedule };
    size_t room = plan->act_count + 1;
    r.likely = calloc(room, sizeof *r.likely);
    r.high = calloc(room, sizeof *r.high);
    r.kept = calloc(room, sizeof *r.kept);
    r.uncertain = calloc(room, sizeof *r.uncertain);
    bool fine = (r.likely && r.high && r.kept && r.uncertain) || fault_no_memory(f);
    for (size_t i = 0; fine && i < plan->act_count; i++) {
        r.likely[i] = r.high[i] = task->jobs[i].hours;
        if (is_drawn(plan, &plan->acts[i]))
            r.uncertain[r.uncertain_count++] = i;
    }
    fine = fine && find_float(&r, f) &&
           (r.uncertain_count == 0 || find_high(&r, f)) && find_chances(&r, f) &&
           (!r.drawn || find_helps(&r, f));
    draws_free(r.first_draws);
    free(r.likely);
    free(r.high);
    free(r.kept);
    free(r.uncertain);
    free(r.drawn);
    return fine;
}
