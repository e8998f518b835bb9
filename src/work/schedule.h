/* schedule.h: puts every job in a week that its windows, its crew's hours, its notices and
 * what must come before it allow, and says why for those that fit nowhere.
 *
 *     struct schedule_task all = { .start = walked, .jobs = jobs, .job_count = n,
 *                                  .crews = crews, .crew_count = 2 };
 *     struct schedule *s = schedule_new(&all, f);
 *     const struct schedule_result *r = schedule_of(s, 0);
 *     if (r->state == SCHEDULE_PLACED) date_print(r->start, DATE_PAPER, &out);
 *     else buf_puts(&out, r->reason);
 *     schedule_free(s);
 *
 * What is wanted, of two schedules that keep all limits, is the one with
 *   1. fewer jobs that are not placed (a job whose stand-in is placed counts less, and so
 *      does one whose crew is not free on its stated date),
 *   2. fewer that stop half-way until another season,
 *   3. an earlier finish of the jobs marked first, their days added up,
 *   4. less cost of crews,
 *   5. fewer seasons by which jobs are later than they need be,
 *   6. weeks more evenly full, by the squares of how full they are,
 *   7. an earlier finish of all.
 * Jobs are taken in an order, what a job waits for before it, and each is put in the
 * earliest week with free hours, so that it keeps what is left of its season; a job that
 * must follow another within so many days may push that one later. The order of the plan
 * and a few rules of thumb are tried first, then changes of the best one, up to `tries`
 * schedules or until no better one can be (search.h); of a plan so small that all orders
 * and crews are no more than `tries`, all. Never by the clock: same input and seed, same
 * schedule.
 *
 * Hours are person-hours. In a week a crew has people x hours_each, a seventh less for
 * every day it is off; in a day at most `day_each` a person. Both may be others in parts of
 * the year and on certain dates. What a visit takes on the road comes off its day, and off
 * its week for as few visits as the week's hours need. A visit brings an hour of work at
 * least, unless less is left to do, or the day or half of the week holds less. A job that
 * goes by days takes its crew's days whole: it does nothing else on them, whose week has
 * its hours on the other days. */
#ifndef SPINNEY_WORK_SCHEDULE_H
#define SPINNEY_WORK_SCHEDULE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

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
    /* Filed already: what that covers needs no other filing. */
    struct schedule_day_given filed;
};

/* Ground that is not there every week: "frozen ground". A schedule takes every week of a
 * month that has any chance as usable; schedule_again_ground draws them. */
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
    int days;     /* 0: one day, on which its crew may do other things as well */
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

    bool first;       /* the plan wants it done as early as can be, before others */
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
    double rate;       /* what an hour of one person costs; 0 for the owner's own */
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
    uint64_t seed;
    size_t tries; /* schedules to make at most; 0: as many as suit the plan's size */
    /* Only whether each job is placed and carried over is asked, and whether no schedule is
     * better: nothing else is told. */
    bool rough;
    /* For tests: is told every schedule that is made on the way; NULL for nobody. */
    void (*watch)(void *watcher, const struct schedule_task *task,
                  const struct schedule *s);
    void *watcher;
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

/* What keeps a placed job from starting sooner. */
enum schedule_held {
    SCHEDULE_HELD_NOT,      /* it starts as soon as the plan does */
    SCHEDULE_HELD_DATE,     /* its date is stated, or it was really done */
    SCHEDULE_HELD_EARLIEST, /* it is not to start before `from` */
    SCHEDULE_HELD_NOTICE,   /* a notice has to be filed ahead */
    SCHEDULE_HELD_AFTER,    /* it waits for `job` */
    SCHEDULE_HELD_FOLLOWER, /* `job` has to follow it soon, and cannot yet */
    SCHEDULE_HELD_STANDS_IN /* it is done only since `job` cannot be */
};

/* First what it waits for, `from` when on it could start; then the days that its window,
 * limits and ground leave, open from `opens` on; then the crew, which comes on `start` or
 * is busy with another job until then. */
struct schedule_hold {
    enum schedule_held by;
    size_t job, notice;   /* SCHEDULE_NONE where there is none */
    struct date from;
    bool waits_for_open;  /* closed on `from`; open again on `opens` */
    struct date opens;
    bool was_open;        /* and had been open after the plan's start, until `closed` */
    struct date closed;
    bool crew_away;       /* the crew is not at work from then to the start */
    /* A notice of `renewed_job` that ran out with the year, and for the days before the
     * start had to be filed anew: its index there, or SCHEDULE_NONE. */
    size_t renewed_job, renewed;
    size_t busy;          /* the job its crew does first, or SCHEDULE_NONE */
    bool too_short;       /* what was left of the season was too short for it */
    size_t beside;        /* a job that shares the crew with it and draws it out */
    struct date alone;    /* when it would be finished without; else the finish */
};

struct schedule_work {
    struct date day; /* the day, or the Monday of the week */
    double hours;
    double there; /* of a week: what its crew has, for all that it does then; else 0 */
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
    bool season_ends;        /* else it may be done at any time after */
    struct date season_last; /* the last day of its season, or its latest date */
    bool out_of_season;      /* its date is stated, and closed: there is no season to keep */
    struct schedule_hold held;
    const char *closed_by; /* held.waits_for_open: what closes its days until then; or NULL */
    struct date soonest; /* it cannot be finished before, even if it stood alone */
    bool carried_over; /* too much for one season: paused longer than SCHEDULE_PAUSE */
    enum schedule_why why;
    const char *reason;    /* in words, when unplaced or not needed; else NULL */
    const char *forbidden; /* fixed date: the limits that forbid it; NULL for none */
    const char *conflict;  /* fixed date: crew, order, hours in its way; NULL for none */
};

/* A day by which several placed jobs are all done, and one before which they cannot be,
 * in whatever order and by whatever crews: none of them can be done before it would be if
 * it stood alone, after what it waits for; and hours that only certain crews can work take
 * at least as long as these crews have such hours on the days the jobs are open. */
struct schedule_goal {
    size_t jobs; /* how many; 0: there are none, and no days */
    struct date finish, bound;
};

enum schedule_goals {
    SCHEDULE_FIRST_YEAR,   /* work of crews that could begin within a year of the start */
    SCHEDULE_MARKED_FIRST, /* the jobs marked first */
    SCHEDULE_ALL,
    SCHEDULE_GOALS
};

/* How the schedule came about. */
struct schedule_outcome {
    struct schedule_goal goals[SCHEDULE_GOALS];
    size_t tries; /* schedules made, the first one and the one returned among them */
    /* No order of the jobs, with any choice of the crews that can do them, gives a
     * schedule that is better in 1 to 5 of what is wanted: what none can beat is reached,
     * or all were tried. */
    bool proven;
};

/* Borrows nothing: `task` may go once it returns. Names and words are copied where kept.
 * Faults: memory. Indices and lags out of range are the caller's mistake (asserted). */
struct schedule *schedule_new(const struct schedule_task *task, struct fault *f);
void schedule_free(struct schedule *s);
const struct schedule_result *schedule_of(const struct schedule *s, size_t job);
struct schedule_outcome schedule_outcome(const struct schedule *s);

/* Checks a schedule from the definitions above, without what made it: hours, windows,
 * lags, crews, notices. Returns true when all holds, else appends the first breach to
 * `out` (which may be NULL). For tests; the build with
 * sanitizers asserts it of every schedule that is made. */
bool schedule_check(const struct schedule_task *task, const struct schedule *s,
                    struct buf *out);

#endif
