/* plan.h: what the evaluation of a script has built: stands, acts with their quantities,
 * crews, findings. Filled by one pass, in order; nothing is ever taken out again.
 *
 *     struct plan *plan = plan_new(graph);
 *     uint32_t stand = plan_add_stand(plan, "Bench aspen", span);
 *     uint32_t act = plan_add_act(plan, "bench-aspen/cut", "cut", stand, span);
 *     plan_set_figure(plan, &plan->acts[act].figures, "hours", "hours of work", qty);
 *
 * Stands, acts and crews are known by their place in the plan, counted from 0; PLAN_NONE
 * is none. All text is copied. Figures hold their quantities (graph.h) until plan_free.
 * Running out of memory sets `failed`, asked once at the end of each stage. */
#ifndef SPINNEY_PLAN_PLAN_H
#define SPINNEY_PLAN_PLAN_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/source.h"
#include "calendar/window.h"
#include "quantity/graph.h"
#include "work/schedule.h"

#define PLAN_NONE UINT32_MAX
/* Days without work from which on papers tell a pause; common practice, no source. */
enum { ACT_PAUSE = 14 };

/* Named quantities in the order they were set. */
struct figure {
    char *key;   /* "hours", "cost", "trees" */
    char *words; /* "felling and cleanup", as papers say it */
    struct qty value;
};
struct figures {
    struct figure *list;
    size_t count, room;
};

/* A row of a stand's table: a species, and all of them together ("all species"). */
struct stand_row {
    char *species;
    struct figures figures;
};

struct outlook_time;
struct outlook_stage;
struct ways_told;

struct plan_stand {
    char *name;
    struct span at;
    char *walked; /* "tally of 6 plots", "estimate by eye", "not walked" */
    struct figures figures;
    struct stand_row *rows;
    size_t row_count, row_room;
    struct outlook_time *times; /* what will stand there (plan/outlook.h) */
    size_t time_count, time_room;
    struct outlook_stage *stages;
    size_t stage_count, stage_room;
    struct figures ground; /* its acres by what is done there */
    struct ways_told *ways; /* openings and trails (plan/ways_told.h); NULL for none */
};

enum finding_level { FINDING_STOP, FINDING_CAUTION, FINDING_NOTE };

/* Why certain days are closed to an act. Those of a stop are never used; those of a
 * caution or a note are kept out of while other days are left, a note's less strictly. */
struct limit {
    char *words; /* the rule's name, as messages say it */
    enum finding_level level;
    bool dated;               /* else yearly */
    struct yearly days;       /* closed days */
    struct date from, to;     /* dated: closed, both included */
    bool broken;              /* result: the act is worked at on a day it closes */
};

struct act_notice {
    char *name, *to;
    int lead_days;
    int expires_days; /* 0: does not expire; -1: with the calendar year */
    struct schedule_day_given filed; /* already */
    bool placed;
    struct date file_from, file_by;
};

/* A notice to file, between two days; again when it has expired and work goes on. */
struct act_filing {
    size_t notice; /* of the act's */
    struct date from, by;
};

/* Order: this act starts at least `least` and at most `most` (-1: any) days after `act`
 * is finished. */
struct link {
    uint32_t act;
    int least_days, most_days;
};

/* Days worked on without a long pause between them. */
struct stretch {
    struct date from, to;
    double hours; /* of the work; 0 where no hours count */
};

/* A week with work. */
struct act_week {
    struct date monday;
    double hours; /* of the act */
    double there; /* what its crew has that week, for all its acts; 0 without one */
};

/* What was tried for an act that may not be done in its season, and what it comes to. */
enum act_help_kind { HELP_SOONER, HELP_PERSON, HELP_NEXT_SEASON };
enum act_help_end {
    HELP_NOT_NEEDED, /* what it stands in for would be done */
    HELP_ENOUGH,
    HELP_SHORT,      /* its chance is still low */
    HELP_LEAVES_OUT, /* another act could not be placed */
    HELP_NOWHERE     /* it could not be placed itself, or with a long pause it had not */
};
struct act_help {
    enum act_help_kind kind;
    enum act_help_end end;
    double chance;    /* of the act, with ENOUGH and SHORT */
    struct date from; /* HELP_NEXT_SEASON: its start then */
    uint32_t crew;    /* HELP_PERSON: whose, its own or that of what it waits for */
};
/* A place before others, the next season, and a person more in each of some crews. */
enum { ACT_HELP_CREWS = 3, ACT_HELPS = 2 + ACT_HELP_CREWS };

enum act_state { ACT_UNPLACED, ACT_PLACED, ACT_DONE, ACT_NOT_NEEDED };

struct plan_act {
    char *id, *kind, *title;
    uint32_t stand;              /* PLAN_NONE for none */
    char *prescription, *chain;  /* "" when written in the plan itself */
    struct span at;
    struct figures figures;
    struct yearly open;          /* days its own `during` leaves, every year */
    struct schedule_span *openings; /* and on dates, beside these */
    size_t opening_count, opening_room;
    char *during;                /* names of its seasons, "" for none */
    bool in_one_week;            /* not spread over several */
    struct limit *limits;
    size_t limit_count, limit_room;
    struct act_notice *notices;
    size_t notice_count, notice_room;
    struct link *links;
    size_t link_count, link_room;
    uint32_t *crews;             /* crews able, in order of preference */
    size_t crew_count;
    bool nobody;                 /* needs no crew of the plan (logger, waiting, filing) */
    int span_days;               /* of an act without hours: how long it takes */
    int condition;               /* index into the plan's ground conditions, -1 for none */
    uint32_t fallback;           /* act to do instead, PLAN_NONE for none */
    uint32_t fallback_of;
    uint32_t along;              /* done with that act, same crew, same days */
    char *skill;                 /* it asks for, "" for none */
    bool first;                  /* to be done before others */
    bool has_fixed, has_earliest, has_latest;
    struct date fixed, earliest, latest;
    /* results of the schedule */
    enum act_state state;
    struct date start, finish;
    struct stretch *stretches;   /* of the work, in order; a pause is ACT_PAUSE days */
    size_t stretch_count, stretch_room;
    struct act_week *weeks;      /* of the same days */
    size_t week_count, week_room;
    struct act_filing *filings;  /* each notice's in order; its first is in `notices` */
    size_t filing_count, filing_room;
    uint32_t crew;
    char *reason;                /* why it could not be placed, "" otherwise */
    char *forbidden;             /* the limits a fixed date breaks, "" otherwise */
    char *conflict;              /* other reasons a fixed date does not work */
    char *closed_by;             /* what closes its days until held.opens */
    int weeks_left;              /* open weeks after the finish, this season; -1: no end */
    double usable;               /* expected share of usable days, 1 where no condition */
    bool carried_over;           /* paused over a closed season */
    struct date soonest;         /* it cannot be finished before (placed acts) */
    struct schedule_hold held;   /* what holds its start back; jobs are acts */
    /* of the same schedule with other hours, on other ground (plan/risk.h) */
    double chance;               /* to be done in its season, 0 to 1; -1: not known */
    bool chance_or_more;         /* it is at least that */
    int float_weeks;             /* by so many it may start later, in free hours of its
                                    crew, and neither it nor what waits for it leaves its
                                    season; -1: no end */
    bool help_sought;            /* its chance is low, and this was tried: */
    struct act_help helps[ACT_HELPS]; /* the best first */
    size_t help_count;
};

struct plan_crew {
    char *name;
    int people;
    double hours_each_week;      /* of each person */
    double rate;                 /* USD for an hour of one person, the likely value */
    bool has_from, has_to;
    struct date from, to;
    struct yearly off;
    double day_hours;            /* of each person at most; 0: as the schedule has it */
    double travel_hours;         /* person-hours of all for each day they come */
    struct schedule_hours *hours; /* other hours in parts of the year, on some dates */
    size_t hours_count, hours_room;
    struct schedule_span *days_off; /* beside `off` */
    size_t day_off_count, day_off_room;
    /* results of the schedule */
    int visits;                  /* days they come */
    double planned_hours;        /* of the acts that are theirs */
};

struct condition {
    char *name;                  /* "frozen" */
    double chance[12];           /* of a usable week, by month */
};

struct plan_waiting; /* plan/waiting.h */

struct finding {
    enum finding_level level;
    char *rule, *message, *ask, *source;
    uint32_t act, stand;         /* PLAN_NONE for none */
    bool has_date;
    struct date date;
};

struct plan {
    struct graph *graph;         /* borrowed */
    char *property, *region, *county;
    bool has_walked;
    struct date walked, starts;
    struct plan_stand *stands;
    size_t stand_count, stand_room;
    struct plan_act *acts;
    size_t act_count, act_room;
    struct plan_crew *crews;
    size_t crew_count, crew_room;
    struct condition *conditions;
    size_t condition_count, condition_room;
    struct finding *findings;
    size_t finding_count, finding_room;
    struct plan_waiting *waiting; /* what a visit may ask for */
    size_t waiting_count, waiting_room;
    struct schedule_goal goals[SCHEDULE_GOALS]; /* once there is a schedule */
    struct timing *timing;                      /* until its risk is told (timing.h) */
    struct figures totals;
    bool failed;
};

struct plan *plan_new(struct graph *g);
void plan_free(struct plan *plan);
void plan_set_text(struct plan *plan, char **where, const char *text);

uint32_t plan_add_stand(struct plan *plan, const char *name, struct span at);
struct stand_row *plan_add_row(struct plan *plan, uint32_t stand, const char *species);
uint32_t plan_add_crew(struct plan *plan, const char *name);
void plan_add_crew_hours(struct plan *plan, uint32_t crew, struct schedule_hours hours);
void plan_add_day_off(struct plan *plan, uint32_t crew, struct schedule_span days);
uint32_t plan_add_condition(struct plan *plan, const char *name, const double chance[12]);
uint32_t plan_add_act(struct plan *plan, const char *id, const char *kind, uint32_t stand,
                      struct span at);
/* Keeps a copy of the words, whatever `limit.words` is. */
void plan_add_limit(struct plan *plan, uint32_t act, const char *words,
                    struct limit limit);
/* Borrowed until the next; NULL when out of memory. */
struct act_notice *plan_add_notice(struct plan *plan, uint32_t act, const char *name,
                                   const char *to, int lead_days, int expires_days);
void plan_add_link(struct plan *plan, uint32_t act, struct link link);
void plan_add_opening(struct plan *plan, uint32_t act, struct schedule_span days);
void plan_add_able(struct plan *plan, uint32_t act, uint32_t crew);
/* A day of work: lengthens the last stretch or begins the next. */
void plan_add_day(struct plan *plan, struct plan_act *act, struct date day, double hours);
void plan_add_filing(struct plan *plan, struct plan_act *act, struct act_filing filing);
void plan_add_week(struct plan *plan, struct plan_act *act, struct act_week week);
/* Of no act, stand or day as yet. Borrowed until the next; NULL when out of memory. */
struct finding *plan_add_finding(struct plan *plan, enum finding_level level,
                                 const char *rule, const char *message);

/* Sets or replaces; takes its own hold on the quantity. */
void plan_set_figure(struct plan *plan, struct figures *figures, const char *key,
                     const char *words, struct qty value);
void plan_clear_figures(struct plan *plan, struct figures *figures);
/* QTY_NONE when there is none of that key. */
struct qty plan_figure(const struct figures *figures, const char *key);

/* Worst level among the findings: true when there is a stop. */
bool plan_has_stop(const struct plan *plan);
size_t plan_count_level(const struct plan *plan, enum finding_level level);
const char *finding_level_word(enum finding_level level);
const char *act_state_word(enum act_state state);

#endif
