/* search_inner.h: what the modules of search*.c share, for them only.
 *
 *     search_child_change(s);            // or search_child_cross(s, a, b)
 *     if (!search_make(s, &better)) ...  // a child into a schedule
 */
#ifndef SPINNEY_WORK_SEARCH_INNER_H
#define SPINNEY_WORK_SEARCH_INNER_H

#include "work/search.h"

struct search {
    const struct search_problem *p;
    size_t left;   /* schedules that may be made yet */
    size_t spared; /* that could have been, but for the bound */
    struct search_pick *parents, child, *best;
    size_t wanted, count; /* parents */
    int *value, *lean;    /* by thing: of the rule at hand, of the best of them */
    bool *taken;          /* scratch, by thing */
    uint64_t chance;
    bool any, all; /* made so far */
    bool past;     /* the bound is reached */
    struct fault *f;
};

/* search.c */
bool search_is_done(const struct search *s);
void search_copy(const struct search *s, struct search_pick *to,
                 const struct search_pick *from);
/* Makes the schedule of the child, which is `better` when it is the best so far. */
bool search_make(struct search *s, bool *better);

/* search_child.c. a's list but for a stretch of b's, and a few changes. */
void search_child_cross(struct search *s, const struct search_pick *a,
                        const struct search_pick *b);
/* A few changes of the child. */
void search_child_change(struct search *s);

/* search_all.c: where there are no more lists and choices than schedules that may be
 * made, each taking `each`, makes them all. */
bool search_try_all(struct search *s, size_t each);

#endif
