#include "work/schedule_parts.h"

#include <assert.h>
#include <stdlib.h>

#include "base/buf.h"
#include "base/fault.h"

enum { YEAR_DAYS = 365 }; /* how far a season without an end is looked at */

void job_told_clear(struct job_told *told)
{
    if (told->reason || told->forbidden || told->conflict || told->closed_by ||
        told->days || told->weeks || told->filings) {
        free(told->reason);
        free(told->forbidden);
        free(told->conflict);
        free(told->closed_by);
        free(told->days);
        free(told->weeks);
        free(told->filings);
    }
    *told = (struct job_told){ .reason = NULL };
}

/* What was told of the job before is told anew. */
static void details_clear(struct job_told *told)
{
    free(told->forbidden);
    free(told->conflict);
    free(told->days);
    free(told->weeks);
    free(told->filings);
    told->forbidden = told->conflict = NULL;
    told->r.forbidden = told->r.conflict = NULL;
    told->days = told->weeks = NULL;
    told->filings = NULL;
    told->r.filing_count = 0;
}

static double hours_there(const struct solver *s, const struct group *g, int day)
{
    return g->nobody || g->crew == SCHEDULE_NONE ? 0
                                                 : s->crews[g->crew].week_most[day / 7];
}

/* The job's share of the days its group works, and the weeks they add up to. */
static bool tell_days(struct solver *s, size_t job)
{
    const struct schedule_job *j = &s->task->jobs[job];
    const struct group *g = &s->groups[s->group_of[job]];
    struct job_told *told = &s->told[job];
    told->days = calloc(g->work_count + 1, sizeof *told->days);
    told->weeks = calloc(g->work_count + 1, sizeof *told->weeks);
    if (!told->days || !told->weeks)
        return fault_no_memory(s->f);
    size_t weeks = 0;
    for (size_t i = 0; i < g->work_count; i++) {
        double share = g->hours > 0 && !g->nobody ? j->hours / g->hours : 0;
        double hours = g->work[i].hours * share;
        struct date day = solver_date(s, g->work[i].day), monday = date_week_start(day);
        told->days[i] = (struct schedule_work){ .day = day, .hours = hours };
        if (weeks == 0 || told->weeks[weeks - 1].day.day != monday.day)
            told->weeks[weeks++] = (struct schedule_work){
                .day = monday, .there = hours_there(s, g, g->work[i].day)
            };
        told->weeks[weeks - 1].hours += hours;
    }
    told->r.days = told->days;
    told->r.weeks = told->weeks;
    told->r.day_count = g->work_count;
    told->r.week_count = weeks;
    return true;
}

/* The first day on which a filing still covers work up to `last`. */
static struct date filed_from(const struct solver *s, const struct schedule_notice *n,
                              struct date by, struct date last)
{
    struct date from = s->task->start;
    if (n->expires_with_year) {
        struct date jan_1 = from;
        struct fault none = { 0 };
        date_make(date_civil(by).year, 1, 1, &jan_1, &none);
        if (jan_1.day > from.day)
            from = jan_1;
    }
    if (n->expires_after > 0 && last.day - n->expires_after > from.day)
        from.day = last.day - n->expires_after;
    return from.day < by.day ? from : by;
}

/* Each notice is filed as late as may be, and again for the first day not covered; never
 * for what a filing covers that was made. */
static bool tell_filings(struct solver *s, size_t job)
{
    const struct schedule_job *j = &s->task->jobs[job];
    struct job_told *told = &s->told[job];
    const struct schedule_result *r = &told->r;
    if (j->notice_count == 0)
        return true;
    /* The start comes first: a fixed date may lie before its work, or have none. */
    size_t days = r->day_count + 1;
    told->filings = calloc(j->notice_count * days, sizeof *told->filings);
    if (!told->filings)
        return fault_no_memory(s->f);
    size_t count = 0;
    for (size_t i = 0; i < j->notice_count; i++) {
        const struct schedule_notice *n = &j->notices[i];
        struct date covered = { -1 };
        for (size_t k = 0; k < days; k++) {
            struct date day = k == 0 ? r->start : r->days[k - 1].day;
            if ((k == 1 && day.day == r->start.day) || notice_is_filed(n, day))
                continue;
            if (k > 0 && day.day <= covered.day) {
                told->filings[count - 1].last = day;
                continue;
            }
            struct date by = { day.day - n->lead };
            told->filings[count++] = (struct schedule_filing){
                .notice = i, .by = by, .first = day, .last = day
            };
            covered = notice_last(n, by);
        }
    }
    for (size_t i = 0; i < count; i++) {
        struct schedule_filing *filing = &told->filings[i];
        filing->from =
            filed_from(s, &j->notices[filing->notice], filing->by, filing->last);
    }
    told->r.filings = told->filings;
    told->r.filing_count = count;
    return true;
}

/* What the season still holds after the job, and how much of it will be usable. */
static void tell_season(struct solver *s, size_t job)
{
    const struct schedule_job *j = &s->task->jobs[job];
    struct schedule_result *r = &s->told[job].r;
    int start = solver_day(s, r->start), finish = solver_day(s, r->finish);
    r->usable = 1;
    r->weeks_left = 0;
    if (start < s->begin || finish >= s->days)
        return;
    const struct group *g = &s->groups[s->group_of[job]];
    const struct dayset *open = group_open(s, g);
    r->out_of_season = g->fixed && !dayset_has(open, start);
    int end = season_end(open, finish), latest = s->days;
    if (j->latest.given)
        latest = solver_day(s, j->latest.date);
    if (end >= s->days && latest >= s->days) {
        r->weeks_left = -1;
    } else {
        int last = end < latest ? end : latest;
        r->season_ends = true;
        r->season_last = solver_date(s, last);
        for (int d = dayset_next(open, finish + 1); d < s->days && d <= last;
             d = dayset_next(open, d - d % 7 + 7))
            r->weeks_left++;
    }
    if (!j->has_condition)
        return;
    const struct schedule_condition *c = &s->task->conditions[j->condition];
    double sum = 0;
    int days = 0;
    for (int d = start; d < s->days && d < start + YEAR_DAYS && (d <= end || d <= finish);
         d++) {
        if (!dayset_has(open, d))
            continue;
        sum += c->chance[date_civil(solver_date(s, d)).month - 1];
        days++;
    }
    r->usable = days > 0 ? sum / days : 0;
}

bool solver_tell(struct solver *s, struct fault *f)
{
    s->f = f;
    for (size_t job = 0; job < s->task->job_count; job++) {
        if (s->told[job].r.state != SCHEDULE_PLACED || s->task->jobs[job].done)
            continue;
        details_clear(&s->told[job]);
        if (!tell_days(s, job) || !tell_filings(s, job))
            return false;
        tell_season(s, job);
        if (s->groups[s->group_of[job]].fixed && !fixed_tell(s, job))
            return false;
    }
    return true;
}

/* For schedule_again.c. */
static bool keep_order(struct solver *s, struct schedule *out, struct fault *f)
{
    out->crew = malloc((s->group_count + 1) * sizeof *out->crew);
    if (!out->crew)
        return fault_no_memory(f);
    /* Where groups push one another, what each could do on the way matters too: there the
     * crew that was wanted is kept, not the one that it went to in the end. */
    for (size_t g = 0; g < s->group_count; g++) {
        const struct group *group = &s->groups[g];
        size_t wanted = group->any_crew ? SCHEDULE_NONE : group->wanted;
        out->crew[g] = s->pushed                      ? group->wanted
                       : group->crew == SCHEDULE_NONE ? wanted
                                                      : group->crew;
    }
    out->crews_kept = !s->pushed;
    out->order = s->order;
    out->group_count = s->group_count;
    s->order = NULL;
    return true;
}

struct schedule *schedule_new(const struct schedule_task *task, struct fault *f)
{
    struct schedule *out = calloc(1, sizeof *out);
    if (!out) {
        fault_no_memory(f);
        return NULL;
    }
    struct solver s;
    bool fine = solver_init(&s, task, f) && solver_order(&s, f) && solver_search(&s, f) &&
                (task->rough || (solver_tell(&s, f) && held_find(&s, f) &&
                                 goals_find(&s, f) && clashes_find(&s, f)));
    out->told = s.told;
    out->count = task->job_count;
    out->outcome = s.outcome;
    fine = fine && keep_order(&s, out, f);
    solver_clear(&s);
    if (!fine) {
        schedule_free(out);
        return NULL;
    }
#ifdef __SANITIZE_ADDRESS__
    assert(task->rough || schedule_check(task, out, NULL));
#endif
    return out;
}

void schedule_free(struct schedule *s)
{
    if (!s)
        return;
    for (size_t i = 0; s->told && i < s->count; i++)
        job_told_clear(&s->told[i]);
    free(s->told);
    free(s->order);
    free(s->crew);
    free(s);
}

const struct schedule_result *schedule_of(const struct schedule *s, size_t job)
{
    assert(job < s->count);
    return &s->told[job].r;
}

struct schedule_outcome schedule_outcome(const struct schedule *s)
{
    return s->outcome;
}
