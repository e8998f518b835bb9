/* spread.h: how far a quantity may lie from its likely value, and what that hangs on.
 *
 *     struct spread s[2];
 *     spread_of(g, (struct qty[]){ hours, cost }, 2, s, f);
 *     // nine chances in ten above s[1].low, nine in ten below s[1].high
 *
 * The value is the arithmetic of likely leaves; low and high are the 10th and 90th
 * percentiles of SPREAD_DRAWS draws: each uncertain leaf a two-piece normal through its
 * three typed percentiles, kept on its side of zero (normal.h), sampled by a Latin
 * hypercube whose order follows from the leaf's key and a fixed seed. Drawn in blocks;
 * only what is asked for gets percentiles, by selection. Ask for all that a page prints
 * in one call: shared parts are drawn once.
 *
 * How sure the figures are: a range that was typed reads back exactly. Anything else is
 * drawn, and its low and high lie mostly within one part in a hundred of its spread (high
 * less low), and hardly ever further than one in twenty-five, from what endless draws
 * would give. */
#ifndef SPINNEY_QUANTITY_SPREAD_H
#define SPINNEY_QUANTITY_SPREAD_H

#include "quantity/graph.h"

enum { SPREAD_DRAWS = 4096, SPREAD_AHEAD = 512 };

struct spread {
    double value, low, median, high; /* base units; low or high may be endless */
    double lost;    /* share of draws that cannot be worked out (the root of less than
                       nothing, nothing by nothing) and are left out of the percentiles */
    bool uncertain; /* false: all four are the value */
    bool skewed;    /* median and value differ by more than 3 percent of the value, or of
                       the spread where that is more (a value near zero) */
};

/* QTY_NONE has a spread of nothing: certain, 0. False only when memory runs out. */
bool spread_of(struct graph *g, const struct qty *what, size_t count, struct spread *out,
               struct fault *f);
/* Draws these together and keeps the draws: what is asked of them next (spread_of,
 * spread_chance, spread_hangs_on) is the same, and fast. Until the graph collects; of more
 * than SPREAD_AHEAD the first ones. */
bool spread_ahead(struct graph *g, const struct qty *what, size_t count, struct fault *f);
/* The chance (0 to 1) that a exceeds b; draws in which they are equal (within 1 part in
 * 10^12) count half. Faults: dimension-compare, memory. */
bool spread_chance(struct graph *g, struct qty a, struct qty b, double *out,
                   struct fault *f);

/* What a quantity hangs on: uncertain leaves (by key) with their share of its variance,
 * largest first; leaves of one name and place, as the cells of one tally, are one row.
 * Shared leaves do not count by themselves but their causes, each once however many of
 * them lean on it, under the words of the first made. The share is the square of the rank
 * correlation of leaf (or cause) and result, less what chance alone would give, shared
 * out to 1. Ranks are scored as a normal would have them, so that for a sum of normals
 * the share is that of the variance itself, and no bend or long tail of the result
 * distorts it. */
struct hangs_on {
    const char *name; /* the nearest name above the leaf other than the quantity's own,
                            or its words; "" for none. Borrowed until the graph changes */
    struct origin from;
    double share;
};
/* Fills up to `most` rows (64 at the most), returns how many; 0 when certain or on failure (fault set). */
size_t spread_hangs_on(struct graph *g, struct qty a, struct hangs_on *out, size_t most,
                       struct fault *f);

#endif
