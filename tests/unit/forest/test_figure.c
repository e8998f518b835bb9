#include "../unit.h"
#include "woods.h"

#include "base/buf.h"
#include "forest/figure.h"
#include "quantity/explain.h"
#include "quantity/spread.h"

struct wood {
    struct species_table *species;
    struct inventory *inv;
    struct stock *all;
    struct units *units;
    struct graph *g;
    struct fault f;
};

static struct wood wood_of(const char *text) {
    struct wood w = { .species = woods_table(),
                      .units = units_new(),
                      .f = { .id = NULL } };
    w.inv = woods_cruise(w.species, text);
    w.all = stock_of(w.inv, &w.f);
    w.g = graph_new(w.units);
    return w;
}

static void wood_clear(struct wood *w) {
    graph_free(w->g);
    units_free(w->units);
    stock_free(w->all);
    inventory_free(w->inv);
    species_table_free(w->species);
}

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
    close_to(s.low / unit, e.low, 0.2);
    close_to(s.high / unit, e.high, 0.2);
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
    /* a leaf alone gives the percentile it was made with, a sum that of its draws */
    close_to(added.high, all.high, 1e-4 * all.high);
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

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_figure_has_the_value_and_the_range_of_its_estimate),
        cmocka_unit_test(why_names_the_tally),
        cmocka_unit_test(the_same_choice_is_the_same_draw_and_another_is_not),
        cmocka_unit_test(parts_add_up_to_the_whole_and_move_with_it),
        cmocka_unit_test(diameter_and_share_are_said_in_their_units),
        cmocka_unit_test(none_is_a_certain_nothing_but_has_no_diameter),
        cmocka_unit_test(one_plot_says_in_why_that_its_range_is_assumed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
