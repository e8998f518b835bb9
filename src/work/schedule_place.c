#include "work/schedule_push.h"

static bool is_member(const struct solver *s, const struct group *g, size_t job)
{
    return &s->groups[s->group_of[job]] == g;
}

static bool is_listed(const struct schedule_job *j, size_t crew)
{
    for (size_t i = 0; i < j->crew_count; i++)
        if (j->crews[i] == crew)
            return true;
    return false;
}

static bool can_do(const struct solver *s, const struct group *g, size_t crew)
{
    for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job]) {
        const struct schedule_job *j = &s->task->jobs[job];
        if (j->who == SCHEDULE_LISTED && !is_listed(j, crew))
            return false;
        struct schedule_after after;
        for (size_t i = 0; job_after(s->task, job, i, &after); i++) {
            const struct schedule_result *r = &s->told[after.job].r;
            if (after.same_crew && !is_member(s, g, after.job) &&
                r->state == SCHEDULE_PLACED && r->crew != SCHEDULE_NONE &&
                r->crew != crew)
                return false;
        }
    }
    return true;
}

/* The crews that can do all of a group, in the order of preference of its first job that
 * has one. */
void crews_able(struct solver *s, const struct group *g)
{
    const struct schedule_job *chooser = NULL;
    for (size_t job = g->first; job != SCHEDULE_NONE && !chooser; job = s->next[job])
        if (s->task->jobs[job].who == SCHEDULE_LISTED)
            chooser = &s->task->jobs[job];
    s->able_count = 0;
    size_t count = chooser ? chooser->crew_count : s->task->crew_count;
    for (size_t i = 0; i < count; i++) {
        size_t crew = chooser ? chooser->crews[i] : i;
        bool listed = false; /* a crew listed twice is one crew */
        for (size_t k = 0; k < s->able_count; k++)
            listed |= s->able[k] == crew;
        bool wanted = g->wanted == SCHEDULE_NONE || g->wanted == crew || g->any_crew;
        if (!listed && wanted && can_do(s, g, crew))
            s->able[s->able_count++] = crew;
    }
}

/* Is there something before the group that settles it without looking at any day? */
static enum outcome settle_early(struct solver *s, const struct group *g)
{
    size_t blocked = SCHEDULE_NONE, ring = SCHEDULE_NONE;
    for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job]) {
        bool stands_in = s->first_for[job] != SCHEDULE_NONE, needed = false;
        for (size_t i = s->first_for[job]; i != SCHEDULE_NONE; i = s->next_first[i])
            needed |= s->told[i].r.state == SCHEDULE_UNPLACED;
        if (stands_in && !needed)
            return reason_other(s, g, s->first_for[job], OTHER_STOOD_IN_FOR) ? SETTLED
                                                                             : FAILED;
        size_t along = job_along(s->task, job);
        if (along != SCHEDULE_NONE && !is_member(s, g, along))
            ring = along; /* the jobs done along with one another go round */
        struct schedule_after after;
        for (size_t i = 0; job_after(s->task, job, i, &after); i++) {
            if (is_member(s, g, after.job))
                continue;
            enum schedule_state state = s->told[after.job].r.state;
            if (state == SCHEDULE_NOT_NEEDED)
                return reason_other(s, g, after.job, OTHER_NOT_NEEDED) ? SETTLED : FAILED;
            if (state == SCHEDULE_UNPLACED && blocked == SCHEDULE_NONE)
                blocked = after.job;
        }
    }
    if (blocked != SCHEDULE_NONE && g->fixed)
        blocked = SCHEDULE_NONE; /* placed as asked; told as a conflict */
    if (ring != SCHEDULE_NONE)
        blocked = ring;
    if (blocked != SCHEDULE_NONE)
        return reason_other(s, g, blocked, OTHER_UNPLACED) ? SETTLED : FAILED;
    return OPEN;
}

struct wish wish_of(const struct solver *s, const struct group *g)
{
    struct wish w = { .group = g,
                      .from = s->begin,
                      .latest_start = s->days,
                      .latest_finish = s->days,
                      .lag_job = SCHEDULE_NONE,
                      .whole = s->wholes ? &s->wholes[g - s->groups] : NULL,
                      .harsh = s->harsh ? s : NULL };
    raise_to(&w.from, g->bound);
    for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job]) {
        const struct schedule_job *j = &s->task->jobs[job];
        if (j->earliest.given)
            raise_to(&w.from, solver_day(s, j->earliest.date));
        if (j->latest.given && solver_day(s, j->latest.date) < w.latest_finish)
            w.latest_finish = solver_day(s, j->latest.date);
        for (size_t i = 0; i < j->notice_count; i++)
            raise_to(&w.from, notice_first(s, &j->notices[i]));
        struct schedule_after after;
        for (size_t i = 0; job_after(s->task, job, i, &after); i++) {
            if (is_member(s, g, after.job))
                continue;
            int finish = solver_day(s, s->told[after.job].r.finish);
            raise_to(&w.from, finish + after.least);
            if (after.most >= 0 && finish + after.most < w.latest_start) {
                w.latest_start = finish + after.most;
                w.lag_job = job;
                w.lag_after = after.job;
                w.lag_most = after.most;
            }
        }
    }
    return w;
}

static bool fit_on_date(struct solver *s, struct group *g, bool any_crew)
{
    g->any_crew = any_crew;
    if (!g->nobody)
        crews_able(s, g);
    fit_fixed(s, g, &s->best);
    return s->best.count > 0 && s->best.work[0].day == g->fixed_day;
}

/* On the date that the plan states, by whatever crew; if none is there then, by the one
 * that is wanted, as soon as it is. */
static void place_fixed(struct solver *s, struct group *g)
{
    if (fit_on_date(s, g, false) || s->crews_kept || g->wanted == SCHEDULE_NONE)
        return;
    if (fit_on_date(s, g, true))
        return;
    fit_on_date(s, g, false);
    if (s->best.count == 0)
        fit_on_date(s, g, true);
}

/* With the crews at hand. */
static enum outcome find_place(struct solver *s, struct group *g, struct allowance *may,
                               size_t *back)
{
    if (s->able_count == 0 && !g->nobody)
        return reason_no_crew(s, g) ? UNFIT : FAILED;
    struct wish w = wish_of(s, g);
    const struct dayset *open = group_open(s, g);
    if (fit_group(s, &w, open, &s->best))
        return group_put(s, g, &s->best) ? SETTLED : FAILED;
    if (w.lag_job != SCHEDULE_NONE) {
        struct wish free_of_lag = w;
        free_of_lag.latest_start = s->days;
        if (fit_group(s, &free_of_lag, open, &s->best))
            return push_before(s, g, &w, s->best.start, may, back);
    }
    dayset_copy(&s->keep, open);
    return reason_unfit(s, &w) ? UNFIT : FAILED;
}

static enum outcome place_group(struct solver *s, struct group *g, struct allowance *may,
                                size_t *back)
{
    enum outcome early = settle_early(s, g);
    if (early != OPEN)
        return early;
    if (g->fixed) {
        place_fixed(s, g);
        return group_put(s, g, &s->best) ? SETTLED : FAILED;
    }
    g->any_crew = false;
    if (!g->nobody)
        crews_able(s, g);
    enum outcome outcome = find_place(s, g, may, back);
    if (outcome != UNFIT || s->crews_kept || g->wanted == SCHEDULE_NONE)
        return outcome;
    /* Before it is left out, any crew that can do it may have it. */
    group_undo(s, g);
    g->any_crew = true;
    crews_able(s, g);
    return find_place(s, g, may, back);
}

static void place_done(struct solver *s, size_t job)
{
    const struct schedule_job *j = &s->task->jobs[job];
    struct schedule_result *r = &s->told[job].r;
    r->state = SCHEDULE_PLACED;
    r->crew = SCHEDULE_NONE;
    r->start = j->was.from;
    r->finish = j->was.to;
}

/* Fixed dates that hang on nothing else take their hours before all others do. */
static bool place_first(struct solver *s)
{
    for (size_t g = 0; g < s->group_count; g++) {
        struct group *group = &s->groups[g];
        bool early = group->fixed;
        for (size_t job = group->first; job != SCHEDULE_NONE; job = s->next[job]) {
            const struct schedule_job *j = &s->task->jobs[job];
            size_t along = job_along(s->task, job);
            early = early && !j->done &&
                    (along == SCHEDULE_NONE || is_member(s, group, along)) &&
                    s->first_for[job] == SCHEDULE_NONE &&
                    s->told[job].r.why != SCHEDULE_CYCLE;
            for (size_t i = 0; i < j->after_count; i++)
                early = early && !j->after[i].same_crew;
        }
        group->early = early;
        if (!early)
            continue;
        place_fixed(s, group);
        if (!group_put(s, group, &s->best))
            return false;
    }
    return true;
}

bool solver_place(struct solver *s, struct fault *f)
{
    s->f = f;
    s->pushed = false;
    solver_take_up(s);
    for (size_t job = 0; job < s->task->job_count; job++)
        s->told[job].r.crew = SCHEDULE_NONE;
    if (!place_first(s))
        return false;
    struct allowance may = allowance_of(s);
    for (size_t k = 0; k < s->group_count;) {
        struct group *g = &s->groups[s->order[k]];
        if (g->early || s->told[g->first].r.why == SCHEDULE_CYCLE) {
            k++;
            continue;
        }
        if (s->task->jobs[g->first].done) {
            place_done(s, g->first);
            k++;
            continue;
        }
        size_t back = k;
        enum outcome outcome = place_group(s, g, &may, &back);
        if (outcome == FAILED)
            return false;
        bool unplaced = s->told[g->first].r.state != SCHEDULE_PLACED;
        if (outcome == PUSH || (unplaced && push_was_in_vain(s, g, &back))) {
            s->pushed = true;
            group_undo(s, g);
            while (k > back)
                group_undo(s, &s->groups[s->order[--k]]);
        } else {
            k++;
        }
    }
    return true;
}
