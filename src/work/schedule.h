/* schedule.h: puts every job in the earliest week that its windows, its crew's hours, its
 * notices and what must come before it allow, and says why for those that fit nowhere.
 *
 *     struct schedule_task all = { .start = walked, .jobs = jobs, .job_count = n,
 *                                  .crews = crews, .crew_count = 2 };
 *     struct schedule *s = schedule_new(&all, f);
 *     const struct schedule_result *r = schedule_of(s, 0);
 *     if (r->state == SCHEDULE_PLACED) date_print(r->start, DATE_PAPER, &out);
 *     else buf_puts(&out, r->reason);
 *     schedule_free(s);
 *
 * Jobs are taken in the order of the plan, what a job waits for before it, and each is
 * put in the earliest week with free hours; a job that must follow another within so many
 * days may push that one later. Nothing is moved otherwise: the result is feasible and
 * explainable, not the best there could be. Same input, same schedule.
 *
 * Hours are person-hours. In a week a crew has people x hours_each, a seventh less for
 * every day it is off; in a day at most `day_each` a person. Both may be others in parts of
 * the year and on certain dates. What a visit takes on the road comes off its day, and off
 * its week for as few visits as the week's hours need. */
#ifndef SPINNEY_WORK_SCHEDULE_H
#define SPINNEY_WORK_SCHEDULE_H

#include <stdbool.h>
#include <stddef.h>

#include "calendar/window.h"

struct buf;
struct fault;
struct schedule;

enum {
    SCHEDULE_YEARS = 16,     /* how far ahead: four entries five years apart, from one winter */
    /* Longest day of one person when nothing is said; common practice, no source. */
    SCHEDULE_DAY_HOURS = 10,
    /* Longest pause inside a job, in days: past it the job starts anew after the pause,
     * unless no stretch is long enough for it (then it is `carried_over`). Common
     * practice, no source. */
    SCHEDULE_PAUSE = 45
};
#define SCHEDULE_NONE ((size_t)-1)

/* Days when a job may not be done, and whose doing that is. */
struct schedule_limit {
    const char *words;    /* "oak wilt: Apr 15 to Jul 15" */
    struct yearly closed; /* when not dated */
    bool dated;
    struct date from, to; /* when dated; both included */
};

struct schedule_span {
    struct date from, to; /* both included */
};

struct schedule_day_given {
    bool given;
    struct date date;
};

/* What a job waits for. Days from the finish of `job` to the start: 0 is the same day. */
struct schedule_after {
    size_t job;
    int least, most; /* most: -1 for no end */
    bool same_crew;
};

/* Somebody to be told or asked, `lead` days before work begins. A notice that expires is
 * filed again for the work it no longer covers. */
struct schedule_notice {
    const char *words; /* "cutting notice to the county clerk" */
    int lead;
    bool expires_with_year; /* at the end of the calendar year in which it was filed */
    int expires_after;      /* days from filing to its last day; 0: never */
};

/* Ground that is not there every week: "frozen ground". */
struct schedule_condition {
    const char *words;
    double chance[12]; /* chance of a usable week, January first; 0 closes the month */
};

enum schedule_who {
    SCHEDULE_ANY,    /* any crew */
    SCHEDULE_LISTED, /* the crews listed; none listed: nobody has the skill */
    SCHEDULE_NOBODY  /* takes no crew's hours: a notice, a logger's work */
};

struct schedule_job {
    const char *name;
    double hours; /* person-hours; 0, or nobody: takes `days` open days and no hours */
    int days;     /* at least 1 is taken */
    enum schedule_who who;
    const size_t *crews; /* in order of preference */
    size_t crew_count;
    const char *needs; /* the skill that made the list, for messages; NULL for none */

    struct yearly open;                   /* the window; yearly_all() for any day */
    const char *open_words;               /* "season dormant"; NULL: the days alone */
    const struct schedule_span *openings; /* days open beside the window */
    size_t opening_count;
    const struct schedule_limit *limits; /* taken away from both */
    size_t limit_count;
    bool has_condition;
    size_t condition;

    struct schedule_day_given earliest, latest; /* of the start; of the finish */
    /* The start the plan states: kept whatever is in its way, which is then told. */
    struct schedule_day_given fixed;
    bool done; /* was really done, `was`: nothing is asked of it */
    struct schedule_span was;

    bool in_one_week; /* may not be split over weeks (days: not over a gap) */
    const struct schedule_after *after;
    size_t after_count;
    /* Done with another, by the same crew on the same days, hour for hour: stumps are
     * treated within hours of the cut. Both need a crew, or it counts as `after` it by no
     * more than a day. */
    bool has_along;
    size_t along;
    const struct schedule_notice *notices;
    size_t notice_count;
    bool has_otherwise; /* the job placed only when this one cannot be */
    size_t otherwise;
};

/* Hours of a part of the year, or of certain dates. Of several that hold for a day the
 * last one counts, before the crew's own. Below 0: nothing is said of it. */
struct schedule_hours {
    struct yearly days; /* when not dated */
    bool dated;
    struct schedule_span dates; /* when dated */
    double week_each, day_each; /* of one person */
};

struct schedule_crew {
    const char *name;
    int people;
    double hours_each; /* a week */
    double day_each;   /* a day at most; 0 for SCHEDULE_DAY_HOURS */
    const struct schedule_hours *hours;
    size_t hours_count;
    double travel; /* person-hours of the crew for each day that it comes */
    struct schedule_day_given from, to;
    struct yearly off;
    const struct schedule_span *days_off;
    size_t day_off_count;
};

struct schedule_task {
    struct date start; /* nothing is placed before it */
    const struct schedule_job *jobs;
    size_t job_count;
    const struct schedule_crew *crews;
    size_t crew_count;
    const struct schedule_condition *conditions;
    size_t condition_count;
};

enum schedule_state {
    SCHEDULE_UNPLACED,
    SCHEDULE_PLACED,
    SCHEDULE_NOT_NEEDED /* stands in for a job that is placed, or follows one that does */
};

enum schedule_why {
    SCHEDULE_FITS,
    SCHEDULE_WINDOWS,     /* its windows never meet */
    SCHEDULE_DEADLINE,    /* no open day before its latest date */
    SCHEDULE_NO_CREW,     /* nobody has the skill, or the crew asked for cannot do it */
    SCHEDULE_NO_HOURS,    /* no crew has the hours on its open days */
    SCHEDULE_LAG,         /* cannot follow what it follows soon enough */
    SCHEDULE_PREDECESSOR, /* what it waits for is not placed */
    SCHEDULE_CYCLE        /* waits for itself */
};

struct schedule_work {
    struct date day; /* the day, or the Monday of the week */
    double hours;
};

/* File between `from` and `by`; covers work from `first` to `last`. */
struct schedule_filing {
    size_t notice; /* index in the job's notices */
    struct date from, by, first, last;
};

struct schedule_result {
    enum schedule_state state;
    struct date start, finish; /* first and last day of work */
    size_t crew;               /* SCHEDULE_NONE when it takes none */
    /* The days and weeks worked; hours 0 where none count. */
    const struct schedule_work *days, *weeks;
    size_t day_count, week_count;
    const struct schedule_filing *filings;
    size_t filing_count;
    int weeks_left;    /* with open days after the finish, in this season; -1: no end */
    double usable;     /* expected share of usable days from the start to season's end */
    bool carried_over; /* too much for one season: paused longer than SCHEDULE_PAUSE */
    enum schedule_why why;
    const char *reason;    /* in words, when unplaced or not needed; else NULL */
    const char *forbidden; /* fixed date: the limits that forbid it; NULL for none */
    const char *conflict;  /* fixed date: crew, order, hours in its way; NULL for none */
};

/* Borrows nothing: `task` may go once it returns. Names and words are copied where kept.
 * Faults: memory. Indices and lags out of range are the caller's mistake (asserted). */
struct schedule *schedule_new(const struct schedule_task *task, struct fault *f);
void schedule_free(struct schedule *s);
const struct schedule_result *schedule_of(const struct schedule *s, size_t job);

/* Checks a schedule from the definitions above, without what made it: hours, windows,
 * lags, crews, notices. Returns true when all holds, else appends the first breach to
 * `out` (which may be NULL). For tests; debug builds assert it. */
bool schedule_check(const struct schedule_task *task, const struct schedule *s,
                    struct buf *out);

#endif
