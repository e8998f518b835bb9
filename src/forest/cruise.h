/* cruise.h: from cruise notes to what stands on an acre. Every plot is one sample of the
 * stand, whatever way it was taken; empty plots count.
 *
 *     struct inventory *inv = cruise_inventory(tally, species, "Bench aspen", at, f);
 *
 * A tree at a point stands for BAF / (0.005454154 D^2) trees per acre and for BAF ft2 of
 * basal area per acre (Grosenbaugh 1952, J. For. 50:32-37); a tree on a fixed plot for 1
 * over the plot's acres. Points and fixed plots may be mixed: each gives trees per acre,
 * and all weigh the same. No correction is made for a finite stand: plots cover little
 * of it. */
#ifndef SPINNEY_FOREST_CRUISE_H
#define SPINNEY_FOREST_CRUISE_H

#include "forest/inventory.h"
#include "forest/tally.h"

/* Trees per acre that one tree of that diameter on that plot stands for. */
double cruise_expansion(const struct tally_plot *plot, double diameter_in);
/* Horizontal feet from a tree's centre within which a prism takes it in, for each inch of
 * its diameter: 33 sqrt(10) / (12 sqrt(BAF)). */
double cruise_radius_factor(double baf);
/* Radius in feet of a round plot of that many acres. */
double cruise_plot_radius(double acres);

/* NULL when out of memory. */
struct inventory *cruise_inventory(const struct tally *t,
                                   const struct species_table *species, const char *stand,
                                   struct span at, struct fault *f);

#endif
