#include "../unit.h"
#include "woods.h"

#include <stdio.h>

#include "forest/thin.h"

/* On an acre 100 maples of 4 in (8.7266 ft2), 60 of 6 in (11.7810), 40 oaks of 10 in
 * (21.8166) and 30 of 14 in (32.0704): 230 trees and 74.3947 ft2. */
static const char notes[] = "size 1/10 ac\n"
                            "plot 1: RM 4x10 6x6; RO 10x4 14x3\n";

struct wood {
    struct species_table *species;
    struct inventory *inv;
    struct stock *all, *taken, *left;
    struct fault f;
};

static struct wood wood_of(const char *text) {
    struct wood w = { .species = woods_table() };
    w.inv = woods_cruise(w.species, text);
    w.all = stock_of(w.inv, &w.f);
    assert_non_null(w.all);
    return w;
}

static void wood_clear(struct wood *w) {
    stock_free(w->taken);
    stock_free(w->left);
    stock_free(w->all);
    inventory_free(w->inv);
    species_table_free(w->species);
}

static struct thin any(void) {
    struct stock_pick all = stock_pick_all();
    return thin_of(&all);
}

static void cut(struct wood *w, const struct thin *rule) {
    stock_free(w->taken);
    stock_free(w->left);
    assert_true(thin_cut(w->all, rule, NULL, 0, &w->taken, &w->left, &w->f));
}

static double trees(const struct stock *s, size_t species, double inches) {
    struct stock_pick p = { { { 0 } }, inches - 0.05, inches + 0.05 };
    species_set_put(&p.species, species, true);
    return stock_trees(s, &p);
}

static double basal_area(const struct stock *s) {
    struct stock_pick all = stock_pick_all();
    return stock_basal_area(s, &all);
}

static struct thin down_to(double ft2, enum thin_from from) {
    struct thin rule = any();
    rule.until = THIN_TO;
    rule.measure = STOCK_BASAL_AREA;
    rule.amount = ft2;
    rule.from = from;
    return rule;
}

/* 74.3947 - 60 = 14.3947 go: all 4 in, then 5.6681 of the 6 in, 28.867 trees of 0.19635. */
static void from_below_the_smallest_go_until_the_residual_is_left(void **state) {
    (void)state;
    struct wood w = wood_of(notes);
    struct thin rule = down_to(60, THIN_BELOW);
    cut(&w, &rule);
    close_to(trees(w.taken, RED_MAPLE, 4), 100, 1e-9);
    close_to(trees(w.taken, RED_MAPLE, 6), 28.867, 0.001);
    close_to(trees(w.taken, RED_OAK, 10), 0, 0);
    close_to(basal_area(w.left), 60, 1e-9);
    wood_clear(&w);
}

/* 14.3947 of oaks of 1.06901 ft2: 13.466 trees. */
static void from_above_the_largest_go(void **state) {
    (void)state;
    struct wood w = wood_of(notes);
    struct thin rule = down_to(60, THIN_ABOVE);
    cut(&w, &rule);
    close_to(trees(w.taken, RED_OAK, 14), 13.466, 0.001);
    close_to(trees(w.taken, RED_OAK, 10), 0, 0);
    close_to(basal_area(w.left), 60, 1e-9);
    wood_clear(&w);
}

/* 14.3947 / 74.3947 = 0.193491 of each. */
static void across_every_size_gives_the_same_share(void **state) {
    (void)state;
    struct wood w = wood_of(notes);
    struct thin rule = down_to(60, THIN_ACROSS);
    cut(&w, &rule);
    close_to(trees(w.taken, RED_MAPLE, 4), 19.3491, 0.0001);
    close_to(trees(w.taken, RED_OAK, 14), 5.8047, 0.0001);
    close_to(basal_area(w.left), 60, 1e-9);
    wood_clear(&w);
}

/* 100 of 230 trees stay: all oaks and 30 of the 6 in. */
static void a_residual_may_be_a_number_of_trees(void **state) {
    (void)state;
    struct wood w = wood_of(notes);
    struct thin rule = down_to(100, THIN_BELOW);
    rule.measure = STOCK_TREES;
    cut(&w, &rule);
    close_to(trees(w.left, RED_MAPLE, 6), 30, 1e-9);
    close_to(trees(w.left, RED_OAK, 10) + trees(w.left, RED_OAK, 14), 70, 1e-9);
    wood_clear(&w);
}

/* 50 percent of 230 by number: 115, all 4 in and 15 of the 6 in. */
static void a_share_is_of_the_trees_by_number(void **state) {
    (void)state;
    struct wood w = wood_of(notes);
    struct thin rule = any();
    rule.amount = 0.5;
    rule.from = THIN_BELOW;
    cut(&w, &rule);
    close_to(trees(w.taken, RED_MAPLE, 4), 100, 1e-9);
    close_to(trees(w.taken, RED_MAPLE, 6), 15, 1e-9);
    wood_clear(&w);
}

/* Down to 40: 34.3947 go, first the oaks, the smaller before: 21.8166 of 10 in and 12.5781
 * of 14 in, 11.766 trees. */
static void the_worst_species_goes_before_the_next(void **state) {
    (void)state;
    struct wood w = wood_of(notes);
    struct thin rule = down_to(40, THIN_BELOW);
    for (size_t s = 0; s < SPECIES_MOST; s++) rule.rank[s] = 1;
    rule.rank[RED_OAK] = 0;
    cut(&w, &rule);
    close_to(trees(w.taken, RED_OAK, 10), 40, 1e-9);
    close_to(trees(w.taken, RED_OAK, 14), 11.766, 0.001);
    close_to(trees(w.taken, RED_MAPLE, 4), 0, 0);
    wood_clear(&w);
}

static void limits_are_of_each_species(void **state) {
    (void)state;
    struct wood w = wood_of(notes);
    struct thin rule = any();
    rule.least_in[RED_OAK] = 14;
    rule.least_in[RED_MAPLE] = 4.1;
    cut(&w, &rule);
    close_to(trees(w.taken, RED_OAK, 14), 30, 1e-9);
    close_to(trees(w.left, RED_OAK, 10), 40, 1e-9);
    close_to(trees(w.left, RED_MAPLE, 4), 100, 1e-9);
    close_to(trees(w.left, RED_MAPLE, 6), 0, 0);
    wood_clear(&w);
}

/* The thirty largest stay in any case, 32.0704 ft2: so of 60 are left 27.9296 beside. */
static void what_is_kept_counts_among_what_is_left(void **state) {
    (void)state;
    struct wood w = wood_of(notes);
    struct thin rule = down_to(60, THIN_ABOVE);
    struct stock_keep keep = { stock_pick_all(), STOCK_TREES, 30, STOCK_LARGEST, 0 };
    assert_true(thin_cut(w.all, &rule, &keep, 1, &w.taken, &w.left, &w.f));
    close_to(trees(w.left, RED_OAK, 14), 30, 1e-9);
    close_to(trees(w.taken, RED_OAK, 10), 14.3947 / 0.545415, 0.001);
    close_to(basal_area(w.left), 60, 1e-9);
    wood_clear(&w);
}

static void
a_residual_above_what_stands_takes_none_and_one_too_low_takes_all(void **state) {
    (void)state;
    struct wood w = wood_of(notes);
    struct thin rule = down_to(200, THIN_BELOW);
    cut(&w, &rule);
    close_to(basal_area(w.taken), 0, 0);
    rule = down_to(10, THIN_BELOW);
    species_set_put(&rule.what.species, RED_OAK, false);
    cut(&w, &rule);
    close_to(basal_area(w.left), 53.8871, 0.0001); /* the oaks */
    rule = down_to(0, THIN_ABOVE);
    cut(&w, &rule);
    close_to(basal_area(w.left), 0, 0);
    wood_clear(&w);
}

static double random_of(uint32_t *seed, double most) {
    return woods_random(seed) * most;
}

static void random_notes(char *text, uint32_t *seed, int round) {
    static const char *const words[] = { "BTA", "QA", "RO", "RM", "PB" };
    int n = sprintf(text, round % 2 ? "baf 10\n" : "size 1/20 ac\n");
    int plots = 1 + (int)random_of(seed, 6);
    for (int p = 1; p <= plots; p++) {
        n += sprintf(text + n, "plot %d:", p);
        for (int k = (int)random_of(seed, 8); k > 0; k--)
            n += sprintf(text + n, " %s %d.%dx%d;", words[(int)random_of(seed, 5)],
                         1 + (int)random_of(seed, 20), (int)random_of(seed, 10),
                         1 + (int)random_of(seed, 9));
        n += sprintf(text + n, "\n");
    }
}

static struct thin random_rule(uint32_t *seed, double standing) {
    struct thin rule = any();
    rule.from = (enum thin_from)random_of(seed, 3);
    rule.until = random_of(seed, 1) < 0.5 ? THIN_SHARE : THIN_TO;
    rule.measure = random_of(seed, 1) < 0.5 ? STOCK_TREES : STOCK_BASAL_AREA;
    rule.amount =
        rule.until == THIN_SHARE ? random_of(seed, 1) : random_of(seed, standing * 1.2);
    for (size_t s = 0; s < WOODS_COUNT; s++) {
        rule.rank[s] = (uint16_t)random_of(seed, 3);
        rule.least_in[s] = random_of(seed, 8);
    }
    return rule;
}

static double amount(const struct stock *s, enum stock_measure measure) {
    struct stock_pick all = stock_pick_all();
    return measure == STOCK_TREES ? stock_trees(s, &all) : stock_basal_area(s, &all);
}

static double takeable(const struct wood *w, const struct thin *rule) {
    double sum = 0;
    for (size_t i = 0; i < w->inv->cell_count; i++) {
        const struct inventory_cell *c = &w->inv->cells[i];
        double one = rule->measure == STOCK_TREES
                         ? 1
                         : INVENTORY_FT2_PER_IN2 * c->diameter_in * c->diameter_in;
        if (thin_has(rule, c->species, c->diameter_in)) sum += c->trees * one;
    }
    return sum;
}

/* Over random stands and rules: taken and left are what was there in every cell, none is
 * below zero, and a residual that can be reached is reached. */
static void whatever_the_rule_nothing_is_lost_and_the_residual_is_met(void **state) {
    (void)state;
    uint32_t seed = 20261128;
    int met = 0;
    for (int round = 0; round < 400; round++) {
        char text[4000];
        random_notes(text, &seed, round);
        struct wood w = wood_of(text);
        struct thin rule = random_rule(&seed, amount(w.all, STOCK_BASAL_AREA));
        cut(&w, &rule);
        for (size_t i = 0; i < w.inv->cell_count; i++) {
            double there = w.inv->cells[i].trees, some = stock_cell_trees(w.taken, i),
                   rest = stock_cell_trees(w.left, i);
            assert_true(some >= 0 && rest >= 0);
            close_to(some + rest, there, 1e-9 * (1 + there));
        }
        double before = amount(w.all, rule.measure), after = amount(w.left, rule.measure);
        if (rule.until == THIN_TO && rule.amount <= before &&
            rule.amount >= before - takeable(&w, &rule)) {
            close_to(after, rule.amount, 1e-9 * (1 + before));
            met++;
        }
        wood_clear(&w);
    }
    assert_true(met > 50);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(from_below_the_smallest_go_until_the_residual_is_left),
        cmocka_unit_test(from_above_the_largest_go),
        cmocka_unit_test(across_every_size_gives_the_same_share),
        cmocka_unit_test(a_residual_may_be_a_number_of_trees),
        cmocka_unit_test(a_share_is_of_the_trees_by_number),
        cmocka_unit_test(the_worst_species_goes_before_the_next),
        cmocka_unit_test(limits_are_of_each_species),
        cmocka_unit_test(what_is_kept_counts_among_what_is_left),
        cmocka_unit_test(
            a_residual_above_what_stands_takes_none_and_one_too_low_takes_all),
        cmocka_unit_test(whatever_the_rule_nothing_is_lost_and_the_residual_is_met),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
