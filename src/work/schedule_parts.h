/* schedule_parts.h: what the schedule is made of while it is being made, for the modules
 * of schedule_*.c only.
 *
 *     struct solver s;
 *     if (solver_init(&s, task, f) && solver_order(&s, f)) ... solver_place(&s, f);
 *     solver_clear(&s);
 *
 * Days are whole numbers from `base`, the Monday of the first week, so that day / 7 is
 * the week. Jobs done along with one another are one group, placed as one piece. */
#ifndef SPINNEY_WORK_SCHEDULE_PARTS_H
#define SPINNEY_WORK_SCHEDULE_PARTS_H

#include "work/dayset.h"
#include "work/schedule_again.h"

/* Under the sanitizers every schedule that is made stands before the checker; of plans so
 * large that it would take minutes, the one that is returned. */
#ifdef __SANITIZE_ADDRESS__
#define IS_WATCHED(s) ((s)->task->watch != NULL || (s)->task->job_count <= 60)
#else
#define IS_WATCHED(s) ((s)->task->watch != NULL)
#endif

struct bound;

struct work_day {
    int day;
    double hours;
};

struct crew_state {
    struct dayset open;
    double *day_used, *week_used, *day_most, *week_most;
    double whole_week; /* work of its longest week, were it never off */
    int *next_free;    /* by week: itself, or for a full one a later week that no free one
                          lies before */
    bool stale;        /* hours were taken back: next_free is not to be used */
};

struct group {
    size_t first; /* its first job in plan order; the others by solver.next */
    double hours; /* of all its jobs; 0: it takes `days` days */
    int days;
    bool by_days; /* days are asked for: without hours it takes them whole */
    bool nobody, one_week, fixed, early; /* early: fixed, and placed before all others */
    int fixed_day;                       /* may lie outside the days of the solver */
    int bound;                           /* pushed: it may not start before this day */
    size_t pusher; /* the group that pushed it last, or SCHEDULE_NONE */
    bool gave_up;  /* pushing what it follows has been tried in vain */
    size_t spent;  /* of what may be spent on pushing (schedule_push.h) */
    bool let_go;   /* while it is found out who is no longer pushed */

    bool placed, carried_over;
    size_t crew;
    int start, finish;
    struct work_day *work;
    size_t work_count, work_room;

    size_t wanted; /* the crew that is to do it, or SCHEDULE_NONE for any able one */
    bool any_crew; /* it has no time for it: any other may */
};

/* `after` has to wait for `before`. */
struct tie {
    size_t before, after;
};

/* One way of placing a group, being tried. */
struct trial {
    size_t crew, count;
    int start, finish;
    bool carried_over;
    struct work_day *work; /* room for every day */
};

/* A result and what it owns. */
struct job_told {
    struct schedule_result r;
    char *reason, *forbidden, *conflict, *closed_by;
    struct schedule_work *days, *weeks;
    struct schedule_filing *filings;
};

struct schedule {
    struct job_told *told;
    size_t count;
    struct schedule_outcome outcome;
    size_t *order, *crew; /* groups in order; the crew of each, by group */
    bool crews_kept;      /* made again: no other crew does it */
    size_t group_count;
};

struct solver {
    const struct schedule_task *task;
    struct job_told *told; /* by job */
    struct date base;
    int begin, days;    /* first day that can be used; how many days there are */
    size_t *group_of;   /* by job */
    size_t *next;       /* by job: the next job of its group, or SCHEDULE_NONE */
    size_t *first_for;  /* by job: a job it stands in for, or SCHEDULE_NONE */
    size_t *next_first; /* by job: the next job with the same stand-in */
    struct group *groups;
    struct dayset *opens; /* by group: days on which all of its jobs may be done */
    uint64_t *open_words; /* of all of them */
    /* By group: the same with all ground fit, while weeks of it are drawn; else NULL. */
    const struct dayset *wholes;
    bool harsh; /* the ground is as bad as it hardly ever is */
    size_t group_count;
    size_t *order, *place; /* groups in order, and where in it each is */
    struct tie *ties;      /* between groups, as they were met */
    size_t tie_count, tie_room;
    size_t *before, *before_at; /* what group g waits for: before[before_at[g]] up to
                                   before[before_at[g + 1]], not included */
    struct bound *bounds; /* by group */
    struct crew_state *crews;
    size_t *able; /* crews that can do the group at hand, by preference */
    size_t able_count;
    struct dayset open, shared, scratch, keep;
    struct trial best, trial;
    bool quiet;   /* only tries: no words are made of what does not fit */
    bool pushed;  /* some group was pushed later by what follows it */
    bool crews_kept; /* made again: what a crew is wanted for, no other does */
    bool residue; /* hours were taken back: sums may be off by their rounding */
    struct schedule_outcome outcome;
    struct fault *f;
};

/* What a group wants of its days. */
struct wish {
    const struct group *group;
    int from, latest_start, latest_finish;
    size_t lag_job; /* the job whose `most` set latest_start, or SCHEDULE_NONE */
    size_t lag_after;
    int lag_most;
    const struct dayset *whole; /* the group's of solver.wholes, or NULL */
    const struct solver *harsh; /* NULL: the ground is not harsh */
};

static inline void raise_to(int *a, int b)
{
    if (b > *a)
        *a = b;
}

/* schedule_model.c */
bool solver_init(struct solver *s, const struct schedule_task *task, struct fault *f);
void solver_clear(struct solver *s);
int solver_day(const struct solver *s, struct date d);
struct date solver_date(const struct solver *s, int day);
/* The job that `job` is done along with, SCHEDULE_NONE when it is done by itself. */
size_t job_along(const struct schedule_task *task, size_t job);
/* The i-th thing a job waits for; false past the last. */
bool job_after(const struct schedule_task *task, size_t job, size_t i,
               struct schedule_after *out);
/* The months that have a usable week at all. */
struct yearly condition_months(const struct schedule_condition *c);
/* The days on which one job may be done, put in `out`. */
void job_open_days(const struct solver *s, const struct schedule_job *job,
                   struct dayset *out, struct dayset *scratch);
/* The days on which all jobs of a group may be done. */
const struct dayset *group_open(const struct solver *s, const struct group *g);
/* Finds them out for all groups, once these are made. */
bool solver_open_days(struct solver *s, struct fault *f);
/* Takes out the days that no notice filed in the same year can cover. */
void notice_close_days(const struct solver *s, const struct schedule_notice *n,
                       struct dayset *days);
/* The first day on which work may begin as far as the notice goes. */
int notice_first(const struct solver *s, const struct schedule_notice *n);
/* Does the filing that was made cover the day? */
bool notice_is_filed(const struct schedule_notice *n, struct date day);
/* The last day that a notice covers when it is filed on that day. */
struct date notice_last(const struct schedule_notice *n, struct date filed);
/* The last day of the season that `day` lies in: open days no more than SCHEDULE_PAUSE
 * apart; `days` when it has no end. */
int season_end(const struct dayset *open, int day);

/* schedule_closed.c: what may close a day to a job is counted; does the `closer`-th close
 * that day, and what it is in words. */
size_t closers_of(const struct schedule_job *j);
bool closer_closes(const struct solver *s, const struct schedule_job *j, size_t closer,
                   struct date d);
void closer_words(const struct solver *s, const struct schedule_job *j, size_t closer,
                  struct date d, struct buf *out);
/* What closes the days from `from` to `to` to a group, in words, last days first. */
bool closed_words(const struct solver *s, const struct group *g, int from, int to,
                  struct buf *out);

/* schedule_hours.c: what each day and week of a crew holds, by the days it is there. */
void crew_hours(const struct schedule_crew *crew, struct crew_state *out);

/* schedule_order.c: groups, their order, cycles, whose jobs get their reason here. */
bool solver_order(struct solver *s, struct fault *f);

/* schedule_ties.c: which groups wait for which, as schedule_order.c finds them. */
bool ties_add(struct solver *s, size_t before, size_t after, struct fault *f);
bool ties_sort(struct solver *s, struct fault *f);

struct schedule_again;

/* schedule_ground.c: ground that is drawn, or harsh. */
struct ground {
    enum schedule_ground kind;
    struct dayset *wholes, *fits; /* by group; by condition: the days on which it is fit */
    uint64_t *whole_words, *fit_words;
    struct drawn_week *weeks; /* of each condition; of condition c from weeks_at[c] on */
    size_t *weeks_at;
    uint64_t *keys; /* by condition */
    int *until;     /* by group: it has to be finished then, where its ground is drawn */
    size_t drawn_words; /* of days: so far weeks are drawn */
};
void ground_clear(struct ground *ground);
/* A week of harsh ground: of the weeks that a group could use, one after another, only the
 * last of so many counts that none of them is fit once in HARSH_ONE times. */
#define HARSH_ONE 500
struct luck {
    int week;    /* that was judged last */
    bool fit;    /* how */
    double none; /* the chance that none was fit since the last that counts */
    int lost;    /* days since then that did not count */
};
bool luck_holds(const struct wish *w, int day, struct luck *luck);
/* Is its date stated, and the ground not fit then? */
bool ground_stops(const struct schedule_again *a, size_t job);

/* schedule_again.c */
struct schedule_again {
    struct solver s;
    bool *early; /* by group, while an order is changed */
    struct ground ground;
};

/* schedule_place.c: places all groups in s->order, which has what a group waits for before
 * it. May be called again, with another order: it starts anew. */
bool solver_place(struct solver *s, struct fault *f);
/* Puts the crews that can do all of a group in s->able. */
void crews_able(struct solver *s, const struct group *g);
/* What earliest dates, deadlines, notices and the jobs before ask for. */
struct wish wish_of(const struct solver *s, const struct group *g);

/* schedule_book.c: puts groups down on their days, and takes them up again. */
/* Books the hours of a group's work, or with `sign` -1 gives them back. */
void hours_book(struct solver *s, const struct group *g, double sign);
/* The days of work of a trial, for the group. */
bool work_copy(struct group *g, const struct trial *t, struct fault *f);
/* When it starts and finishes, it and all its jobs. */
void group_date(struct solver *s, struct group *g, int start, int finish);
/* Where the trial lies; its jobs are placed. */
bool group_put(struct solver *s, struct group *g, const struct trial *t);
/* Back to not having been tried. */
void group_undo(struct solver *s, struct group *g);
/* Takes up all that lies, so that everything can be put down anew. */
void solver_take_up(struct solver *s);

/* schedule_bound.c: what no schedule can beat. Each group by itself on its own days; the
 * bounds of project_bound.h count units of time that are all alike, and share nothing. */
struct bound {
    bool possible;     /* can it be placed at all, if it stood alone? */
    bool needless;     /* may come out as not needed: stands in, or follows such a one */
    bool pauses;       /* not without stopping half-way until another season */
    int start, finish; /* no earlier, if so */
    double cost;       /* of its crew's hours, no less */
    uint64_t crews;    /* those that may do it, a bit each; 0: nobody's hours, or too many */
};
/* One for each group; all false where a group waits for itself. */
bool bounds_find(struct solver *s, struct bound *bounds, struct fault *f);

/* schedule_goals.c: the days of schedule_goal. */
bool goals_find(struct solver *s, struct fault *f);

/* schedule_held.c: what holds each placed job back. */
bool held_find(struct solver *s, struct fault *f);

/* schedule_score.c: how good the schedule at hand is; of two, the one that is lower in the
 * first thing in which they differ. */
/* Sums of doubles that differ by less than this, or by this part, are alike. */
#define SCORE_ALIKE 1e-7
enum {
    SCORE_UNPLACED, /* acts, and nothing stands in for them */
    SCORE_REPLACED, /* acts whose stand-in is placed, or whose crew misses their date */
    SCORE_PAUSED,   /* acts that stop half-way, until another season */
    SCORE_FIRST,    /* days until acts marked first are finished, added up */
    SCORE_COST,
    SCORE_LATE,     /* seasons that acts start later than they could */
    SCORE_UNEVEN,   /* squares of how full the weeks of crews are */
    SCORE_FINISH,   /* days until all are finished, added up */
    SCORES
};
struct score {
    double of[SCORES];
};
/* Is one of its jobs marked first? */
bool group_is_first(const struct solver *s, const struct group *g);
struct score score_of(const struct solver *s, const struct bound *bounds);
/* What no schedule can beat; UNEVEN and FINISH are 0. */
struct score score_bound(const struct solver *s, const struct bound *bounds);
/* Below zero when a is better, 0 when they are alike. */
int score_compare(const struct score *a, const struct score *b);

/* schedule_search.c: tries orders and crews and leaves the best placed. */
bool solver_search(struct solver *s, struct fault *f);

/* Sums of hours are doubles: less than this is no time at all. */
#define FIT_NO_TIME 1e-9

/* schedule_fit.c: the earliest place on the days at hand. */
/* Does its crew do nothing else on its days? */
bool group_takes_days(const struct group *g);
/* More hours than a day has: what is booked for a day that is taken whole. */
#define FIT_WHOLE_DAY 1000.0
bool fit_group(struct solver *s, const struct wish *w, const struct dayset *open,
               struct trial *out);
/* The first day on which a group could start and the last of it when it finishes soonest,
 * as hours are booked now, pausing no longer than `pause`; false when it cannot be done. */
bool fit_soonest(struct solver *s, const struct wish *w, const struct dayset *open,
                 const size_t *crews, size_t crew_count, int pause, int *start,
                 int *finish);
void fit_fixed(struct solver *s, struct group *g, struct trial *out);

/* schedule_result.c: what is told of each job. */
bool solver_tell(struct solver *s, struct fault *f);
void job_told_clear(struct job_told *told);

enum other_is { OTHER_UNPLACED, OTHER_NOT_NEEDED, OTHER_STOOD_IN_FOR };
/* schedule_reason.c. They fill why and reason of every job of the group. */
/* "12 days", "3 weeks", "4.4 years": whole weeks as such, years from two on, cut to tenths. */
void span_words(int days, struct buf *out);
bool reason_set(struct solver *s, size_t job, enum schedule_why why, struct buf *words);
bool reason_no_crew(struct solver *s, const struct group *g);
bool reason_lag(struct solver *s, const struct wish *w, int first);
bool reason_unfit(struct solver *s, const struct wish *w);
bool reason_other(struct solver *s, const struct group *g, size_t other,
                  enum other_is is);
/* schedule_no_crew.c: words on why no crew can do it. */
void reason_no_crew_words(const struct solver *s, const struct group *g, struct buf *out);
/* schedule_clash.c: adds to the reasons what cannot be kept together. */
bool clashes_find(struct solver *s, struct fault *f);
/* schedule_windows.c: words on which windows never meet. */
void window_words(const struct schedule_job *j, struct buf *out);
void notice_words(const struct schedule_notice *n, struct buf *out);
void condition_words(const struct schedule_condition *c, struct buf *out);
bool reason_windows_words(struct solver *s, const struct group *g, struct buf *out);
/* schedule_fixed.c: what stands against the date that the plan states. */
bool fixed_tell(struct solver *s, size_t job);

#endif
