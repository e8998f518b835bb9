/* estimate.h: an amount per acre with how far it may be off, from the differences between
 * plots or from how far an eye errs. Totals and shares each have their own error, made
 * from plot totals: never by adding up classes as if these were independent.
 *
 *     struct estimate e;
 *     if (!estimate_total(stock, &aspens, STOCK_TREES, &e, f)) return false;
 *     // e.value; e.low and e.high are the 10th and 90th percentiles; e.sample.error
 *     estimate_interval(&e, 0.95, &low, &high);
 *
 * From a tally, low and high are the mean -+ t(0.90, n - 1) standard errors, never below
 * zero. One plot tells no error, and neither do plots that agree to the last tree: then
 * `told` is false and a stated wide range stands in. */
#ifndef SPINNEY_FOREST_ESTIMATE_H
#define SPINNEY_FOREST_ESTIMATE_H

#include "forest/sample.h"
#include "forest/stock.h"

/* Where no error can be told: low and high lie that part of the value away, over the root
 * of the number of plots. Common practice, no source. */
#define ESTIMATE_UNTOLD_TOTAL 0.5
#define ESTIMATE_UNTOLD_RATIO 0.25

struct estimate {
    double value, low, high;
    bool told;            /* false: the range is not from the data (tallies) */
    struct sample sample; /* count 0 by eye */
};

/* All return false only when out of memory. */
bool estimate_total(const struct stock *s, const struct stock_pick *pick,
                    enum stock_measure measure, struct estimate *out, struct fault *f);
/* Any amount that is so much for each tree: `each` has one number a cell. */
bool estimate_weighted(const struct stock *s, const struct stock_pick *pick,
                       const double *each, struct estimate *out, struct fault *f);
/* The part (0 to 1) that `pick` is of `of`, in basal area or trees. 0 when `of` is
 * none. */
bool estimate_share(const struct stock *s, const struct stock_pick *pick,
                    const struct stock_pick *of, enum stock_measure measure,
                    struct estimate *out, struct fault *f);
/* Basal area in ft2 of the mean tree, whose diameter is the quadratic mean diameter. */
bool estimate_mean_tree(const struct stock *s, const struct stock_pick *pick,
                        struct estimate *out, struct fault *f);

/* The two-sided confidence interval of a tally's mean, cut off at zero: mean -+ t SE;
 * false when no error is told. */
bool estimate_interval(const struct estimate *e, double confidence, double *low,
                       double *high);
/* Quadratic mean diameter in inches from basal area (ft2/ac) and trees (per ac). */
double estimate_quadratic_mean(double basal_area, double trees);

#endif
