/* volume.h: cords and green tons of wood in trees, by simple stated equations: a table of
 * cords by diameter, and Beers' composite equations where merchantable height is known.
 *
 *     struct qty cords = volume_cords(g, taken, &all, species, 0, NULL, f);  // cord/ac
 *     struct qty tons = volume_tons(g, cords, taken, &all, species, 0, f);      // ton/ac
 *
 * Trees under 5 in have no cords (Woodland Stewardship, Univ. Minnesota Extension 2009,
 * ch. 2: least diameter of a pulpwood tree), and brush has none. */
#ifndef SPINNEY_FOREST_VOLUME_H
#define SPINNEY_FOREST_VOLUME_H

#include "forest/estimate.h"
#include "forest/stock.h"

struct species_table;

#define VOLUME_LEAST_IN 5.0
/* Green tons in a cord of a species for which no layer says it: common practice, no
 * source; between aspen (2.4) and red oak (2.85) of Woodland Stewardship ch. 2. */
#define VOLUME_TONS_PER_CORD_USUAL 2.5

/* Cords in one tree from its diameter alone. University extension table, by inch classes
 * two and two: 5-6 in 0.03, 7-8 0.08, 9-10 0.15, 11-12 0.23, 13-14 0.33, 15-16 0.45,
 * 17-18 0.58, 19-20 0.73; above, carried on with the square of the diameter. */
double volume_cords_by_diameter(double diameter_in);

/* Beers 1964, Composite hardwood volume tables, Purdue Agric. Exp. Sta. Res. Bull. 787:
 * diameter in inches, merchantable height in feet. */
double volume_beers_cords(double diameter_in, double height_ft);
double volume_beers_cubic_feet(double diameter_in, double height_ft, bool with_bark);
double volume_beers_board_feet(double diameter_in, double height_ft); /* Int. 1/4 in */

/* Cords per acre of the picked trees, from the cords of each plot: as uncertain as the
 * inventory is. `height_ft` is the merchantable height, 0 where it is not known. */
bool volume_cords_estimate(const struct stock *s, const struct stock_pick *pick,
                           const struct species_table *t, double height_ft,
                           struct estimate *out, struct fault *f);
struct qty volume_cords(struct graph *g, const struct stock *s,
                        const struct stock_pick *pick, const struct species_table *t,
                        double height_ft, const char *what, struct fault *f);
/* Green tons per acre: those cords times the tons in a cord of that mix of species. */
struct qty volume_tons(struct graph *g, struct qty cords, const struct stock *s,
                       const struct stock_pick *pick, const struct species_table *t,
                       double height_ft, struct fault *f);
/* The likely cords per acre, for tables. */
double volume_cords_of(const struct stock *s, const struct stock_pick *pick,
                       const struct species_table *t, double height_ft);

#endif
