/* Why no crew can do a job, or all of those done together. */
#include "base/buf.h"
#include "work/schedule_parts.h"

static const char *name_of(const struct solver *s, size_t job)
{
    return s->task->jobs[job].name;
}

static bool share_a_crew(const struct schedule_job *a, const struct schedule_job *b)
{
    if (a->who != SCHEDULE_LISTED || b->who != SCHEDULE_LISTED)
        return true;
    for (size_t i = 0; i < a->crew_count; i++)
        for (size_t k = 0; k < b->crew_count; k++)
            if (a->crews[i] == b->crews[k])
                return true;
    return false;
}

static void job_words(const struct schedule_job *j, struct buf *out)
{
    buf_printf(out, "`%s`", j->name);
    if (j->needs)
        buf_printf(out, " (%s)", j->needs);
}

/* Jobs done together that no one crew can do: two that have none in common, where there
 * are such. */
static void apart_words(const struct solver *s, const struct group *g, struct buf *out)
{
    const struct schedule_job *jobs = s->task->jobs;
    size_t one = g->first, other = s->next[g->first];
    bool apart = false;
    for (size_t a = g->first; a != SCHEDULE_NONE && !apart; a = s->next[a])
        for (size_t b = s->next[a]; b != SCHEDULE_NONE && !apart; b = s->next[b]) {
            apart = !share_a_crew(&jobs[a], &jobs[b]);
            one = apart ? a : one;
            other = apart ? b : other;
        }
    job_words(&jobs[one], out);
    buf_puts(out, " and ");
    job_words(&jobs[other != SCHEDULE_NONE ? other : one], out);
    buf_puts(out, apart || other == SCHEDULE_NONE || s->next[other] == SCHEDULE_NONE
                      ? " are done together, and no crew can do both"
                      : " are done together with others, and no crew can do all");
}

void reason_no_crew_words(const struct solver *s, const struct group *g, struct buf *out)
{
    if (s->task->crew_count == 0) {
        buf_puts(out, "the plan has no crew");
        return;
    }
    for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job]) {
        const struct schedule_job *j = &s->task->jobs[job];
        if (j->who != SCHEDULE_LISTED || j->crew_count > 0)
            continue;
        if (j->needs)
            buf_printf(out, "no crew has the skill it needs: %s", j->needs);
        else
            buf_puts(out, "no crew can do it");
        return;
    }
    for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job]) {
        struct schedule_after after;
        for (size_t i = 0; job_after(s->task, job, i, &after); i++) {
            size_t crew = s->told[after.job].r.crew;
            if (!after.same_crew || crew == SCHEDULE_NONE)
                continue;
            buf_printf(out, "it is for the crew that does `%s`, and %s cannot do it",
                       name_of(s, after.job), s->task->crews[crew].name);
            return;
        }
    }
    apart_words(s, g, out);
}
