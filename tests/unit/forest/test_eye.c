#include "../unit.h"
#include "woods.h"

#include "forest/estimate.h"
#include "forest/eye.h"

static const struct eye_rules rules = { .density_percent = 30,
                                        .share_points = 12,
                                        .diameter_percent = 10,
                                        .not_walked_times = 2 };

/* "Sixty percent aspen, four to eight inches", 100 ft2 of basal area. */
static const struct eye_share shares[] = {
    { .species = QUAKING, .percent = 60 },
    { .species = RED_OAK, .percent = 25, .least_in = 10, .most_in = 16 },
    { .species = RED_MAPLE, .percent = 15 }
};
static const struct eye_estimate usual = { .basis = INVENTORY_EYE,
                                           .judged = JUDGED_BASAL_AREA,
                                           .low = 100,
                                           .likely = 100,
                                           .high = 100,
                                           .least_in = 4,
                                           .most_in = 8,
                                           .shares = shares,
                                           .share_count = 3 };

static struct estimate judged(const struct eye_estimate *e, const struct stock_pick *pick,
                              enum stock_measure measure) {
    struct fault f = { .id = NULL };
    struct species_table *t = woods_table();
    struct inventory *inv = eye_inventory(e, &rules, t, "North corner", SPAN_NONE, &f);
    assert_non_null(inv);
    struct stock *all = stock_of(inv, &f);
    struct estimate out = { 0 };
    assert_true(estimate_total(all, pick, measure, &out, &f));
    estimate_clear(&out); /* the causes alone */
    stock_free(all);
    inventory_free(inv);
    species_table_free(t);
    return out;
}

static struct stock_pick only(size_t species) {
    struct stock_pick p = { { { 0 } }, 0, HUGE_VAL };
    species_set_put(&p.species, species, true);
    return p;
}

static void a_judged_stand_answers_as_a_cruised_one(void **state) {
    (void)state;
    struct stock_pick all = stock_pick_all(), aspen = only(QUAKING), oak = only(RED_OAK);
    struct estimate e = judged(&usual, &all, STOCK_BASAL_AREA);
    close_to(e.value, 100, 1e-9);
    close_to(e.low, 70, 1e-9);
    close_to(e.high, 130, 1e-9);
    assert_int_equal(e.sample.count, 0);
    close_to(judged(&usual, &aspen, STOCK_BASAL_AREA).value, 60, 1e-9);
    close_to(judged(&usual, &oak, STOCK_BASAL_AREA).value, 25, 1e-9);
    oak.below_in = 9.5;
    close_to(judged(&usual, &oak, STOCK_TREES).value, 0, 0);
    /* 60 ft2 of aspen whose mean tree lies between 4 and 8 in */
    double dq = estimate_quadratic_mean(60, judged(&usual, &aspen, STOCK_TREES).value);
    assert_true(dq > 5.4 && dq < 6.4);
}

static void the_gable_over_the_diameters_is_even_on_both_sides(void **state) {
    (void)state;
    struct stock_pick small = only(QUAKING), middle = small, large = small;
    small.below_in = 5.5;
    middle.from_in = 5.5;
    middle.below_in = 6.5;
    large.from_in = 6.5;
    double s = judged(&usual, &small, STOCK_BASAL_AREA).value,
           m = judged(&usual, &middle, STOCK_BASAL_AREA).value,
           l = judged(&usual, &large, STOCK_BASAL_AREA).value;
    close_to(s, l, 1e-9);
    close_to(m, 60 * 0.4375, 1e-9); /* 1 - 2 x 2 x 0.375^2, by hand */
}

static void trees_are_less_sure_than_the_basal_area_that_was_judged(void **state) {
    (void)state;
    struct stock_pick all = stock_pick_all();
    struct estimate area = judged(&usual, &all, STOCK_BASAL_AREA),
                    trees = judged(&usual, &all, STOCK_TREES);
    double wide = (area.high - area.low) / area.value;
    assert_true((trees.high - trees.low) / trees.value > wide);
    /* and the other way round where stems were judged */
    struct eye_estimate e = usual;
    e.judged = JUDGED_TREES;
    e.low = e.likely = e.high = 300;
    trees = judged(&e, &all, STOCK_TREES);
    area = judged(&e, &all, STOCK_BASAL_AREA);
    close_to(trees.value, 300, 1e-9);
    close_to(trees.high, 390, 1e-9);
    assert_true((area.high - area.low) / area.value > (390.0 - 210) / 300);
}

static void a_part_is_less_sure_than_the_whole(void **state) {
    (void)state;
    struct stock_pick aspen = only(QUAKING);
    struct estimate e = judged(&usual, &aspen, STOCK_BASAL_AREA);
    /* 30 percent of 60, and 12 points x 2 sqrt(0.6 x 0.4) of 100 with what the other two
     * shares take from it: all by squares, computed here */
    double own = 0.12 * 2 * sqrt(0.6 * 0.4) * 100;
    double oak = 0.12 * 2 * sqrt(0.25 * 0.75) * 60 / 0.75;
    double maple = 0.12 * 2 * sqrt(0.15 * 0.85) * 60 / 0.85;
    close_to(e.high - 60, sqrt(18 * 18 + own * own + oak * oak + maple * maple), 1e-9);
    struct eye_share pure = { .species = QUAKING, .percent = 100 };
    struct eye_estimate one = usual;
    one.shares = &pure;
    one.share_count = 1;
    close_to(judged(&one, &aspen, STOCK_BASAL_AREA).high, 130, 1e-9);
}

static void what_was_not_walked_is_far_wider_and_says_so(void **state) {
    (void)state;
    struct eye_estimate guess = usual;
    guess.basis = INVENTORY_GUESS;
    struct stock_pick all = stock_pick_all();
    struct estimate e = judged(&guess, &all, STOCK_BASAL_AREA);
    close_to(e.low, 40, 1e-9);
    close_to(e.high, 160, 1e-9);
    guess.low = 40; /* a range of the consultant's own is widened too, never below zero */
    guess.high = 150;
    e = judged(&guess, &all, STOCK_BASAL_AREA);
    close_to(e.low, 0, 1e-9);
    close_to(e.high, 200, 1e-9);
    struct fault f = { .id = NULL };
    struct species_table *t = woods_table();
    struct inventory *inv = eye_inventory(&guess, &rules, t, "Far corner", SPAN_NONE, &f);
    assert_string_equal(inv->words, "Far corner: not walked, a guess");
    inventory_free(inv);
    species_table_free(t);
}

static void refused(struct eye_estimate e, const char *id, const char *message) {
    struct fault f = { .id = NULL };
    struct species_table *t = woods_table();
    assert_null(eye_inventory(&e, &rules, t, "North corner", SPAN_NONE, &f));
    assert_string_equal(f.id, id);
    assert_string_equal(f.message, message);
    species_table_free(t);
}

static void slips_of_the_eye_are_refused(void **state) {
    (void)state;
    struct eye_estimate e = usual;
    e.share_count = 2;
    refused(e, "eye-shares", "the shares add up to 85 percent, not 100");
    e = usual;
    e.likely = e.high = 900;
    refused(e, "eye-density", "basal area lies between 0 and 400 ft2/ac");
    e = usual;
    e.least_in = 9;
    refused(e, "eye-diameter", "the smaller diameter comes first");
    e = usual;
    e.most_in = 80;
    refused(e, "eye-diameter", "diameters lie between 0.5 and 60 in");
    e = usual;
    e.share_count = 0;
    refused(e, "eye-shares", "between 1 and 40 species are named");
    struct eye_share twice[] = { { .species = RED_OAK, .percent = 50 },
                                 { .species = RED_OAK, .percent = 50 } };
    e = usual;
    e.shares = twice;
    e.share_count = 2;
    refused(e, "eye-share", "this species is there twice");
    twice[1].percent = -3;
    refused(e, "eye-share", "a share lies above 0 and up to 100 percent");
}

static void one_diameter_is_one_diameter(void **state) {
    (void)state;
    struct eye_estimate e = usual;
    struct eye_share pure = { .species = QUAKING, .percent = 100 };
    e.shares = &pure;
    e.share_count = 1;
    e.least_in = e.most_in = 7.3;
    struct stock_pick all = stock_pick_all();
    close_to(judged(&e, &all, STOCK_TREES).value,
             100 / (INVENTORY_FT2_PER_IN2 * 7.3 * 7.3), 1e-9);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_judged_stand_answers_as_a_cruised_one),
        cmocka_unit_test(the_gable_over_the_diameters_is_even_on_both_sides),
        cmocka_unit_test(trees_are_less_sure_than_the_basal_area_that_was_judged),
        cmocka_unit_test(a_part_is_less_sure_than_the_whole),
        cmocka_unit_test(what_was_not_walked_is_far_wider_and_says_so),
        cmocka_unit_test(slips_of_the_eye_are_refused),
        cmocka_unit_test(one_diameter_is_one_diameter),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
