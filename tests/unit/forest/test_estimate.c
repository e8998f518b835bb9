#include "../unit.h"
#include "woods.h"

#include <stdio.h>

#include "forest/estimate.h"

struct wood {
    struct species_table *species;
    struct inventory *inv;
    struct stock *all;
};

static struct wood wood_of(const char *text) {
    struct fault f = { .id = NULL };
    struct wood w = { .species = woods_table() };
    w.inv = woods_cruise(w.species, text);
    w.all = stock_of(w.inv, &f);
    assert_non_null(w.all);
    return w;
}

static void wood_clear(struct wood *w) {
    stock_free(w->all);
    inventory_free(w->inv);
    species_table_free(w->species);
}

static struct stock_pick pick(const struct wood *w, const char *word) {
    struct fault f = { .id = NULL };
    struct stock_pick p = stock_pick_all();
    assert_true(species_select(w->species, word, strlen(word), &p.species, &f));
    return p;
}

static struct estimate basal_area(const struct wood *w, const char *word) {
    struct fault f = { .id = NULL };
    struct stock_pick p = pick(w, word);
    struct estimate e = { 0 };
    assert_true(estimate_total(w->all, &p, STOCK_BASAL_AREA, &e, &f));
    estimate_clear(&e); /* the causes alone */
    return e;
}

static void a_total_errs_by_its_plot_totals_and_not_by_its_classes(void **state) {
    (void)state;
    /* Oak and maple trade places between plots: apart they vary, together hardly. */
    struct wood w = wood_of("baf 10\nplot 1: RO 12x5\nplot 2: RM 12x5\n"
                            "plot 3: RO 12x3; RM 12x2\nplot 4: RO 12x2; RM 12x4\n");
    struct estimate oak = basal_area(&w, "red oak"), all = basal_area(&w, "all");
    /* 50 0 30 20: mean 25, s^2 433.33; 50 50 50 60: mean 52.5, s^2 25 (by hand) */
    close_to(oak.sample.variance, 433.3333, 0.0001);
    close_to(oak.sample.error, sqrt(433.333333 / 4), 1e-6);
    close_to(all.sample.variance, 25, 1e-9);
    close_to(all.sample.error, 2.5, 1e-9);
    close_to(all.low, 52.5 - 1.637744 * 2.5, 1e-5);
    close_to(all.high, 52.5 + 1.637744 * 2.5, 1e-5);
    wood_clear(&w);
}

static void one_plot_tells_no_error_and_says_so(void **state) {
    (void)state;
    struct wood w = wood_of("baf 10\nplot 1: RO 12x5; RM 6\n");
    struct estimate e = basal_area(&w, "all");
    assert_false(e.told);
    close_to(e.low, 30, 1e-9);
    close_to(e.high, 90, 1e-9);
    double low, high;
    assert_false(estimate_interval(&e, 0.95, &low, &high));
    struct estimate none = basal_area(&w, "paper birch");
    assert_true(none.told);
    close_to(none.high, 0, 0);
    wood_clear(&w);
}

static void plots_that_agree_exactly_tell_no_error_either(void **state) {
    (void)state;
    struct wood w = wood_of("baf 10\nplot 1: RO 12x5\nplot 2: RO 12x5\nplot 3: RO 12x5\n"
                            "plot 4: RO 12x5\n");
    struct estimate e = basal_area(&w, "red oak");
    assert_false(e.told);
    close_to(e.low, 50 - 25 / 2.0, 1e-9);
    close_to(e.high, 50 + 25 / 2.0, 1e-9);
    wood_clear(&w);
}

static void what_is_counted_out_is_certain_and_the_rest_bears_the_doubt(void **state) {
    (void)state;
    struct fault f = { .id = NULL };
    struct wood w = wood_of("size 1/10 ac\nplot 1: BTA 8x10\nplot 2: BTA 8x20\n"
                            "plot 3: BTA 8x15\n");
    struct stock_pick aspen = pick(&w, "aspen");
    struct estimate before, after, stays;
    struct stock_keep keep = { aspen, STOCK_TREES, 15, STOCK_AS_FOUND, 0 };
    struct stock *taken, *left;
    assert_true(stock_cut(w.all, &aspen, 1, &keep, 1, &taken, &left, &f));
    assert_true(estimate_total(w.all, &aspen, STOCK_TREES, &before, &f));
    assert_true(estimate_total(taken, &aspen, STOCK_TREES, &after, &f));
    assert_true(estimate_total(left, &aspen, STOCK_TREES, &stays, &f));
    close_to(stays.low, 15, 1e-9);
    close_to(stays.high, 15, 1e-9);
    assert_true(stays.told);
    close_to(after.value, 135, 1e-9);
    close_to(after.sample.error, before.sample.error, 1e-9);
    close_to(after.sample.mean, 135, 1e-9);
    estimate_clear(&before);
    estimate_clear(&after);
    estimate_clear(&stays);
    stock_free(taken);
    stock_free(left);
    wood_clear(&w);
}

static void a_share_errs_as_a_ratio(void **state) {
    (void)state;
    struct fault f = { .id = NULL };
    struct wood w = wood_of("baf 10\nplot 1: RO 12x4; RM 12x4\nplot 2: RO 12x2; RM 12x2\n"
                            "plot 3: RO 12; RM 12\nplot 4: RO 12x6; RM 12x2\n");
    struct stock_pick oak = pick(&w, "oak"), all = stock_pick_all();
    struct estimate e;
    assert_true(estimate_share(w.all, &oak, &all, STOCK_BASAL_AREA, &e, &f));
    /* oak 40 20 10 60, all 80 40 20 80: ratio 130/220; residuals and error by hand */
    double r = 130 / 220.0, d[4] = { 40 - 80 * r, 20 - 40 * r, 10 - 20 * r, 60 - 80 * r };
    double s2 = (d[0] * d[0] + d[1] * d[1] + d[2] * d[2] + d[3] * d[3]) / 3;
    close_to(e.value, r, 1e-12);
    close_to(e.sample.error, sqrt(s2 / 4) / 55, 1e-9);
    struct stock_pick hazel = pick(&w, "beaked hazel");
    estimate_clear(&e);
    assert_true(estimate_share(w.all, &all, &all, STOCK_TREES, &e, &f));
    close_to(e.value, 1, 1e-12);
    close_to(e.low, 1, 1e-9); /* the whole is certainly all of it */
    estimate_clear(&e);
    assert_true(estimate_share(w.all, &all, &hazel, STOCK_TREES, &e, &f));
    close_to(e.value, 0, 0);
    estimate_clear(&e);
    wood_clear(&w);
}

static void the_mean_tree_has_the_quadratic_mean_diameter(void **state) {
    (void)state;
    struct fault f = { .id = NULL };
    struct wood w = wood_of("size 1/10 ac\nplot 1: RO 6 8 10\nplot 2: RO 12 12\n");
    struct stock_pick all = stock_pick_all();
    struct estimate e;
    assert_true(estimate_mean_tree(w.all, &all, &e, &f));
    double dq = sqrt((36 + 64 + 100 + 144 + 144) / 5.0);
    close_to(sqrt(e.value / INVENTORY_FT2_PER_IN2), dq, 1e-9);
    assert_true(e.low < e.value && e.value < e.high);
    estimate_clear(&e);
    wood_clear(&w);
}

/* Random cruises of a wood that is known: the range between the 10th and 90th percentile
 * holds the truth about four times in five, and the 95 percent interval more often. */
static void ranges_hold_the_truth_as_often_as_they_say(void **state) {
    (void)state;
    uint32_t seed = 7;
    int held = 0, held95 = 0, rounds = 400;
    for (int round = 0; round < rounds; round++) {
        char text[4000];
        int n = sprintf(text, "size 1/10 ac\n");
        for (int p = 1; p <= 6; p++) {
            n += sprintf(text + n, "plot %d:", p);
            /* a sum of 12 even draws is near enough normal: mean 10, sd 2 */
            double trees = 10 - 6 * 2;
            for (int k = 0; k < 12; k++) trees += 2 * woods_random(&seed);
            for (int k = 0; k < (int)(trees + 0.5); k++) n += sprintf(text + n, " RO 10");
            n += sprintf(text + n, "\n");
        }
        struct wood w = wood_of(text);
        struct fault f = { .id = NULL };
        struct stock_pick all = stock_pick_all();
        struct estimate e;
        double low, high;
        assert_true(estimate_total(w.all, &all, STOCK_TREES, &e, &f));
        assert_true(estimate_interval(&e, 0.95, &low, &high));
        held += e.low <= 100 && 100 <= e.high;
        held95 += low <= 100 && 100 <= high;
        estimate_clear(&e);
        wood_clear(&w);
    }
    /* 0.8 and 0.95 of 400, three standard errors of a count either way */
    assert_true(held > 296 && held < 344);
    assert_true(held95 > 366);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_total_errs_by_its_plot_totals_and_not_by_its_classes),
        cmocka_unit_test(one_plot_tells_no_error_and_says_so),
        cmocka_unit_test(plots_that_agree_exactly_tell_no_error_either),
        cmocka_unit_test(what_is_counted_out_is_certain_and_the_rest_bears_the_doubt),
        cmocka_unit_test(a_share_errs_as_a_ratio),
        cmocka_unit_test(the_mean_tree_has_the_quadratic_mean_diameter),
        cmocka_unit_test(ranges_hold_the_truth_as_often_as_they_say),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
