/* one_ground.h: trails that run so close that they are one way: a neck has room for one,
 * and what shuts it shuts both. The layout and the check of trails count ways by this.
 *
 *     struct one_ground g;
 *     if (!one_ground_find(lines, count, &g, f)) ...
 *     do ... count the ways over the lines with g.used[i] ...
 *     while (fewer than wanted && one_ground_next(&g));
 *     one_ground_free(&g);
 *
 * Two share ground where their brushed-out strips overlap for more than four widths in one
 * run, but for the first 15 ft at their ends, where they meet by right (common practice, no
 * source). A strip narrower than half a foot counts as half a foot wide, one without any
 * width is no strip. Of those that do, directly or by another between, one is walked: each
 * choice is tried, of the first six groups and 200 choices at the most, else the first is
 * kept.
 * Cost: n log n, and the samples (a third of a width apart) times the lines near each. */
#ifndef SPINNEY_GROUND_ONE_GROUND_H
#define SPINNEY_GROUND_ONE_GROUND_H

#include <stdbool.h>
#include <stdint.h>

#include "ground/shape.h"

struct fault;

struct one_line {
    const struct point *points;
    size_t count;
    double width; /* ft */
};

enum { ONE_GROUPS = 6 };

struct one_ground {
    size_t count;
    size_t *group; /* of each line: the first one that it shares ground with, or itself */
    uint8_t *used; /* of each line, by the choice at hand: is it walked? */
    size_t firsts[ONE_GROUPS], first_count;
    size_t choices; /* tried so far */
};

/* With the first choice: the first of each group. */
bool one_ground_find(const struct one_line *lines, size_t count, struct one_ground *g,
                     struct fault *f);
void one_ground_free(struct one_ground *g);
/* Back to the first choice. */
void one_ground_start(struct one_ground *g);
/* The next one; false after the last. */
bool one_ground_next(struct one_ground *g);

#endif
