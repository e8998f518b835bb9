/* Written from the definitions in schedule.h, day by day, without anything of what makes
 * schedules: the two must not share a mistake. */
#include "work/schedule.h"

#include <math.h>
#include <stdlib.h>

#include "base/buf.h"

#define HOURS_CLOSE 1e-6

struct check {
    const struct schedule_task *task;
    const struct schedule *s;
    struct buf *out;
    struct date base;
    int days;
    double *used;  /* by crew and day */
    size_t *whole; /* by crew and day: what takes it whole, from 1 on; 0 for nothing */
};

static bool breach(const struct check *c, size_t job, const char *what)
{
    if (c->out)
        buf_printf(c->out, "`%s`: %s", c->task->jobs[job].name, what);
    return false;
}

static bool in_span(struct date d, struct date from, struct date to)
{
    return from.day <= d.day && d.day <= to.day;
}

static bool job_is_open(const struct schedule_task *t, const struct schedule_job *j,
                        struct date d)
{
    bool open = yearly_has(j->open, d);
    for (size_t i = 0; i < j->opening_count; i++)
        open = open || in_span(d, j->openings[i].from, j->openings[i].to);
    for (size_t i = 0; i < j->limit_count; i++) {
        const struct schedule_limit *l = &j->limits[i];
        if (l->dated ? in_span(d, l->from, l->to) : yearly_has(l->closed, d))
            open = false;
    }
    if (j->has_condition &&
        t->conditions[j->condition].chance[date_civil(d).month - 1] <= 0)
        open = false;
    return open;
}

static bool crew_is_there(const struct schedule_task *t, size_t crew, struct date d)
{
    const struct schedule_crew *c = &t->crews[crew];
    if (d.day < t->start.day || yearly_has(c->off, d))
        return false;
    if ((c->from.given && d.day < c->from.date.day) ||
        (c->to.given && d.day > c->to.date.day))
        return false;
    for (size_t i = 0; i < c->day_off_count; i++)
        if (in_span(d, c->days_off[i].from, c->days_off[i].to))
            return false;
    return true;
}

/* Are the two the same piece of work (linked by `along`, whatever way round)? */
static size_t work_root(const struct schedule_task *t, size_t job)
{
    for (size_t steps = 0; steps <= t->job_count; steps++) {
        const struct schedule_job *j = &t->jobs[job];
        if (!j->has_along || j->done || j->who == SCHEDULE_NOBODY ||
            t->jobs[j->along].done || t->jobs[j->along].who == SCHEDULE_NOBODY)
            return job;
        job = j->along;
    }
    return job;
}

/* It goes by days, and so does all that is done along with it. */
static bool takes_days(const struct schedule_task *t, size_t job)
{
    size_t root = work_root(t, job);
    if (t->jobs[job].who == SCHEDULE_NOBODY || t->jobs[job].days < 1)
        return false;
    for (size_t i = 0; i < t->job_count; i++)
        if (t->jobs[i].hours > 0 && work_root(t, i) == root)
            return false;
    return true;
}

static bool check_whole_days(struct check *c, size_t job)
{
    const struct schedule_result *r = schedule_of(c->s, job);
    if (r->crew == SCHEDULE_NONE || c->task->jobs[job].hours > 0 ||
        !takes_days(c->task, job))
        return true;
    size_t mark = work_root(c->task, job) + 1;
    for (size_t i = 0; i < r->day_count; i++) {
        int day = r->days[i].day.day - c->base.day;
        size_t *whole = &c->whole[r->crew * (size_t)c->days + (size_t)day];
        if (*whole != 0 && *whole != mark)
            return breach(c, job, "its crew is elsewhere on one of its days");
        *whole = mark;
    }
    bool loose = r->forbidden || r->conflict;
    return loose || r->day_count >= (size_t)c->task->jobs[job].days ||
           breach(c, job, "it is shorter than it takes");
}

static bool check_days(struct check *c, size_t job)
{
    const struct schedule_job *j = &c->task->jobs[job];
    const struct schedule_result *r = schedule_of(c->s, job);
    bool loose =
        r->forbidden || r->conflict; /* a fixed date that could not be kept well */
    double sum = 0, weeks = 0;
    for (size_t i = 0; i < r->day_count; i++) {
        struct date d = r->days[i].day;
        double hours = r->days[i].hours;
        if (i > 0 && d.day <= r->days[i - 1].day.day)
            return breach(c, job, "its days are not in order");
        if (!in_span(d, r->start, r->finish))
            return breach(c, job, "it works outside its own dates");
        if (d.day < c->task->start.day)
            return breach(c, job, "it works before the plan begins");
        if (!loose && !job_is_open(c->task, j, d))
            return breach(c, job, "it works on a closed day");
        if (hours < 0)
            return breach(c, job, "it has hours below nothing");
        if (r->crew != SCHEDULE_NONE) {
            if (!crew_is_there(c->task, r->crew, d))
                return breach(c, job, "its crew is not at work that day");
            int day = d.day - c->base.day;
            if (day >= c->days)
                return breach(c, job, "it lies past the years planned");
            c->used[r->crew * (size_t)c->days + (size_t)day] += hours;
        }
        sum += hours;
    }
    for (size_t i = 0; i < r->week_count; i++) {
        if (date_weekday(r->weeks[i].day) != 1)
            return breach(c, job, "a week does not begin on a Monday");
        weeks += r->weeks[i].hours;
    }
    if (fabs(weeks - sum) > HOURS_CLOSE)
        return breach(c, job, "its weeks do not add up to its days");
    if (loose)
        return true;
    if (j->who != SCHEDULE_NOBODY && fabs(sum - j->hours) > HOURS_CLOSE)
        return breach(c, job, "its hours do not add up");
    if (r->day_count == 0 || r->days[0].day.day != r->start.day ||
        r->days[r->day_count - 1].day.day != r->finish.day)
        return breach(c, job, "its dates are not those of its work");
    if (j->who == SCHEDULE_NOBODY && r->day_count < (size_t)(j->days > 1 ? j->days : 1))
        return breach(c, job, "it is shorter than it takes");
    if (j->in_one_week && j->hours > 0 && j->who != SCHEDULE_NOBODY && r->week_count > 1)
        return breach(c, job, "it is split over weeks");
    for (size_t i = 1; i < r->day_count && j->in_one_week && j->who == SCHEDULE_NOBODY;
         i++)
        if (r->days[i].day.day != r->days[i - 1].day.day + 1)
            return breach(c, job, "its days are not in a row");
    for (size_t i = 1; i < r->day_count && !r->carried_over; i++)
        if (r->days[i].day.day - r->days[i - 1].day.day - 1 > SCHEDULE_PAUSE)
            return breach(c, job, "it pauses too long");
    return true;
}

static bool check_crew(const struct check *c, size_t job)
{
    const struct schedule_job *j = &c->task->jobs[job];
    const struct schedule_result *r = schedule_of(c->s, job);
    if (j->who == SCHEDULE_NOBODY)
        return r->crew == SCHEDULE_NONE || breach(c, job, "it takes a crew");
    if (r->crew == SCHEDULE_NONE)
        return r->conflict || breach(c, job, "it has no crew");
    if (j->who == SCHEDULE_ANY)
        return true;
    for (size_t i = 0; i < j->crew_count; i++)
        if (j->crews[i] == r->crew)
            return true;
    return breach(c, job, "its crew cannot do it");
}

static bool check_order(const struct check *c, size_t job)
{
    const struct schedule_job *j = &c->task->jobs[job];
    const struct schedule_result *r = schedule_of(c->s, job);
    if (!r->conflict) {
        if (j->earliest.given && r->start.day < j->earliest.date.day)
            return breach(c, job, "it starts before its earliest date");
        if (j->latest.given && r->finish.day > j->latest.date.day)
            return breach(c, job, "it ends after its latest date");
        if (j->fixed.given && r->start.day != j->fixed.date.day)
            return breach(c, job, "it does not start on its fixed date");
    }
    for (size_t i = 0; i < j->after_count && !r->conflict; i++) {
        const struct schedule_after *a = &j->after[i];
        const struct schedule_result *b = schedule_of(c->s, a->job);
        if (work_root(c->task, a->job) == work_root(c->task, job))
            continue;
        if (b->state != SCHEDULE_PLACED)
            return breach(c, job, "it follows what is not placed");
        int gap = r->start.day - b->finish.day;
        if (gap < a->least || (a->most >= 0 && gap > a->most))
            return breach(c, job, "its lag is not kept");
        if (a->same_crew && b->crew != SCHEDULE_NONE && r->crew != SCHEDULE_NONE &&
            b->crew != r->crew)
            return breach(c, job, "it is done by another crew");
    }
    if (!j->has_along)
        return true;
    const struct schedule_result *b = schedule_of(c->s, j->along);
    if (work_root(c->task, job) == job) { /* not really along: within a day after */
        int gap = r->start.day - b->finish.day;
        return r->conflict || (gap >= 0 && gap <= 1) ||
               breach(c, job, "its lag is not kept");
    }
    if (b->crew != r->crew || b->day_count != r->day_count)
        return breach(c, job, "it is not done along");
    for (size_t i = 0; i < r->day_count; i++) {
        double mine = r->days[i].hours * c->task->jobs[j->along].hours;
        double theirs = b->days[i].hours * j->hours;
        if (b->days[i].day.day != r->days[i].day.day ||
            fabs(mine - theirs) > HOURS_CLOSE * (1 + j->hours))
            return breach(c, job, "it is not done along hour for hour");
    }
    return true;
}

static bool covers(const struct schedule_notice *n, struct date filed, struct date d)
{
    if (d.day < filed.day + n->lead)
        return false;
    if (n->expires_with_year && date_civil(d).year != date_civil(filed).year)
        return false;
    return n->expires_after == 0 || d.day <= filed.day + n->expires_after;
}

static bool is_filed(const struct schedule_notice *n, struct date d)
{
    return n->filed.given && covers(n, n->filed.date, d);
}

static bool check_notices(const struct check *c, size_t job)
{
    const struct schedule_job *j = &c->task->jobs[job];
    const struct schedule_result *r = schedule_of(c->s, job);
    if (r->forbidden || r->conflict)
        return true;
    for (size_t n = 0; n < j->notice_count; n++) {
        for (size_t i = 0; i < r->day_count; i++) {
            bool covered = is_filed(&j->notices[n], r->days[i].day);
            for (size_t k = 0; k < r->filing_count && !covered; k++) {
                const struct schedule_filing *f = &r->filings[k];
                if (f->notice != n)
                    continue;
                if (f->from.day < c->task->start.day || f->from.day > f->by.day)
                    return breach(c, job, "a notice cannot be filed in time");
                /* Whichever day of the stretch it is filed on. */
                covered = in_span(r->days[i].day, f->first, f->last) &&
                          covers(&j->notices[n], f->from, r->days[i].day) &&
                          covers(&j->notices[n], f->by, r->days[i].day);
            }
            if (!covered)
                return breach(c, job, "a day is covered by no notice");
        }
    }
    return true;
}

/* A fixed date is called forbidden exactly when it is. */
static bool check_fixed(const struct check *c, size_t job)
{
    const struct schedule_job *j = &c->task->jobs[job];
    const struct schedule_result *r = schedule_of(c->s, job);
    bool forbidden = !job_is_open(c->task, j, r->start);
    for (size_t n = 0; n < j->notice_count && r->start.day >= c->task->start.day; n++) {
        bool can = is_filed(&j->notices[n], r->start);
        for (int d = c->task->start.day; d <= r->start.day - j->notices[n].lead && !can;
             d++)
            can = covers(&j->notices[n], (struct date){ d }, r->start);
        forbidden = forbidden || !can;
    }
    if (!j->fixed.given)
        return true;
    if (forbidden && !r->forbidden)
        return breach(c, job, "its fixed date is forbidden and not said to be");
    if (!forbidden && r->forbidden && r->day_count <= 1)
        return breach(c, job, "its fixed date is called forbidden and is not");
    return true;
}

/* What one person has in a week that is all like this day, and at most on the day. */
static void hours_on(const struct schedule_crew *who, struct date d, double *week,
                     double *day)
{
    *week = who->hours_each;
    *day = who->day_each > 0 ? who->day_each : SCHEDULE_DAY_HOURS;
    for (size_t i = 0; i < who->hours_count; i++) {
        const struct schedule_hours *h = &who->hours[i];
        bool holds = h->dated ? h->dates.from.day <= d.day && d.day <= h->dates.to.day
                              : yearly_has(h->days, d);
        if (holds && h->week_each >= 0)
            *week = h->week_each;
        if (holds && h->day_each >= 0)
            *day = h->day_each;
    }
}

/* The most that a crew may be at work in the week from `from` on, its travel beside; and
 * the longest of its days there. */
static double week_allows(const struct check *c, size_t crew, int from, double *longest)
{
    const struct schedule_crew *who = &c->task->crews[crew];
    double most = 0;
    *longest = 0;
    for (int d = from; d < from + 7 && d < c->days; d++) {
        struct date date = { c->base.day + d };
        double week, day;
        hours_on(who, date, &week, &day);
        if (!crew_is_there(c->task, crew, date))
            continue;
        most += who->people * week / 7;
        if (day > *longest)
            *longest = day;
    }
    return most;
}

static bool check_hours(const struct check *c)
{
    for (size_t crew = 0; crew < c->task->crew_count; crew++) {
        const struct schedule_crew *who = &c->task->crews[crew];
        for (int week = 0; week * 7 < c->days; week++) {
            double sum = 0;
            for (int d = week * 7; d < week * 7 + 7 && d < c->days; d++) {
                double hours = c->used[crew * (size_t)c->days + (size_t)d];
                double unused, day;
                if (hours <= HOURS_CLOSE)
                    continue;
                if (c->whole[crew * (size_t)c->days + (size_t)d] != 0) {
                    if (c->out)
                        buf_printf(c->out, "crew %s works on a day that is taken whole",
                                   who->name);
                    return false;
                }
                hours_on(who, (struct date){ c->base.day + d }, &unused, &day);
                if (hours + who->travel > who->people * day + HOURS_CLOSE) {
                    if (c->out)
                        buf_printf(c->out, "crew %s works too long on one day",
                                   who->name);
                    return false;
                }
                sum += hours;
            }
            if (sum <= HOURS_CLOSE)
                continue;
            /* On the road at least as often as so much work takes. */
            double longest, most = week_allows(c, crew, week * 7, &longest);
            double in_a_day = who->people * longest - who->travel;
            double visits = who->travel > 0 ? ceil(sum / in_a_day - HOURS_CLOSE) : 0;
            if (sum + visits * who->travel > most + HOURS_CLOSE) {
                if (c->out)
                    buf_printf(c->out, "crew %s works too long in one week", who->name);
                return false;
            }
        }
    }
    return true;
}

static bool check_unplaced(const struct check *c, size_t job)
{
    const struct schedule_result *r = schedule_of(c->s, job);
    if (r->state == SCHEDULE_PLACED)
        return true;
    if (!r->reason || r->reason[0] == '\0')
        return breach(c, job, "it is not placed and nothing says why");
    if (r->state == SCHEDULE_UNPLACED)
        return r->why != SCHEDULE_FITS ||
               breach(c, job, "it is not placed for no reason");
    return true;
}

/* What stands in for another is placed only when that is not. */
static bool check_stand_in(const struct check *c, size_t job)
{
    const struct schedule_job *j = &c->task->jobs[job];
    if (!j->has_otherwise || schedule_of(c->s, job)->state == SCHEDULE_UNPLACED)
        return true;
    const struct schedule_result *other = schedule_of(c->s, j->otherwise);
    if (other->state != SCHEDULE_PLACED || c->task->jobs[j->otherwise].done)
        return true;
    for (size_t i = 0; i < c->task->job_count; i++) {
        const struct schedule_job *k = &c->task->jobs[i];
        if (k->has_otherwise && k->otherwise == j->otherwise &&
            schedule_of(c->s, i)->state == SCHEDULE_UNPLACED)
            return true;
    }
    return breach(c, job, "it is placed, and so is what stands in for it");
}

bool schedule_check(const struct schedule_task *task, const struct schedule *s,
                    struct buf *out)
{
    struct check c = {
        .task = task, .s = s, .out = out, .base = date_week_start(task->start)
    };
    c.days = (SCHEDULE_YEARS + 1) * 366;
    c.used = calloc((task->crew_count + 1) * (size_t)c.days, sizeof *c.used);
    c.whole = calloc((task->crew_count + 1) * (size_t)c.days, sizeof *c.whole);
    if (!c.used || !c.whole) {
        free(c.used);
        free(c.whole);
        return true; /* no memory to look with: nothing is found wrong */
    }
    bool fine = true;
    for (size_t job = 0; job < task->job_count && fine; job++) {
        const struct schedule_job *j = &task->jobs[job];
        fine = check_unplaced(&c, job) && check_stand_in(&c, job);
        if (!fine || schedule_of(s, job)->state != SCHEDULE_PLACED || j->done)
            continue;
        fine = check_days(&c, job) && check_whole_days(&c, job) && check_crew(&c, job) && check_order(&c, job) &&
               check_notices(&c, job) && check_fixed(&c, job);
    }
    fine = fine && check_hours(&c);
    free(c.used);
    free(c.whole);
    return fine;
}
