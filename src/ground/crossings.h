/* crossings.h: does an outline cross itself so often that it is none? A scribble of a few
 * thousand corners can hold millions of crossings, and whoever mends it would never end.
 *
 *     if (crossings_exceed(&shape, 10000, &many, f) && many) ...refuse...
 *
 * Cost: n log n and a test for each two pieces that overlap from west to east, 50 million
 * at the most; an outline which takes more tests than that has not been found out. */
#ifndef SPINNEY_GROUND_CROSSINGS_H
#define SPINNEY_GROUND_CROSSINGS_H

#include <stdbool.h>
#include <stddef.h>

struct fault;
struct shape;

/* Of areas: do their rings cross themselves and each other more often than that? Pieces
 * that touch with their ends alone, as neighbours do, do not cross. */
__attribute__((warn_unused_result)) bool
crossings_exceed(const struct shape *s, size_t most, bool *answer, struct fault *f);

#endif
