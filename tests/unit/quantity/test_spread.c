#include "../unit.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "quantity/graph.h"
#include "quantity/spread.h"
#include "quantity/unit_inner.h"
#include "failing.h"

/* The normal's 90th percentile: Abramowitz and Stegun, table 26.5. */
#define Z_90 1.2815515655446004

static const struct origin nowhere;

struct kit {
    struct units *u;
    struct graph *g;
    struct fault f;
};

static int set_up(void **state)
{
    static struct kit k;
    fault_clear(&k.f);
    k.u = units_new();
    k.g = graph_new(k.u);
    *state = &k;
    return k.u && k.g ? 0 : 1;
}

static int take_down(void **state)
{
    struct kit *k = *state;
    graph_free(k->g);
    units_free(k->u);
    return 0;
}

static struct qty leaf(struct kit *k, double low, double likely, double high, uint32_t n)
{
    return graph_range(k->g, low, likely, high, UNIT_NUMBER, graph_key("leaf", n, 0),
                       nowhere, &k->f);
}

static struct qty number(struct kit *k, double value)
{
    return graph_leaf(k->g, value, UNIT_NUMBER, nowhere, &k->f);
}

/* A normal of that mean and standard deviation. */
static struct qty normal(struct kit *k, double mean, double deviation, uint32_t key)
{
    return leaf(k, mean - Z_90 * deviation, mean, mean + Z_90 * deviation, key);
}

static struct spread spread(struct kit *k, struct qty q)
{
    struct spread s;
    assert_false(fault_is_set(&k->f));
    assert_true(qty_is(q));
    assert_true(spread_of(k->g, &q, 1, &s, &k->f));
    return s;
}

/* How far a percentile of 4,096 draws may lie from the true one. Chance alone (all draws
 * independent, which a Latin hypercube is never worse than in the long run) gives a
 * standard deviation of sqrt(p (1 - p) / 4096) parts divided by the density there: for a
 * normal 0.0267 standard deviations at the 10th and 90th, 0.0196 at the 50th. Four times
 * that is passed once in 16,000 tries. */
#define SLACK_ENDS   (4 * 0.0267)
#define SLACK_MIDDLE (4 * 0.0196)

static void is_normal(struct spread s, double mean, double deviation)
{
    assert_true(s.uncertain && !s.skewed);
    assert_true(fabs(s.value - mean) <= 1e-9 * fabs(mean));
    assert_true(fabs(s.low - (mean - Z_90 * deviation)) < SLACK_ENDS * deviation);
    assert_true(fabs(s.median - mean) < SLACK_MIDDLE * deviation);
    assert_true(fabs(s.high - (mean + Z_90 * deviation)) < SLACK_ENDS * deviation);
}

/* ---- closed forms ---- */

static void certain_quantities_are_their_value(void **state)
{
    struct kit *k = *state;
    struct qty list[] = { number(k, 3), QTY_NONE };
    struct spread s[2];
    assert_true(spread_of(k->g, list, 2, s, &k->f));
    assert_true(!s[0].uncertain && s[0].low == 3 && s[0].median == 3 && s[0].high == 3);
    assert_true(!s[1].uncertain && s[1].value == 0 && s[1].high == 0);
}

static void a_typed_range_reads_back_exactly(void **state)
{
    struct kit *k = *state;
    struct unit_id hours, minutes;
    assert_true(units_find(k->u, "h", 1, &hours, &k->f));
    assert_true(units_find(k->u, "min", 3, &minutes, &k->f));
    struct qty q = graph_range(k->g, 60.1, 70.7, 95.3, hours, 1, nowhere, &k->f);
    q = graph_say_in(k->g, q, minutes, &k->f);
    assert_true(graph_name(k->g, &q, "felling", nowhere, &k->f));
    struct spread s = spread(k, q);
    double size = unit_factor(k->u, hours);
    assert_true(s.low == 60.1 * size && s.high == 95.3 * size);
    assert_true(s.value == 70.7 * size && s.median == 70.7 * size);
    assert_true(s.uncertain && !s.skewed && s.lost == 0);
}

static void sums_of_independent_normals_are_normal(void **state)
{
    struct kit *k = *state;
    for (uint32_t count = 2; count <= 60; count += 7) {
        struct qty list[60];
        double mean = 0, variance = 0;
        for (uint32_t i = 0; i < count; i++) {
            double deviation = 1 + i % 4;
            list[i] = normal(k, 40 + i, deviation, count * 100 + i);
            mean += 40 + i;
            variance += deviation * deviation;
        }
        is_normal(spread(k, graph_sum(k->g, list, count, &k->f)), mean, sqrt(variance));
    }
}

static void differences_and_multiples_of_normals_are_normal(void **state)
{
    struct kit *k = *state;
    struct qty a = normal(k, 100, 3, 1), b = normal(k, 60, 4, 2);
    is_normal(spread(k, graph_subtract(k->g, a, b, &k->f)), 40, 5);
    struct qty thrice = graph_scale(k->g, a, 3, &k->f);
    is_normal(spread(k, graph_add(k->g, thrice, b, &k->f)), 360, sqrt(81 + 16));
}

/* Ten times the same is ten times as wide, ten separate ones only sqrt(10) times. */
static void ten_shared_ranges_spread_wider_than_ten_separate_ones(void **state)
{
    struct kit *k = *state;
    struct qty shared[10], separate[10];
    for (uint32_t i = 0; i < 10; i++) {
        shared[i] = normal(k, 20, 2, 77); /* a node each, one key */
        separate[i] = normal(k, 20, 2, 100 + i);
    }
    struct spread together = spread(k, graph_sum(k->g, shared, 10, &k->f));
    is_normal(together, 200, 20);
    /* All of one leaf: as exact as the leaf. */
    assert_true(fabs(together.high - (200 + Z_90 * 20)) < 1e-4);
    is_normal(spread(k, graph_sum(k->g, separate, 10, &k->f)), 200, sqrt(10) * 2);
}

static void what_is_taken_away_from_itself_is_nothing(void **state)
{
    struct kit *k = *state;
    struct qty a = normal(k, 100, 3, 1), b = normal(k, 5, 1, 2);
    struct qty both = graph_multiply(k->g, a, b, &k->f);
    struct spread s = spread(k, graph_subtract(k->g, both, both, &k->f));
    assert_true(s.low == 0 && s.high == 0 && s.value == 0);
    s = spread(k, graph_divide(k->g, both, a, &k->f));
    assert_true(fabs(s.low - (5 - Z_90)) < 1e-4 && fabs(s.high - (5 + Z_90)) < 1e-4);
}

/* The square of a range turns its percentiles into their squares, as it keeps their
 * order. */
static void bends_keep_the_percentiles_they_bend(void **state)
{
    struct kit *k = *state;
    struct qty a = leaf(k, 2, 3, 7, 1);
    struct spread s = spread(k, graph_power(k->g, a, 2, 1, &k->f));
    assert_true(fabs(s.low - 4) < 1e-4 && fabs(s.high - 49) < 1e-3 && !s.skewed);
    s = spread(k, graph_power(k->g, a, -1, 1, &k->f));
    assert_true(fabs(s.low - 1 / 7.0) < 1e-6 && fabs(s.high - 0.5) < 1e-6);
    s = spread(k, graph_power(k->g, a, 1, 2, &k->f));
    assert_true(fabs(s.low - sqrt(2)) < 1e-6 && fabs(s.high - sqrt(7)) < 1e-6);
}

/* The larger of two like normals: its distribution is the square of theirs, so its 90th
 * percentile is theirs at sqrt(0.9), its 10th theirs at sqrt(0.1), its median at
 * sqrt(0.5): -0.4783, 0.5450 and 1.6322 by bisection of erfc, below. */
static double normal_at(double p)
{
    double low = -8, high = 8;
    for (int i = 0; i < 100; i++) {
        double middle = (low + high) / 2;
        if (0.5 * erfc(-middle / sqrt(2)) < p)
            low = middle;
        else
            high = middle;
    }
    return low;
}

static void the_larger_of_two_normals_is_as_the_books_have_it(void **state)
{
    struct kit *k = *state;
    struct qty a = normal(k, 50, 2, 1), b = normal(k, 50, 2, 2);
    struct spread s = spread(k, graph_max(k->g, a, b, &k->f));
    assert_true(fabs(s.low - (50 + 2 * normal_at(sqrt(0.1)))) < SLACK_ENDS * 2);
    assert_true(fabs(s.median - (50 + 2 * normal_at(sqrt(0.5)))) < SLACK_MIDDLE * 2);
    assert_true(fabs(s.high - (50 + 2 * normal_at(sqrt(0.9)))) < SLACK_ENDS * 2);
    assert_true(s.value == 50);
}

static void the_median_is_called_out_where_it_differs(void **state)
{
    struct kit *k = *state;
    struct qty lopsided[12];
    for (uint32_t i = 0; i < 12; i++)
        lopsided[i] = leaf(k, 9, 10, 20, i);
    struct spread s = spread(k, graph_sum(k->g, lopsided, 12, &k->f));
    assert_true(s.skewed && s.median > 1.03 * s.value);
    /* A value near zero is not skewed by the last digits of a wide spread. */
    struct qty a = normal(k, 100, 5, 50), b = normal(k, 99.99, 5, 51);
    assert_false(spread(k, graph_subtract(k->g, a, b, &k->f)).skewed);
}

/* ---- an independent computation ---- */

enum { PLAIN_DRAWS = 1000000, PLAIN_LEAVES = 6 };

/* xorshift64* (Vigna 2016, from memory), and normals by Marsaglia's polar method: neither
 * has anything to do with how the draws are made. */
static double plain_unit(uint64_t *state)
{
    *state ^= *state >> 12;
    *state ^= *state << 25;
    *state ^= *state >> 27;
    return (double)((*state * UINT64_C(0x2545F4914F6CDD1D)) >> 11) / 9007199254740992.0;
}

static double plain_normal(uint64_t *state)
{
    for (;;) {
        double x = 2 * plain_unit(state) - 1, y = 2 * plain_unit(state) - 1;
        double s = x * x + y * y;
        if (s > 0 && s < 1)
            return x * sqrt(-2 * log(s) / s);
    }
}

static const double plain_ranges[PLAIN_LEAVES][3] = {
    { 2, 2.5, 4 }, { 180, 240, 330 }, { 0.1, 0.3, 0.4 }, { 38, 45, 60 }, { 0, 2, 9 },
    { 1, 1.5, 1.8 },
};

static double plain_leaf(int i, uint64_t *state)
{
    const double *r = plain_ranges[i];
    double z = plain_normal(state);
    double x = r[1] + z / Z_90 * (z < 0 ? r[1] - r[0] : r[2] - r[1]);
    return x < 0 ? 0 : x;
}

/* A felling job: hours from area, trees and a rate, at least a day's; wages and fuel. */
static double plain_cost(const double *x)
{
    double trees = ceil(x[0] * x[1]);
    double hours = fmax(trees * x[2] / x[5], 150);
    return hours * x[3] + 3 * x[4] * x[4] - x[4] / x[0];
}

static struct qty drawn_cost(struct kit *k)
{
    struct graph *g = k->g;
    struct fault *f = &k->f;
    struct qty x[PLAIN_LEAVES];
    for (uint32_t i = 0; i < PLAIN_LEAVES; i++)
        x[i] = leaf(k, plain_ranges[i][0], plain_ranges[i][1], plain_ranges[i][2], i);
    struct qty trees = graph_ceil(g, graph_multiply(g, x[0], x[1], f), UNIT_NUMBER, f);
    struct qty hours = graph_divide(g, graph_multiply(g, trees, x[2], f), x[5], f);
    hours = graph_max(g, hours, number(k, 150), f);
    struct qty fuel = graph_scale(g, graph_power(g, x[4], 2, 1, f), 3, f);
    struct qty all = graph_add(g, graph_multiply(g, hours, x[3], f), fuel, f);
    return graph_subtract(g, all, graph_divide(g, x[4], x[0], f), f);
}

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return x < y ? -1 : x > y;
}

/* The share of plain draws below what was found should be 10, 50 and 90 percent: no
 * density is needed. Its standard deviation is sqrt(p (1 - p) / 4096) for our draws (the
 * plain ones add next to nothing): 0.0047 and 0.0078; four times that is allowed. */
static void a_million_plain_draws_give_the_same_percentiles(void **state)
{
    struct kit *k = *state;
    struct spread s = spread(k, drawn_cost(k));
    double *plain = malloc(PLAIN_DRAWS * sizeof *plain);
    assert_non_null(plain);
    uint64_t seed = 88172645463325252u;
    size_t below[3] = { 0, 0, 0 };
    for (int i = 0; i < PLAIN_DRAWS; i++) {
        double x[PLAIN_LEAVES];
        for (int n = 0; n < PLAIN_LEAVES; n++)
            x[n] = plain_leaf(n, &seed);
        plain[i] = plain_cost(x);
        below[0] += plain[i] < s.low;
        below[1] += plain[i] < s.median;
        below[2] += plain[i] < s.high;
    }
    qsort(plain, PLAIN_DRAWS, sizeof *plain, by_size);
    double width = plain[PLAIN_DRAWS / 10 * 9] - plain[PLAIN_DRAWS / 10];
    free(plain);
    assert_true(fabs((double)below[0] / PLAIN_DRAWS - 0.1) < 4 * 0.0047);
    assert_true(fabs((double)below[1] / PLAIN_DRAWS - 0.5) < 4 * 0.0078);
    assert_true(fabs((double)below[2] / PLAIN_DRAWS - 0.9) < 4 * 0.0047);
    assert_true(fabs((s.high - s.low) / width - 1) < 0.1);
    double likely[PLAIN_LEAVES];
    for (int n = 0; n < PLAIN_LEAVES; n++)
        likely[n] = plain_ranges[n][1];
    assert_true(fabs(s.value - plain_cost(likely)) < 1e-9 * s.value);
}

/* ---- draws without a value ---- */

static void division_by_what_may_be_zero_has_no_upper_end(void **state)
{
    struct kit *k = *state;
    struct qty a = number(k, 2), b = leaf(k, 0, 1, 2, 2), c = leaf(k, 0.01, 1, 2, 3);
    struct spread s = spread(k, graph_divide(k->g, a, b, &k->f));
    assert_true(isinf(s.high) && isfinite(s.low) && isfinite(s.median) && s.lost == 0);
    s = spread(k, graph_divide(k->g, a, c, &k->f));
    assert_true(isfinite(s.high));
}

static void roots_of_less_than_nothing_are_left_out_and_counted(void **state)
{
    struct kit *k = *state;
    struct spread s = spread(k, graph_power(k->g, leaf(k, -1, 3, 7, 1), 1, 2, &k->f));
    /* Below zero: z under -3/4 of 1.2816, 16.8 percent. */
    assert_true(fabs(s.lost - 0.5 * erfc(0.75 * Z_90 / sqrt(2))) < 2.0 / SPREAD_DRAWS);
    assert_true(s.low > 0 && s.high > s.low);
}

/* ---- chance ---- */

static double chance(struct kit *k, struct qty a, struct qty b)
{
    double p = -1;
    assert_true(spread_chance(k->g, a, b, &p, &k->f));
    return p;
}

static void chance_is_the_closed_form_for_normals(void **state)
{
    struct kit *k = *state;
    struct qty a = normal(k, 10, 3, 1), b = normal(k, 12, 4, 2);
    /* a - b is normal about -2 with deviation 5. The share may be 0.0074 off. */
    double want = 0.5 * erfc(0.4 / sqrt(2));
    assert_true(fabs(chance(k, a, b) - want) < 4 * 0.0074);
    assert_true(fabs(chance(k, a, b) + chance(k, b, a) - 1) < 1e-12);
}

static void chance_against_a_figure_is_read_off_the_range(void **state)
{
    struct kit *k = *state;
    struct qty a = leaf(k, 2, 3, 5, 1), two = number(k, 2);
    assert_true(fabs(chance(k, a, two) - 0.9) < 1.0 / SPREAD_DRAWS);
    assert_true(fabs(chance(k, two, a) - 0.1) < 1.0 / SPREAD_DRAWS);
}

static void ties_count_half(void **state)
{
    struct kit *k = *state;
    struct qty a = leaf(k, 2, 3, 5, 1), one = number(k, 1), two = number(k, 2);
    struct qty third = graph_scale(k->g, graph_scale(k->g, a, 1 / 3.0, &k->f), 3, &k->f);
    assert_true(chance(k, a, a) == 0.5);
    assert_true(chance(k, a, third) == 0.5); /* but for the last bit */
    assert_true(chance(k, one, one) == 0.5);
    assert_true(chance(k, two, one) == 1 && chance(k, one, two) == 0);
}

static void chance_wants_like_with_like(void **state)
{
    struct kit *k = *state;
    struct unit_id feet;
    double p = -1;
    assert_true(units_find(k->u, "ft", 2, &feet, &k->f));
    struct qty a = leaf(k, 2, 3, 5, 1), b = graph_leaf(k->g, 2, feet, nowhere, &k->f);
    assert_false(spread_chance(k->g, a, b, &p, &k->f));
    assert_string_equal(k->f.id, "dimension-compare");
    assert_false(spread_chance(k->g, QTY_NONE, a, &p, &k->f));
}

/* ---- what it hangs on ---- */

static struct qty named(struct kit *k, struct qty q, const char *name)
{
    assert_true(graph_name(k->g, &q, name, nowhere, &k->f));
    return q;
}

/* For a sum of independent normals the share of a leaf is its share of the variance. The
 * score's correlation has a standard deviation of (1 - r^2) / 64, its square 2 r times
 * that: 0.013 at most; four times it is allowed. */
static void shares_of_a_sum_are_shares_of_its_variance(void **state)
{
    struct kit *k = *state;
    struct qty sum = graph_add(k->g, named(k, normal(k, 50, 1, 1), "small"),
                               named(k, normal(k, 90, 4, 2), "large"), &k->f);
    sum = graph_add(k->g, sum, named(k, normal(k, 70, 2, 3), "middling"), &k->f);
    struct hangs_on rows[5];
    assert_int_equal(spread_hangs_on(k->g, sum, rows, 5, &k->f), 3);
    assert_string_equal(rows[0].name, "large");
    assert_string_equal(rows[1].name, "middling");
    assert_string_equal(rows[2].name, "small");
    assert_true(fabs(rows[0].share - 16 / 21.0) < 4 * 0.013);
    assert_true(fabs(rows[1].share - 4 / 21.0) < 4 * 0.013);
    assert_true(fabs(rows[2].share - 1 / 21.0) < 4 * 0.013);
    assert_true(fabs(rows[0].share + rows[1].share + rows[2].share - 1) < 1e-12);
    assert_int_equal(spread_hangs_on(k->g, sum, rows, 1, &k->f), 1);
}

/* A bend of the result moves no rank, so it moves no share. */
static void a_bend_of_the_result_moves_no_share(void **state)
{
    struct kit *k = *state;
    struct qty sum = graph_add(k->g, normal(k, 9, 1, 1), normal(k, 9, 2, 2), &k->f);
    struct hangs_on plain[2], bent[2];
    assert_int_equal(spread_hangs_on(k->g, sum, plain, 2, &k->f), 2);
    struct qty bend = graph_power(k->g, sum, -5, 1, &k->f);
    assert_int_equal(spread_hangs_on(k->g, bend, bent, 2, &k->f), 2);
    assert_true(fabs(plain[0].share - bent[0].share) < 1e-12);
}

static void one_key_is_one_row_however_many_nodes_say_it(void **state)
{
    struct kit *k = *state;
    struct qty a = normal(k, 9, 1, 1), b = normal(k, 9, 1, 1);
    struct hangs_on rows[3];
    struct qty both = graph_multiply(k->g, a, b, &k->f);
    assert_int_equal(spread_hangs_on(k->g, both, rows, 3, &k->f), 1);
    assert_true(rows[0].share == 1);
}

static void a_leaf_that_does_not_matter_is_no_row(void **state)
{
    struct kit *k = *state;
    struct qty a = normal(k, 9, 1, 1), b = normal(k, 900, 1, 2);
    struct hangs_on rows[3];
    struct qty least = graph_min(k->g, a, b, &k->f);
    size_t count = spread_hangs_on(k->g, least, rows, 3, &k->f);
    assert_in_range(count, 1, 2);
    assert_true(rows[0].share > 0.998);
    struct qty none = graph_subtract(k->g, a, a, &k->f);
    assert_int_equal(spread_hangs_on(k->g, none, rows, 3, &k->f), 0);
    struct qty sure = number(k, 2);
    assert_int_equal(spread_hangs_on(k->g, sure, rows, 3, &k->f), 0);
    assert_int_equal(spread_hangs_on(k->g, QTY_NONE, rows, 3, &k->f), 0);
    assert_false(fault_is_set(&k->f));
}

static void rows_are_called_by_the_nearest_name_or_the_words(void **state)
{
    struct kit *k = *state;
    struct graph *g = k->g;
    struct fault *f = &k->f;
    struct origin table = { SPAN_NONE, "felling rate, state table" };
    struct qty own = named(k, normal(k, 10, 1, 1), "hours");
    struct qty worded = graph_range(g, 8, 10, 12, UNIT_NUMBER, 2, table, f);
    struct qty part = graph_multiply(g, normal(k, 10, 1, 3), worded, f);
    part = named(k, part, "cleanup");
    struct qty bare = normal(k, 100, 9, 4);
    struct qty total = graph_add(g, graph_scale(g, own, 10, f), part, f);
    total = named(k, graph_add(g, total, bare, f), "total");
    struct hangs_on rows[4];
    assert_int_equal(spread_hangs_on(g, total, rows, 4, f), 4);
    bool seen[4] = { false };
    for (int i = 0; i < 4; i++) {
        seen[0] = seen[0] || strcmp(rows[i].name, "hours") == 0;
        seen[1] = seen[1] || strcmp(rows[i].name, "felling rate, state table") == 0;
        seen[2] = seen[2] || strcmp(rows[i].name, "cleanup") == 0;
        seen[3] = seen[3] || strcmp(rows[i].name, "") == 0; /* only under the total */
    }
    assert_true(seen[0] && seen[1] && seen[2] && seen[3]);
}

/* ---- many at once, and memory ---- */

static void more_than_are_drawn_together_come_out_the_same(void **state)
{
    struct kit *k = *state;
    enum { MANY = 1300 };
    static struct qty list[MANY];
    static struct spread s[MANY];
    struct qty a = normal(k, 10, 1, 1), b = normal(k, 20, 2, 2);
    struct qty both = graph_multiply(k->g, a, b, &k->f);
    for (int i = 0; i < MANY; i++)
        list[i] = graph_scale(k->g, both, 1 + i % 3, &k->f);
    assert_true(spread_of(k->g, list, MANY, s, &k->f));
    for (int i = 3; i < MANY; i++)
        assert_memory_equal(&s[i], &s[i % 3], sizeof s[i]);
    struct spread alone = spread(k, list[MANY - 1]);
    assert_true(alone.low == s[MANY - 1].low && alone.high == s[MANY - 1].high);
}

static void results_do_not_depend_on_when_memory_was_reclaimed(void **state)
{
    struct kit *k = *state;
    for (int i = 0; i < 200; i++)
        graph_release(k->g, normal(k, 1, 1, 500));
    struct qty a = drawn_cost(k);
    struct spread before = spread(k, a), after;
    graph_collect(k->g);
    after = spread(k, a);
    assert_true(before.low == after.low && before.median == after.median);
    assert_true(before.high == after.high && before.value == after.value);
}

static void running_out_of_memory_is_told_and_nothing_is_kept(void **state)
{
    (void)state;
    struct failing a = { .left = -1 };
    struct kit k;
    fault_clear(&k.f);
    k.u = units_new_on(failing_memory(&a));
    k.g = graph_new(k.u);
    struct qty x = normal(&k, 10, 1, 1), y = graph_multiply(k.g, x, x, &k.f);
    long long before = a.held;
    struct hangs_on rows[2];
    struct spread s;
    double p;
    for (int what = 0; what < 3; what++) {
        int refused = 0;
        for (bool done = false; !done; refused += !done) {
            fault_clear(&k.f);
            a.left = refused;
            done = what == 0   ? spread_of(k.g, &y, 1, &s, &k.f)
                   : what == 1 ? spread_chance(k.g, y, x, &p, &k.f)
                               : spread_hangs_on(k.g, y, rows, 2, &k.f) == 1;
            a.left = -1;
            assert_true(a.held == before);
            assert_true(done != fault_is_set(&k.f));
            if (!done)
                assert_string_equal(k.f.id, "memory");
        }
        assert_true(refused > 5);
    }
    graph_free(k.g);
    units_free(k.u);
}

#define with_kit(test) cmocka_unit_test_setup_teardown(test, set_up, take_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        with_kit(certain_quantities_are_their_value),
        with_kit(a_typed_range_reads_back_exactly),
        with_kit(sums_of_independent_normals_are_normal),
        with_kit(differences_and_multiples_of_normals_are_normal),
        with_kit(ten_shared_ranges_spread_wider_than_ten_separate_ones),
        with_kit(what_is_taken_away_from_itself_is_nothing),
        with_kit(bends_keep_the_percentiles_they_bend),
        with_kit(the_larger_of_two_normals_is_as_the_books_have_it),
        with_kit(the_median_is_called_out_where_it_differs),
        with_kit(a_million_plain_draws_give_the_same_percentiles),
        with_kit(division_by_what_may_be_zero_has_no_upper_end),
        with_kit(roots_of_less_than_nothing_are_left_out_and_counted),
        with_kit(chance_is_the_closed_form_for_normals),
        with_kit(chance_against_a_figure_is_read_off_the_range),
        with_kit(ties_count_half),
        with_kit(chance_wants_like_with_like),
        with_kit(shares_of_a_sum_are_shares_of_its_variance),
        with_kit(a_bend_of_the_result_moves_no_share),
        with_kit(one_key_is_one_row_however_many_nodes_say_it),
        with_kit(a_leaf_that_does_not_matter_is_no_row),
        with_kit(rows_are_called_by_the_nearest_name_or_the_words),
        with_kit(more_than_are_drawn_together_come_out_the_same),
        with_kit(results_do_not_depend_on_when_memory_was_reclaimed),
        cmocka_unit_test(running_out_of_memory_is_told_and_nothing_is_kept),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
