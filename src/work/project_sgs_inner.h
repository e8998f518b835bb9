/* project_sgs_inner.h: what building in series and in parallel share: for
 * project_sgs.c, project_parallel.c and project_justify.c only.
 *
 *     sgs_begin(s, out);                                   // one less is left
 *     sgs_place(s, i, start, sgs_latest(n, out->starts, i), out);
 *     sgs_look(n, out);
 */
#ifndef SPINNEY_WORK_PROJECT_SGS_INNER_H
#define SPINNEY_WORK_PROJECT_SGS_INNER_H

#include "work/project_sgs.h"

/* Nothing placed; s->from are the earliest starts. */
void sgs_begin(struct project_sgs *s, struct project_schedule *out);
/* The latest start that those placed allow. */
int sgs_latest(const struct project_net *n, const int *starts, size_t i);
/* At `start`, which has room, or NOWHERE; raises s->from of what waits for it. */
void sgs_place(struct project_sgs *s, size_t i, int start, int latest,
               struct project_schedule *out);
/* Sanitized builds check every schedule that is not late. */
void sgs_look(const struct project_net *n, const struct project_schedule *a);

#endif
