/* schedule_push.h: what must follow soon and cannot yet pushes what it follows later; where
 * that is in vain all goes back to where it lay. For the modules of schedule_*.c only.
 *
 *     struct allowance may = allowance_of(s);
 *     size_t back = k;
 *     if (push_before(s, g, &w, first, &may, &back) == PUSH) ... take up from `back` on
 */
#ifndef SPINNEY_WORK_SCHEDULE_PUSH_H
#define SPINNEY_WORK_SCHEDULE_PUSH_H

#include "work/schedule_parts.h"

/* What came of placing a group. OPEN: nothing settles it yet. PUSH: what it follows has to
 * go later first. */
enum outcome { OPEN, SETTLED, UNFIT, PUSH, FAILED };

/* What may be spent on pushing: all that lies between is taken up and put down again, and
 * each of these counts. Enough for any plan a person writes, but not without end; and no
 * group spends more than a part of it, so that one that pushes in vain leaves enough for
 * the others. */
struct allowance {
    size_t left, each;
};

struct allowance allowance_of(const struct solver *s);

/* The group cannot start soon enough after what it follows; `first` is when it could.
 * PUSH: `back` becomes the place of the first group that is to be placed again. UNFIT: it
 * may push no further, and the reason is told. */
enum outcome push_before(struct solver *s, struct group *g, const struct wish *w,
                         int first, struct allowance *may, size_t *back);

/* Was it in vain that the group, which does not fit, pushed others, or was pushed? Then
 * that is taken back, whoever pushed pushes no more, and all from the place `back` on is
 * to be placed again, the group too. */
bool push_was_in_vain(struct solver *s, struct group *g, size_t *back);

#endif
