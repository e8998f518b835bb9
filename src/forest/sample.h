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

#endif
