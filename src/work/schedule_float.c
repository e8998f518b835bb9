/* By how many weeks each job may start later while all that does not wait for it stays
 * where it is booked: tried out, by halves. */
#include <assert.h>
#include <stdlib.h>

#include "base/fault.h"
#include "work/schedule_parts.h"

/* So near the end of what is planned nothing tells a job that may be put off without end
 * from one that may not: entries and crews go on after it. */
enum { LAST_YEARS = 2 * 366 };

/* Where a group lay before it was moved. */
struct moved {
    size_t group;
    int start, finish;
    struct work_day *work;
    size_t work_count, work_room;
};

struct putting_off {
    struct solver *s;
    size_t *followers, *followers_at; /* of group g: from followers_at[g] on */
    int *ends;           /* by group: the last day of its season, or its latest date */
    size_t *seen;        /* by group: the last one whose followers it is among, from 1 */
    bool *broken;        /* by group: its date is stated, and not kept even now */
    struct moved *moved; /* the group at hand, then those that wait for it, in order */
    size_t count;
    struct fault *f;
};

static bool is_movable(const struct solver *s, const struct group *g)
{
    return g->placed && !s->task->jobs[g->first].done &&
           (g->nobody || g->crew != SCHEDULE_NONE);
}

static void swap_work(struct group *g, struct moved *m)
{
    struct work_day *work = g->work;
    size_t count = g->work_count, room = g->work_room;
    g->work = m->work;
    g->work_count = m->work_count;
    g->work_room = m->work_room;
    m->work = work;
    m->work_count = count;
    m->work_room = room;
}

/* Takes up the group at hand and all that wait for it. */
static void lift(struct putting_off *p)
{
    for (size_t i = 0; i < p->count; i++) {
        struct moved *m = &p->moved[i];
        struct group *g = &p->s->groups[m->group];
        hours_book(p->s, g, -1);
        m->start = g->start;
        m->finish = g->finish;
        m->work_count = 0;
        swap_work(g, m);
    }
}

static void put_back(struct putting_off *p)
{
    for (size_t i = 0; i < p->count; i++)
        hours_book(p->s, &p->s->groups[p->moved[i].group], -1);
    for (size_t i = 0; i < p->count; i++) {
        struct moved *m = &p->moved[i];
        struct group *g = &p->s->groups[m->group];
        swap_work(g, m);
        group_date(p->s, g, m->start, m->finish);
        hours_book(p->s, g, 1);
    }
}

static bool lay(struct putting_off *p, struct group *g, const struct trial *t)
{
    if (!work_copy(g, t, p->f))
        return false;
    group_date(p->s, g, t->start, t->finish);
    hours_book(p->s, g, 1);
    return true;
}

/* Lays a group down in its season, not before `from`; false when it does not fit, or memory
 * runs out. */
static bool place(struct putting_off *p, size_t g, int from)
{
    struct solver *s = p->s;
    struct group *group = &s->groups[g];
    struct wish w = wish_of(s, group);
    w.from = from > w.from ? from : w.from;
    w.latest_finish = p->ends[g] < w.latest_finish ? p->ends[g] : w.latest_finish;
    s->able[0] = group->crew;
    s->able_count = 1;
    return fit_group(s, &w, group_open(s, group), &s->best) &&
           (!s->best.carried_over || group->carried_over) && lay(p, group, &s->best);
}

static bool is_broken(const struct solver *s, const struct group *g)
{
    struct wish w = wish_of(s, g);
    return g->start < w.from || g->start > w.latest_start;
}

/* Do dates that are stated still hold for what waits for those that were moved? */
static bool dates_hold(const struct putting_off *p)
{
    const struct solver *s = p->s;
    for (size_t i = 0; i < p->count; i++) {
        size_t g = p->moved[i].group;
        for (size_t k = p->followers_at[g]; k < p->followers_at[g + 1]; k++) {
            size_t other = p->followers[k];
            const struct group *group = &s->groups[other];
            if (group->placed && group->fixed && !p->broken[other] &&
                !s->task->jobs[group->first].done && is_broken(s, group))
                return false;
        }
    }
    return true;
}

/* Can it start so many weeks later? All is put back. */
static bool can_be_later(struct putting_off *p, int weeks)
{
    bool can = true;
    lift(p);
    for (size_t i = 0; can && i < p->count; i++)
        can = place(p, p->moved[i].group, p->moved[i].start + (i == 0 ? 7 * weeks : 0));
    can = can && dates_hold(p);
    put_back(p);
    return can;
}

/* The group, and all that wait for it and may move, in order. */
static void gather(struct putting_off *p, size_t g)
{
    const struct solver *s = p->s;
    size_t left = 0;
    p->count = 0;
    for (size_t at = s->place[g], more = g; more != SCHEDULE_NONE;) {
        p->moved[p->count++].group = more;
        for (size_t i = p->followers_at[more]; i < p->followers_at[more + 1]; i++) {
            size_t other = p->followers[i];
            const struct group *group = &s->groups[other];
            if (p->seen[other] == g + 1 || group->fixed || !is_movable(s, group))
                continue;
            p->seen[other] = g + 1;
            left++;
        }
        for (more = SCHEDULE_NONE; left > 0 && more == SCHEDULE_NONE;)
            if (p->seen[s->order[++at]] == g + 1)
                more = s->order[at];
        left -= more != SCHEDULE_NONE;
    }
}

static int weeks_of(struct putting_off *p, size_t g)
{
    const struct solver *s = p->s;
    bool ends = p->ends[g] < s->days;
    int last = ends ? p->ends[g] : s->days - LAST_YEARS, can = 0;
    int cannot = (last - s->groups[g].start) / 7 + 1;
    gather(p, g);
    if (!ends && (cannot <= 1 || can_be_later(p, cannot - 1)))
        return -1;
    while (cannot - can > 1) {
        int weeks = can + (cannot - can) / 2;
        if (can_be_later(p, weeks))
            can = weeks;
        else
            cannot = weeks;
    }
    return can;
}

/* Those that wait for each, from what each waits for. */
static void find_followers(struct putting_off *p)
{
    const struct solver *s = p->s;
    size_t count = s->before_at[s->group_count];
    for (size_t i = 0; i < count; i++)
        p->followers_at[s->before[i] + 2]++;
    for (size_t g = 2; g < s->group_count + 2; g++)
        p->followers_at[g] += p->followers_at[g - 1];
    for (size_t g = 0; g < s->group_count; g++)
        for (size_t i = s->before_at[g]; i < s->before_at[g + 1]; i++)
            p->followers[p->followers_at[s->before[i] + 1]++] = g;
}

static int end_of(const struct solver *s, const struct group *g)
{
    int end = s->days;
    if (g->finish >= s->begin && g->finish < s->days)
        end = season_end(group_open(s, g), g->finish);
    for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job]) {
        const struct schedule_job *j = &s->task->jobs[job];
        if (j->latest.given && solver_day(s, j->latest.date) < end)
            end = solver_day(s, j->latest.date);
    }
    return end;
}

static bool putting_off_init(struct putting_off *p, struct solver *s, struct fault *f)
{
    *p = (struct putting_off){ .s = s, .f = f };
    size_t groups = s->group_count;
    p->followers = malloc((s->before_at[groups] + 1) * sizeof *p->followers);
    p->followers_at = calloc(groups + 2, sizeof *p->followers_at);
    p->ends = malloc((groups + 1) * sizeof *p->ends);
    p->seen = calloc(groups + 1, sizeof *p->seen);
    p->broken = calloc(groups + 1, sizeof *p->broken);
    p->moved = calloc(groups + 1, sizeof *p->moved);
    if (!p->followers || !p->followers_at || !p->ends || !p->seen || !p->broken ||
        !p->moved)
        return fault_no_memory(f);
    find_followers(p);
    for (size_t g = 0; g < groups; g++) {
        const struct group *group = &s->groups[g];
        if (!group->placed || s->task->jobs[group->first].done)
            continue;
        p->broken[g] = is_broken(s, group);
        p->ends[g] = end_of(s, group);
    }
    return true;
}

static void putting_off_clear(struct putting_off *p)
{
    for (size_t i = 0; p->moved && i < p->s->group_count; i++)
        free(p->moved[i].work);
    free(p->moved);
    free(p->followers);
    free(p->followers_at);
    free(p->ends);
    free(p->seen);
    free(p->broken);
}

bool schedule_again_float(struct schedule_again *a, int *weeks, struct fault *f)
{
    struct solver *s = &a->s;
    struct putting_off p;
    assert(a->ground.kind == SCHEDULE_GROUND_PLANNED);
    bool fine = putting_off_init(&p, s, f);
    for (size_t job = 0; job < s->task->job_count; job++)
        weeks[job] = -1;
    for (size_t g = 0; fine && g < s->group_count; g++) {
        const struct group *group = &s->groups[g];
        if (!group->placed || s->task->jobs[group->first].done)
            continue;
        int later = is_movable(s, group) ? weeks_of(&p, g) : 0;
        for (size_t job = group->first; job != SCHEDULE_NONE; job = s->next[job])
            weeks[job] = later;
        fine = !fault_is_set(f);
    }
    s->residue = true; /* hours were taken back */
    putting_off_clear(&p);
    return fine;
}
