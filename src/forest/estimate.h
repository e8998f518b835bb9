/* estimate.h: an amount per acre with how far it may be off, from the differences between
 * plots or from how far an eye errs. Totals and shares each have their own error, made
 * from plot totals: never by adding up classes as if these were independent.
 *
 *     struct estimate e;
 *     if (!estimate_total(stock, &aspens, STOCK_TREES, &e, f)) return false;
 *     // e.value; e.low and e.high are the 10th and 90th percentiles; e.sample.error
 *     estimate_interval(&e, 0.95, &low, &high);
 *     estimate_clear(&e);
 *
 * From a tally, low and high are the mean -+ t(0.90, n - 1) standard errors, never below
 * zero. One plot tells no error, and neither do plots that agree to the last tree: then
 * `told` is false and a stated wide range stands in.
 *
 * All estimates of one stand lean on the same causes of doubt, each as strongly as it
 * should, so that figures made from them rise and fall together as they must (figure.h):
 * from a tally one cause a plot, its weight how far that plot lies from the mean in just
 * what is asked (of a ratio: its linearised residual); by eye the density, each share and
 * the diameters. Where no error can be told, the density of the stand as one cause, the
 * diameters as another, and for shares the trees of each species and diameter. */
#ifndef SPINNEY_FOREST_ESTIMATE_H
#define SPINNEY_FOREST_ESTIMATE_H

#include "forest/sample.h"
#include "forest/stock.h"
#include "quantity/graph.h"

/* Where no error can be told: low and high lie that part of the value away, over the root
 * of the number of plots. A share p errs by that part of 2 p (1 - p), as much as what is
 * not in it. Common practice, no source. */
#define ESTIMATE_UNTOLD_TOTAL 0.5
#define ESTIMATE_UNTOLD_RATIO 0.25

struct estimate {
    double value, low, high;
    bool told;             /* false: the range is not from the data (tallies) */
    struct sample sample;  /* count 0 by eye */
    struct cause *causes;  /* NULL when certain */
    size_t cause_count;
};

/* All return false only when out of memory. What they fill is the caller's to clear. */
bool estimate_total(const struct stock *s, const struct stock_pick *pick,
                    enum stock_measure measure, struct estimate *out, struct fault *f);
/* Any amount that is so much for each tree and follows basal area, as volumes and weights
 * do: `each` has one number a cell. */
bool estimate_weighted(const struct stock *s, const struct stock_pick *pick,
                       const double *each, struct estimate *out, struct fault *f);
/* The same for what goes with another `power` of the diameter (by eye it matters). */
bool estimate_powered(const struct stock *s, const struct stock_pick *pick,
                      const double *each, double power, struct estimate *out,
                      struct fault *f);
/* The part (0 to 1) that `pick` is of `of`, in basal area or trees. 0 when `of` is
 * none. */
bool estimate_share(const struct stock *s, const struct stock_pick *pick,
                    const struct stock_pick *of, enum stock_measure measure,
                    struct estimate *out, struct fault *f);
/* Basal area in ft2 of the mean tree, whose diameter is the quadratic mean diameter. */
bool estimate_mean_tree(const struct stock *s, const struct stock_pick *pick,
                        struct estimate *out, struct fault *f);
/* From one number a plot (inv->plots of them): their mean, or the ratio of their sums
 * when `under` is not NULL (0 when that adds up to nothing). Of a tally only. */
bool estimate_plots(const struct inventory *inv, const double *over, const double *under,
                    struct estimate *out, struct fault *f);
void estimate_clear(struct estimate *e);

/* The two-sided confidence interval, cut off at zero: of a tally's mean, mean -+ t SE;
 * false when no error is told. By eye, what was judged, widened or narrowed as a normal
 * would be. */
bool estimate_interval(const struct estimate *e, double confidence, double *low,
                       double *high);
/* Quadratic mean diameter in inches from basal area (ft2/ac) and trees (per ac). */
double estimate_quadratic_mean(double basal_area, double trees);

#endif
