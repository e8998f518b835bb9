/* browse.h: what deer find to eat within reach, and what oaks drop.
 *
 *     double lb = browse_pounds(12000, 3, 6, 0.008, 80, 0, 5);   // fresh lb/ac
 *     double days = browse_deer_days(lb, 50, 150, 7);            // deer-days an acre
 *     double acorns = mast_pounds(black, 0, 10, 36, 22);         // 4.63 lb a tree
 *
 * Browse is counted below 5 ft (Halls 1973, SEAFWA 27), on snow from its surface; in
 * cedar yards deer reach 7 ft on snow (Aldous 1952, J. Wildl. Manage. 16:401). A deer
 * eats 6 to 8 percent of its weight a day, one of 150 lb up to 12 lb (a Penn State
 * woodland column, 2019). Pounds of twigs a stem: common practice, no source. */
#ifndef SPINNEY_FOREST_BROWSE_H
#define SPINNEY_FOREST_BROWSE_H

/* The part (0 to 1) of a stem's twigs between two heights: twigs sit on its upper part,
 * from 0.3 of its height up (common practice, no source). */
double browse_part(double height, double from_ft, double to_ft);
/* Fresh lb/ac between the snow (its depth in ft) and `reach` above it: each foot of stem
 * carries `twigs` lb, up to 6 ft of it; `wanted` percent are of kinds that deer eat. */
double browse_pounds(double stems, double mean, double dominant, double twigs,
                     double wanted, double snow_ft, double reach_ft);
/* Deer-days an acre: the `use` percent that plants stand to lose, over the daily food. */
double browse_deer_days(double pounds, double use, double weight_lb, double daily);
/* Height above the ground that deer reach, ft. */
double browse_height_reached(double reach_ft, double snow_ft);

/* Pounds a tree in a mean year: a polynomial of the diameter in inches, 0 where it falls
 * below, 0 under `from_in`, level above `to_in`. Downs 1944, J. Wildl. Manage. 8:339-340
 * (fits to its table, trees of 10 to 36 in). */
double mast_pounds(const double coefficients[5], double from_in, double to_in,
                   double diameter_in);

#endif
