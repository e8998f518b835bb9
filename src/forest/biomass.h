/* biomass.h: dry weight of a tree and of its parts, by national equations: Jenkins,
 * Chojnacky, Heath and Birdsey 2003, For. Sci. 49:12-35.
 *
 *     double kg = biomass_dry_kg(&aspen, 10);                          // 247 kg
 *     double crown = kg * biomass_part(BIOMASS_CROWN, false, 10);
 *
 * Above ground: exp(b0 + b1 ln D), D in cm (table 4, seen in copies). Parts of it:
 * exp(a + b / D) by hardwood and softwood (table 6, the table's number from memory; seen in
 * one copy). The stem's wood and bark are those from a 1-ft stump to a 4-in top; branches
 * are what remains (both from memory), the tip of the stem among them. The crown is branches
 * and leaves. Roots are over and above. Trees of 1 in and more: least diameter from memory. */
#ifndef SPINNEY_FOREST_BIOMASS_H
#define SPINNEY_FOREST_BIOMASS_H

#include <stdbool.h>
#include <stddef.h>

#define BIOMASS_SOURCE                                                                   \
    "Jenkins, Chojnacky, Heath and Birdsey 2003, For. Sci. 49:12-35"
#define BIOMASS_LEAST_IN 1.0
#define BIOMASS_POUNDS_PER_KG (1 / 0.45359237)

enum biomass_part {
    BIOMASS_ALL, /* above ground */
    BIOMASS_FOLIAGE,
    BIOMASS_WOOD, /* of the stem */
    BIOMASS_BARK, /* of the stem */
    BIOMASS_BRANCHES,
    BIOMASS_CROWN, /* branches and foliage */
    BIOMASS_ROOTS,
    BIOMASS_PARTS
};

struct biomass_group {
    const char *name;
    double b0, b1;
    bool softwood;
};

/* The groups of table 4, by their names; NULL past the end. */
const struct biomass_group *biomass_group_at(size_t i);
/* Above ground, kg; 0 under BIOMASS_LEAST_IN. */
double biomass_dry_kg(double b0, double b1, double diameter_in);
/* A part's share of the weight above ground (roots: beside it). */
double biomass_part(enum biomass_part part, bool softwood, double diameter_in);
/* "above ground", "foliage", "wood", ...; NULL past the end. */
const char *biomass_part_word(size_t part);

#endif
