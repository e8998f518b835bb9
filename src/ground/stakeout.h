/* stakeout.h: flags in a short walking order, and how to get from each to the next with a
 * compass and by pacing. Flags of one run (a trail, an edge, the corners of a clump) are
 * walked one after the other, from either end: whoever marks a line walks along it, and
 * does not go to and fro between the two banks of a creek because that is shorter.
 *
 *     struct stakeout_ask ask = { .flags = all.list, .count = all.count,
 *                                 .start = &gate, .declination = -3.5, .pace_ft = 2.6 };
 *     struct stakeout out;
 *     if (stakeout_plan(&ask, &out, f))
 *         ... ask.flags[out.stakes[0].flag].name, out.stakes[0].magnetic
 *     stakeout_free(&out);
 *
 * The order: from the start (or, without one, from wherever is best) always to the
 * nearest run not yet walked, a flag that is of none being one; then, as long as the way
 * gets shorter, stretches of it are walked the other way round (2-opt: Croes 1958) and
 * one to three runs are moved elsewhere (Or 1976; both from memory). The result is not
 * always the shortest such way, but no such change makes it shorter: of flags that are
 * of no run 0.1 percent longer than the shortest in the mean and 10 at worst (600 random
 * cases of 2 to 9 flags). Straight lines are walked: what
 * lies between the flags, water above all, is for whoever walks to see.
 *
 * Cost: each round looks at every pair of runs, and rounds grow slowly with their
 * number: 500 flags of no run take some 0.05 s, 2,000, the most, about a second. Deterministic: of
 * changes alike the first in the order of the flags is taken. */
#ifndef SPINNEY_GROUND_STAKEOUT_H
#define SPINNEY_GROUND_STAKEOUT_H

#include <stdbool.h>
#include <stddef.h>

#include "ground/flags.h"

enum { STAKEOUT_FLAGS_MOST = 2000 };

struct stakeout_ask {
    const struct flag *flags;
    size_t count;
    const struct point *start; /* NULL: wherever is best */
    bool returns;              /* the way back to the start counts too; needs one */
    double declination;        /* degrees, east positive (bearing.h) */
    double pace_ft;            /* of the walker; 0: not known */
};

struct stake {
    size_t flag;              /* index into the flags; its number is its place here + 1 */
    bool first;               /* without a start nothing leads to the first one */
    double azimuth, magnetic; /* from the one before, degrees; NAN when first */
    double distance_ft;       /* 0 when first */
    double paces;             /* NAN when not known or first */
};

struct stakeout {
    struct stake *stakes;
    size_t count;
    double length_ft; /* of the whole way; with the way back when asked for */
};

/* Fault ids: stakeout-many, stakeout-pace, stakeout-start. */
bool stakeout_plan(const struct stakeout_ask *ask, struct stakeout *out, struct fault *f);
void stakeout_free(struct stakeout *s);

#endif
