#include "../unit.h"

#include <math.h>

#include "forest/sample.h"

#define close_to(value, expected, within)                                                \
    assert_true(fabs((value) - (expected)) <= (within))

/* Freese 1962, Elementary Forest Sampling, USDA Agric. Handb. 232, simple random
 * sampling: 250 acres, 25 plots of 1/4 acre of 1,000, cords. The data are from memory,
 * the results computed and in agreement with each other (status: memory, computed). */
static const double cords[25] = { 7, 10, 7, 4, 7,  8, 8, 8, 7, 5, 2, 6, 9,
                                  7, 8,  6, 7, 11, 8, 8, 7, 3, 8, 7, 7 };

static void the_handbook_example_comes_out(void **state) {
    (void)state;
    struct sample s = sample_of(cords, 25, 1000);
    close_to(s.mean, 7, 1e-12);
    close_to(s.variance, 3.8333, 0.00005);
    close_to(sqrt(s.variance), 1.958, 0.0005);
    close_to(sqrt(s.variance) / s.mean * 100, 28.0, 0.05);
    close_to(s.error, 0.3867, 0.00005);
    close_to(sample_of(cords, 25, 0).error, 0.3916, 0.00005);
    double t = sample_t(0.975, 24);
    close_to(s.mean - t * s.error, 6.20, 0.005);
    close_to(s.mean + t * s.error, 7.80, 0.005);
}

/* A Freese example repeated in Spellman and Whiting, Mathematics and Statistics for the
 * Environment, example 7.5 (status: found in a book extract; authors from memory): a mean
 * and its error over 10,000 acres. */
static void a_mean_and_its_error_go_up_with_the_acres(void **state) {
    (void)state;
    double plots[] = { 5680 - 632, 5680 + 632 };
    struct sample s =
        sample_of(plots, 2, 0); /* two plots with that mean and that error */
    close_to(s.mean * 10000, 56800000, 0.5);
    close_to(s.error * 10000, 6320000, 0.5);
}

/* Black cherry, 31 trees: the open data set `trees` of R 4.2.2 (Ryan, Joiner and Ryan
 * 1976; status: read), cubic feet. */
static void an_open_data_set_comes_out(void **state) {
    (void)state;
    static const double volumes[31] = { 10.3, 10.3, 10.2, 16.4, 18.8, 19.7, 15.6, 18.2,
                                        22.6, 19.9, 24.2, 21.0, 21.4, 21.3, 19.1, 22.2,
                                        33.8, 27.4, 25.7, 24.9, 34.5, 31.7, 36.3, 38.3,
                                        42.6, 55.4, 55.7, 58.3, 51.5, 51.0, 77.0 };
    struct sample s = sample_of(volumes, 31, 0);
    double t = sample_t(0.975, 30);
    close_to(s.mean, 30.171, 0.0005);
    close_to(sqrt(s.variance), 16.43785, 0.000005);
    close_to(s.error, 2.9523, 0.00005);
    close_to(s.mean - t * s.error, 24.142, 0.0005);
    close_to(s.mean + t * s.error, 36.200, 0.0005);
}

/* Two-sided 95 percent, computed with R 4.2.2 (status: read). */
static void student_t_agrees_with_the_table(void **state) {
    (void)state;
    static const struct {
        size_t freedom;
        double t;
    } table[] = { { 4, 2.776 },  { 9, 2.262 },  { 14, 2.145 }, { 19, 2.093 },
                  { 24, 2.064 }, { 29, 2.045 }, { 30, 2.042 } };
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++)
        close_to(sample_t(0.975, table[i].freedom), table[i].t, 0.0005);
}

static void student_t_agrees_with_its_closed_forms(void **state) {
    (void)state;
    for (double p = 0.01; p < 1; p += 0.01) {
        double one = tan(acos(-1.0) * (p - 0.5)),
               two = (2 * p - 1) / sqrt(2 * p * (1 - p));
        close_to(sample_t(p, 1), one, 1e-9 * (1 + fabs(one)));
        close_to(sample_t(p, 2), two, 1e-9 * (1 + fabs(two)));
        close_to(sample_t(p, 7), -sample_t(1 - p, 7), 1e-9 * 7);
    }
    close_to(sample_t(0.9, 100000), 1.2815515655, 0.00005); /* the normal's */
}

static void one_plot_tells_a_mean_and_no_error(void **state) {
    (void)state;
    struct sample s = sample_of(cords, 1, 0);
    close_to(s.mean, 7, 0);
    close_to(s.error, 0, 0);
    assert_int_equal(sample_of(cords, 0, 0).count, 0);
}

/* n = (t CV / E)^2, t of that n: 28 percent, 10 percent off, 95 percent sure. By hand:
 * 33 plots have t 2.0369 and reach 9.93 percent, 32 have 2.0395 and reach 10.09. */
static void plots_needed_settle_with_their_own_t(void **state) {
    (void)state;
    assert_int_equal(sample_plots_needed(0.28, 0.10, 0.95, 0), 33);
    for (double cv = 0.05; cv < 2; cv *= 1.3)
        for (double within = 0.02; within < 0.6; within *= 1.7) {
            size_t n = sample_plots_needed(cv, within, 0.90, 0);
            double reach = sample_t(0.95, n - 1) * cv / sqrt((double)n);
            assert_true(reach <= within);
            assert_true(n == 2 || sample_t(0.95, n - 2) * cv / sqrt((double)(n - 1)) >
                                      within);
        }
    /* A small whole needs fewer, never more than there are. */
    assert_int_equal(sample_plots_needed(0.28, 0.10, 0.95, 40) < 33, 1);
    size_t n = sample_plots_needed(0.28, 0.10, 0.95, 1000);
    assert_true(sample_t(0.975, n - 1) * 0.28 *
                    sqrt((1 - (double)n / 1000) / (double)n) <= 0.10);
    assert_int_equal(n, 32);
    assert_true(sample_plots_needed(1, 0.001, 0.95, 25) <= 25);
    assert_int_equal(sample_plots_needed(0, 0.1, 0.95, 0), 2);
    assert_int_equal(sample_plots_needed(100, 0.0001, 0.999, 0), SAMPLE_PLOTS_MOST);
}

/* Example 7.5 as one stratum: a mean of 5,680 bd ft an acre, error 632, on 10,000 ac. */
static void strata_add_up_with_their_errors(void **state) {
    (void)state;
    struct stratum one = { 10000, 5680, 632, 20 };
    struct strata s = sample_strata(&one, 1);
    close_to(s.total, 56800000, 1e-3);
    close_to(s.error, 6320000, 1e-3);
    close_to(s.freedom, 19, 1e-9);
    /* by hand: V 4 x 9 = 36 and 9 x 16 = 144; (180)^2 / (36^2 / 4 + 144^2 / 8) */
    struct stratum two[] = { { 2, 10, 3, 5 }, { 3, 20, 4, 9 } };
    s = sample_strata(two, 2);
    close_to(s.total, 80, 1e-12);
    close_to(s.error, sqrt(180), 1e-12);
    close_to(s.freedom, 180.0 * 180 / (36.0 * 36 / 4 + 144.0 * 144 / 8), 1e-9);
    double low, high;
    assert_true(sample_strata_interval(&s, 0.95, &low, &high));
    close_to(high - 80, sample_t(0.975, 11) * sqrt(180), 1e-9); /* 11.11 rounded down */
    two[1].count = 1;
    s = sample_strata(two, 2);
    assert_false(s.told);
    close_to(s.total, 80, 1e-12);
    assert_false(sample_strata_interval(&s, 0.95, &low, &high));
    two[0].count = two[1].count = 0; /* judged: as a normal */
    s = sample_strata(two, 2);
    assert_true(sample_strata_interval(&s, 0.80, &low, &high));
    close_to(high - 80, 1.2815515655 * sqrt(180), 1e-7);
}

/* Example 7.6 of the same extract (status: found): growth an acre from two measurements
 * of the same 40 plots, 10 x 122 - 4 x 225, as a linear sum with its covariance. */
static void paired_plots_make_growth_with_its_variance(void **state) {
    (void)state;
    double growth = 10 * 122.0 - 4 * 225.0;
    double variance = 100 * 152.1 + 16 * 207.025 - 2 * 10 * 4 * 106.475;
    close_to(growth, 320, 1e-9);
    close_to(variance, 10004.4, 1e-6);
    /* The same from plots: a sample of the differences has just that variance. */
    static const double before[5] = { 200, 240, 225, 210, 250 },
                        after[5] = { 110, 135, 118, 120, 127 };
    double grown[5], covariance = 0;
    struct sample a = sample_of(before, 5, 0), b = sample_of(after, 5, 0);
    for (int i = 0; i < 5; i++) {
        grown[i] = 10 * after[i] - 4 * before[i];
        covariance += (after[i] - b.mean) * (before[i] - a.mean) / 4 / 5;
    }
    struct sample g = sample_of(grown, 5, 0);
    close_to(g.error * g.error,
             100 * b.error * b.error + 16 * a.error * a.error - 80 * covariance, 1e-9);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_handbook_example_comes_out),
        cmocka_unit_test(a_mean_and_its_error_go_up_with_the_acres),
        cmocka_unit_test(an_open_data_set_comes_out),
        cmocka_unit_test(student_t_agrees_with_the_table),
        cmocka_unit_test(student_t_agrees_with_its_closed_forms),
        cmocka_unit_test(one_plot_tells_a_mean_and_no_error),
        cmocka_unit_test(plots_needed_settle_with_their_own_t),
        cmocka_unit_test(strata_add_up_with_their_errors),
        cmocka_unit_test(paired_plots_make_growth_with_its_variance),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
