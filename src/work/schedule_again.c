#include "work/schedule_parts.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"

struct schedule_again *schedule_again_new(const struct schedule_task *task,
                                          const struct schedule *s, struct fault *f)
{
    struct schedule_again *a = calloc(1, sizeof *a);
    if (!a) {
        fault_no_memory(f);
        return NULL;
    }
    bool fine = solver_init(&a->s, task, f) && solver_order(&a->s, f);
    if (fine) {
        assert(a->s.group_count == s->group_count);
        a->early = calloc(s->group_count + 1, sizeof *a->early);
        fine = a->early || fault_no_memory(f);
    }
    if (!fine) {
        schedule_again_free(a);
        return NULL;
    }
    a->s.crews_kept = s->crews_kept;
    for (size_t k = 0; k < s->group_count; k++) {
        a->s.order[k] = s->order[k];
        a->s.place[s->order[k]] = k;
        a->s.groups[k].wanted = s->crew[k];
    }
    return a;
}

void schedule_again_free(struct schedule_again *a)
{
    if (!a)
        return;
    for (size_t i = 0; a->s.told && i < a->s.task->job_count; i++)
        job_told_clear(&a->s.told[i]);
    free(a->s.told);
    solver_clear(&a->s);
    ground_clear(&a->ground);
    free(a->early);
    free(a);
}

void schedule_again_prefer(struct schedule_again *a, size_t job)
{
    struct solver *s = &a->s;
    size_t count = 0, *late = s->place; /* made anew below */
    memset(a->early, 0, s->group_count * sizeof *a->early);
    a->early[s->group_of[job]] = true;
    for (size_t k = s->group_count; k-- > 0;) {
        size_t g = s->order[k];
        for (size_t i = s->before_at[g]; a->early[g] && i < s->before_at[g + 1]; i++)
            a->early[s->before[i]] = true;
    }
    size_t after = 0;
    for (size_t k = 0; k < s->group_count; k++)
        if (!a->early[s->order[k]])
            late[after++] = s->order[k];
    for (size_t k = 0; k < s->group_count; k++)
        if (a->early[s->order[k]])
            s->order[count++] = s->order[k];
    memcpy(s->order + count, late, after * sizeof *late);
    for (size_t k = 0; k < s->group_count; k++)
        s->place[s->order[k]] = k;
}

/* Under the sanitizers: does it stand before the checker, with these hours? It knows
 * nothing of ground that is drawn. */
static bool stands(struct schedule_again *a, const double *hours)
{
    struct solver *s = &a->s;
    const struct schedule_task *was = s->task;
    struct schedule_task task = *was;
    struct schedule shown = { .told = s->told, .count = task.job_count };
    struct fault f = { 0 };
    if (!IS_WATCHED(s) || a->ground.kind != SCHEDULE_GROUND_PLANNED)
        return true;
    struct schedule_job *jobs = malloc((task.job_count + 1) * sizeof *jobs);
    if (!jobs)
        return true; /* no memory to look with: nothing is found wrong */
    for (size_t i = 0; i < task.job_count; i++) {
        jobs[i] = was->jobs[i];
        jobs[i].hours = hours[i];
    }
    task.jobs = jobs;
    s->task = &task;
    bool fine = !solver_tell(s, &f) || schedule_check(&task, &shown, NULL);
    s->task = was;
    free(jobs);
    return fine;
}

bool schedule_again(struct schedule_again *a, const double *hours, struct fault *f)
{
    struct solver *s = &a->s;
    for (size_t g = 0; g < s->group_count; g++)
        s->groups[g].hours = 0;
    for (size_t job = 0; job < s->task->job_count; job++)
        if (s->task->jobs[job].who != SCHEDULE_NOBODY)
            s->groups[s->group_of[job]].hours += hours[job];
    s->quiet = !IS_WATCHED(s) || a->ground.kind != SCHEDULE_GROUND_PLANNED;
    if (!solver_place(s, f))
        return false;
    assert(stands(a, hours));
    return true;
}

struct schedule_again_of schedule_again_of(const struct schedule_again *a, size_t job)
{
    const struct schedule_result *r = &a->s.told[job].r;
    return (struct schedule_again_of){ .placed = r->state == SCHEDULE_PLACED,
                                       .carried_over = r->carried_over,
                                       .not_needed = r->state == SCHEDULE_NOT_NEEDED,
                                       .unfit = ground_stops(a, job),
                                       .start = r->start,
                                       .finish = r->finish };
}

struct date schedule_again_season(const struct schedule_again *a, size_t job)
{
    const struct solver *s = &a->s;
    const struct schedule_job *j = &s->task->jobs[job];
    int finish = solver_day(s, s->told[job].r.finish);
    int last = s->days;
    if (s->told[job].r.state == SCHEDULE_PLACED && finish >= s->begin && finish < s->days)
        last = season_end(group_open(s, &s->groups[s->group_of[job]]), finish);
    if (j->latest.given && solver_day(s, j->latest.date) < last)
        last = solver_day(s, j->latest.date);
    return solver_date(s, last);
}
