/* plot_counts.h: what plots hold beside the living trees, plot by plot: snags, den trees,
 * regeneration. Each function fills one value a plot, fit for sample_of (sample.h), so
 * that a mean comes with its own error.
 *
 *     double values[TALLY_PLOTS_MOST];
 *     size_t n = plot_snags(inv, &aspens, 10, HUGE_VAL, values);
 *     struct sample s = sample_of(values, n, 0);      // snags per acre
 *     size_t m = plot_stems(inv, &oaks, 0, HUGE_VAL, values);
 *     size_t k = plot_stocked(inv, &oaks, 1, HUGE_VAL, 2, values);   // 1 or 0 a plot
 *
 * A plot that held none counts with 0. Of snags and den trees every plot is a sample, of
 * regeneration only those with a small plot for it. */
#ifndef SPINNEY_FOREST_PLOT_COUNTS_H
#define SPINNEY_FOREST_PLOT_COUNTS_H

#include <stddef.h>

#include "forest/inventory.h"

struct species_set;

/* Trees per acre from `from_in` up and below `below_in`, on each plot; snags whose species
 * was not told count only where `species` is NULL, for all. Returns how many values. */
size_t plot_snags(const struct inventory *inv, const struct species_set *species,
                  double from_in, double below_in, double *values);
size_t plot_dens(const struct inventory *inv, const struct species_set *species,
                 double from_in, double below_in, double *values);

/* Stems per acre of the classes that lie in `from_ft` to `below_ft`. */
size_t plot_stems(const struct inventory *inv, const struct species_set *species,
                  double from_ft, double below_ft, double *values);
/* 1 where the small plot itself held at least `least` such stems, else 0. */
size_t plot_stocked(const struct inventory *inv, const struct species_set *species,
                    double from_ft, double below_ft, unsigned least, double *values);
/* A class that was noted and lies partly in `from_ft` to `below_ft`, partly outside, so
 * that its stems cannot be told apart; NULL when there is none. */
const struct inventory_stems *plot_stems_cut(const struct inventory *inv,
                                             const struct species_set *species,
                                             double from_ft, double below_ft);

#endif
