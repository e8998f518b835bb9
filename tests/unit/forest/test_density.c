#include "../unit.h"
#include "woods_stand.h"

#include "base/buf.h"
#include "forest/density.h"
#include "forest/eye.h"
#include "quantity/explain.h"
#include "quantity/spread.h"

static struct stock_pick pick(struct wood *w, const char *word) {
    struct stock_pick p = stock_pick_all();
    assert_true(species_select(w->species, word, strlen(word), &p.species, &w->f));
    return p;
}

static struct unit_id unit(const struct wood *w, const char *name) {
    struct fault f = { .id = NULL };
    struct unit_id id = UNIT_NUMBER;
    assert_true(units_find(w->units, name, strlen(name), &id, &f));
    return id;
}

static double in(const struct wood *w, struct qty q, const char *name) {
    assert_true(qty_is(q));
    return graph_value_in(w->g, q, unit(w, name));
}

static struct qty leaf(struct wood *w, double value, const char *name) {
    return graph_leaf(w->g, value, unit(w, name), (struct origin){ SPAN_NONE, NULL },
                      &w->f);
}

static struct spread spread(struct wood *w, struct qty q) {
    struct spread s = { 0 };
    assert_true(spread_of(w->g, &q, 1, &s, &w->f));
    return s;
}

/* D. R. Larsen, Univ. Missouri teaching notes, 2012 (status: found): 200 trees of 12.3 in
 * have 278.8; 494.1/ha of 31 cm have 680.2 where exact is 680.29, printed cut off. */
static void the_printed_density_indices_come_out(void **state) {
    (void)state;
    struct wood w = wood_of("baf 10\nplot 1: RO 12\n");
    struct qty index = density_reineke(w.g, leaf(&w, 200, "trees/ac"),
                                       leaf(&w, 12.3, "in"), &w.f);
    close_to(in(&w, index, "trees/ac"), 278.8, 0.05);
    close_to(494.1 * density_tree_index(31 / 2.54), 680.29, 0.005);
    struct qty dq = density_diameter(w.g, leaf(&w, 80, "ft2/ac"),
                                     leaf(&w, 200, "trees/ac"), &w.f);
    close_to(in(&w, dq, "in"), 8.56, 0.005);
    wood_clear(&w);
}

static const char mixed[] = "size 1/10 ac\n"
                            "plot 1: BTA 6x5 8x3; RO 14x2; RM 5x4\n"
                            "plot 2: BTA 7x6; RO 12x3 16; RM 6x2\n"
                            "plot 3: BTA 8x4; RO 13x2; RM 5x6 9\n"
                            "plot 4: BTA 6x7; RO 15x3; RM 7x3\n";

/* Of trees of one size both ways are the same; of mixed sizes the sum is less, as the
 * power is below 2. */
static void summed_by_trees_is_no_more_than_by_means(void **state) {
    (void)state;
    struct wood w = wood_of("size 1/10 ac\nplot 1: RO 10x12\nplot 2: RO 10x15\n");
    struct stock_pick all = stock_pick_all();
    struct qty a = figure_density_index(w.g, w.all, &all, NULL, &w.f),
               b = figure_reineke(w.g, w.all, &all, NULL, &w.f);
    close_to(in(&w, a, "trees/ac"), 135, 1e-9);
    close_to(in(&w, b, "trees/ac"), 135, 1e-9);
    wood_clear(&w);
    w = wood_of(mixed);
    a = figure_density_index(w.g, w.all, &all, NULL, &w.f);
    b = figure_reineke(w.g, w.all, &all, NULL, &w.f);
    double trees = stock_trees(w.all, &all);
    double dq = estimate_quadratic_mean(stock_basal_area(w.all, &all), trees);
    close_to(in(&w, b, "trees/ac"), trees * pow(dq / 10, 1.605), 1e-9);
    assert_true(in(&w, a, "trees/ac") < in(&w, b, "trees/ac"));
    /* Trees and diameter err against one another: together they are surer than apart. */
    struct spread s = spread(&w, b), t = spread(&w, a);
    assert_true(s.high - s.low > 0);
    close_to(s.high - s.low, t.high - t.low, 0.25 * (t.high - t.low));
    wood_clear(&w);
}

/* (0.00015 + 0.00218 x 0.5) = 0.00124 for a tree of 25 cm: full at 806.5 a hectare. */
static void relative_density_adds_up_by_wood(void **state) {
    (void)state;
    struct wood w = wood_of(mixed);
    /* 1 tree/ac is 2.471 a hectare; 10 in are 25.4 cm, 1.016 of 25 cm; 1.016^1.6 is
     * 1.02572. */
    close_to(density_tree_relative(10, 0.5), 2.4710538 * 0.00124 * 1.0257226, 1e-9);
    struct qty q = density_relative(w.g, leaf(&w, 200, "trees/ac"), leaf(&w, 10, "in"),
                                    graph_leaf(w.g, 0.5, UNIT_NUMBER,
                                               (struct origin){ SPAN_NONE, NULL }, &w.f),
                                    &w.f);
    close_to(in(&w, q, "percent"), 494.2108 * 0.124 * 1.0257226, 1e-4);
    double gravity[40];
    assert_true(w.inv->cell_count < 40);
    double by_hand = 0;
    for (size_t i = 0; i < w.inv->cell_count; i++) {
        const struct inventory_cell *cell = &w.inv->cells[i];
        gravity[i] = cell->species == RED_OAK ? 0.56 : 0.4;
        by_hand += 100 * cell->trees * 2.4710538146716536 *
                   (0.00015 + 0.00218 * gravity[i]) *
                   pow(cell->diameter_in * 2.54 / 25, 1.6);
    }
    struct stock_pick all = stock_pick_all();
    q = figure_relative_density(w.g, w.all, &all, gravity, NULL, &w.f);
    close_to(in(&w, q, "percent"), by_hand, 1e-9);
    assert_true(graph_is_uncertain(w.g, q));
    wood_clear(&w);
}

static void importance_is_the_mean_of_its_parts_and_adds_up_to_all(void **state) {
    (void)state;
    struct wood w = wood_of(mixed);
    static const char *const words[] = { "aspen", "oak", "maple" };
    struct qty parts[3];
    for (size_t i = 0; i < 3; i++) {
        struct stock_pick p = pick(&w, words[i]);
        parts[i] = figure_importance(w.g, w.all, &p, words[i], &w.f);
        assert_true(qty_is(parts[i]));
    }
    struct stock_pick oak = pick(&w, "oak"), all = stock_pick_all();
    /* all three are met on all four plots */
    double want = 100 / 3.0 *
                  (stock_trees(w.all, &oak) / stock_trees(w.all, &all) +
                   stock_basal_area(w.all, &oak) / stock_basal_area(w.all, &all) +
                   1 / 3.0);
    close_to(in(&w, parts[1], "percent"), want, 1e-9);
    struct qty sum = graph_sum(w.g, parts, 3, &w.f);
    close_to(in(&w, sum, "percent"), 100, 1e-9);
    struct spread s = spread(&w, sum), one = spread(&w, parts[1]);
    assert_true(one.high > one.low);
    close_to(s.high - s.low, 0, 1e-6 * (one.high - one.low));
    wood_clear(&w);
}

/* Frequency by hand: oak on 1 of 2 plots, aspen on both: 1 of 3 meetings. */
static void frequency_counts_meetings_with_plots(void **state) {
    (void)state;
    struct wood w = wood_of("size 1/10 ac\nplot 1: RO 10; BTA 10\nplot 2: BTA 10x2\n");
    struct stock_pick oak = pick(&w, "oak");
    struct qty q = figure_importance(w.g, w.all, &oak, "oak", &w.f);
    close_to(in(&w, q, "percent"), 100 / 3.0 * (0.25 + 0.25 + 1 / 3.0), 1e-9);
    wood_clear(&w);
}

static void crowns_cover_less_than_their_sum(void **state) {
    (void)state;
    struct wood w = wood_of(mixed);
    double width[40], area = 0;
    for (size_t i = 0; i < w.inv->cell_count; i++) {
        width[i] = 4 + 1.5 * w.inv->cells[i].diameter_in;
        area += w.inv->cells[i].trees * acos(-1.0) / 4 * width[i] * width[i];
    }
    struct stock_pick all = stock_pick_all(), oak = pick(&w, "oak");
    struct qty before = figure_crown_cover(w.g, w.all, &all, width, NULL, &w.f);
    close_to(in(&w, before, "percent"), 100 * (1 - exp(-area / 43560)), 1e-9);
    struct spread s = spread(&w, before);
    assert_true(s.low < s.value && s.value < s.high && s.high < 1);
    /* What a cut changes: the doubt they share is not counted twice. */
    struct stock *taken, *left;
    assert_true(stock_cut(w.all, &oak, 1, NULL, 0, &taken, &left, &w.f));
    struct qty after = figure_crown_cover(w.g, left, &all, width, "left", &w.f);
    assert_true(in(&w, after, "percent") < in(&w, before, "percent"));
    struct qty change = graph_subtract(w.g, before, after, &w.f);
    /* by hand, to the first order: how each plot moves the difference */
    double b[4] = { 0 }, l[4] = { 0 }, moved[4], less = 0;
    for (size_t i = 0; i < w.inv->entry_count; i++) {
        const struct inventory_entry *e = &w.inv->entries[i];
        double one = e->trees * density_crown_area(width[e->cell]) / 43560;
        b[e->plot] += one;
        if (w.inv->cells[e->cell].species != RED_OAK)
            l[e->plot] += one;
    }
    for (int p = 0; p < 4; p++)
        less += l[p] / 4;
    for (int p = 0; p < 4; p++)
        moved[p] = exp(-area / 43560) * b[p] - exp(-less) * l[p];
    double half = sample_t(0.90, 3) * sample_of(moved, 4, 0).error;
    struct spread c = spread(&w, change);
    close_to((c.high - c.low) / 2, half, 0.1 * half);
    /* 20,000 ft2 an acre: 1 - exp(-0.4591) */
    struct qty q = density_cover(w.g, leaf(&w, 20000, "ft2/ac"), &w.f);
    close_to(in(&w, q, "percent"), 36.82, 0.005);
    stock_free(taken);
    stock_free(left);
    wood_clear(&w);
}

/* By eye: where basal area was judged, thicker trees are fewer, so that the mean tree
 * times the trees is as sure as the basal area. */
static void judged_figures_hang_together(void **state) {
    (void)state;
    static const struct eye_rules rules = { 30, 12, 10, 2 };
    static const struct eye_share shares[] = { { .species = QUAKING, .percent = 60 },
                                               { .species = RED_OAK, .percent = 40 } };
    const struct eye_estimate e = { .basis = INVENTORY_EYE, .judged = JUDGED_BASAL_AREA,
                                    .low = 100, .likely = 100, .high = 100,
                                    .least_in = 4, .most_in = 12,
                                    .shares = shares, .share_count = 2 };
    struct species_table *t = woods_table();
    struct fault f = { .id = NULL };
    struct wood w = wood_with(t, eye_inventory(&e, &rules, t, "Corner", SPAN_NONE, &f));
    struct stock_pick all = stock_pick_all(), oak = pick(&w, "oak"),
                      aspen = pick(&w, "aspen");
    struct qty area = figure_basal_area(w.g, w.all, &all, NULL, &w.f);
    struct qty made = graph_add(w.g, figure_basal_area(w.g, w.all, &oak, NULL, &w.f),
                                figure_basal_area(w.g, w.all, &aspen, NULL, &w.f), &w.f);
    struct spread whole = spread(&w, area), sum = spread(&w, made);
    close_to(sum.high - sum.low, whole.high - whole.low, 0.04 * (whole.high - whole.low));
    struct qty shares_sum =
        graph_add(w.g, figure_share(w.g, w.all, &oak, NULL, STOCK_BASAL_AREA, "", &w.f),
                  figure_share(w.g, w.all, &aspen, NULL, STOCK_BASAL_AREA, "", &w.f),
                  &w.f);
    struct spread s = spread(&w, shares_sum);
    close_to(s.value, 1, 1e-9);
    close_to(s.high - s.low, 0, 1e-6);
    struct qty d = figure_diameter(w.g, w.all, &all, NULL, &w.f);
    struct qty trees = figure_trees(w.g, w.all, &all, NULL, &w.f);
    struct qty square = graph_power(w.g, d, 2, 1, &w.f);
    struct qty product = graph_multiply(w.g, square, trees, &w.f);
    s = spread(&w, graph_divide(w.g, product, area, &w.f));
    struct spread by = spread(&w, d), of = spread(&w, trees);
    double apart = hypot(hypot(2 * (by.high - by.low) / by.value,
                               (of.high - of.low) / of.value),
                         (whole.high - whole.low) / whole.value);
    /* (1 + x)(1 - x): what is left is x squared, mostly on one side */
    assert_true((s.high - s.low) / s.value < 0.15 * apart);
    assert_true(s.high / s.value < 1.03);
    wood_clear(&w);
}

static void why_names_equation_and_publication(void **state) {
    (void)state;
    struct wood w = wood_of(mixed);
    struct stock_pick all = stock_pick_all();
    struct qty q = figure_reineke(w.g, w.all, &all, NULL, &w.f);
    struct sources *sources = sources_new();
    struct buf out;
    buf_init(&out);
    assert_true(
        explain_text(w.g, sources, q, (struct explain_look){ 200, 12 }, &out, &w.f));
    assert_non_null(strstr(out.data, "stand density index (trees"));
    assert_non_null(strstr(out.data, "Reineke 1933"));
    buf_clear(&out);
    sources_free(sources);
    wood_clear(&w);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_printed_density_indices_come_out),
        cmocka_unit_test(summed_by_trees_is_no_more_than_by_means),
        cmocka_unit_test(relative_density_adds_up_by_wood),
        cmocka_unit_test(importance_is_the_mean_of_its_parts_and_adds_up_to_all),
        cmocka_unit_test(frequency_counts_meetings_with_plots),
        cmocka_unit_test(crowns_cover_less_than_their_sum),
        cmocka_unit_test(judged_figures_hang_together),
        cmocka_unit_test(why_names_equation_and_publication),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
