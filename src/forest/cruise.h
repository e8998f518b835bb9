/* cruise.h: from cruise notes to what stands on an acre. Every plot is one sample of the
 * stand, whatever way it was taken; empty plots count.
 *
 *     struct inventory *inv = cruise_inventory(tally, species, "Bench aspen", at, f);
 *
 * A tree at a point stands for BAF / (0.005454154 D^2) trees per acre and for BAF ft2 of
 * basal area per acre (Grosenbaugh 1952, J. For. 50:32-37); a tree on a fixed plot for 1
 * over the plot's acres. Points and fixed plots may be mixed: each gives trees per acre,
 * and all weigh the same. No correction is made for a finite stand: plots cover little
 * of it.
 *
 * On a slope of p percent all of that is times 1/cos(atan(p/100)), unless the notes say
 * that it was corrected in the field. A radius taped along the ground in every direction
 * is a circle on the slope and an ellipse on the map, smaller by the cosine (geometry).
 * The same holds for the circle about a tree within which a prism that is not tilted
 * takes it in (Bruce 1955, J. For. 53:163-167; from memory).
 *
 * At the edge of a stand the half of a plot that lies inside may be taken alone, its
 * center on the edge: each tree then counts double, in a corner's quarter four times
 * (Grosenbaugh 1958, USDA Forest Service Southern Forest Experiment Station Occasional
 * Paper 160; from memory). A borderline tree may count half, one that is seen from the
 * mirage point too twice (Schmid-Haas 1969; from memory).
 *
 * Saplings on a small plot stand for 1 over its acres, beside the large plot's trees. */
#ifndef SPINNEY_FOREST_CRUISE_H
#define SPINNEY_FOREST_CRUISE_H

#include "forest/inventory.h"
#include "forest/tally.h"

/* How much farther things lie along the ground than on the map: 1/cos of the slope. */
double cruise_slope_factor(double percent);
/* Trees per acre that one tree of that diameter on that plot stands for, slope and edge
 * counted in. */
double cruise_expansion(const struct tally_plot *plot, double diameter_in);
/* Trees per acre that an entry of the notes stands for: its count, halves and doubles,
 * the small plot of a sapling. */
double cruise_tree_expansion(const struct tally_plot *plot,
                             const struct tally_tree *tree);
/* Stems per acre that one stem on the plot's small plot for regeneration stands for. */
double cruise_stem_expansion(const struct tally_plot *plot);
/* Horizontal feet from a tree's center within which a prism takes it in, for each inch of
 * its diameter: 33 sqrt(10) / (12 sqrt(BAF)). */
double cruise_radius_factor(double baf);
/* Horizontal feet from the point within which a prism takes a tree in: to the tree's
 * center, and to its face at breast height, which is half a diameter (1/24 ft an inch)
 * nearer. Measuring to the face what was figured to the center takes in trees that are
 * out: for BAF 40 the factor is 1.375 to the center, 1.3333 to the face (K. Iles,
 * cruising newsletter). Along a slope tape that times cruise_slope_factor. */
double cruise_limit_center(double baf, double diameter_in);
double cruise_limit_face(double baf, double diameter_in);
/* Radius in feet of a round plot of that many acres. */
double cruise_plot_radius(double acres);

/* NULL when out of memory. */
struct inventory *cruise_inventory(const struct tally *t,
                                   const struct species_table *species, const char *stand,
                                   struct span at, struct fault *f);

#endif
