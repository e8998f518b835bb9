#include "forest/biomass.h"

#include <math.h>

static const struct biomass_group groups[] = {
    { "aspen, alder, cottonwood, willow", -2.2094, 2.3867, false },
    { "soft maple, birch", -1.9123, 2.3651, false },
    { "mixed hardwood", -2.4800, 2.4835, false },
    { "hard maple, oak, hickory, beech", -2.0127, 2.4342, false },
    { "cedar, larch", -2.0336, 2.2592, true },
    { "true fir, hemlock", -2.5384, 2.4814, true },
    { "pine", -2.5356, 2.4349, true },
    { "spruce", -2.0773, 2.3323, true },
};

const struct biomass_group *biomass_group_at(size_t i)
{
    return i < sizeof groups / sizeof groups[0] ? &groups[i] : NULL;
}

double biomass_dry_kg(double b0, double b1, double diameter_in)
{
    if (diameter_in < BIOMASS_LEAST_IN)
        return 0;
    return exp(b0 + b1 * log(2.54 * diameter_in));
}

/* a and b by part, hardwood then softwood. */
static double ratio(const double ab[2][2], bool softwood, double diameter_in)
{
    const double *k = ab[softwood ? 1 : 0];
    return exp(k[0] + k[1] / (2.54 * diameter_in));
}

double biomass_part(enum biomass_part part, bool softwood, double d)
{
    static const double foliage[2][2] = { { -4.0813, 5.8816 }, { -2.9584, 4.4766 } },
                        bark[2][2] = { { -2.0129, -1.6805 }, { -2.0980, -1.1432 } },
                        wood[2][2] = { { -0.3065, -5.4240 }, { -0.3737, -1.8055 } },
                        roots[2][2] = { { -1.6911, 0.8160 }, { -1.5619, 0.6614 } };
    double stem = ratio(bark, softwood, d) + ratio(wood, softwood, d);
    double leaves = ratio(foliage, softwood, d);
    switch (part) {
    case BIOMASS_ALL: return 1;
    case BIOMASS_FOLIAGE: return leaves;
    case BIOMASS_WOOD: return ratio(wood, softwood, d);
    case BIOMASS_BARK: return ratio(bark, softwood, d);
    case BIOMASS_BRANCHES: return 1 - stem - leaves;
    case BIOMASS_CROWN: return 1 - stem;
    case BIOMASS_ROOTS: return ratio(roots, softwood, d);
    default: return NAN;
    }
}

const char *biomass_part_word(size_t part)
{
    static const char *const words[BIOMASS_PARTS] = {
        [BIOMASS_ALL] = "above ground", [BIOMASS_FOLIAGE] = "foliage",
        [BIOMASS_WOOD] = "wood",        [BIOMASS_BARK] = "bark",
        [BIOMASS_BRANCHES] = "branches", [BIOMASS_CROWN] = "crown",
        [BIOMASS_ROOTS] = "roots",
    };
    return part < BIOMASS_PARTS ? words[part] : NULL;
}
