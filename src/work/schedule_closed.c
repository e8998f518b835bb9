/* What closes a day to a job: its window, a limit, ground that is never fit in that month.
 * Notices are told elsewhere: by when they were filed. */
#include "work/schedule_parts.h"

#include <stdlib.h>

#include "base/buf.h"
#include "base/fault.h"

static bool is_opening(const struct schedule_job *j, struct date d)
{
    for (size_t i = 0; i < j->opening_count; i++)
        if (j->openings[i].from.day <= d.day && d.day <= j->openings[i].to.day)
            return true;
    return false;
}

/* Its limits in their order, then its window, then its ground. */
size_t closers_of(const struct schedule_job *j)
{
    return j->limit_count + 2;
}

bool closer_closes(const struct solver *s, const struct schedule_job *j, size_t closer,
                   struct date d)
{
    if (closer < j->limit_count) {
        const struct schedule_limit *l = &j->limits[closer];
        return l->dated ? l->from.day <= d.day && d.day <= l->to.day
                        : yearly_has(l->closed, d);
    }
    if (closer == j->limit_count)
        return !yearly_has(j->open, d) && !is_opening(j, d);
    return j->has_condition &&
           !(s->task->conditions[j->condition].chance[date_civil(d).month - 1] > 0);
}

void closer_words(const struct solver *s, const struct schedule_job *j, size_t closer,
                  struct date d, struct buf *out)
{
    if (closer < j->limit_count) {
        buf_puts(out, j->limits[closer].words);
    } else if (closer == j->limit_count) {
        buf_puts(out, "outside ");
        window_words(j, out);
    } else {
        buf_printf(out, "%s: no usable week in %s",
                   s->task->conditions[j->condition].words,
                   month_name(date_civil(d).month));
    }
}

/* Some of what closes the days of a group, taken together. */
struct closing {
    const struct solver *s;
    const struct group *group;
    bool *told; /* by closer, those of one job after those of another */
    struct buf *out;
    bool several;
};

static bool is_told_for(const struct closing *c, struct date d)
{
    size_t at = 0;
    bool told = false;
    for (size_t job = c->group->first; job != SCHEDULE_NONE; job = c->s->next[job]) {
        const struct schedule_job *j = &c->s->task->jobs[job];
        for (size_t k = 0; k < closers_of(j); k++, at++)
            told = told || (c->told[at] && closer_closes(c->s, j, k, d));
    }
    return told;
}

static void tell_closers(struct closing *c, struct date d)
{
    size_t at = 0;
    for (size_t job = c->group->first; job != SCHEDULE_NONE; job = c->s->next[job]) {
        const struct schedule_job *j = &c->s->task->jobs[job];
        for (size_t k = 0; k < closers_of(j); k++, at++) {
            if (c->told[at] || !closer_closes(c->s, j, k, d))
                continue;
            if (c->out->length > 0)
                buf_puts(c->out, "; ");
            if (c->several)
                buf_printf(c->out, "`%s`: ", j->name);
            closer_words(c->s, j, k, d, c->out);
            c->told[at] = true;
        }
    }
}

/* From the last day back: what closes it, then what closes the days that this does not. */
bool closed_words(const struct solver *s, const struct group *g, int from, int to,
                  struct buf *out)
{
    size_t room = 1;
    for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job])
        room += closers_of(&s->task->jobs[job]);
    struct closing c = { .s = s,
                         .group = g,
                         .told = calloc(room, sizeof *c.told),
                         .out = out,
                         .several = s->next[g->first] != SCHEDULE_NONE };
    if (!c.told)
        return fault_no_memory(s->f);
    for (int day = to; day >= from; day--)
        if (!is_told_for(&c, solver_date(s, day)))
            tell_closers(&c, solver_date(s, day));
    free(c.told);
    return !out->failed || fault_no_memory(s->f);
}
