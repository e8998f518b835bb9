/* select.h: the 10th, 50th and 90th percentiles of draws, by selection, not by sorting.
 *
 *     struct percentiles p = select_percentiles(draws, 4096);
 *     // p.low, p.median, p.high
 *
 * The percentile p of n draws in order x[0] .. x[n-1] is read at position n p - 1/2, in a
 * straight line between neighbours (held to the ends): draw i stands for the middle of
 * its n-th part, which is how the draws are laid (draws.h), so that a typed range reads
 * back as typed. Draws that are no number have no place in the order: they are left out
 * and counted in `lost`. Endless ones count as the largest or smallest. */
#ifndef SPINNEY_QUANTITY_SELECT_H
#define SPINNEY_QUANTITY_SELECT_H

#include <stddef.h>

enum { SELECT_MOST = 4096 }; /* draws at a time */

struct percentiles {
    double low, median, high;
    size_t lost;
};

/* `count` is from 1 to SELECT_MOST. With every draw lost, all three are NAN. */
struct percentiles select_percentiles(const double *draws, size_t count);

#endif
