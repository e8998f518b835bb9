#include "../unit.h"
#include "woods_stand.h"

#include "base/buf.h"
#include "forest/figure.h"
#include "quantity/explain.h"
#include "quantity/spread.h"

static struct stock_pick pick(struct wood *w, const char *word) {
    struct stock_pick p = stock_pick_all();
    assert_true(species_select(w->species, word, strlen(word), &p.species, &w->f));
    return p;
}

static double in(const struct wood *w, struct qty q, const char *unit) {
    struct fault f = { .id = NULL };
    struct unit_id id = UNIT_NUMBER;
    assert_true(units_find(w->units, unit, strlen(unit), &id, &f));
    assert_true(qty_is(q));
    return graph_value_in(w->g, q, id);
}

static struct spread spread(struct wood *w, struct qty q) {
    struct spread s = { 0 };
    assert_true(spread_of(w->g, &q, 1, &s, &w->f));
    return s;
}

static const char notes[] = "baf 10\n"
                            "plot 1: BTA 7 8 8 9 11; QA 6; RO 14; RM 5\n"
                            "plot 2: BTA 6 8 9 10 10 12; PB 8\n"
                            "plot 3: RO 16 18; BTA 7x3; RM 4x3\n";

static void a_figure_has_the_value_and_the_range_of_its_estimate(void **state) {
    (void)state;
    struct wood w = wood_of(notes);
    struct stock_pick aspen = pick(&w, "aspen");
    struct qty q = figure_basal_area(w.g, w.all, &aspen, "aspen", &w.f);
    close_to(in(&w, q, "ft2/ac"), 50, 1e-9); /* 15 aspens, BAF 10, 3 plots */
    struct estimate e;
    assert_true(estimate_total(w.all, &aspen, STOCK_BASAL_AREA, &e, &w.f));
    struct spread s = spread(&w, q);
    double unit = s.value / 50;
    close_to(s.low / unit, e.low, 1e-9);
    close_to(s.high / unit, e.high, 1e-9);
    estimate_clear(&e);
    struct qty t = figure_trees(w.g, w.all, &aspen, "aspen", &w.f);
    close_to(in(&w, t, "trees/ac"), stock_trees(w.all, &aspen), 1e-9);
    wood_clear(&w);
}

static void why_names_the_tally(void **state) {
    (void)state;
    struct wood w = wood_of(notes);
    struct stock_pick aspen = pick(&w, "aspen");
    struct qty q = figure_basal_area(w.g, w.all, &aspen, "aspen", &w.f);
    struct sources *sources = sources_new();
    struct buf out;
    buf_init(&out);
    assert_true(
        explain_text(w.g, sources, q, (struct explain_look){ 200, 12 }, &out, &w.f));
    assert_non_null(strstr(out.data, "aspen: tally of Bench aspen: 3 plots, BAF 10"));
    buf_clear(&out);
    sources_free(sources);
    wood_clear(&w);
}

static void the_same_choice_is_the_same_draw_and_another_is_not(void **state) {
    (void)state;
    struct wood w = wood_of(notes);
    struct stock_pick aspen = pick(&w, "aspen"), maple = pick(&w, "maple");
    struct qty a = figure_trees(w.g, w.all, &aspen, "aspen", &w.f),
               b = figure_trees(w.g, w.all, &aspen, "suckering trees", &w.f),
               c = figure_trees(w.g, w.all, &maple, NULL, &w.f);
    struct spread same = spread(&w, graph_subtract(w.g, a, b, &w.f)),
                  other = spread(&w, graph_subtract(w.g, a, c, &w.f));
    close_to(same.low, 0, 1e-9);
    close_to(same.high, 0, 1e-9);
    assert_true(other.high - other.low > 0);
    /* what a cut of all aspen takes is that very choice too */
    struct stock *taken, *left;
    assert_true(stock_cut(w.all, &aspen, 1, NULL, 0, &taken, &left, &w.f));
    struct stock_pick all = stock_pick_all();
    struct qty felled = figure_trees(w.g, taken, &all, "felled", &w.f);
    same = spread(&w, graph_subtract(w.g, a, felled, &w.f));
    close_to(same.high - same.low, 0, 1e-9);
    stock_free(taken);
    stock_free(left);
    wood_clear(&w);
}

static void parts_add_up_to_the_whole_and_move_with_it(void **state) {
    (void)state;
    struct wood w = wood_of(notes);
    struct stock_pick aspen = pick(&w, "aspen");
    struct qty whole = figure_trees(w.g, w.all, &aspen, "aspen", &w.f), parts[4];
    static const double bounds[] = { 0, 7, 8.5, 10, HUGE_VAL };
    for (size_t i = 0; i < 4; i++) {
        struct stock_pick part = { species_set_all(), bounds[i], bounds[i + 1] };
        parts[i] = figure_part(w.g, whole, w.all, &aspen, &part, STOCK_TREES, &w.f);
    }
    struct qty sum = graph_sum(w.g, parts, 4, &w.f);
    struct spread s = spread(&w, graph_subtract(w.g, whole, sum, &w.f)),
                  all = spread(&w, whole), added = spread(&w, sum);
    double tiny = 1e-9 * all.value;
    close_to(s.value, 0, tiny);
    close_to(s.high - s.low, 0, tiny);
    /* a leaf alone gives the percentile it was made with, a sum that of its draws, each
     * a mixture of the plots' */
    close_to(added.high, all.high, 0.02 * (all.high - all.low));
    wood_clear(&w);
}

static void diameter_and_share_are_said_in_their_units(void **state) {
    (void)state;
    struct wood w = wood_of(notes);
    struct stock_pick all = stock_pick_all(), aspen = pick(&w, "aspen");
    struct qty d = figure_diameter(w.g, w.all, &all, NULL, &w.f);
    double dq =
        estimate_quadratic_mean(stock_basal_area(w.all, &all), stock_trees(w.all, &all));
    close_to(in(&w, d, "in"), dq, 1e-9);
    assert_string_equal(unit_name(w.units, graph_unit(w.g, d), false), "in");
    assert_true(graph_is_uncertain(w.g, d));
    struct qty share =
        figure_share(w.g, w.all, &aspen, NULL, STOCK_BASAL_AREA, "aspen", &w.f);
    close_to(in(&w, share, "percent"), 100 * 15 / 23.0, 1e-9);
    struct spread s = spread(&w, share);
    assert_true(s.high / s.value * 15 / 23.0 <= 1.0001);
    wood_clear(&w);
}

static void none_is_a_certain_nothing_but_has_no_diameter(void **state) {
    (void)state;
    struct wood w = wood_of(notes);
    struct stock_pick hazel = pick(&w, "beaked hazel");
    struct qty q = figure_trees(w.g, w.all, &hazel, "hazel", &w.f);
    close_to(in(&w, q, "trees/ac"), 0, 0);
    assert_false(graph_is_uncertain(w.g, q));
    assert_false(qty_is(figure_diameter(w.g, w.all, &hazel, "hazel", &w.f)));
    assert_string_equal(w.f.id, "figure-none");
    assert_string_equal(w.f.message,
                        "Bench aspen has no hazel, so there is no mean diameter");
    fault_clear(&w.f);
    assert_false(
        qty_is(figure_share(w.g, w.all, &hazel, &hazel, STOCK_TREES, "hazel", &w.f)));
    assert_string_equal(w.f.id, "figure-none");
    wood_clear(&w);
}

static void one_plot_says_in_why_that_its_range_is_assumed(void **state) {
    (void)state;
    struct wood w = wood_of("baf 10\nplot 1: RO 12x4\n");
    struct stock_pick all = stock_pick_all();
    struct qty q = figure_basal_area(w.g, w.all, &all, NULL, &w.f);
    struct sources *sources = sources_new();
    struct buf out;
    buf_init(&out);
    assert_true(
        explain_text(w.g, sources, q, (struct explain_look){ 200, 12 }, &out, &w.f));
    assert_non_null(strstr(out.data, "one plot tells no error, a wide range is assumed"));
    buf_clear(&out);
    sources_free(sources);
    wood_clear(&w);
}

/* --- figures of one stand rise and fall together --- */

/* Six species-plots without an empty one, so that no range is cut off at nothing. */
static const char even[] = "baf 10\n"
                           "plot 1: BTA 8x6; RO 12x5; RM 6x3\n"
                           "plot 2: BTA 8x4; RO 12x4; RM 6x4\n"
                           "plot 3: BTA 8x7; RO 12x3; RM 6x3\n"
                           "plot 4: BTA 8x5; RO 12x6; RM 6x2\n"
                           "plot 5: BTA 8x5; RO 12x4; RM 6x5\n"
                           "plot 6: BTA 8x3; RO 12x5; RM 6x3\n"
                           "plot 7: BTA 8x6; RO 12x4; RM 6x4\n"
                           "plot 8: BTA 8x4; RO 12x6; RM 6x3\n";

static double width(struct wood *w, struct qty q) {
    struct spread s = spread(w, q);
    return s.high - s.low;
}

typedef struct qty figure_fn(struct graph *, const struct stock *,
                             const struct stock_pick *, const char *, struct fault *);

/* Aspen, oak and maple added up, and all of them asked as one. */
static void species_as_whole(figure_fn *figure, double within) {
    struct wood w = wood_of(even);
    static const char *const words[] = { "aspen", "oak", "maple" };
    struct stock_pick all = stock_pick_all();
    struct qty parts[3], whole = figure(w.g, w.all, &all, NULL, &w.f);
    double apart = 0;
    for (size_t i = 0; i < 3; i++) {
        struct stock_pick p = pick(&w, words[i]);
        parts[i] = figure(w.g, w.all, &p, words[i], &w.f);
        apart += width(&w, parts[i]) * width(&w, parts[i]);
    }
    struct qty sum = graph_sum(w.g, parts, 3, &w.f);
    struct qty less = graph_subtract(w.g, whole, sum, &w.f);
    close_to(spread(&w, less).value, 0, 1e-9);
    /* the same in every draw, not merely as wide */
    close_to(width(&w, less), 0, within * width(&w, whole));
    close_to(width(&w, sum), width(&w, whole), 0.03 * width(&w, whole));
    /* and not what independent draws would have given */
    assert_true(fabs(sqrt(apart) - width(&w, whole)) > 0.1 * width(&w, whole));
    wood_clear(&w);
}

static void species_add_up_to_the_whole_with_its_error(void **state) {
    (void)state;
    species_as_whole(figure_basal_area, 1e-6);
    species_as_whole(figure_trees, 1e-6);
}

/* Classes cut the same trees another way. */
static void classes_add_up_to_the_whole_with_its_error(void **state) {
    (void)state;
    struct wood w = wood_of(even);
    struct stock_pick all = stock_pick_all(), thin = all, thick = all;
    thin.below_in = thick.from_in = 10;
    struct qty whole = figure_trees(w.g, w.all, &all, NULL, &w.f);
    struct qty sum = graph_add(w.g, figure_trees(w.g, w.all, &thin, NULL, &w.f),
                               figure_trees(w.g, w.all, &thick, NULL, &w.f), &w.f);
    close_to(width(&w, graph_subtract(w.g, whole, sum, &w.f)), 0,
             1e-6 * width(&w, whole));
    wood_clear(&w);
}

static void share_and_rest_of(const char *text, double within) {
    struct wood w = wood_of(text);
    struct stock_pick oak = pick(&w, "oak"), rest = stock_pick_all();
    species_set_without(&rest.species, &oak.species);
    struct qty a = figure_share(w.g, w.all, &oak, NULL, STOCK_BASAL_AREA, "oak", &w.f),
               b = figure_share(w.g, w.all, &rest, NULL, STOCK_BASAL_AREA, "rest", &w.f);
    struct qty sum = graph_add(w.g, a, b, &w.f);
    close_to(in(&w, sum, "percent"), 100, 1e-9);
    assert_true(width(&w, a) > 0);
    close_to(width(&w, sum), 0, within * width(&w, a));
    wood_clear(&w);
}

static void a_share_and_the_rest_are_all(void **state) {
    (void)state;
    share_and_rest_of(even, 1e-6);
    share_and_rest_of("baf 10\nplot 1: RO 12x4 14; BTA 8x3 9; RM 6\n", 1e-6);
}

/* Basal area is trees times the mean tree: asked apart, they still make it. */
static void trees_times_the_mean_tree_is_the_basal_area(void **state) {
    (void)state;
    struct wood w = wood_of(even);
    struct stock_pick all = stock_pick_all();
    struct fault *f = &w.f;
    struct qty d = figure_diameter(w.g, w.all, &all, NULL, f);
    struct qty trees = figure_trees(w.g, w.all, &all, NULL, f);
    struct qty area = figure_basal_area(w.g, w.all, &all, NULL, f);
    struct qty made = graph_multiply(w.g, graph_power(w.g, d, 2, 1, f), trees, f);
    struct qty ratio = graph_divide(w.g, made, area, f);
    struct spread s = spread(&w, ratio);
    /* A ratio is linear near its value only: a few hundredths of bend are left. Drawn
     * apart, the doubt of all three would add up to six times as much. */
    assert_true((s.high - s.low) / s.value < 0.03);
    wood_clear(&w);
}

static void the_order_of_asking_is_of_no_account(void **state) {
    (void)state;
    struct wood w = wood_of(even), v = wood_of(even);
    struct stock_pick oak = pick(&w, "oak"), maple = pick(&w, "maple");
    struct qty a = figure_trees(w.g, w.all, &oak, "oak", &w.f),
               b = figure_trees(w.g, w.all, &maple, "maple", &w.f);
    struct qty d = figure_trees(v.g, v.all, &maple, "other words", &v.f);
    (void)figure_basal_area(v.g, v.all, &maple, NULL, &v.f);
    struct qty c = figure_trees(v.g, v.all, &oak, NULL, &v.f);
    struct spread one = spread(&w, graph_subtract(w.g, a, b, &w.f)),
                  two = spread(&v, graph_subtract(v.g, c, d, &v.f));
    close_to(one.low, two.low, 0);
    close_to(one.high, two.high, 0);
    wood_clear(&w);
    wood_clear(&v);
}

/* The bootstrap of the same plots: plots drawn with replacement, their mean each time.
 * Its standard deviation is sqrt((n - 1) / n) of the standard error, and t widens ours; both
 * are taken out before they are compared. */
static void the_bootstrap_agrees(void **state) {
    (void)state;
    struct wood w = wood_of(even);
    static const double oak[8] = { 50, 40, 30, 60, 40, 50, 40, 60 },
                        maple[8] = { 30, 40, 30, 20, 50, 30, 40, 30 };
    struct stock_pick o = pick(&w, "oak"), m = pick(&w, "maple");
    struct qty sum = graph_add(w.g, figure_basal_area(w.g, w.all, &o, "oak", &w.f),
                               figure_basal_area(w.g, w.all, &m, "maple", &w.f), &w.f);
    uint32_t seed = 11;
    enum { ROUNDS = 20000 };
    double mean = 0, squares = 0;
    for (int round = 0; round < ROUNDS; round++) {
        double total = 0;
        for (int k = 0; k < 8; k++) {
            size_t p = (size_t)(woods_random(&seed) * 8) % 8;
            total += (oak[p] + maple[p]) / 8;
        }
        mean += total / ROUNDS;
        squares += total * total / ROUNDS;
    }
    double deviation = sqrt(squares - mean * mean) * sqrt(8.0 / 7);
    struct spread s = spread(&w, sum);
    double unit = in(&w, sum, "ft2/ac") / s.value;
    double half = sample_t(0.90, 7) * deviation;
    /* 4,096 draws: hardly ever further off than 1 in 25 (spread.h) */
    close_to((s.high - s.low) / 2 * unit, half, half / 25);
    /* the error itself needs no draws; 20,000 rounds are sure to about 1 in 100 */
    struct stock_pick both = o;
    species_set_join(&both.species, &m.species);
    struct estimate e;
    assert_true(estimate_total(w.all, &both, STOCK_BASAL_AREA, &e, &w.f));
    close_to(e.sample.error, deviation, 0.015 * deviation);
    estimate_clear(&e);
    wood_clear(&w);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_figure_has_the_value_and_the_range_of_its_estimate),
        cmocka_unit_test(why_names_the_tally),
        cmocka_unit_test(the_same_choice_is_the_same_draw_and_another_is_not),
        cmocka_unit_test(parts_add_up_to_the_whole_and_move_with_it),
        cmocka_unit_test(diameter_and_share_are_said_in_their_units),
        cmocka_unit_test(none_is_a_certain_nothing_but_has_no_diameter),
        cmocka_unit_test(one_plot_says_in_why_that_its_range_is_assumed),
        cmocka_unit_test(species_add_up_to_the_whole_with_its_error),
        cmocka_unit_test(classes_add_up_to_the_whole_with_its_error),
        cmocka_unit_test(a_share_and_the_rest_are_all),
        cmocka_unit_test(trees_times_the_mean_tree_is_the_basal_area),
        cmocka_unit_test(the_order_of_asking_is_of_no_account),
        cmocka_unit_test(the_bootstrap_agrees),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
