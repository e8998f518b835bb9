/* clean.h: mends a shape that comes from outside, says what was done and how much ground
 * it moved, or refuses when that is too much.
 *
 *     struct clean_ask ask = clean_ask_plain("Bench aspen");
 *     struct clean_done done;
 *     if (!clean_shape(&shape, &ask, &done, f)) ...
 *     done.words    // "1 spike of 420 ft left out, a crossing undone; 0.02 ac (0.3 percent) moved"
 *
 * In turn: doubles and spikes left out (tidy.h); of areas, overlaps of their own parts
 * counted once and crossings undone (GEOS's structure method), slivers and pinholes left
 * out: parts below a ten-thousandth of the whole, or narrower than half a foot on the
 * whole (twice the area over the rim). What moved is the spikes' area and the difference
 * of the area as drawn (by coordinates, so a figure of eight counts its loops against one
 * another) from what came out. Cost: n log n.
 * Faults: shape-broken (with its place), shape-empty, shape-open, shape-failed. */
#ifndef SPINNEY_GROUND_CLEAN_H
#define SPINNEY_GROUND_CLEAN_H

#include <stdbool.h>
#include <stddef.h>

#include "ground/tidy.h"

struct fault;
struct frame;
struct shape;

/* ft: a narrower gap is the error of a phone, closed without a warning; common practice, no
 * source. */
#define CLEAN_GAP_SAID 15

struct clean_ask {
    const char *name;          /* as messages say it */
    double most_moved;         /* share of the area that may move: 0.02 by itself */
    const struct frame *frame; /* for places in messages; NULL for none */
};

struct clean_done {
    struct tidied tidied;
    bool crossed;      /* it crossed itself, or parts of it overlapped */
    size_t slivers;    /* parts and pinholes left out */
    double gap;        /* ft: the widest gap closed, here or by whoever read it */
    double moved;      /* ft2 */
    double share;      /* of the area that came out */
    char words[240];   /* "" when nothing was to be done */
};

struct clean_ask clean_ask_plain(const char *name);
/* Makes an area of a line that was walked round it: the gap between its two ends is closed
 * by a straight line when it is at most 50 ft or a twentieth of the rim (common practice,
 * no source). Each part a ring. Before clean_shape, with the same `done`, which starts as
 * zero. */
bool clean_close(struct shape *s, const struct clean_ask *ask, struct clean_done *done,
                 struct fault *f);
/* In place; on failure the shape is as it was. `done` starts as zero. Areas come out as
 * overlay.h gives them: each ring, which winds to the left, before its own holes. */
bool clean_shape(struct shape *s, const struct clean_ask *ask, struct clean_done *done,
                 struct fault *f);

#endif
