/* eye.h: a stand judged by eye: as good a stand as a tally, with wider ranges.
 *
 *     struct eye_estimate e = { .basis = INVENTORY_EYE, .judged = JUDGED_BASAL_AREA,
 *                               .low = 80, .likely = 100, .high = 130,   // ft2/ac
 *                               .least_in = 4, .most_in = 8,
 *                               .shares = shares, .share_count = 2 };
 *     struct inventory *inv = eye_inventory(&e, &rules, species, "North corner", at, f);
 *
 * "Sixty percent aspen, four to eight inches, crowded" is spread over inch classes: the
 * share of each species in basal area lies over its diameters like a gable, none at the
 * two ends and most in the middle (common practice, no source). Where stems were judged
 * in place of basal area, the shares and the gable are of stems. */
#ifndef SPINNEY_FOREST_EYE_H
#define SPINNEY_FOREST_EYE_H

#include "forest/inventory.h"

enum { EYE_SHARES_MOST = 40 };

struct eye_share {
    size_t species;
    double percent;
    double least_in, most_in; /* both 0: those of the stand */
    struct span at;           /* for faults */
};

struct eye_estimate {
    enum inventory_basis basis; /* INVENTORY_EYE or INVENTORY_GUESS */
    enum inventory_judged judged;
    double low, likely, high; /* ft2/ac or trees/ac; low == high when only one was said */
    double least_in, most_in;
    const struct eye_share *shares; /* add up to 100 percent */
    size_t share_count;
    struct span at; /* for faults of the whole */
};

/* How far an eye is off where the consultant did not say: 10th and 90th percentiles. The
 * values are of the layers (stdlib/estimates.lua). */
struct eye_rules {
    double density_percent; /* of basal area or stems, when one number was said */
    double share_points;    /* of a share of half; less towards none and all */
    double diameter_percent;
    double not_walked_times; /* all of these, where nobody walked */
};

/* Faults: eye-density, eye-diameter, eye-share, eye-shares, memory. */
struct inventory *eye_inventory(const struct eye_estimate *e,
                                const struct eye_rules *rules,
                                const struct species_table *species, const char *stand,
                                struct span at, struct fault *f);

#endif
