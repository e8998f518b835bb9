#include "work/schedule_push.h"

#include <limits.h>

struct allowance allowance_of(const struct solver *s)
{
    size_t all = 20 * s->group_count + 2000;
    return (struct allowance){ .left = all, .each = all / 2 };
}

/* Nothing is pushed by `pusher` any longer, nor by what it had pushed; what a group waits
 * for lies before it, so one look backwards finds them all. Returns the place of the first
 * that is to be placed again. */
static size_t let_go(struct solver *s, size_t pusher)
{
    size_t back = s->place[pusher];
    s->groups[pusher].let_go = true;
    for (size_t k = back; k-- > 0;) {
        struct group *g = &s->groups[s->order[k]];
        if (g->bound == 0 || !s->groups[g->pusher].let_go)
            continue;
        g->let_go = true;
        g->gave_up = false;
        g->bound = 0;
        back = k;
    }
    for (size_t k = back; k <= s->place[pusher]; k++)
        s->groups[s->order[k]].let_go = false;
    return back;
}

/* Wherever lies what the job follows, both ends of its lag cannot be kept. */
static bool lag_is_empty(const struct solver *s, const struct wish *w)
{
    int least = INT_MIN;
    struct schedule_after after;
    for (size_t i = 0; job_after(s->task, w->lag_job, i, &after); i++)
        if (after.job == w->lag_after && after.least > least)
            least = after.least;
    return least > w->lag_most;
}

enum outcome push_before(struct solver *s, struct group *g, const struct wish *w,
                         int first, struct allowance *may, size_t *back)
{
    size_t pusher = s->group_of[w->lag_job];
    struct group *before = &s->groups[s->group_of[w->lag_after]];
    size_t at = s->place[s->group_of[w->lag_after]];
    size_t cost = *back - at + 1;
    bool movable = before->placed && !before->fixed && !s->task->jobs[w->lag_after].done;
    bool may_not = may->left < cost || g->spent + cost > may->each;
    if (!movable || g->gave_up || may_not || lag_is_empty(s, w))
        return reason_lag(s, w, first) ? UNFIT : FAILED;
    may->left -= cost;
    g->spent += cost;
    *back = at;
    int bound = first - w->lag_most - (before->finish - before->start);
    before->bound = bound > before->start ? bound : before->start + 1;
    before->pusher = pusher;
    return PUSH;
}

bool push_was_in_vain(struct solver *s, struct group *g, size_t *back)
{
    bool was_pushed = g->bound > 0;
    if (!was_pushed && (g->spent == 0 || g->gave_up))
        return false;
    size_t pusher = was_pushed ? g->pusher : s->group_of[g->first];
    s->groups[pusher].gave_up = true;
    *back = let_go(s, pusher);
    return was_pushed || *back < s->place[pusher];
}
