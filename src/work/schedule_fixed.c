/* What stands against a date that the plan states. What rules say (windows, limits,
 * ground, notices) is told apart from what does not work out (crews, order, hours). */
#include "work/schedule_parts.h"

#include <stdlib.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/num.h"

static void next_point(struct buf *out)
{
    if (out->length > 0)
        buf_puts(out, "; ");
}

static void tell_limits(const struct solver *s, const struct schedule_job *j,
                        struct date d, struct buf *out)
{
    for (size_t k = 0; k < closers_of(j); k++) {
        if (!closer_closes(s, j, k, d))
            continue;
        next_point(out);
        closer_words(s, j, k, d, out);
    }
}

static void tell_notices(const struct solver *s, size_t job, struct buf *out)
{
    const struct schedule_job *j = &s->task->jobs[job];
    const struct schedule_result *r = &s->told[job].r;
    for (size_t i = 0; i < r->filing_count; i++) {
        const struct schedule_filing *filing = &r->filings[i];
        const struct schedule_notice *n = &j->notices[filing->notice];
        if (filing->first.day < s->task->start.day)
            continue; /* told as lying before the plan */
        bool late = filing->by.day < s->task->start.day;
        bool lapsed = notice_last(n, filing->by).day < filing->first.day;
        if (!late && !lapsed)
            continue;
        next_point(out);
        buf_printf(out, "%s: to be filed %d days ahead, by ", n->words, n->lead);
        date_print(filing->by, DATE_PAPER, out);
        if (late)
            buf_puts(out, ", which has gone by");
        else
            buf_puts(out, n->expires_with_year ? ", and it expires with that year"
                                               : ", and it expires before that");
    }
}

static void tell_dates(const struct solver *s, size_t job, struct buf *out)
{
    const struct schedule_job *j = &s->task->jobs[job];
    const struct schedule_result *r = &s->told[job].r;
    int start = solver_day(s, r->start);
    if (start < s->begin || start >= s->days) {
        next_point(out);
        if (start < s->begin) {
            buf_puts(out, "it lies before the first day of the plan, ");
            date_print(s->task->start, DATE_PAPER, out);
        } else {
            buf_printf(out, "it lies past the %d years planned", SCHEDULE_YEARS);
        }
    }
    if (j->fixed.given && r->start.day != j->fixed.date.day) {
        next_point(out);
        buf_puts(out, "it is done along with another job, which starts ");
        date_print(r->start, DATE_PAPER, out);
    }
    if (j->earliest.given && r->start.day < j->earliest.date.day) {
        next_point(out);
        buf_puts(out, "it is not to start before ");
        date_print(j->earliest.date, DATE_PAPER, out);
    }
    if (j->latest.given && r->finish.day > j->latest.date.day) {
        next_point(out);
        buf_puts(out, "it is to be finished by ");
        date_print(j->latest.date, DATE_PAPER, out);
        buf_puts(out, " and takes until ");
        date_print(r->finish, DATE_PAPER, out);
    }
}

static void tell_order(const struct solver *s, size_t job, struct buf *out)
{
    const struct schedule_result *r = &s->told[job].r;
    struct schedule_after after;
    for (size_t i = 0; job_after(s->task, job, i, &after); i++) {
        const struct schedule_result *before = &s->told[after.job].r;
        if (s->group_of[after.job] == s->group_of[job])
            continue;
        const char *name = s->task->jobs[after.job].name;
        int gap = r->start.day - before->finish.day;
        bool placed = before->state == SCHEDULE_PLACED;
        bool other_crew = placed && after.same_crew && before->crew != SCHEDULE_NONE &&
                          r->crew != SCHEDULE_NONE && before->crew != r->crew;
        if (placed && gap >= after.least && (after.most < 0 || gap <= after.most) &&
            !other_crew)
            continue;
        next_point(out);
        if (!placed) {
            buf_printf(out, "it follows `%s`, which is not %s", name,
                       before->state == SCHEDULE_NOT_NEEDED ? "needed" : "placed");
            continue;
        }
        buf_printf(out, "`%s` is finished ", name);
        date_print(before->finish, DATE_PAPER, out);
        if (gap < after.least)
            buf_printf(out, ", and it may start %d days after that", after.least);
        else if (other_crew)
            buf_printf(out, " by crew %s, whose it is too",
                       s->task->crews[before->crew].name);
        else
            buf_printf(out, ", and it has to start within %d days after that",
                       after.most);
    }
}

static void tell_hours(struct solver *s, size_t job, struct buf *out)
{
    const struct schedule_job *j = &s->task->jobs[job];
    const struct schedule_result *r = &s->told[job].r;
    const struct group *g = &s->groups[s->group_of[job]];
    int start = solver_day(s, r->start);
    if (start < s->begin || start >= s->days)
        return;
    if (r->day_count > 0 && r->days[0].day.day == r->start.day)
        return;
    next_point(out);
    bool unworked = r->day_count == 0 && !g->nobody && g->crew == SCHEDULE_NONE;
    if (unworked)
        crews_able(s, g);
    if (unworked && s->able_count == 0) {
        reason_no_crew_words(s, g, out);
    } else if (unworked) {
        buf_puts(out, "no crew has ");
        if (j->hours > 0) {
            buf_puts(out, "the ");
            num_trade(out, j->hours);
            buf_puts(out, " h it takes from that day on");
        } else {
            buf_puts(out, "a day for it from that day on");
        }
    } else if (r->day_count == 0) {
        buf_puts(out, "it has not got the days it takes");
    } else {
        if (g->crew == SCHEDULE_NONE)
            buf_puts(out, "the work");
        else
            buf_printf(out, "crew %s is not free that day and",
                       s->task->crews[g->crew].name);
        buf_puts(out, " begins ");
        date_print(r->days[0].day, DATE_PAPER, out);
    }
}

static bool keep(struct solver *s, struct buf *words, char **owned, const char **shown)
{
    if (words->failed)
        return fault_no_memory(s->f);
    if (words->length == 0)
        return true;
    *owned = buf_take(words);
    *shown = *owned;
    return *owned != NULL || fault_no_memory(s->f);
}

bool fixed_tell(struct solver *s, size_t job)
{
    struct job_told *told = &s->told[job];
    struct buf words;
    buf_init(&words);
    tell_limits(s, &s->task->jobs[job], told->r.start, &words);
    /* Done along with one whose own date is forbidden, it may come into a closed time. */
    for (size_t i = 0; words.length == 0 && i < told->r.day_count; i++) {
        tell_limits(s, &s->task->jobs[job], told->r.days[i].day, &words);
        if (words.length == 0)
            continue;
        buf_puts(&words, ", from ");
        date_print(told->r.days[i].day, DATE_PAPER, &words);
        buf_puts(&words, " on");
    }
    tell_notices(s, job, &words);
    bool fine = keep(s, &words, &told->forbidden, &told->r.forbidden);
    buf_clear(&words);
    if (!fine)
        return false;
    tell_dates(s, job, &words);
    tell_order(s, job, &words);
    tell_hours(s, job, &words);
    fine = keep(s, &words, &told->conflict, &told->r.conflict);
    buf_clear(&words);
    return fine;
}
