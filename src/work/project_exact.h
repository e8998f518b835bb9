/* project_exact.h: branch and bound: a schedule that finishes before a given one, or the
 * proof that there is none. For the modules of project_*.c and their tests.
 *
 *     struct project_schedule best = { .starts = starts, .finish = finish };
 *     struct project_exact_result r;
 *     if (!project_exact(n, steps, bound, &best, &r, f)) ...         // memory
 *     if (r.complete) ... best is the best there is, or none is there
 *
 * Time goes forward. At each time those that can start are started or put off, one after
 * the other, those with most to follow first; schedules in which something could start a
 * unit earlier are left out. A node is given up when its windows (project_bound.h)
 * contradict a finish before the best; or when the same activities have been placed
 * before, and none that still matters later: the cutset rule of Demeulemeester, Herroelen
 * 1992, "A branch-and-bound procedure for the multiple resource-constrained project
 * scheduling problem", Management Science 38. With most lags no schedule is left out but
 * by windows, and time goes forward unit by unit. Both from memory. */
#ifndef SPINNEY_WORK_PROJECT_EXACT_H
#define SPINNEY_WORK_PROJECT_EXACT_H

#include "work/project_sgs.h"

enum { PROJECT_EXACT_COUNT = 200, PROJECT_EXACT_TIME = 4000 };

struct project_exact_result {
    bool complete; /* nothing left to try: none finishes before `best` */
    size_t steps;  /* used */
};

/* `best` comes in with the schedule to beat, or late and then any is better. Projects of
 * more than PROJECT_EXACT_COUNT activities, or longer than PROJECT_EXACT_TIME, are left
 * alone: not complete. Ends, complete, when best finishes at `bound`. */
bool project_exact(const struct project_net *n, size_t steps, int bound,
                   struct project_schedule *best, struct project_exact_result *out,
                   struct fault *f);

#endif
