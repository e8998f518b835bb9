/* sprouts.h: sprouts from stumps, and shrubs and planted stock by years.
 *
 *     double odds = sprouts_odds(8, 56, 26, 0, 12);   // percent of 12-in stumps
 *     double stems = sprouts_stems(40, odds, 15, 4, 10);   // stems/ac in year 10
 *
 * Odds lie straight between two diameters and level outside: northern red oak 56 percent
 * at 8 in falling to 0 at 26 in, about 4 stems a clump by age 23 (Johnson 1975, For. Sci.
 * 21:413-418; the straight line is ours). Sprouts, shrubs and stock by year: common
 * practice, no source; the numbers stand in stdlib/regrowth.lua. */
#ifndef SPINNEY_FOREST_SPROUTS_H
#define SPINNEY_FOREST_SPROUTS_H

/* Percent of stumps of a diameter (in) that sprout. */
double sprouts_odds(double from_in, double share_from, double to_in, double share_to,
                    double diameter_in);
/* Stems/ac from stumps/ac: so many a clump at first and so many that stay. */
double sprouts_stems(double stumps, double odds, double first, double last, double year);
/* Height from that of the first season, growing with the 0.75 power of the seasons; deer
 * slow it by so many percent, trees left over it (ft2/ac) by shade_slows R / (R + 15). */
double sprouts_height(double first_ft, double seasons, double browse_slows,
                      double shade_slows, double residual);

/* The same from the power of the seasons: it is the same for all draws of a year. */
double sprouts_curve(double seasons);
double sprouts_height_at(double first_ft, double curve, double browse_slows,
                         double shade_slows, double residual);

/* Shrubs: toward a full height, so many percent of what is missing in each year. */
double shrubs_height(double full_ft, double percent_yearly, double seasons);
/* Stems/ac that hold until a year, then fade by `fade` percent a year. */
double shrubs_stems(double first, double hold_years, double fade, double year);

/* Planted stock: slow while it roots, then faster, up to a most. */
double planted_height(double start_ft, double slow_ft, double fast_ft, double slow_years,
                      double most_ft, double year);

#endif
