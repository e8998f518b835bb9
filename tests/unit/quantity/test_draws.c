#include "../unit.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

#include "base/fault.h"
#include "quantity/draws.h"
#include "quantity/node.h"
#include "quantity/normal.h"
#include "quantity/select.h"
#include "quantity/shuffle.h"
#include "quantity/unit_inner.h"
#include "failing.h"

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

static struct qty range(struct kit *k, double low, double likely, double high,
                        const char *name)
{
    uint64_t key = graph_key(name, 0, 0);
    return graph_range(k->g, low, likely, high, UNIT_NUMBER, key, nowhere, &k->f);
}

static struct qty number(struct kit *k, double value)
{
    return graph_leaf(k->g, value, UNIT_NUMBER, nowhere, &k->f);
}

static struct draws *draw(struct kit *k, const struct qty *list, size_t count)
{
    uint32_t nodes[64];
    assert_false(fault_is_set(&k->f));
    for (size_t i = 0; i < count; i++)
        nodes[i] = graph_node_of(k->g, list[i]);
    struct draws *d = draws_of(k->g, nodes, count, &k->f);
    assert_non_null(d);
    return d;
}

/* ---- the normal ---- */

/* The area of the normal by the C library is an independent road back. erfc is good to a
 * few units in the last place, which its slope passes on to the tail. */
static void inverse_of_the_normal_leads_back_through_erfc(void **state)
{
    (void)state;
    for (int i = 1; i < 20000; i++) {
        double p = i / 20000.0;
        assert_true(fabs(0.5 * erfc(-normal_inverse(p) / sqrt(2)) - p) < 4e-16);
    }
    for (double p = 1e-10; p < 0.01; p *= 1.37)
        assert_true(fabs(0.5 * erfc(-normal_inverse(p) / sqrt(2)) / p - 1) < 1e-13);
}

/* Abramowitz and Stegun, Handbook of Mathematical Functions, table 26.5. */
static void inverse_of_the_normal_is_the_published_one(void **state)
{
    (void)state;
    assert_true(fabs(normal_inverse(0.9) - 1.28155157) < 5e-9);
    assert_true(fabs(normal_inverse(0.975) - 1.95996398) < 5e-9);
    assert_true(fabs(normal_inverse(0.999) - 3.09023231) < 5e-9);
    assert_true(normal_inverse(0.5) == 0);
}

static void two_pieces_go_through_the_three_percentiles(void **state)
{
    (void)state;
    struct two_piece t = two_piece_through(60, 70, 95);
    assert_true(fabs(two_piece_at(t, normal_inverse(0.1)) - 60) < 1e-12);
    assert_true(two_piece_at(t, 0) == 70);
    assert_true(fabs(two_piece_at(t, normal_inverse(0.9)) - 95) < 1e-12);
}

static void a_range_on_one_side_of_zero_never_crosses_it(void **state)
{
    (void)state;
    struct two_piece above = two_piece_through(1, 4, 9);
    struct two_piece below = two_piece_through(-9, -4, 0);
    struct two_piece across = two_piece_through(-1, 4, 9);
    assert_true(two_piece_at(above, -4) == 0);
    assert_true(two_piece_at(below, 4) == 0 && two_piece_at(below, 0) == -4);
    assert_true(two_piece_at(across, -4) < -1);
}

/* ---- the order of draws ---- */

static void order(uint64_t key, uint16_t *out)
{
    struct shuffle s = shuffle_of(key);
    for (unsigned from = 0; from < SHUFFLE_SIZE; from += SHUFFLE_BLOCK)
        shuffle_block(&s, from, out + from);
}

static void every_order_takes_every_part_once(void **state)
{
    (void)state;
    static uint16_t places[SHUFFLE_SIZE];
    for (uint64_t key = 0; key < 500; key++) {
        bool seen[SHUFFLE_SIZE] = { false };
        order(key * UINT64_C(0x123456789abcdef), places);
        for (int i = 0; i < SHUFFLE_SIZE; i++) {
            assert_true(places[i] < SHUFFLE_SIZE && !seen[places[i]]);
            seen[places[i]] = true;
        }
    }
}

enum { KEYS = 150 };

/* Fills `rows` with the scores of KEYS leaves: keys as scripts make them (neighbouring
 * positions of one file), or plainly counted ones, which are the worst to tell apart. */
static void score_rows(bool counted, double (*rows)[SHUFFLE_SIZE])
{
    static double table[SPREAD_DRAWS];
    static uint16_t places[SHUFFLE_SIZE];
    draws_table(table);
    for (uint32_t k = 0; k < KEYS; k++) {
        order(counted ? k : graph_key("plan.rx", 10 + k, 0), places);
        for (int i = 0; i < SHUFFLE_SIZE; i++)
            rows[k][i] = table[places[i]];
    }
}

struct summary {
    double mean_square, largest;
};

static struct summary correlations(double (*rows)[SHUFFLE_SIZE])
{
    struct summary s = { 0, 0 };
    double own = 0;
    for (int i = 0; i < SHUFFLE_SIZE; i++)
        own += rows[0][i] * rows[0][i];
    for (int a = 0; a < KEYS; a++)
        for (int b = 0; b < a; b++) {
            double with = 0;
            for (int i = 0; i < SHUFFLE_SIZE; i++)
                with += rows[a][i] * rows[b][i];
            double r = with / own * 64; /* in standard deviations of a dealt order */
            s.mean_square += r * r;
            s.largest = fmax(s.largest, fabs(r));
        }
    s.mean_square /= KEYS * (KEYS - 1) / 2.0;
    return s;
}

/* Of 11,175 correlations of independent orders the mean square lies within 1 +- 0.0134
 * (one standard deviation, sqrt(2 / 11175)), and the largest above 5.5 once in 2,000
 * tries. */
static void different_keys_are_as_good_as_independent(void **state)
{
    (void)state;
    static double rows[KEYS][SHUFFLE_SIZE];
    for (int counted = 0; counted < 2; counted++) {
        score_rows(counted == 1, rows);
        struct summary plain = correlations(rows);
        assert_true(fabs(plain.mean_square - 1) < 5 * 0.0134);
        assert_true(plain.largest < 5.5);
        /* And how far out they are has nothing to do with each other either. */
        for (int k = 0; k < KEYS; k++)
            for (int i = 0; i < SHUFFLE_SIZE; i++)
                rows[k][i] = fabs(rows[k][i]) - 0.79788;
        struct summary sizes = correlations(rows);
        assert_true(fabs(sizes.mean_square - 1) < 5 * 0.0134);
        assert_true(sizes.largest < 5.5);
    }
}

/* Three at a time: the product of three independent scores has mean 0, give or take
 * 1/64. */
static void no_key_is_the_blend_of_two_others(void **state)
{
    (void)state;
    static double rows[KEYS][SHUFFLE_SIZE];
    score_rows(false, rows);
    double largest = 0;
    for (int a = 2; a < KEYS; a++)
        for (int b = 0; b < 60; b++) {
            const double *x = rows[a], *y = rows[(a + 1 + b) % KEYS];
            const double *z = rows[(a * 7 + b * 3) % KEYS];
            double sum = 0;
            if (x == y || y == z || x == z)
                continue;
            for (int i = 0; i < SHUFFLE_SIZE; i++)
                sum += x[i] * y[i] * z[i];
            largest = fmax(largest, fabs(sum) / 64);
        }
    assert_true(largest < 5.5);
    assert_true(largest > 3); /* 8,880 tries: it would be strange if none came near */
}

static void the_same_key_is_the_same_draw_in_separate_nodes(void **state)
{
    struct kit *k = *state;
    struct qty a = range(k, 2, 3, 5, "rate"), b = range(k, 2, 3, 5, "rate");
    struct qty list[] = { a, b, graph_subtract(k->g, a, b, &k->f) };
    struct draws *d = draw(k, list, 3);
    for (int i = 0; i < SPREAD_DRAWS; i++) {
        assert_true(draws_row(d, 0)[i] == draws_row(d, 1)[i]);
        assert_true(draws_row(d, 2)[i] == 0);
    }
    draws_free(d);
}

/* ---- leaves ---- */

/* Percentiles of the draws are those of the distribution but for the straight line
 * between neighbours, a 4,096th apart: (1/4096)^2 / 8 times the bend there (about 25 at
 * the 10th percentile) is 2e-7 of the half range. At the middle the two halves meet at an
 * angle: half a part to each side, 3.1e-4 standard deviations, times half the difference.
 * Likewise at an end that is zero, where the held draws begin: a tenth of a part, 1e-4 of
 * the half. */
static void draws_of_a_leaf_have_the_percentiles_that_were_typed(void **state)
{
    struct kit *k = *state;
    static const double typed[][3] = { { 60, 70, 95 }, { 2, 2.5, 3 }, { 0, 1, 8 },
                                       { -9, -4, -1 }, { -5, 2, 3 }, { 5, 5, 9 } };
    for (size_t i = 0; i < sizeof typed / sizeof *typed; i++) {
        struct qty q = range(k, typed[i][0], typed[i][1], typed[i][2], "leaf");
        struct draws *d = draw(k, &q, 1);
        struct percentiles p = select_percentiles(draws_row(d, 0), SPREAD_DRAWS);
        double width = typed[i][2] - typed[i][0];
        double low_slack = typed[i][0] == 0 ? 1e-4 : 1e-6;
        assert_true(fabs(p.low - typed[i][0]) < low_slack * width);
        assert_true(fabs(p.median - typed[i][1]) < 1.6e-4 * width);
        assert_true(fabs(p.high - typed[i][2]) < 1e-6 * width);
        draws_free(d);
    }
}

static void no_draw_of_a_leaf_crosses_zero(void **state)
{
    struct kit *k = *state;
    struct qty list[] = { range(k, 0.1, 4, 5, "above"), range(k, -9, -1, 0, "below") };
    struct draws *d = draw(k, list, 2);
    int held = 0;
    for (int i = 0; i < SPREAD_DRAWS; i++) {
        assert_true(draws_row(d, 0)[i] >= 0);
        assert_true(draws_row(d, 1)[i] <= 0);
        held += draws_row(d, 0)[i] == 0;
    }
    assert_in_range(held, 1, SPREAD_DRAWS / 10);
    draws_free(d);
}

/* ---- operations ---- */

/* Each operation draw by draw against C's own, from the same leaves. */
static void operations_work_draw_by_draw(void **state)
{
    struct kit *k = *state;
    struct graph *g = k->g;
    struct fault *f = &k->f;
    struct qty x = range(k, 2, 3, 5, "x"), y = range(k, 0.5, 1, 4, "y"), c = number(k, 3);
    struct qty three[] = { x, y, x };
    struct qty list[] = {
        x, y,
        graph_add(g, x, y, f), graph_subtract(g, x, y, f), graph_add(g, x, c, f),
        graph_subtract(g, c, y, f), graph_negate(g, x, f), graph_sum(g, three, 3, f),
        graph_multiply(g, x, y, f), graph_multiply(g, c, x, f),
        graph_multiply(g, x, c, f),
        graph_divide(g, x, y, f), graph_divide(g, x, c, f), graph_divide(g, c, x, f),
        graph_power(g, x, 2, 1, f), graph_power(g, x, -3, 1, f),
        graph_power(g, x, 1, 2, f), graph_power(g, x, 1, 3, f),
        graph_min(g, x, y, f), graph_min(g, x, c, f), graph_min(g, c, x, f),
        graph_max(g, x, y, f), graph_max(g, x, c, f), graph_max(g, c, x, f),
        graph_ceil(g, x, UNIT_NUMBER, f), graph_floor(g, x, UNIT_NUMBER, f),
        graph_scale(g, x, -2, f), graph_multiply(g, x, x, f),
    };
    enum { COUNT = sizeof list / sizeof *list };
    struct draws *d = draw(k, list, COUNT);
    for (int i = 0; i < SPREAD_DRAWS; i++) {
        double a = draws_row(d, 0)[i], b = draws_row(d, 1)[i];
        const double want[COUNT] = {
            a, b,
            a + b, a - b, a + 3, 3 - b, -a, 2 * a + b,
            a * b, 3 * a, a * 3,
            a / b, a / 3, 3 / a,
            a * a, 1 / (a * a * a), sqrt(a), cbrt(a),
            fmin(a, b), fmin(a, 3), fmin(a, 3),
            fmax(a, b), fmax(a, 3), fmax(a, 3),
            ceil(a), floor(a), -2 * a, a * a,
        };
        for (int n = 0; n < COUNT; n++) {
            double got = draws_row(d, (size_t)n)[i];
            assert_true(got == want[n] || fabs(got - want[n]) <= 1e-14 * fabs(want[n]));
        }
    }
    draws_free(d);
}

static void whole_numbers_are_of_the_unit_and_forgive_rounding(void **state)
{
    struct kit *k = *state;
    struct unit_id plants, dozen;
    assert_true(units_find(k->u, "plants", 6, &plants, &k->f));
    assert_true(units_define(k->u, "dozen", "dozens", "plants", 12, "a dozen", &k->f));
    assert_true(units_find(k->u, "dozen", 5, &dozen, &k->f));
    struct qty x = graph_range(k->g, 10, 20, 90, plants, 7, nowhere, &k->f);
    /* A third taken and given back is not a plant more. */
    struct qty back = graph_scale(k->g, graph_scale(k->g, x, 1.0 / 49, &k->f), 49, &k->f);
    struct qty whole = graph_ceil(k->g, x, plants, &k->f);
    struct qty list[] = { x, graph_ceil(k->g, x, dozen, &k->f),
                          graph_ceil(k->g, whole, plants, &k->f),
                          graph_ceil(k->g, back, plants, &k->f) };
    struct draws *d = draw(k, list, 4);
    for (int i = 0; i < SPREAD_DRAWS; i++) {
        double a = draws_row(d, 0)[i];
        assert_true(draws_row(d, 1)[i] == 12 * ceil(a / 12));
        assert_true(draws_row(d, 2)[i] == ceil(a));
        assert_true(draws_row(d, 3)[i] == ceil(a));
    }
    draws_free(d);
}

static void a_draw_without_a_value_is_passed_on_and_not_passed_over(void **state)
{
    struct kit *k = *state;
    struct graph *g = k->g;
    struct fault *f = &k->f;
    struct qty x = range(k, -1, 1, 3, "x"), root = graph_power(g, x, 1, 2, f);
    struct qty c = number(k, 2);
    struct qty list[] = { x, root, graph_min(g, root, c, f), graph_min(g, c, root, f),
                          graph_max(g, root, c, f), graph_max(g, c, root, f),
                          graph_min(g, root, x, f), graph_min(g, x, root, f),
                          graph_max(g, root, x, f), graph_max(g, x, root, f),
                          graph_ceil(g, root, UNIT_NUMBER, f) };
    struct draws *d = draw(k, list, 11);
    for (int i = 0; i < SPREAD_DRAWS; i++)
        for (size_t n = 1; n < 11; n++)
            assert_true(isnan(draws_row(d, n)[i]) == (draws_row(d, 0)[i] < 0));
    draws_free(d);
}

static void long_sums_add_every_term_as_often_as_it_was_added(void **state)
{
    struct kit *k = *state;
    enum { LEAVES = 9, TERMS = 501 };
    struct qty x[LEAVES + 1], sum = number(k, 0.25);
    double times[LEAVES] = { 0 };
    for (int i = 0; i < LEAVES; i++) {
        char name[2] = { (char)('a' + i), 0 };
        x[i] = range(k, 1, 2 + i, 20, name);
    }
    for (int i = 0; i < TERMS; i++) {
        int which = i * i % LEAVES, back = i % 3 == 0;
        sum = back ? graph_subtract(k->g, sum, x[which], &k->f)
                   : graph_add(k->g, sum, x[which], &k->f);
        times[which] += back ? -1 : 1;
    }
    x[LEAVES] = sum;
    struct draws *d = draw(k, x, LEAVES + 1);
    for (int i = 0; i < SPREAD_DRAWS; i++) {
        double want = 0.25;
        for (size_t n = 0; n < LEAVES; n++)
            want += times[n] * draws_row(d, n)[i];
        assert_true(fabs(draws_row(d, LEAVES)[i] - want) <= 1e-10);
    }
    draws_free(d);
}

/* ---- what is asked, and in which order ---- */

static void names_and_other_units_share_the_row_of_what_they_say(void **state)
{
    struct kit *k = *state;
    struct unit_id feet, inches;
    assert_true(units_find(k->u, "ft", 2, &feet, &k->f));
    assert_true(units_find(k->u, "in", 2, &inches, &k->f));
    struct qty x = graph_range(k->g, 1, 2, 4, feet, 3, nowhere, &k->f);
    struct qty twice = graph_scale(k->g, x, 2, &k->f);
    struct qty said = graph_say_in(k->g, twice, inches, &k->f);
    struct qty named = graph_hold(k->g, said, &k->f);
    assert_true(graph_name(k->g, &named, "width", nowhere, &k->f));
    struct qty after = graph_scale(k->g, named, 0.5, &k->f);
    struct qty list[] = { named, x, twice, said, after, twice };
    struct draws *d = draw(k, list, 6);
    assert_int_equal(draws_row_number(d, 0), draws_row_number(d, 2));
    assert_int_equal(draws_row_number(d, 0), draws_row_number(d, 3));
    assert_int_equal(draws_row_number(d, 0), draws_row_number(d, 5));
    for (int i = 0; i < SPREAD_DRAWS; i++) {
        assert_true(draws_row(d, 0)[i] == 2 * draws_row(d, 1)[i]);
        assert_true(draws_row(d, 4)[i] == draws_row(d, 1)[i]);
    }
    draws_free(d);
}

static void certain_nodes_are_their_value_in_every_draw(void **state)
{
    struct kit *k = *state;
    struct qty list[] = { number(k, 7), range(k, 1, 2, 3, "x"), number(k, -2) };
    struct draws *d = draw(k, list, 3);
    for (int i = 0; i < SPREAD_DRAWS; i++)
        assert_true(draws_row(d, 0)[i] == 7 && draws_row(d, 2)[i] == -2);
    draws_free(d);
}

/* The same work made in two orders, with other things in between and a collection at an
 * awkward moment: the same draws, bit for bit. */
static void draws_do_not_depend_on_order_or_reclaiming(void **state)
{
    struct kit *k = *state;
    struct graph *g = k->g;
    struct fault *f = &k->f;
    static double first[SPREAD_DRAWS];
    struct qty x = range(k, 2, 3, 5, "x"), y = range(k, 1, 2, 9, "y");
    struct qty z = graph_add(g, graph_multiply(g, x, y, f), y, f);
    struct draws *d = draw(k, &z, 1);
    memcpy(first, draws_row(d, 0), sizeof first);
    draws_free(d);

    for (int i = 0; i < 50; i++)
        graph_release(g, range(k, 1, 2, 3, "gone"));
    struct qty y2 = range(k, 1, 2, 9, "y"), other = range(k, 4, 5, 6, "other");
    struct qty x2 = range(k, 2, 3, 5, "x");
    graph_collect(g);
    struct qty z2 = graph_add(g, graph_multiply(g, x2, y2, f), y2, f);
    graph_release(g, x2);
    graph_release(g, y2);
    graph_collect(g);
    struct qty list[] = { other, z2, z };
    d = draw(k, list, 3);
    assert_memory_equal(draws_row(d, 1), first, sizeof first);
    assert_memory_equal(draws_row(d, 2), first, sizeof first);
    draws_free(d);
}

/* Far more ranges than buffers would be healthy for: their draws come one after the
 * other. */
static void a_sum_over_thousands_of_ranges_needs_few_buffers(void **state)
{
    (void)state;
    enum { RANGES = 5000 };
    struct failing a = { .left = -1 };
    struct fault f;
    fault_clear(&f);
    struct units *u = units_new_on(failing_memory(&a));
    struct graph *g = graph_new(u);
    static struct qty q[RANGES];
    for (uint32_t i = 0; i < RANGES; i++)
        q[i] = graph_range(g, 1, 2, 3, UNIT_NUMBER, graph_key("r", i, 0), nowhere, &f);
    uint32_t node = graph_node_of(g, graph_sum(g, q, RANGES, &f));
    long long before = a.held;
    struct draws *d = draws_of(g, &node, 1, &f);
    assert_non_null(d);
    /* Steps, leaves and marks are some 200 bytes a range; its draws would be 32,768. */
    assert_true(a.held - before < 250 * RANGES + 200000);
    draws_free(d);
    assert_true(a.held == before);
    graph_free(g);
    units_free(u);
}

static void running_out_of_memory_is_told_and_nothing_is_kept(void **state)
{
    (void)state;
    struct failing a = { .left = -1 };
    struct fault f;
    fault_clear(&f);
    struct units *u = units_new_on(failing_memory(&a));
    struct graph *g = graph_new(u);
    struct qty x = graph_range(g, 1, 2, 3, UNIT_NUMBER, 1, nowhere, &f);
    struct qty y = graph_multiply(g, x, graph_add(g, x, x, &f), &f);
    uint32_t nodes[] = { graph_node_of(g, y), graph_node_of(g, x) };
    long long before = a.held;
    struct draws *d = NULL;
    int refused = 0;
    for (long n = 0; !d; n++, refused += d == NULL) {
        fault_clear(&f);
        a.left = n;
        d = draws_of(g, nodes, 2, &f);
        a.left = -1;
        if (!d) {
            assert_string_equal(f.id, "memory");
            assert_true(a.held == before);
        }
    }
    assert_in_range(refused, 10, 40);
    draws_free(d);
    assert_true(a.held == before);
    graph_free(g);
    units_free(u);
}

#define with_kit(test) cmocka_unit_test_setup_teardown(test, set_up, take_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(inverse_of_the_normal_leads_back_through_erfc),
        cmocka_unit_test(inverse_of_the_normal_is_the_published_one),
        cmocka_unit_test(two_pieces_go_through_the_three_percentiles),
        cmocka_unit_test(a_range_on_one_side_of_zero_never_crosses_it),
        cmocka_unit_test(every_order_takes_every_part_once),
        cmocka_unit_test(different_keys_are_as_good_as_independent),
        cmocka_unit_test(no_key_is_the_blend_of_two_others),
        with_kit(the_same_key_is_the_same_draw_in_separate_nodes),
        with_kit(draws_of_a_leaf_have_the_percentiles_that_were_typed),
        with_kit(no_draw_of_a_leaf_crosses_zero),
        with_kit(operations_work_draw_by_draw),
        with_kit(whole_numbers_are_of_the_unit_and_forgive_rounding),
        with_kit(a_draw_without_a_value_is_passed_on_and_not_passed_over),
        with_kit(long_sums_add_every_term_as_often_as_it_was_added),
        with_kit(names_and_other_units_share_the_row_of_what_they_say),
        with_kit(certain_nodes_are_their_value_in_every_draw),
        with_kit(draws_do_not_depend_on_order_or_reclaiming),
        cmocka_unit_test(a_sum_over_thousands_of_ranges_needs_few_buffers),
        cmocka_unit_test(running_out_of_memory_is_told_and_nothing_is_kept),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
