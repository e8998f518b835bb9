/* outlook.h: what will stand in a stand, as the plan keeps it for data: its figures at a
 * time (now, after its first cut, at the end of growing seasons), and the stages of each
 * cut patch, in years on the calendar.
 *
 *     struct outlook_time *t = outlook_add_time(plan, stand, "year 5");
 *     if (t) t->year = 5, t->season = 2031;
 *     plan_set_figure(plan, &t->figures, "height", "height", qty);
 *     struct outlook_stage *s = outlook_add_stage(plan, stand, "bench-aspen/fell");
 *     if (s) s->years[OUTLOOK_NEXT_CUT] = 2037;
 *
 * Out of memory sets the plan's `failed`, as everywhere in it. */
#ifndef SPINNEY_PLAN_OUTLOOK_H
#define SPINNEY_PLAN_OUTLOOK_H

#include "plan/plan.h"

enum { OUTLOOK_NONE = -1 };

struct outlook_time {
    char *when;   /* "now", "after", "year 5" */
    char *use;    /* who uses it, in words; "" for nobody */
    int year;     /* growing seasons since the first cut, 0: just after; OUTLOOK_NONE */
    int season;   /* of that year, on the calendar; OUTLOOK_NONE */
    struct figures figures;
};

enum outlook_year {
    OUTLOOK_FIRST_SEASON, OUTLOOK_HIDES_LYING, OUTLOOK_HIDES_STANDING, OUTLOOK_BEST_BROWSE,
    OUTLOOK_USEFUL_UNTIL, OUTLOOK_NEXT_CUT, OUTLOOK_YEARS
};

struct outlook_stage {
    char *act; /* its id */
    int years[OUTLOOK_YEARS]; /* OUTLOOK_NONE: never, or not known */
};

/* Borrowed until the next is added; NULL when out of memory. */
struct outlook_time *outlook_add_time(struct plan *plan, uint32_t stand, const char *when);
struct outlook_stage *outlook_add_stage(struct plan *plan, uint32_t stand,
                                        const char *act);
void outlook_clear(struct plan *plan, struct plan_stand *stand);
/* "first_season", "hides_lying" ... */
const char *outlook_year_word(enum outlook_year year);

#endif
