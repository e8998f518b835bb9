#include "../unit.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#include "quantity/select.h"

/* Numerical Recipes' quick generator; any other than the one of the draws will do. */
static double next(uint32_t *state)
{
    *state = *state * 1664525u + 1013904223u;
    return (*state >> 8) / 16777216.0;
}

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return x < y ? -1 : x > y;
}

/* The definition in select.h, by sorting. */
static double sorted_percentile(const double *draws, size_t count, double p)
{
    static double x[SELECT_MOST];
    memcpy(x, draws, count * sizeof *x);
    qsort(x, count, sizeof *x, by_size);
    double at = p * (double)count - 0.5;
    if (at <= 0)
        return x[0];
    if (at >= (double)(count - 1))
        return x[count - 1];
    size_t i = (size_t)at;
    double upper = at - (double)i;
    if (x[i] == x[i + 1] || upper == 0)
        return x[i];
    return x[i] * (1 - upper) + x[i + 1] * upper;
}

static void agrees(const double *draws, size_t count)
{
    struct percentiles p = select_percentiles(draws, count);
    assert_int_equal(p.lost, 0);
    /* Not a bit apart: the same two draws and the same line between them. */
    assert_true(p.low == sorted_percentile(draws, count, 0.1));
    assert_true(p.median == sorted_percentile(draws, count, 0.5));
    assert_true(p.high == sorted_percentile(draws, count, 0.9));
}

enum shape { FLAT, LONG_TAIL, VERY_LONG_TAIL, WHOLE, FEW_VALUES, HALF_ZERO, NEAR_POLE,
             SORTED, BACKWARD, CLUSTERS, SHAPES };

static double shaped(enum shape shape, double u, size_t i)
{
    switch (shape) {
    case FLAT: return u * 20 - 10;
    case LONG_TAIL: return exp(6 * u);
    case VERY_LONG_TAIL: return exp(300 * (u - 0.5));
    case WHOLE: return ceil(u * 9);
    case FEW_VALUES: return u < 0.97 ? 5 : 6;
    case HALF_ZERO: return u < 0.5 ? 0 : u;
    case NEAR_POLE: return 1 / (u - 0.5);
    case SORTED: return (double)i;
    case BACKWARD: return -(double)i;
    case CLUSTERS: return u < 0.5 ? u * 1e-9 : 1e9 + u;
    case SHAPES: break;
    }
    return 0;
}

static void percentiles_are_those_of_a_sort_whatever_the_shape(void **state)
{
    (void)state;
    static double draws[SELECT_MOST];
    uint32_t seed = 1;
    for (int shape = 0; shape < SHAPES; shape++)
        for (int round = 0; round < 20; round++) {
            for (size_t i = 0; i < SELECT_MOST; i++)
                draws[i] = shaped((enum shape)shape, next(&seed), i);
            agrees(draws, SELECT_MOST);
        }
}

static void percentiles_are_those_of_a_sort_for_any_number_of_draws(void **state)
{
    (void)state;
    static double draws[SELECT_MOST];
    uint32_t seed = 2;
    for (size_t count = 1; count <= 300; count++) {
        for (size_t i = 0; i < count; i++)
            draws[i] = shaped((enum shape)(count % SHAPES), next(&seed), i);
        agrees(draws, count);
    }
}

static void one_draw_is_all_three_percentiles(void **state)
{
    (void)state;
    struct percentiles p = select_percentiles((double[]){ 7 }, 1);
    assert_true(p.low == 7 && p.median == 7 && p.high == 7);
}

static void equal_draws_give_their_value(void **state)
{
    (void)state;
    static double draws[SELECT_MOST];
    for (size_t i = 0; i < SELECT_MOST; i++)
        draws[i] = 1e300;
    agrees(draws, SELECT_MOST);
}

static void endless_draws_count_as_largest_and_smallest(void **state)
{
    (void)state;
    static double draws[SELECT_MOST];
    uint32_t seed = 3;
    for (size_t i = 0; i < SELECT_MOST; i++)
        draws[i] = i % 8 == 0 ? INFINITY : i % 16 == 1 ? -INFINITY : next(&seed);
    agrees(draws, SELECT_MOST);
    assert_true(isinf(select_percentiles(draws, SELECT_MOST).high));
    for (size_t i = 0; i < SELECT_MOST; i++)
        draws[i] = INFINITY;
    agrees(draws, SELECT_MOST);
}

static void draws_that_are_no_number_are_left_out_and_counted(void **state)
{
    (void)state;
    static double draws[SELECT_MOST], numbers[SELECT_MOST];
    uint32_t seed = 4;
    size_t kept = 0;
    for (size_t i = 0; i < SELECT_MOST; i++) {
        draws[i] = i % 10 == 3 ? NAN : next(&seed);
        if (i % 10 != 3)
            numbers[kept++] = draws[i];
    }
    struct percentiles p = select_percentiles(draws, SELECT_MOST);
    assert_int_equal(p.lost, SELECT_MOST - kept);
    assert_true(p.low == sorted_percentile(numbers, kept, 0.1));
    assert_true(p.median == sorted_percentile(numbers, kept, 0.5));
    assert_true(p.high == sorted_percentile(numbers, kept, 0.9));
    /* A single one among the many, wherever it stands. */
    for (size_t place = 0; place < SELECT_MOST; place += 97) {
        for (size_t i = 0; i < SELECT_MOST; i++)
            draws[i] = i == place ? NAN : next(&seed);
        assert_int_equal(select_percentiles(draws, SELECT_MOST).lost, 1);
    }
    for (size_t i = 0; i < SELECT_MOST; i++)
        draws[i] = NAN;
    p = select_percentiles(draws, SELECT_MOST);
    assert_int_equal(p.lost, SELECT_MOST);
    assert_true(isnan(p.low) && isnan(p.median) && isnan(p.high));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(percentiles_are_those_of_a_sort_whatever_the_shape),
        cmocka_unit_test(percentiles_are_those_of_a_sort_for_any_number_of_draws),
        cmocka_unit_test(one_draw_is_all_three_percentiles),
        cmocka_unit_test(equal_draws_give_their_value),
        cmocka_unit_test(endless_draws_count_as_largest_and_smallest),
        cmocka_unit_test(draws_that_are_no_number_are_left_out_and_counted),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
