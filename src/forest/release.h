/* release.h: crown-touching release: which of the trees around chosen crop trees are
 * felled, so that their crowns stand free.
 *
 *     struct release r = { .sides = 4, .gap_ft = 5, .evenness = 0.5, .rule = &hardwoods,
 *                          .crown_start = 3, .crown_slope = 1.2 };
 *     struct stock *felled = release_take(rest, crop, aside, &r, species, f);
 *
 * A tree is felled for a crop tree when its crown reaches within the gap of the crop
 * tree's crown: when its stem stands nearer than both crown radii and the gap. Trees under
 * half the crop tree's diameter stand below its crown and do not count (common practice,
 * no source). Where the stems are is not known, so the felled are an expectation:
 *
 *   trees at random (evenness 0): each ground around a crop tree holds as many as its area
 *   says, and the circles of crop trees overlap by chance: a tree is felled with the chance
 *   1 - exp(-crop trees x circle x sides / 4).
 *   trees evenly spaced (evenness 1): of the trees that stand in the circle one is the crop
 *   tree itself, and the circles of crop trees do not overlap.
 *   in between: in proportion. A grown wood lies between the two.
 *
 * Chances of points on a plane; the ring of neighbours in words: common practice, no
 * source. Crown width is crown_start + crown_slope x diameter of the species table; where
 * it has none, what the caller says is usual. Where such crowns would cover more than all
 * of the ground, they are made smaller until they cover it once: crowns of a closed wood
 * touch, they do not lie over one another (common practice, no source). */
#ifndef SPINNEY_FOREST_RELEASE_H
#define SPINNEY_FOREST_RELEASE_H

#include "forest/thin.h"

struct species_table;

struct release {
    double sides;            /* 1 to 4: of four sides, how many are freed */
    double gap_ft;           /* free sky wanted around the crown; 0: what touches */
    double evenness;         /* 0: trees at random; 1: evenly spaced */
    const struct thin *rule; /* which trees may be felled; only its choice is looked at */
    double crown_start, crown_slope; /* ft, and ft/in: of species without their own */
};

/* Width in ft of a crown, before those of a closed wood are made smaller. */
double release_crown_width(const struct release *r, const struct species *species,
                           double diameter_in);

/* Takes out of `rest` what is felled for `crop`; `aside` (crop trees among it) is what else
 * stands. The taken are the caller's; NULL when out of memory. */
struct stock *release_take(struct stock *rest, const struct stock *crop,
                           const struct stock *aside, const struct release *r,
                           const struct species_table *species, struct fault *f);

#endif
