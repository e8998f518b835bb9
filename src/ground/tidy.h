/* tidy.h: what can be put right in a row of points before anything is worked out from it:
 * points said twice, and the spikes of a receiver that lost its satellites for a moment.
 *
 *     struct tidied done = { 0 };
 *     count = tidy_points(points, count, true, &done);
 *
 * A spike is a point far out to which the row goes and from which it comes straight back:
 * both legs longer than five times the middle leg of the row and than 60 ft, their other
 * ends nearer together than a third of the shorter (common practice, no source). Rows of
 * fewer than eight points were drawn by hand and have none. Cost: n log n. */
#ifndef SPINNEY_GROUND_TIDY_H
#define SPINNEY_GROUND_TIDY_H

#include <stdbool.h>
#include <stddef.h>

#include "ground/shape.h"

struct tidied {
    size_t doubles, spikes;
    double spike_area; /* ft2 that the spikes took in or left out */
    double longest;    /* ft: the longest way out to a spike */
};

/* Works in place; the new count. A ring is not closed by a repeated point: one that is
 * given counts as no double. Adds to `done`. Without memory for the middle leg, no spike
 * is looked for. */
size_t tidy_points(struct point *points, size_t count, bool ring, struct tidied *done);

#endif
