/* estimate_inner.h: what is asked of an inventory, between estimate.c, which puts the
 * question, and estimate_errors.c, which says how far the answer may be off.
 *
 *     struct asked a = { .inv = inv, .kind = ASKED_TOTAL, .each = one };
 *     out->value = ...;
 *     estimate_errors(&a, out, f);
 */
#ifndef SPINNEY_FOREST_ESTIMATE_INNER_H
#define SPINNEY_FOREST_ESTIMATE_INNER_H

#include "forest/estimate.h"

enum asked_kind { ASKED_TOTAL, ASKED_SHARE, ASKED_MEAN };

/* So much for each tree of a cell, plus what was counted out and is certain. Of a ratio
 * (shares and means) `each` says how it moves: its own total is none. */
struct asked {
    const struct inventory *inv;
    enum asked_kind kind;
    double *each;
    double certain;
    double by_diameter; /* with which power of the diameters judged by eye it goes */
};

/* Fills all but `value`, which is there. False only when out of memory. */
bool estimate_errors(const struct asked *a, struct estimate *e, struct fault *f);
/* The same for a tally from one number a plot, which may be overwritten. */
bool estimate_errors_of_plots(const struct asked *a, double *plots, struct estimate *e,
                              struct fault *f);

#endif
