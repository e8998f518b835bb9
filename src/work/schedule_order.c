#include <assert.h>
#include <stdlib.h>

#include "base/buf.h"
#include "base/fault.h"
#include "work/schedule_parts.h"

enum { CHAIN_SHOWN = 6 }; /* links of a cycle that are told by name */

enum tie_kind { WAITS_FOR, GOES_ALONG, STANDS_IN };
static const char *const tie_words[] = { "waits for", "goes along with",
                                         "stands in for" };

struct edge {
    size_t other;
    enum tie_kind tie;
};

/* The job whose days `job` shares, itself when it shares none. A chain that comes back on
 * itself joins nobody: it is found as a cycle later. */
static size_t root_of(const struct schedule_task *task, size_t job)
{
    size_t at = job, steps = 0;
    for (size_t up; (up = job_along(task, at)) != SCHEDULE_NONE; at = up) {
        assert(up < task->job_count);
        if (++steps > task->job_count)
            return job;
    }
    return at;
}

static void group_add(struct solver *s, size_t g, size_t job)
{
    const struct schedule_job *j = &s->task->jobs[job];
    struct group *group = &s->groups[g];
    s->group_of[job] = g;
    assert(j->hours >= 0);
    if (j->who == SCHEDULE_NOBODY)
        group->nobody = true;
    else
        group->hours += j->hours;
    if (j->days > group->days)
        group->days = j->days;
    group->by_days |= j->days > 0;
    group->one_week |= j->in_one_week;
    if (j->fixed.given && !group->fixed) {
        group->fixed = true;
        group->fixed_day = solver_day(s, j->fixed.date);
    }
}

static bool groups_make(struct solver *s, struct fault *f)
{
    size_t jobs = s->task->job_count;
    s->group_of = malloc((jobs + 1) * sizeof *s->group_of);
    s->next = malloc((jobs + 1) * sizeof *s->next);
    s->groups = calloc(jobs + 1, sizeof *s->groups);
    s->order = malloc((jobs + 1) * sizeof *s->order);
    s->place = malloc((jobs + 1) * sizeof *s->place);
    size_t *of_root = malloc((jobs + 1) * sizeof *of_root);
    if (!s->group_of || !s->next || !s->groups || !s->order || !s->place || !of_root) {
        free(of_root);
        return fault_no_memory(f);
    }
    for (size_t i = 0; i < jobs; i++)
        of_root[i] = SCHEDULE_NONE;
    for (size_t i = 0; i < jobs; i++) {
        size_t root = root_of(s->task, i);
        if (of_root[root] == SCHEDULE_NONE) {
            of_root[root] = s->group_count;
            s->groups[s->group_count++] = (struct group){ .first = SCHEDULE_NONE,
                                                          .days = 1,
                                                          .pusher = SCHEDULE_NONE,
                                                          .wanted = SCHEDULE_NONE,
                                                          .crew = SCHEDULE_NONE };
        }
        group_add(s, of_root[root], i);
    }
    for (size_t i = jobs; i-- > 0;) {
        struct group *group = &s->groups[s->group_of[i]];
        s->next[i] = group->first;
        group->first = i;
    }
    free(of_root);
    return true;
}

struct frame {
    size_t group, job; /* the group, and the one of its jobs being looked at */
    size_t step, first;
    bool afters_seen;
    struct edge edge; /* the one being followed */
};

static struct frame frame_of(const struct solver *s, size_t g)
{
    return (
        struct frame){ .group = g, .job = s->groups[g].first, .first = SCHEDULE_NONE };
}

/* The next thing that the group at the top of the stack has to wait for: of each of its
 * jobs what it comes after, a broken ring of `along`, and the jobs it stands in for. */
static bool frame_next(const struct solver *s, struct frame *top)
{
    while (top->job != SCHEDULE_NONE) {
        size_t job = top->job;
        struct schedule_after after;
        while (job_after(s->task, job, top->step, &after)) {
            top->step++;
            assert(after.job < s->task->job_count);
            /* After one's own mate by no days at all asks for nothing more. */
            bool mates = s->group_of[after.job] == top->group && after.job != job;
            if (mates && after.least <= 0)
                continue;
            top->edge = (struct edge){ after.job, WAITS_FOR };
            return true;
        }
        if (!top->afters_seen) {
            top->afters_seen = true;
            top->first = s->first_for[job];
            size_t along = job_along(s->task, job);
            if (along == job ||
                (along != SCHEDULE_NONE && s->group_of[along] != top->group)) {
                top->edge = (struct edge){ along, GOES_ALONG };
                return true;
            }
        }
        if (top->first != SCHEDULE_NONE) {
            top->edge = (struct edge){ top->first, STANDS_IN };
            top->first = s->next_first[top->first];
            return true;
        }
        top->job = s->next[job];
        top->step = 0;
        top->afters_seen = false;
    }
    return false;
}

/* Tells all jobs of the groups frames[0] to frames[count - 1] that they go round. */
static bool cycle_tell(struct solver *s, const struct frame *frames, size_t count)
{
    struct buf words;
    buf_init(&words);
    buf_puts(&words, "it waits for itself: ");
    for (size_t i = 0; i < count && i < CHAIN_SHOWN; i++) {
        const struct frame *frame = &frames[i];
        if (i > 0)
            buf_puts(&words, ", ");
        /* The ring may come into a group by one of its jobs and leave by another. */
        size_t entered = frames[i > 0 ? i - 1 : count - 1].edge.other;
        buf_printf(&words, "`%s` ", s->task->jobs[entered].name);
        if (entered != frame->job)
            buf_printf(&words, "is done along with `%s`, which ",
                       s->task->jobs[frame->job].name);
        buf_printf(&words, "%s `%s`", tie_words[frame->edge.tie],
                   s->task->jobs[frame->edge.other].name);
    }
    if (count > CHAIN_SHOWN)
        buf_printf(&words, ", and so on through %zu more", count - CHAIN_SHOWN);
    bool fine = true;
    for (size_t i = 0; i < count; i++)
        for (size_t j = s->groups[frames[i].group].first; j != SCHEDULE_NONE;
             j = s->next[j])
            fine = fine && reason_set(s, j, SCHEDULE_CYCLE, &words);
    buf_clear(&words);
    return fine;
}

bool solver_order(struct solver *s, struct fault *f)
{
    if (!groups_make(s, f) || !solver_open_days(s, f))
        return false;
    /* Depth first from each group in plan order, with a stack of its own: chains may be
     * as long as the plan. */
    struct frame *stack = malloc((s->group_count + 1) * sizeof *stack);
    size_t *depth =
        calloc(s->group_count + 1, sizeof *depth); /* place on the stack, from 1 */
    bool *known = calloc(s->group_count + 1, sizeof *known);
    bool fine = stack && depth && known;
    if (!fine)
        fault_no_memory(f);
    size_t height = 0, ordered = 0;
    for (size_t g = 0; fine && g < s->group_count; g++) {
        if (known[g])
            continue;
        known[g] = true;
        stack[height++] = frame_of(s, g);
        depth[g] = height;
        while (fine && height > 0) {
            struct frame *top = &stack[height - 1];
            if (!frame_next(s, top)) {
                depth[top->group] = 0;
                s->place[top->group] = ordered;
                s->order[ordered++] = top->group;
                height--;
                continue;
            }
            size_t to = s->group_of[top->edge.other];
            fine = to == top->group || ties_add(s, to, top->group, f);
            if (fine && depth[to] != 0) {
                fine = cycle_tell(s, &stack[depth[to] - 1], height - depth[to] + 1);
            } else if (fine && !known[to]) {
                known[to] = true;
                stack[height++] = frame_of(s, to);
                depth[to] = height;
            }
        }
    }
    free(stack);
    free(depth);
    free(known);
    return fine && ties_sort(s, f);
}
