/* volume.h: cords and cubic feet in one standing tree, by simple stated equations: a table
 * of cords by diameter, and Beers' composite equations where merchantable height is known.
 *
 *     double cord = volume_cords_by_diameter(10);              // 0.15
 *     double feet = volume_beers_cubic_feet(10, 26, true);     // 10.84 with bark
 *
 * Trees under 5 in have no cords (Woodland Stewardship, Univ. Minnesota Extension 2009,
 * ch. 2: least diameter of a pulpwood tree). wood.h reckons a stand by them. */
#ifndef SPINNEY_FOREST_VOLUME_H
#define SPINNEY_FOREST_VOLUME_H

#include <stdbool.h>

#define VOLUME_LEAST_IN 5.0

/* Cords in one tree from its diameter alone. University extension table, by inch classes
 * two and two: 5-6 in 0.03, 7-8 0.08, 9-10 0.15, 11-12 0.23, 13-14 0.33, 15-16 0.45,
 * 17-18 0.58, 19-20 0.73; above, carried on with the square of the diameter. */
double volume_cords_by_diameter(double diameter_in);

/* Beers 1964, Composite hardwood volume tables, Purdue Agric. Exp. Sta. Res. Bull. 787:
 * diameter in inches, merchantable height in feet. His cord holds 76 ft3 of wood, 92 with
 * the bark. */
#define VOLUME_BEERS_BARK (92.0 / 76)
double volume_beers_cords(double diameter_in, double height_ft);
double volume_beers_cubic_feet(double diameter_in, double height_ft, bool with_bark);
double volume_beers_board_feet(double diameter_in, double height_ft); /* Int. 1/4 in */

#endif
