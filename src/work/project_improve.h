/* project_improve.h: a good schedule within a budget of schedules, by the search over
 * lists that plans use too (search.h). For the modules of project_*.c and their tests.
 *
 *     struct project_schedule best = { .starts = room_for_count };
 *     size_t used;
 *     if (!project_improve(n, 50000, seed, bound, &best, &used, f)) ...   // memory
 *     if (best.late == 0) ... best.finish
 *
 * A list of activities stands for the schedule that serial generation makes of it and
 * double justification betters, and is put in its order then: Valls, Ballestin,
 * Quintanilla 2008, "A hybrid genetic algorithm for the resource-constrained project
 * scheduling problem", EJOR 185, from memory. It ends when the finish is `bound`, which
 * none can be before, or the budget is used up. */
#ifndef SPINNEY_WORK_PROJECT_IMPROVE_H
#define SPINNEY_WORK_PROJECT_IMPROVE_H

#include "work/project_sgs.h"

bool project_improve(const struct project_net *n, size_t budget, uint64_t seed, int bound,
                     struct project_schedule *best, size_t *used, struct fault *f);

#endif
