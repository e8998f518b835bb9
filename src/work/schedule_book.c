/* Puts groups down on their days, in the hours of their crews, and takes them up again. */
#include "work/schedule_parts.h"

#include <stdlib.h>
#include <string.h>

#include "base/fault.h"

void hours_book(struct solver *s, const struct group *g, double sign)
{
    if (g->crew == SCHEDULE_NONE)
        return;
    struct crew_state *c = &s->crews[g->crew];
    bool whole = group_takes_days(g);
    for (size_t i = 0; i < g->work_count; i++) {
        c->day_used[g->work[i].day] += sign * (whole ? FIT_WHOLE_DAY : g->work[i].hours);
        int week = g->work[i].day / 7;
        c->week_used[week] += sign * g->work[i].hours;
        if (c->week_most[week] - c->week_used[week] < FIT_NO_TIME)
            c->next_free[week] = week + 1;
    }
    c->stale |= sign < 0;
}

bool work_copy(struct group *g, const struct trial *t, struct fault *f)
{
    if (t->count > g->work_room) {
        struct work_day *more = realloc(g->work, t->count * sizeof *more);
        if (!more)
            return fault_no_memory(f);
        g->work = more;
        g->work_room = t->count;
    }
    if (t->count > 0)
        memcpy(g->work, t->work, t->count * sizeof *g->work);
    g->work_count = t->count;
    return true;
}

void group_date(struct solver *s, struct group *g, int start, int finish)
{
    struct date first = solver_date(s, start), last = solver_date(s, finish);
    g->start = start;
    g->finish = finish;
    for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job]) {
        s->told[job].r.start = first;
        s->told[job].r.finish = last;
    }
}

bool group_put(struct solver *s, struct group *g, const struct trial *t)
{
    if (!work_copy(g, t, s->f))
        return false;
    g->placed = true;
    g->carried_over = t->carried_over;
    g->crew = t->crew;
    group_date(s, g, t->start, t->finish);
    hours_book(s, g, 1);
    for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job]) {
        struct schedule_result *r = &s->told[job].r;
        r->state = SCHEDULE_PLACED;
        r->why = SCHEDULE_FITS;
        r->crew = t->crew;
        r->carried_over = t->carried_over;
    }
    return true;
}

void group_undo(struct solver *s, struct group *g)
{
    if (g->early || s->told[g->first].r.why == SCHEDULE_CYCLE ||
        s->task->jobs[g->first].done)
        return;
    if (g->placed) {
        hours_book(s, g, -1);
        s->residue = true;
    }
    g->work_count = 0;
    g->placed = false;
    g->crew = SCHEDULE_NONE;
    for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job]) {
        job_told_clear(&s->told[job]);
        s->told[job].r.crew = SCHEDULE_NONE;
    }
}

void solver_take_up(struct solver *s)
{
    for (size_t k = 0; k < s->group_count; k++) {
        struct group *g = &s->groups[k];
        if (s->told[g->first].r.why == SCHEDULE_CYCLE)
            continue;
        struct crew_state *c =
            g->placed && g->crew != SCHEDULE_NONE ? &s->crews[g->crew] : NULL;
        for (size_t i = 0; c && i < g->work_count; i++) {
            int week = g->work[i].day / 7;
            c->day_used[g->work[i].day] = c->week_used[week] = 0;
            c->next_free[week] = week;
        }
        g->placed = g->early = g->gave_up = g->any_crew = false;
        g->work_count = 0;
        g->spent = 0;
        g->bound = 0;
        g->pusher = g->crew = SCHEDULE_NONE;
        for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job])
            job_told_clear(&s->told[job]);
    }
    for (size_t i = 0; s->residue && i < s->task->crew_count; i++) {
        struct crew_state *c = &s->crews[i];
        memset(c->day_used, 0, (size_t)s->days * sizeof *c->day_used);
        memset(c->week_used, 0, ((size_t)s->days / 7 + 1) * sizeof *c->week_used);
        for (int week = 0; week * 7 < s->days; week++)
            c->next_free[week] = week;
        c->stale = false;
    }
    s->residue = false;
}
