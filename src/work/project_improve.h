/* project_improve.h: a good schedule within a budget of schedules: priority rules first,
 * then a genetic search over lists. For the modules of project_*.c and their tests.
 *
 *     struct project_schedule best = { .starts = room_for_count };
 *     size_t used;
 *     if (!project_improve(n, 50000, seed, bound, &best, &used, f)) ...   // memory
 *     if (best.late == 0) ... best.finish
 *
 * A list of activities stands for the schedule that serial generation makes of it and
 * double justification betters; its child takes over the order of one list but for a
 * stretch, which comes in the order of another: Hartmann 1998, "A competitive genetic
 * algorithm for resource-constrained project scheduling", Naval Research Logistics 45;
 * with justification, Valls, Ballestin, Quintanilla 2008, "A hybrid genetic algorithm for
 * the resource-constrained project scheduling problem", EJOR 185 (both from memory). A
 * child takes the place of the worst parent; when none has been better for long the
 * parents are sown anew. It ends when the finish is `bound`, which none can be before, or
 * the budget is used up. */
#ifndef SPINNEY_WORK_PROJECT_IMPROVE_H
#define SPINNEY_WORK_PROJECT_IMPROVE_H

#include "work/project_sgs.h"

bool project_improve(const struct project_net *n, size_t budget, uint64_t seed, int bound,
                     struct project_schedule *best, size_t *used, struct fault *f);

#endif
