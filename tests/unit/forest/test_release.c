#include "../unit.h"
#include "woods.h"

#include "forest/release.h"

struct wood {
    struct species_table *species;
    struct inventory *inv;
    struct stock *rest, *crop;
    struct fault f;
    struct thin rule;
};

/* Four of the largest oaks an acre are crop trees. */
static struct wood wood_of(const char *text, double crop_trees) {
    struct stock_pick all = stock_pick_all(), oak = all;
    struct wood w = { .species = woods_table(), .rule = thin_of(&all) };
    w.inv = woods_cruise(w.species, text);
    w.rest = stock_of(w.inv, &w.f);
    assert_true(species_select(w.species, "oak", 3, &oak.species, &w.f));
    w.crop =
        stock_take_amount(w.rest, &oak, STOCK_TREES, crop_trees, STOCK_LARGEST, &w.f);
    assert_non_null(w.crop);
    return w;
}

static void wood_clear(struct wood *w) {
    stock_free(w->rest);
    stock_free(w->crop);
    inventory_free(w->inv);
    species_table_free(w->species);
}

/* Trees felled per acre; what is felled goes back. */
static double felled(struct wood *w, double sides, double gap_ft, double evenness) {
    struct release r = { sides, gap_ft, evenness, &w->rule, 3.12, 1.829 };
    struct stock_pick all = stock_pick_all();
    struct stock *taken = release_take(w->rest, w->crop, w->crop, &r, w->species, &w->f);
    assert_non_null(taken);
    double trees = stock_trees(taken, &all);
    stock_add(w->rest, taken);
    stock_free(taken);
    return trees;
}

static const char closed[] = "size 1/10 ac\nplot 1: RO 14x5; RM 8x8\n";

/* Crowns of 50 oaks (28.726 ft wide) and 80 maples (17.752 ft) would cover 52,206 ft2 of
 * 43,560, so each is 0.91345 of that: radii 13.120 and 8.108 ft. With 7.5 ft of gap an oak
 * is felled within 33.740 ft of a crop tree (0.082101 ac), a maple within 28.728 ft
 * (0.059520 ac). At random: 46 (1 - exp(-4 x 0.082101)) + 80 (1 - exp(-4 x 0.059520)) =
 * 12.88 + 16.95. Evenly spaced, 8.867 trees stand in a circle and one is the crop tree:
 * (46 x 4 x 0.082101 + 80 x 4 x 0.059520) x 0.88722 = 13.40 + 16.90. */
static void the_felled_are_those_whose_crowns_come_near(void **state) {
    (void)state;
    struct wood w = wood_of(closed, 4);
    close_to(felled(&w, 4, 7.5, 0), 29.83, 0.01);
    close_to(felled(&w, 4, 7.5, 1), 30.30, 0.01);
    close_to(felled(&w, 4, 7.5, 0.5), 30.06, 0.01);
    wood_clear(&w);
}

/* 10 oaks of 10 in: crowns 21.41 ft wide, far from closed. Those that touch stand within
 * 21.41 ft: 1,440.07 ft2 or 0.0330594 ac; of 9 others 9 (1 - exp(-0.0330594)) = 0.29267 for
 * one crop tree. On two sides 9 (1 - exp(-0.0165297)) = 0.14755. */
static void open_crowns_keep_their_width_and_sides_halve_the_ground(void **state) {
    (void)state;
    struct wood w = wood_of("size 1/10 ac\nplot 1: RO 10\n", 1);
    close_to(felled(&w, 4, 0, 0), 0.29267, 1e-5);
    close_to(felled(&w, 2, 0, 0), 0.14755, 1e-5);
    /* Evenly spaced, no other stands so near. */
    close_to(felled(&w, 4, 0, 1), 0, 0);
    wood_clear(&w);
}

static void trees_under_half_as_thick_stand_below_the_crown(void **state) {
    (void)state;
    struct wood w = wood_of("size 1/10 ac\nplot 1: RO 14x2; RM 6.9x20\n", 20);
    close_to(felled(&w, 4, 5, 0.5), 0, 0);
    wood_clear(&w);
    w = wood_of("size 1/10 ac\nplot 1: RO 14x2; RM 7x20\n", 20);
    assert_true(felled(&w, 4, 5, 0.5) > 0);
    wood_clear(&w);
}

static void crown_widths_of_the_species_table_are_used(void **state) {
    (void)state;
    struct wood w = wood_of(closed, 4);
    struct release r = { .crown_start = 3.12, .crown_slope = 1.829 };
    close_to(release_crown_width(&r, species_at(w.species, RED_MAPLE), 10), 21.41, 1e-9);
    double traits[SPECIES_TRAITS];
    for (size_t i = 0; i < SPECIES_TRAITS; i++) traits[i] = NAN;
    traits[SPECIES_CROWN_START] = 1;
    traits[SPECIES_CROWN_SLOPE] = 2;
    assert_true(species_fill_traits(w.species, RED_MAPLE, traits, "a test", &w.f));
    close_to(release_crown_width(&r, species_at(w.species, RED_MAPLE), 10), 21, 1e-9);
    wood_clear(&w);
}

/* More crop trees, wider gaps and more sides fell more, never more than there are. */
static void more_is_felled_for_more_and_never_all_twice(void **state) {
    (void)state;
    double before = 0;
    for (double crop = 1; crop <= 50; crop += 7) {
        struct wood w = wood_of(closed, crop);
        struct stock_pick all = stock_pick_all();
        double there = stock_trees(w.rest, &all);
        for (double evenness = 0; evenness <= 1; evenness += 0.5) {
            double less = 0;
            for (double gap = 0; gap <= 40; gap += 5) {
                double now = felled(&w, 4, gap, evenness);
                assert_true(now >= less && now <= there * (1 + 1e-12));
                assert_true(felled(&w, 3, gap, evenness) <= now);
                less = now;
            }
        }
        double share = felled(&w, 4, 5, 0.5) / there;
        assert_true(share > before && share <= 1);
        before = share;
        wood_clear(&w);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_felled_are_those_whose_crowns_come_near),
        cmocka_unit_test(open_crowns_keep_their_width_and_sides_halve_the_ground),
        cmocka_unit_test(trees_under_half_as_thick_stand_below_the_crown),
        cmocka_unit_test(crown_widths_of_the_species_table_are_used),
        cmocka_unit_test(more_is_felled_for_more_and_never_all_twice),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
