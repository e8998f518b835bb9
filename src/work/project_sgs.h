/* project_sgs.h: schedules built from lists and priorities, and justified: for the
 * modules of project_*.c and their tests.
 *
 *     struct project_sgs *s = project_sgs_new(n, 50000, f);
 *     struct project_schedule a = { .starts = room_for_count };
 *     if (sgs_serial(s, list, &a) && sgs_justify(s, &a)) ...   // false: none left
 *     project_sgs_free(s);
 *
 * Serial and parallel schedule generation: Kolisch 1996, "Serial and parallel
 * resource-constrained project scheduling methods revisited", European Journal of
 * Operational Research 90. Double justification, also called forward-backward
 * improvement: Valls, Ballestin, Quintanilla 2005, "Justification and RCPSP", EJOR 165.
 * Moving what a most lag hangs on to the right and building anew: after Neumann,
 * Zimmermann 1999, "Methods for resource-constrained project scheduling with regular and
 * nonregular objective functions and schedule-dependent time windows". Worst case slack:
 * Kolisch 1996, "Efficient priority rules for the resource-constrained project scheduling
 * problem", Journal of Operations Management 14. All from memory.
 *
 * Every schedule built, forward or backward, or built anew for a most lag, counts as one.
 * A schedule keeps resources, least lags and earliest starts; what it is past latest
 * starts and most lags is summed up in `late`, 0 when it keeps them all. */
#ifndef SPINNEY_WORK_PROJECT_SGS_H
#define SPINNEY_WORK_PROJECT_SGS_H

#include "work/project_inner.h"

struct project_schedule {
    int *starts;
    int finish;
    long long late; /* the horizon for each that is placed nowhere */
};

struct project_sgs {
    const struct project_net *net;
    struct project_board *board;
    size_t left;       /* schedules that may be made yet */
    int *from, *floor; /* earliest starts now; raised for most lags */
    uint32_t *list;    /* scratch of count */
    uint32_t *bucket;  /* scratch of horizon + 2 */
};

struct project_sgs *project_sgs_new(const struct project_net *n, size_t left,
                                    struct fault *f);
void project_sgs_free(struct project_sgs *s);

/* Each activity of `list` in turn at its first start with room. `list` keeps the order of
 * arcs that go forward. False without touching `out` when none is left. */
bool sgs_serial(struct project_sgs *s, const uint32_t *list,
                struct project_schedule *out);
/* At each time, of those that can start those first in `order`. */
bool sgs_parallel(struct project_sgs *s, const uint32_t *order,
                  struct project_schedule *out);
/* The same by the worst case slack of those that can start, found anew at each start. */
bool sgs_worst_case(struct project_sgs *s, struct project_schedule *out);
/* To the right by falling finish, then to the left by rising start: never worse. Takes
 * two. Only for schedules that are not late. */
bool sgs_justify(struct project_sgs *s, struct project_schedule *a);
/* The list of a schedule: by start, ties by the order of arcs. */
void sgs_list(struct project_sgs *s, const struct project_schedule *a, uint32_t *list);

#endif
