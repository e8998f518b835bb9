#include "../unit.h"
#include "woods.h"

#include "forest/stocking.h"
#include "quantity/spread.h"

/* Gingrich 1967, For. Sci. 13:38-53 (status: found on three code pages; the third number
 * stands as 0.00307 too, which the printed exercise below refutes). Plain from quadratic
 * mean: course page. */
static const struct stocking_line a_line = {
    { -0.00507, 0.01698, 0.00317, 0 }, 100, -0.259, 0.973
};
/* Krajicek, Brinkman and Gingrich 1961, For. Sci. 7:35-42: crowns of open-grown trees. */
static const struct stocking_line b_line = {
    { 0.0175, 0.0205, 0.0060, 0 }, 100, -0.259, 0.973
};

static double basal_area(double trees, double diameter) {
    return trees * INVENTORY_FT2_PER_IN2 * diameter * diameter;
}

/* Quadratic mean diameter; trees and basal area at A, at B (status: computed). */
static void lines_are_those_of_the_chart(void **state) {
    (void)state;
    static const double table[][5] = {
        { 4, 932, 81.3, 532, 46.4 },   { 6, 491, 96.4, 287, 56.4 },
        { 8, 307, 107.2, 180, 62.8 },  { 10, 212, 115.4, 123, 67.2 },
        { 12, 155, 121.7, 90, 70.4 },  { 14, 119, 126.8, 68, 72.8 },
        { 16, 94, 130.9, 54, 74.8 },   { 18, 76, 134.4, 43, 76.3 },
        { 20, 63, 137.3, 36, 77.6 },
    };
    int off = 0;
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        const double *t = table[i];
        double a = stocking_line_trees(&a_line, t[0]), b = stocking_line_trees(&b_line, t[0]);
        const double got[] = { a, basal_area(a, t[0]), b, basal_area(b, t[0]) };
        for (size_t k = 0; k < 4; k++) {
            double within = k % 2 == 0 ? 0.5 : 0.05;
            if (fabs(got[k] - t[k + 1]) <= within + 1e-9) continue;
            print_error("%g in, column %zu: %.3f, not %g\n", t[0], k + 1, got[k], t[k + 1]);
            off++;
        }
        assert_true(b / a > 0.56 && b / a < 0.59);
    }
    assert_int_equal(off, 0);
}

/* A class exercise on the chart: 150 trees, 115 ft2 an acre are 95 percent (status:
 * found); the equation gives 94.80. */
static void the_exercise_comes_out(void **state) {
    (void)state;
    double diameter = estimate_quadratic_mean(115, 150);
    double percent = 100 * 150 / stocking_line_trees(&a_line, diameter);
    close_to(percent, 95, 0.5);
    close_to(percent, 94.80, 0.005);
}

static void small_and_no_trees_take_no_room(void **state) {
    (void)state;
    close_to(stocking_tree(&a_line.room, 0), 0, 0);
    close_to(stocking_tree(&a_line.room, 0.1), 0, 0);
    close_to(stocking_tree(&a_line.room, 10), -0.00507 + 0.1698 + 0.317, 1e-12);
    assert_true(isnan(stocking_line_trees(&a_line, 0.1)));
    for (double d = 0.5; d < 40; d += 0.5)
        assert_true(stocking_tree(&a_line.room, d + 0.5) > stocking_tree(&a_line.room, d));
}

/* Ducey and Knapp 2010: trees a hectare times (0.00015 + 0.00218 gravity)(D/25 cm)^1.6.
 * One tree of 25 cm and gravity 0.5 takes 0.124 percent of a hectare, 2.471 times that of
 * an acre. */
static void wood_density_is_of_a_hectare(void **state) {
    (void)state;
    struct stocking_room room = { .k = stocking_wood_density(0.5) };
    close_to(stocking_tree(&room, 25 / 2.54), 0.124 * 2.4710538147, 1e-9);
    close_to(stocking_tree(&room, 50 / 2.54) / stocking_tree(&room, 25 / 2.54),
             pow(2, 1.6), 1e-9);
}

/* Linear in trees, diameters and their squares: the stand is the sum of its trees. */
static void a_stand_is_the_sum_of_its_trees(void **state) {
    (void)state;
    struct fault f = { .id = NULL };
    struct species_table *t = woods_table();
    struct inventory *inv =
        woods_cruise(t, "size 1/5 ac\nplot 1: red oak 12 14 10; red maple 6 5\n"
                        "plot 2: red oak 16 11; bigtooth aspen 9\nplot 3: red oak 12 13 15");
    struct stock *s = stock_of(inv, &f);
    struct units *units = units_new();
    struct graph *g = graph_new(units);
    struct stocking_room rooms[32];
    double sum = 0;
    assert_true(inv->cell_count <= 32);
    for (size_t i = 0; i < inv->cell_count; i++) {
        double d = inv->cells[i].diameter_in, n = inv->cells[i].trees;
        rooms[i] = a_line.room;
        sum += n * -0.00507 + 0.01698 * n * d + 0.00317 * n * d * d;
    }
    struct stock_pick all = stock_pick_all();
    struct unit_id percent;
    assert_true(units_find(units, "percent", 7, &percent, &f));
    struct qty q = figure_stocking(g, s, &all, rooms, NULL, "upland oak", &f);
    struct spread spread;
    close_to(graph_value_in(g, q, percent), sum, 1e-9);
    assert_true(spread_of(g, &q, 1, &spread, &f) && spread.low < spread.high);
    graph_free(g);
    units_free(units);
    stock_free(s);
    inventory_free(inv);
    species_table_free(t);
}

struct asked {
    struct units *units;
    struct graph *g;
    struct fault f;
};

static struct qty leaf(struct asked *a, double value, const char *unit) {
    struct unit_id in;
    assert_true(units_find(a->units, unit, strlen(unit), &in, &a->f));
    return graph_leaf(a->g, value, in, (struct origin){ SPAN_NONE, "" }, &a->f);
}

static double said(struct asked *a, struct qty q, const char *unit) {
    struct unit_id in;
    assert_true(qty_is(q) && units_find(a->units, unit, strlen(unit), &in, &a->f));
    return graph_value_in(a->g, q, in);
}

static void any_two_figures_tell_the_percent(void **state) {
    (void)state;
    struct asked a = { .units = units_new() };
    a.g = graph_new(a.units);
    struct qty trees = leaf(&a, 150, "trees/ac"), area = leaf(&a, 115, "ft2/ac");
    struct qty inches = leaf(&a, estimate_quadratic_mean(115, 150), "in");
    struct qty none = QTY_NONE;
    struct qty by[] = {
        stocking_percent_of(a.g, &a_line, trees, inches, none, "Gingrich", &a.f),
        stocking_percent_of(a.g, &a_line, trees, none, area, "Gingrich", &a.f),
        stocking_percent_of(a.g, &a_line, none, inches, area, "Gingrich", &a.f),
    };
    for (size_t i = 0; i < 3; i++) close_to(said(&a, by[i], "percent"), 94.80, 0.005);
    struct qty ten = leaf(&a, 10, "in");
    close_to(said(&a, stocking_trees_at(a.g, &a_line, ten, "A", &a.f), "trees/ac"), 212,
             0.5);
    close_to(said(&a, stocking_basal_area_at(a.g, &b_line, ten, "B", &a.f), "ft2/ac"),
             67.2, 0.05);
    assert_false(qty_is(stocking_trees_at(a.g, &a_line, leaf(&a, 0, "in"), "A", &a.f)));
    assert_string_equal(a.f.id, "value-not-finite");
    graph_free(a.g);
    units_free(a.units);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lines_are_those_of_the_chart),
        cmocka_unit_test(the_exercise_comes_out),
        cmocka_unit_test(small_and_no_trees_take_no_room),
        cmocka_unit_test(wood_density_is_of_a_hectare),
        cmocka_unit_test(a_stand_is_the_sum_of_its_trees),
        cmocka_unit_test(any_two_figures_tell_the_percent),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
