/* sample.h: what a few plots say of a whole: mean, variance, standard error, and how far
 * the truth may lie from the mean by Student's t.
 *
 *     struct sample s = sample_of(cords, 25, 1000);      // 25 of 1,000 plots
 *     double t = sample_t(0.975, s.count - 1);           // 95 percent, two-sided
 *     low = s.mean - t * s.error;
 *
 * Simple random sampling: Freese 1962, Elementary Forest Sampling, USDA Agriculture
 * Handbook 232 (formulas from memory; see the worked example in the tests). */
#ifndef SPINNEY_FOREST_SAMPLE_H
#define SPINNEY_FOREST_SAMPLE_H

#include <stdbool.h>
#include <stddef.h>

struct sample {
    size_t count;
    double mean;
    double variance; /* between plots, s^2; 0 with one plot, which tells none */
    double error;    /* standard error of the mean; 0 likewise */
};

/* `population`: how many such plots the whole holds, 0 for endless (no correction). */
struct sample sample_of(const double *values, size_t count, double population);

/* The `p` quantile (above 0, below 1) of Student's t with `freedom` degrees of freedom,
 * at least 1. Good to 1 part in 10^9. */
double sample_t(double p, size_t freedom);

/* 100 times the standard deviation over the mean; 0 when the mean is 0. */
double sample_cv_percent(const struct sample *s);

/* The fewest plots whose two-sided confidence interval reaches no further than `within`
 * (a part of 1) of the mean: n = (t CV / E)^2 with the t of those n, and with the whole's
 * correction where `population` is not 0. `cv` as a part of 1. At least 2, at most
 * SAMPLE_PLOTS_MOST. */
#define SAMPLE_PLOTS_MOST 1000000
size_t sample_plots_needed(double cv, double within, double confidence,
                           double population);

/* Totals over strata, each of its own acres (or units) and with its own mean and error:
 * the error of the total is the root of the sum of squares, its degrees of freedom are
 * Satterthwaite's: (sum V)^2 / sum (V^2 / (n - 1)). Freese 1962; Cochran 1977, Sampling
 * Techniques, ch. 5; Satterthwaite 1946, Biometrics Bull. 2:110-114 (all from memory). */
struct stratum {
    double weight, mean, error; /* error of the mean */
    size_t count;               /* plots; 0: judged, as sure as endless plots */
};
struct strata {
    double total, error;
    double freedom; /* 0 when no error is told; HUGE_VAL when judged alone */
    bool told;      /* false: a stratum of one plot */
};
struct strata sample_strata(const struct stratum *strata, size_t count);
/* The interval about the total; the degrees of freedom are rounded down, to the safe
 * side. False when no error is told. */
bool sample_strata_interval(const struct strata *s, double confidence, double *low,
                            double *high);

#endif
