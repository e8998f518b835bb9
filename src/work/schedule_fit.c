#include "work/schedule_parts.h"

/* Nobody goes out for less than this many person-hours, unless it is all that is left to
 * do, or all that the day or half of the week holds. Common practice, no source. */
#define LEAST_HOURS 1.0
#define NO_TIME FIT_NO_TIME

static double lesser(double a, double b)
{
    return a < b ? a : b;
}

static void trial_restart(struct trial *out)
{
    out->count = 0;
}

static void trial_put(struct trial *out, int day, double hours)
{
    out->work[out->count++] = (struct work_day){ day, hours };
}

static int last_day(const struct trial *t)
{
    return t->work[t->count - 1].day;
}

/* Is it a pause until then? Days that the ground was not fit are none. */
static bool is_pause(const struct wish *w, const struct dayset *open,
                     const struct trial *out, int day, int longest,
                     const struct luck *luck)
{
    int last = last_day(out), gap = day - last - 1;
    if (gap <= longest)
        return false;
    if (w->whole)
        gap -= dayset_count(w->whole, last + 1, day - 1) -
               dayset_count(open, last + 1, day - 1);
    return gap - luck->lost > longest;
}

bool group_takes_days(const struct group *g)
{
    return g->by_days && !g->nobody && g->hours <= 0;
}

/* `days` days that are open and on which the crew, if it takes one, is there and free,
 * none further than `pause` from the last. */
static bool fit_days(const struct wish *w, const struct dayset *open,
                     const struct crew_state *c, int pause, struct trial *out)
{
    const struct group *g = w->group;
    const struct dayset *there = c ? &c->open : open;
    bool whole = c && group_takes_days(g);
    int longest = g->one_week ? 0 : pause;
    struct luck luck = { .week = -1, .none = 1 };
    trial_restart(out);
    for (int d = dayset_next_both(open, there, w->from);
         d < open->days && d <= w->latest_finish;
         d = dayset_next_both(open, there, d + 1)) {
        if (out->count > 0 && is_pause(w, open, out, d, longest, &luck)) {
            trial_restart(out);
            luck.none = 1;
        }
        if (out->count == 0 && d > w->latest_start)
            return false;
        if (whole && c->day_used[d] > NO_TIME)
            continue;
        if (w->harsh && !luck_holds(w, d, &luck))
            continue;
        trial_put(out, d, 0);
        if (out->count == (size_t)g->days)
            return true;
    }
    return false;
}

/* The first week from `week` on that is not full; shortens the way to it. */
static int free_week(const struct crew_state *c, int week)
{
    int to = week;
    while (c->next_free[to] != to)
        to = c->next_free[to];
    while (c->next_free[week] != week) {
        int next = c->next_free[week];
        c->next_free[week] = to;
        week = next;
    }
    return to;
}

/* The hours of a group on the days open to it and to the crew, from the first on. */
static bool fit_hours(const struct wish *w, const struct dayset *open,
                      const struct crew_state *c, int pause, struct trial *out)
{
    const struct group *g = w->group;
    double left = g->hours, taken = 0, free = 0; /* taken: by this trial, in `week` */
    double half_week = c->whole_week / 2;
    int week = -1;
    int end = w->latest_finish < open->days ? w->latest_finish + 1 : open->days;
    struct luck luck = { .week = -1, .none = 1 };
    trial_restart(out);
    for (int d = dayset_next_both(open, &c->open, w->from); d < end;
         d = dayset_next_both(open, &c->open, d + 1)) {
        bool other_week = d >= (week + 1) * 7;
        if (other_week) {
            week = d / 7;
            taken = 0;
            free = c->week_most[week] - c->week_used[week];
        }
        if (out->count > 0 &&
            ((g->one_week && other_week) || is_pause(w, open, out, d, pause, &luck))) {
            trial_restart(out);
            luck.none = 1;
            left = g->hours;
            taken = 0;
        }
        if (out->count == 0 && d > w->latest_start)
            return false;
        double holds = lesser(half_week, c->day_most[d]);
        double least = lesser(left, lesser(LEAST_HOURS, holds));
        double in_week = free - taken;
        if (in_week < least - NO_TIME || in_week < NO_TIME) {
            int next = c->stale || taken > 0 ? week : free_week(c, week);
            d = (next > week ? next : week + 1) * 7 - 1;
            continue;
        }
        double hours = lesser(left, lesser(in_week, c->day_most[d] - c->day_used[d]));
        if (hours < least - NO_TIME || hours < NO_TIME)
            continue;
        if (w->harsh && !luck_holds(w, d, &luck))
            continue;
        trial_put(out, d, hours);
        left -= hours;
        taken += hours;
        if (left < NO_TIME)
            return true;
    }
    return false;
}

static bool fit_crew(struct solver *s, const struct wish *w, const struct dayset *open,
                     size_t crew, int pause, struct trial *out)
{
    bool fits;
    if (crew == SCHEDULE_NONE) {
        fits = fit_days(w, open, NULL, pause, out);
    } else {
        const struct crew_state *c = &s->crews[crew];
        fits = w->group->hours > 0 ? fit_hours(w, open, c, pause, out)
                                   : fit_days(w, open, c, pause, out);
    }
    if (!fits)
        return false;
    out->crew = crew;
    out->start = out->work[0].day;
    out->finish = last_day(out);
    return true;
}

static void trial_keep(struct solver *s, struct trial *out)
{
    struct trial kept = s->trial;
    s->trial = *out;
    *out = kept;
}

bool fit_group(struct solver *s, const struct wish *w, const struct dayset *open,
               struct trial *out)
{
    for (int round = 0; round < 2; round++) {
        int pause = round == 0 ? SCHEDULE_PAUSE : s->days;
        bool found = false;
        struct wish wish = *w;
        for (size_t i = 0; i < (w->group->nobody ? 1 : s->able_count); i++) {
            size_t crew = w->group->nobody ? SCHEDULE_NONE : s->able[i];
            if (!fit_crew(s, &wish, open, crew, pause, &s->trial))
                continue;
            trial_keep(s, out);
            out->carried_over = round == 1;
            found = true;
            /* A later crew of the list has to be a week earlier to be taken. */
            wish.latest_start = out->start - out->start % 7 - 1;
        }
        if (found)
            return true;
    }
    return false;
}

bool fit_soonest(struct solver *s, const struct wish *w, const struct dayset *open,
                 const size_t *crews, size_t crew_count, int pause, int *start,
                 int *finish)
{
    bool found = false;
    for (size_t i = 0; i < (w->group->nobody ? 1 : crew_count); i++) {
        size_t crew = w->group->nobody ? SCHEDULE_NONE : crews[i];
        if (!fit_crew(s, w, open, crew, pause, &s->trial))
            continue;
        if (!found || s->trial.start < *start)
            *start = s->trial.start;
        if (!found || s->trial.finish < *finish)
            *finish = s->trial.finish;
        found = true;
    }
    return found;
}

/* A group whose start the plan states. It gets that date; what stands against it is told
 * afterwards. The work falls on open days when the date itself is one, else on any. */
void fit_fixed(struct solver *s, struct group *g, struct trial *out)
{
    trial_restart(out);
    out->crew = SCHEDULE_NONE;
    out->carried_over = false;
    out->start = out->finish = g->fixed_day;
    if (g->fixed_day < s->begin || g->fixed_day >= s->days)
        return;
    if (dayset_has(group_open(s, g), g->fixed_day)) {
        dayset_copy(&s->keep, group_open(s, g));
    } else {
        dayset_empty(&s->keep);
        dayset_add(&s->keep, solver_date(s, s->begin), solver_date(s, s->days - 1));
    }
    struct wish w = { .group = g,
                      .from = g->fixed_day,
                      .latest_start = g->fixed_day,
                      .latest_finish = s->days };
    if (!fit_group(s, &w, &s->keep, out)) {
        w.latest_start = s->days; /* the crew is not free on the day itself */
        if (!fit_group(s, &w, &s->keep, out)) {
            out->count = 0;
            out->crew = SCHEDULE_NONE;
            return;
        }
    }
    out->start = g->fixed_day;
}
