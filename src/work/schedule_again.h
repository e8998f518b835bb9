/* schedule_again.h: a schedule made again with other hours, or on other ground: jobs done
 * together stay so, all in the same order, each by the crew that it has (where some push
 * others later: by the one wanted, or by any before it is left out), which is what a plan
 * comes to when work takes longer than thought. `task` may differ from the schedule's in
 * days and crews, not in jobs and what they wait for; it has to outlive this. Nothing is
 * searched.
 *
 *     struct schedule_again *a = schedule_again_new(&task, s, f);
 *     for (...) { if (!schedule_again(a, hours, f)) ...; o = schedule_again_of(a, job); }
 *     schedule_again_free(a);
 *
 * Faults: memory. */
#ifndef SPINNEY_WORK_SCHEDULE_AGAIN_H
#define SPINNEY_WORK_SCHEDULE_AGAIN_H

#include "work/schedule.h"

struct schedule_again;
struct schedule_again_of {
    bool placed, carried_over;
    bool not_needed; /* what it stands in for is placed */
    bool unfit; /* its date is stated, and its ground is not fit then */
    struct date start, finish;
};

struct schedule_again *schedule_again_new(const struct schedule_task *task,
                                          const struct schedule *s, struct fault *f);
void schedule_again_free(struct schedule_again *a);
/* Takes the job, and what it waits for, before all others. */
void schedule_again_prefer(struct schedule_again *a, size_t job);
/* `hours`: person-hours by job. */
bool schedule_again(struct schedule_again *a, const double *hours, struct fault *f);
struct schedule_again_of schedule_again_of(const struct schedule_again *a, size_t job);

/* The ground of the next runs. Until it is asked for it is as planned.
 *
 * Drawn: of each condition every week (Monday to Sunday) has one number by chance, the same
 * for all jobs that wait for it, and a day of it is fit where the number lies below the
 * chance of the day's month. Weeks are independent of one another and of the hours, and so
 * are conditions (common practice, no source: a mild winter makes its weeks alike, which
 * the chances by month do not tell; so the chance that none of many weeks is fit comes out
 * too low). The numbers follow from the condition's name, the week's date and `draw` alone;
 * of SCHEDULE_GROUND_EVEN draws, from a multiple of it on, each has another such part of
 * the chance of a week.
 * A job goes on when its ground is fit again: the days between are no pause.
 *
 * Harsh: of the weeks that a job could use, one after another, only the last of so many
 * counts that the chance that all of them are unfit is 1 in 500 or less. What keeps its
 * season on harsh ground has to fear for its ground in less than 1 in 500 for each week
 * that it takes. */
enum { SCHEDULE_GROUND_EVEN = 128 };
enum schedule_ground {
    SCHEDULE_GROUND_PLANNED,
    SCHEDULE_GROUND_HARSH,
    SCHEDULE_GROUND_DRAWN /* after schedule_again_settle */
};
void schedule_again_ground(struct schedule_again *a, enum schedule_ground ground,
                           size_t draw);
/* What is placed now, on ground as planned, is the plan: where ground is drawn, a job that
 * has a stand-in keeps the season that it has now or is not done, and then what stands in
 * for it is. Weeks are drawn until two years after the last of the seasons in which jobs
 * wait for ground; later ones are fit, as planned. */
bool schedule_again_settle(struct schedule_again *a, struct fault *f);
/* By how many whole weeks each job may start later than it does now, -1 for no end, put
 * into `weeks`. It and all done along with it begin no sooner than that, by the crew they
 * have; what waits for it goes later too where it has to, by its own crew; these keep the
 * season that each has now, its latest date, and have no pause they had not. All others,
 * and dates that are stated, stay where they are and keep their hours. Ground as planned,
 * for which it has to be made last. No end: it may start two years before the end of what
 * is planned. 0 where a date is stated on which no crew can do it; -1 for jobs that are
 * not placed, or done. */
bool schedule_again_float(struct schedule_again *a, int *weeks, struct fault *f);
/* The last day of the season in which the job is finished now; past all days when that
 * season has no end. */
struct date schedule_again_season(const struct schedule_again *a, size_t job);

#endif
