/* risk_parts.h: what plan_risk is made of, for the modules of risk*.c only.
 *
 *     struct risk r = { .plan = plan, .task = task, .schedule = schedule };
 *     if (!risk_high(&r, f) || !risk_draw(&r, f)) ...;
 *     if (!schedule_again(again, risk_row(&r, k), f)) ...; */
#ifndef SPINNEY_PLAN_RISK_PARTS_H
#define SPINNEY_PLAN_RISK_PARTS_H

#include "plan/plan.h"
#include "plan/risk.h"
#include "work/schedule_again.h"

/* Draws in which an act is needed, which what stands in for another may not be, and those
 * of them in which it keeps its season. */
struct risk_count {
    size_t needed, kept;
};

struct risk {
    struct plan *plan;
    const struct schedule_task *task;
    const struct schedule *schedule;
    struct schedule_again *again; /* of the task itself */
    double *likely, *high;        /* hours by act */
    double *drawn;      /* `draws` rows of hours by act; NULL: they were not needed */
    double per_hour;    /* base units in an hour */
    struct risk_count *counts; /* by act: over all draws */
    struct risk_count *tried;  /* over those that help is tried with */
    size_t *uncertain;  /* acts whose hours are */
    size_t uncertain_count, draws;
    size_t pick[RISK_DRAWS]; /* which of the draws they are, little work first */
    bool ground; /* some placed act waits for ground that is not there every week */
};

/* risk_hours.c: which hours are uncertain; their high ends, likely where they are not. */
bool risk_high(struct risk *r, struct fault *f);
/* Rows of drawn hours. */
bool risk_draw(struct risk *r, struct fault *f);
const double *risk_row(const struct risk *r, size_t draw);

/* risk.c: makes the schedule again as it is planned, to be drawn from then on. */
bool risk_settle(const struct risk *r, struct schedule_again *again, struct fault *f);
/* Makes the schedule again with a draw of hours and of the ground. */
bool risk_again(const struct risk *r, struct schedule_again *again, size_t draw,
                struct fault *f);
/* Is it one of the RISK_TRIED draws that help is tried with? */
bool risk_is_tried(const struct risk *r, size_t draw);
/* Is the act finished in the season that it is planned for? */
bool risk_keeps(const struct risk *r, const struct schedule_again *again, size_t act);
/* The share of draws, 1 where it was needed in none. */
double risk_share(struct risk_count count);
/* Has it a season to keep? Not on a stated date that is closed. */
bool risk_has_chance(const struct risk *r, size_t act);

/* risk_helps.c: what would help acts whose chance is low. */
bool risk_helps(struct risk *r, struct fault *f);

#endif
