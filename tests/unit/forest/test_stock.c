#include "../unit.h"
#include "woods.h"

#include <stdio.h>

#include "forest/stock.h"

static const char notes[] = "baf 10\n"
                            "plot 1: BTA 7 8 8 9 11; QA 6; RO 14; RM 5\n"
                            "plot 2: BTA 6 8 9 10 10 12; PB 8\n"
                            "plot 3: RO 16 18; RM 4x3\n";

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

static void taken_and_left_add_up_and_only_the_picked_are_taken(void **state) {
    (void)state;
    struct fault f = { .id = NULL };
    struct wood w = wood_of(notes);
    struct stock_pick every = stock_pick_all(), aspen = pick(&w, "aspen");
    struct stock *taken, *left;
    assert_true(stock_cut(w.all, &aspen, 1, NULL, 0, &taken, &left, &f));
    close_to(stock_basal_area(taken, &every), 40,
             1e-9); /* 12 aspens of 3 plots, BAF 10 */
    close_to(stock_basal_area(left, &aspen), 0, 0);
    close_to(stock_basal_area(left, &every), 26.6666666667, 1e-9);
    close_to(stock_trees(taken, &every) + stock_trees(left, &every),
             stock_trees(w.all, &every), 1e-9);
    stock_free(taken);
    stock_free(left);
    wood_clear(&w);
}

/* BAF 10 on 3 plots: 12 aspens are 40 ft2/ac, 3 red oaks 10, all 20 trees 66.7. */
static void two_cuts_of_the_same_wood_take_each_tree_once(void **state) {
    (void)state;
    struct fault f = { .id = NULL };
    struct wood w = wood_of(notes);
    struct stock_pick every = stock_pick_all(), aspen = pick(&w, "aspen"),
                      oak = pick(&w, "red oak");
    struct stock *aspens, *oaks, *rest, *left = stock_copy(w.all, &f);
    assert_true(stock_cut(w.all, &aspen, 1, NULL, 0, &aspens, &rest, &f));
    stock_free(rest);
    assert_true(stock_cut(w.all, &oak, 0.5, NULL, 0, &oaks, &rest, &f));
    stock_remove(left, aspens);
    stock_remove(left, oaks);
    close_to(stock_basal_area(left, &aspen), 0, 0);
    close_to(stock_basal_area(left, &oak), 5, 1e-9);
    close_to(stock_basal_area(left, &every), 66.6666666667 - 40 - 5, 1e-9);
    stock_remove(left, aspens); /* claimed again */
    close_to(stock_basal_area(left, &aspen), 0, 0);
    close_to(stock_basal_area(left, &every), 66.6666666667 - 40 - 5, 1e-9);
    stock_free(aspens);
    stock_free(oaks);
    stock_free(rest);
    stock_free(left);
    wood_clear(&w);
}

static void diameter_limits_cut_where_they_say(void **state) {
    (void)state;
    struct fault f = { .id = NULL };
    struct wood w = wood_of("size 1/10 ac\nplot 1: RO 7.9 8 8.1 11.9 12 12.1\n");
    struct stock_pick p = stock_pick_all();
    p.from_in = 8;
    p.below_in = 12;
    struct stock *taken = stock_take_share(w.all, &p, 1, &f);
    close_to(stock_trees(taken, &p), 30, 1e-9); /* 8, 8.1 and 11.9 */
    stock_free(taken);
    wood_clear(&w);
}

static void fifteen_left_an_acre_are_fifteen(void **state) {
    (void)state;
    struct fault f = { .id = NULL };
    struct wood w = wood_of(notes);
    struct stock_pick aspen = pick(&w, "aspen");
    for (int order = STOCK_AS_FOUND; order <= STOCK_SMALLEST; order++) {
        struct stock_keep keep = { aspen, STOCK_TREES, 15, (enum stock_order)order, 0 };
        struct stock *taken, *left;
        assert_true(stock_cut(w.all, &aspen, 1, &keep, 1, &taken, &left, &f));
        close_to(keep.kept, 15, 1e-9);
        close_to(stock_trees(left, &aspen), 15, 1e-9);
        close_to(stock_trees(taken, &aspen), stock_trees(w.all, &aspen) - 15, 1e-9);
        stock_free(taken);
        stock_free(left);
    }
    wood_clear(&w);
}

static void the_largest_are_kept_first_when_asked(void **state) {
    (void)state;
    struct fault f = { .id = NULL };
    struct wood w = wood_of("size 1/10 ac\nplot 1: BTA 6x5 9x4 12x1; QA 12x1\n");
    struct stock_pick aspen = pick(&w, "aspen"), big = aspen;
    struct stock *kept =
        stock_take_amount(w.all, &aspen, STOCK_TREES, 30, STOCK_LARGEST, &f);
    big.from_in = 10;
    close_to(stock_trees(kept, &big), 20, 1e-9); /* both twelves, 10 an acre each */
    big.from_in = 8;
    close_to(stock_trees(kept, &big), 30, 1e-9); /* and ten of the nines */
    close_to(stock_trees(w.all, &big), 30, 1e-9);
    stock_free(kept);
    kept = stock_take_amount(w.all, &aspen, STOCK_TREES, 60, STOCK_SMALLEST, &f);
    big.from_in = 8;
    close_to(stock_trees(kept, &big), 10, 1e-9); /* fifty sixes, then ten nines */
    stock_free(kept);
    wood_clear(&w);
}

static void basal_area_can_be_left_too(void **state) {
    (void)state;
    struct fault f = { .id = NULL };
    struct wood w = wood_of(notes);
    struct stock_pick every = stock_pick_all();
    struct stock_keep keep = { every, STOCK_BASAL_AREA, 25, STOCK_LARGEST, 0 };
    struct stock *taken, *left;
    assert_true(stock_cut(w.all, &every, 1, &keep, 1, &taken, &left, &f));
    close_to(stock_basal_area(left, &every), 25, 1e-9);
    stock_free(taken);
    stock_free(left);
    wood_clear(&w);
}

static void fewer_than_asked_for_all_stay_and_that_is_told(void **state) {
    (void)state;
    struct fault f = { .id = NULL };
    struct wood w = wood_of(notes);
    struct stock_pick every = stock_pick_all(), birch = pick(&w, "paper birch");
    double there = stock_trees(w.all, &birch);
    struct stock_keep keep = { birch, STOCK_TREES, 500, STOCK_AS_FOUND, 0 };
    struct stock *taken, *left;
    assert_true(stock_cut(w.all, &every, 1, &keep, 1, &taken, &left, &f));
    close_to(keep.kept, there, 1e-9);
    close_to(stock_trees(left, &every), there, 1e-9);
    stock_free(taken);
    stock_free(left);
    wood_clear(&w);
}

static void keeps_follow_one_another_and_share_takes_of_the_rest(void **state) {
    (void)state;
    struct fault f = { .id = NULL };
    struct wood w = wood_of("size 1/10 ac\nplot 1: BTA 8x10; RO 14x2; RM 5x4\n");
    struct stock_pick every = stock_pick_all();
    struct stock_keep keeps[] = {
        { pick(&w, "oak"), STOCK_TREES, HUGE_VAL, STOCK_AS_FOUND, 0 },
        { pick(&w, "red maple"), STOCK_TREES, 10, STOCK_AS_FOUND, 0 },
        { pick(&w, "hardwood"), STOCK_TREES, 13, STOCK_AS_FOUND, 0 }
    };
    struct stock *taken, *left;
    assert_true(stock_cut(w.all, &every, 0.5, keeps, 3, &taken, &left, &f));
    close_to(keeps[0].kept, 20, 1e-9);
    close_to(keeps[1].kept, 10, 1e-9);
    close_to(keeps[2].kept, 13, 1e-9); /* of 100 aspens and 30 maples: a tenth of each */
    struct stock_pick aspen = pick(&w, "aspen");
    close_to(stock_trees(taken, &aspen), 45, 1e-9);
    close_to(stock_trees(taken, &every), 58.5, 1e-9);
    close_to(stock_trees(left, &every), 101.5, 1e-9);
    stock_free(taken);
    stock_free(left);
    wood_clear(&w);
}

static void rows_show_classes_of_an_inch_or_two_and_whole_species(void **state) {
    (void)state;
    struct wood w = wood_of("size 1/10 ac\nplot 1: BTA 7.4 7.5 8.4 8.5; RO 14x2\n");
    struct stock_row rows[8];
    assert_int_equal(stock_rows(w.all, 1, rows, 8), 4);
    close_to(rows[1].class_in, 8, 0);
    close_to(rows[1].trees, 20, 1e-9);
    close_to(rows[1].from_in, 7.5, 0);
    close_to(rows[1].below_in, 8.5, 0);
    assert_int_equal(stock_rows(w.all, 2, rows, 8), 2);
    close_to(rows[0].trees, 40, 1e-9); /* 7 up to 9 */
    assert_int_equal(stock_rows(w.all, 0, rows, 8), 2);
    assert_int_equal(rows[1].species, RED_OAK);
    close_to(rows[1].basal_area, 20 * INVENTORY_FT2_PER_IN2 * 196, 1e-9);
    assert_int_equal(stock_rows(w.all, 1, rows, 1), 4); /* told, though not filled */
    wood_clear(&w);
}

/* A random tally as text, with its own random cut: what is taken and what is left is what
 * was there, and nothing is less than none. */
static void whatever_is_cut_nothing_is_lost_and_nothing_is_negative(void **state) {
    (void)state;
    static const char *const words[] = { "BTA", "QA", "RO", "RM", "PB" };
    uint32_t seed = 20261014;
    for (int round = 0; round < 200; round++) {
        char text[4000];
        int n = sprintf(text, round % 2 ? "baf 10\n" : "size 1/20 ac\n");
        int plots = 1 + (int)(woods_random(&seed) * 6);
        for (int p = 1; p <= plots; p++) {
            n += sprintf(text + n, "plot %d:", p);
            for (int k = (int)(woods_random(&seed) * 8); k > 0; k--)
                n += sprintf(
                    text + n, " %s %d.%dx%d;", words[(int)(woods_random(&seed) * 5)],
                    1 + (int)(woods_random(&seed) * 20), (int)(woods_random(&seed) * 10),
                    1 + (int)(woods_random(&seed) * 9));
            n += sprintf(text + n, "\n");
        }
        struct wood w = wood_of(text);
        struct fault f = { .id = NULL };
        struct stock *before = stock_copy(w.all, &f), *taken, *left;
        for (int cut = 0; cut < 3; cut++) {
            struct stock_pick what = stock_pick_all();
            what.from_in = woods_random(&seed) * 10;
            struct stock_keep keeps[2];
            for (int k = 0; k < 2; k++) {
                keeps[k] =
                    (struct stock_keep){ stock_pick_all(),
                                         woods_random(&seed) < 0.5 ? STOCK_TREES
                                                                   : STOCK_BASAL_AREA,
                                         woods_random(&seed) * 60,
                                         (enum stock_order)(woods_random(&seed) * 3), 0 };
                species_set_put(&keeps[k].pick.species, (size_t)(woods_random(&seed) * 5),
                                false);
            }
            assert_true(stock_cut(before, &what, woods_random(&seed), keeps, 2, &taken,
                                  &left, &f));
            for (size_t s = 0; s < WOODS_COUNT; s++)
                for (double d = 0; d < 24; d += 3) {
                    struct stock_pick p = { { { 0 } }, d, d + 3 };
                    species_set_put(&p.species, s, true);
                    double there = stock_trees(before, &p), some = stock_trees(taken, &p),
                           rest = stock_trees(left, &p);
                    assert_true(some >= 0 && rest >= 0);
                    close_to(some + rest, there, 1e-9 * (1 + there));
                }
            stock_free(taken);
            stock_free(before);
            before = left;
        }
        stock_free(before);
        wood_clear(&w);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(taken_and_left_add_up_and_only_the_picked_are_taken),
        cmocka_unit_test(two_cuts_of_the_same_wood_take_each_tree_once),
        cmocka_unit_test(diameter_limits_cut_where_they_say),
        cmocka_unit_test(fifteen_left_an_acre_are_fifteen),
        cmocka_unit_test(the_largest_are_kept_first_when_asked),
        cmocka_unit_test(basal_area_can_be_left_too),
        cmocka_unit_test(fewer_than_asked_for_all_stay_and_that_is_told),
        cmocka_unit_test(keeps_follow_one_another_and_share_takes_of_the_rest),
        cmocka_unit_test(rows_show_classes_of_an_inch_or_two_and_whole_species),
        cmocka_unit_test(whatever_is_cut_nothing_is_lost_and_nothing_is_negative),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
