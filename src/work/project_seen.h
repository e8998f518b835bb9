/* project_seen.h: what branch and bound has been through: sets of placed activities with
 * their starts, of which nothing better can come. For project_exact.c.
 *
 *     struct project_seen *m = project_seen_new(n, f);
 *     if (seen_better(m, starts, t)) return;      // been there, no later
 *     ...
 *     seen_add(m, starts, t);                     // when all of it has been tried
 *     project_seen_free(m);
 *
 * A table of fixed size: a new entry takes the place of an old one. */
#ifndef SPINNEY_WORK_PROJECT_SEEN_H
#define SPINNEY_WORK_PROJECT_SEEN_H

#include "work/project_inner.h"

struct project_seen;

struct project_seen *project_seen_new(const struct project_net *n, struct fault *f);
void project_seen_free(struct project_seen *m);
/* Whether the same activities were placed with the next start no later than `t`, each
 * no later than now or done with before `t`. Starts are NOWHERE for those not placed. */
bool seen_better(const struct project_seen *m, const int *starts, int t);
void seen_add(struct project_seen *m, const int *starts, int t);

#endif
