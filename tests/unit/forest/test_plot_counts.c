#include "../unit.h"
#include "woods.h"

#include "forest/plot_counts.h"

static const char NOTES[] =
    "size 1/10 ac\nregeneration on 1/1000 ac\n"
    "plot 1: RO 12; snags: 12 RO 15; den: RM 20; regen: RO 3 1-3 ft, 2 3-5 ft; BTA 6\n"
    "plot 2: none; regen: RO 1 1-3 ft\n"
    "plot 3: none; snags: RO 9x3\n"
    "no regeneration\nplot 4: RO 9\n";

static struct species_set one(size_t species) {
    struct species_set set = { { 0 } };
    species_set_put(&set, species, true);
    return set;
}

static void same(const double *values, const double want[4]) {
    for (size_t i = 0; i < 4; i++) close_to(values[i], want[i], 1e-9);
}

static void each_plot_has_its_value(void **state) {
    (void)state;
    struct species_table *t = woods_table();
    struct inventory *inv = woods_cruise(t, NOTES);
    struct species_set oak = one(RED_OAK), maple = one(RED_MAPLE);
    double values[TALLY_PLOTS_MOST];
    plot_snags(inv, NULL, 0, HUGE_VAL, values);
    same(values, (double[]){ 20, 0, 30, 0 });
    plot_snags(inv, &oak, 0, HUGE_VAL, values);
    same(values, (double[]){ 10, 0, 30, 0 });
    plot_snags(inv, &oak, 9, 15, values);
    same(values, (double[]){ 0, 0, 30, 0 });
    plot_dens(inv, &maple, 0, HUGE_VAL, values);
    same(values, (double[]){ 10, 0, 0, 0 });
    plot_stems(inv, &oak, 0, HUGE_VAL, values);
    same(values, (double[]){ 5000, 1000, 0, 0 });
    plot_stems(inv, &oak, 3, 5, values);
    same(values, (double[]){ 2000, 0, 0, 0 });
    plot_stocked(inv, &oak, 0, HUGE_VAL, 2, values);
    same(values, (double[]){ 1, 0, 0, 0 });
    assert_int_equal(plot_count(inv, inv->stems_taken), 3);
    assert_int_equal(plot_count(inv, NULL), 4);
    inventory_free(inv);
    species_table_free(t);
}

static void a_class_that_a_bound_runs_through_is_found(void **state) {
    (void)state;
    struct species_table *t = woods_table();
    struct inventory *inv = woods_cruise(t, NOTES);
    struct species_set oak = one(RED_OAK), aspen = one(BIGTOOTH);
    assert_null(plot_stems_cut(inv, &oak, 1, 3));
    assert_null(plot_stems_cut(inv, &oak, 0, HUGE_VAL));
    assert_null(plot_stems_cut(inv, &oak, 5, HUGE_VAL));
    assert_ptr_equal(plot_stems_cut(inv, &oak, 0, 2), &inv->stems[0]);
    assert_ptr_equal(plot_stems_cut(inv, &oak, 4, HUGE_VAL), &inv->stems[1]);
    assert_non_null(plot_stems_cut(inv, &aspen, 0, 3)); /* its height was not told */
    assert_null(plot_stems_cut(inv, &aspen, 0, HUGE_VAL));
    inventory_free(inv);
    species_table_free(t);
}

/* By hand: snags 20, 0, 30, 0: mean 12.5, s^2 225, SE 7.5; t(0.90, 3) 1.6377 (R 4.2.2).
 * Regeneration of oak on three plots, 5,000, 1,000, 0: mean 2,000, s^2 7,000,000, SE
 * 1,527.525; t(0.90, 2) 1.8856. */
static void means_come_with_the_error_of_their_own_plots(void **state) {
    (void)state;
    struct species_table *t = woods_table();
    struct inventory *inv = woods_cruise(t, NOTES);
    struct species_set oak = one(RED_OAK);
    struct fault f = { .id = NULL };
    struct estimate e;
    double values[TALLY_PLOTS_MOST];
    plot_snags(inv, NULL, 0, HUGE_VAL, values);
    assert_true(plot_estimate(inv, values, NULL, &e, &f));
    close_to(e.value, 12.5, 1e-9);
    close_to(e.sample.error, 7.5, 1e-9);
    close_to(e.high, 12.5 + 1.6377 * 7.5, 0.001);
    estimate_clear(&e);
    plot_stems(inv, &oak, 0, HUGE_VAL, values);
    assert_true(plot_estimate(inv, values, inv->stems_taken, &e, &f));
    close_to(e.value, 2000, 1e-9);
    close_to(e.sample.error, 1527.525, 0.001);
    close_to(e.high, 2000 + 1.8856 * 1527.525, 0.1);
    close_to(e.low, 0, 0);
    assert_int_equal(e.sample.count, 3);
    estimate_clear(&e);
    inventory_free(inv);
    species_table_free(t);
}

static void one_small_plot_tells_no_error(void **state) {
    (void)state;
    struct species_table *t = woods_table();
    struct inventory *inv =
        woods_cruise(t, "size 1/10 ac\nregen on 1/1000 ac\nplot 1: none; regen: RO 4\n"
                        "no regen\nplot 2: none\n");
    struct fault f = { .id = NULL };
    struct estimate e;
    double values[TALLY_PLOTS_MOST];
    plot_stems(inv, NULL, 0, HUGE_VAL, values);
    assert_true(plot_estimate(inv, values, inv->stems_taken, &e, &f));
    close_to(e.value, 4000, 1e-9);
    assert_false(e.told);
    assert_true(e.low < e.value && e.high > e.value);
    estimate_clear(&e);
    inventory_free(inv);
    species_table_free(t);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_plot_has_its_value),
        cmocka_unit_test(a_class_that_a_bound_runs_through_is_found),
        cmocka_unit_test(means_come_with_the_error_of_their_own_plots),
        cmocka_unit_test(one_small_plot_tells_no_error),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
