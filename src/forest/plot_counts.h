/* plot_counts.h: what plots hold beside the living trees, plot by plot: snags, den trees,
 * regeneration. Each function fills one value for each plot of the inventory, so that a
 * mean comes with its own error.
 *
 *     double values[TALLY_PLOTS_MOST];
 *     plot_snags(inv, &aspens, 10, HUGE_VAL, values);
 *     if (!plot_estimate(inv, values, NULL, &e, f)) return false;     // snags per acre
 *     plot_stems(inv, &oaks, 0, HUGE_VAL, values);
 *     if (!plot_estimate(inv, values, inv->stems_taken, &e, f)) ...   // stems per acre
 *
 * A plot that held none counts with 0. Of snags and den trees every plot is a sample, of
 * regeneration only those with a small plot for it. */
#ifndef SPINNEY_FOREST_PLOT_COUNTS_H
#define SPINNEY_FOREST_PLOT_COUNTS_H

#include <stddef.h>

#include "forest/estimate.h"

/* Trees per acre from `from_in` up and below `below_in`, on each plot; snags whose
 * species was not told count only where `species` is NULL, for all. */
void plot_snags(const struct inventory *inv, const struct species_set *species,
                double from_in, double below_in, double *values);
void plot_dens(const struct inventory *inv, const struct species_set *species,
               double from_in, double below_in, double *values);

/* Stems per acre of the classes that lie in `from_ft` to `below_ft`. */
void plot_stems(const struct inventory *inv, const struct species_set *species,
                double from_ft, double below_ft, double *values);
/* 1 where the small plot itself held at least `least` such stems, else 0. */
void plot_stocked(const struct inventory *inv, const struct species_set *species,
                  double from_ft, double below_ft, unsigned least, double *values);
/* A class that was noted and lies partly in `from_ft` to `below_ft`, partly outside, so
 * that its stems cannot be told apart; NULL when there is none. */
const struct inventory_stems *plot_stems_cut(const struct inventory *inv,
                                             const struct species_set *species,
                                             double from_ft, double below_ft);

/* How many plots were taken for it; `taken` NULL: all. */
size_t plot_count(const struct inventory *inv, const bool *taken);
/* The mean of the values over the plots that were taken for it, with its error; leans on
 * the plots as figures of the trees do where all were taken, else on causes of its own.
 * False only when out of memory; the estimate is the caller's to clear. */
bool plot_estimate(const struct inventory *inv, const double *values, const bool *taken,
                   struct estimate *out, struct fault *f);

#endif
