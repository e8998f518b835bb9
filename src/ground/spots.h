/* spots.h: where the openings of a cover lie: spread evenly, but not in rows.
 *
 *     struct spots_ask ask = { .room = &field, .cover = mask, .radius = 26, .apart = 90,
 *                              .count = 60, .seed = 1 };
 *     struct point centers[60];
 *     long found = spots_place(&ask, centers, f);     // fewer than 60: so many fit
 *
 * Every centre has `radius` of room, and two centres are `apart` at the least. The first
 * are darts, each the best of a few (Mitchell 1991, "Spectrally optimal sampling for
 * distribution ray tracing", SIGGRAPH); then each moves to the middle of the ground that
 * is nearest to it, again and again (Lloyd 1982, IEEE Trans. Inform. Theory 28), and a
 * little aside by chance. When the darts leave too few that are far enough apart, the
 * ground is packed from one side. O(turns x cells + count^2). */
#ifndef SPINNEY_GROUND_SPOTS_H
#define SPINNEY_GROUND_SPOTS_H

#include "ground/field.h"

struct spots_ask {
    const struct field *room;
    const uint8_t *cover; /* of the field's lattice: what the openings shall lie among */
    double radius, apart; /* ft */
    size_t count;
    bool fill;            /* as many as fit, up to count, rather than spread wide */
    uint64_t seed;
};

/* How many were placed; negative when out of memory. */
long spots_place(const struct spots_ask *ask, struct point *centers, struct fault *f);

#endif
