/* Equations over quantities. */
#include "figures.h"

#include <math.h>

#include "quantity/draws.h"
#include "quantity/explain.h"
#include "quantity/node.h"
#include "quantity/spread.h"

static const struct origin nowhere = { { 0, 0, 0 }, NULL };
static const struct origin book = { { 0, 0, 0 }, "a handbook, fig. 48" };

/* No curve of a handbook: a third of the site index up and a tenth of a foot a year. */
static double height_at(const double *x, const double *with)
{
    return x[1] > with[2] ? NAN : x[0] * with[0] + x[1] * with[1];
}

static double exp_of(const double *x, const double *with)
{
    (void)with;
    return exp(x[0]);
}

static double half_of(const double *x, const double *with)
{
    (void)with;
    return x[0] / 2;
}

/* Would hide a lost operand, if it were asked about one. */
static double at_least_one(const double *x, const double *with)
{
    (void)with;
    return fmax(x[0], 1);
}

static const struct formula height = { "height at age", height_at };
static const struct formula growth = { "growth", exp_of };
static const struct formula half = { "half", half_of };
static const struct formula floored = { "at least one", at_least_one };
static const double numbers[] = { 4.0 / 3, 0.1, 200 };

static struct qty height_of(struct table *t, struct qty site, struct qty age)
{
    struct operand of[] = { { site, unit_of(t, "ft"), "site index" },
                            { age, unit_of(t, "yr"), "age" } };
    return graph_formula(t->g, &height, numbers, 3, of, 2, unit_of(t, "ft"), book, &t->f);
}

static struct qty one_of(struct table *t, const struct formula *what, struct qty a,
                         const char *unit)
{
    struct operand of = { a, unit_of(t, unit), NULL };
    return graph_formula(t->g, what, NULL, 0, &of, 1, unit_of(t, unit), nowhere, &t->f);
}

static struct spread spread(struct table *t, struct qty a)
{
    struct spread s;
    assert_true(spread_of(t->g, &a, 1, &s, &t->f));
    return s;
}

static void operands_are_handed_over_in_their_units(void **state)
{
    struct table *t = *state;
    struct qty h = height_of(t, figure(t, 720, "in"), figure(t, 90, "yr"));
    assert_true(fabs(graph_value_in(t->g, h, unit_of(t, "ft")) - 89) < 1e-9);
    assert_string_equal(said(t, h), "89 ft");
    assert_false(graph_is_uncertain(t->g, h));
    struct spread s = spread(t, h);
    assert_true(!s.uncertain && s.low == s.value);
}

/* A straight line of a range is a range, through the same three places. */
static void a_line_of_a_range_has_its_percentiles(void **state)
{
    struct table *t = *state;
    struct qty site = between(t, 54, 60, 72, "ft", 5);
    struct spread s = spread(t, height_of(t, site, figure(t, 90, "yr")));
    double ft = unit_factor(t->u, unit_of(t, "ft"));
    assert_true(fabs(s.low / ft - 81) < 0.01);
    assert_true(fabs(s.median / ft - 89) < 0.01);
    assert_true(fabs(s.high / ft - 105) < 0.01);
    assert_false(s.skewed);
}

/* A rising function keeps the order of its operand, so that its percentiles are those of
 * the operand, bent; two independent normals under it: the spread of their sum, bent. */
static void a_bend_of_ranges_has_the_bend_of_their_percentiles(void **state)
{
    struct table *t = *state;
    struct qty a = between(t, -1, 0.5, 1.5, "", 8);
    struct spread s = spread(t, one_of(t, &growth, a, ""));
    assert_true(fabs(s.low - exp(-1)) < 0.003);
    assert_true(fabs(s.median - exp(0.5)) < 0.003);
    assert_true(fabs(s.high - exp(1.5)) < 0.003);
    struct qty sum = graph_add(t->g, between(t, -0.3, 0, 0.3, "", 9),
                               between(t, -0.4, 0, 0.4, "", 10), &t->f);
    s = spread(t, one_of(t, &growth, sum, ""));
    assert_true(fabs(log(s.low) + 0.5) < 0.03);
    assert_true(fabs(log(s.high) - 0.5) < 0.03);
    assert_true(fabs(log(s.median)) < 0.03);
}

/* Draw by draw what the same operands give by hand. */
static void draws_go_with_those_of_its_operands(void **state)
{
    struct table *t = *state;
    struct qty site = between(t, 54, 60, 72, "ft", 5);
    struct qty age = between(t, 70, 80, 90, "yr", 6);
    struct qty h = height_of(t, site, age), twice = graph_add(t->g, h, site, &t->f);
    uint32_t nodes[] = { graph_node_of(t->g, twice), graph_node_of(t->g, age),
                         graph_node_of(t->g, h), graph_node_of(t->g, site) };
    struct draws *d = draws_of(t->g, nodes, 4, &t->f);
    assert_non_null(d);
    double ft = unit_factor(t->u, unit_of(t, "ft"));
    double yr = unit_factor(t->u, unit_of(t, "yr"));
    for (int i = 0; i < SPREAD_DRAWS; i++) {
        double x[] = { draws_row(d, 3)[i] / ft, draws_row(d, 1)[i] / yr };
        assert_true(draws_row(d, 2)[i] == height_at(x, numbers) * ft);
        assert_true(draws_row(d, 0)[i] == draws_row(d, 2)[i] + draws_row(d, 3)[i]);
    }
    draws_free(d);
}

static void draws_past_its_reach_are_lost(void **state)
{
    struct table *t = *state;
    struct qty age = between(t, 150, 190, 200, "yr", 6);
    struct qty h = height_of(t, figure(t, 60, "ft"), age);
    struct spread s = spread(t, h);
    assert_true(fabs(s.lost - 0.1) < 0.001);
    struct qty root = graph_power(t->g, between(t, -2, 1, 4, "", 4), 1, 2, &t->f);
    double lost = spread(t, root).lost;
    assert_true(lost > 0.2);
    assert_true(spread(t, one_of(t, &floored, root, "")).lost == lost);
    struct explain_look look = { .width = 200, .depth = 12 };
    assert_true(explain_text(t->g, NULL, h, look, &t->text, &t->f));
    assert_non_null(strstr(t->text.data,
                           "\ncannot be worked out in 10 percent of the draws (where an "
                           "equation does not reach, the root of less than nothing, or "
                           "nothing divided by nothing)"));
}

static bool are_twins(struct table *t, struct qty a, struct qty b)
{
    uint32_t nodes[2] = { graph_node_of(t->g, a), graph_node_of(t->g, b) };
    struct draws *d = draws_of(t->g, nodes, 2, &t->f);
    assert_non_null(d);
    bool same = draws_row_number(d, 0) == draws_row_number(d, 1);
    draws_free(d);
    return same;
}

static void the_same_equation_over_the_same_is_a_twin(void **state)
{
    struct table *t = *state;
    struct qty site = between(t, 54, 60, 72, "ft", 5), age = figure(t, 90, "yr");
    struct qty h = height_of(t, site, age);
    assert_true(are_twins(t, h, height_of(t, site, figure(t, 90, "yr"))));
    assert_false(are_twins(t, h, height_of(t, site, figure(t, 91, "yr"))));
    assert_false(are_twins(t, h, height_of(t, between(t, 54, 60, 72, "ft", 6), age)));
    struct operand of[] = { { site, unit_of(t, "ft"), "height" },
                            { age, unit_of(t, "yr"), NULL } };
    struct unit_id ft = unit_of(t, "ft"), m = unit_of(t, "m");
    struct fault *f = &t->f;
    double other[] = { 4.0 / 3, 0.1, 201 };
    struct qty named = graph_formula(t->g, &height, numbers, 3, of, 2, ft, nowhere, f);
    assert_true(are_twins(t, h, named));
    struct qty off = graph_formula(t->g, &height, other, 3, of, 2, ft, nowhere, f);
    assert_false(are_twins(t, h, off));
    off = graph_formula(t->g, &height, numbers, 3, of, 2, m, nowhere, f);
    assert_false(are_twins(t, h, off));
    of[0].in = m;
    off = graph_formula(t->g, &height, numbers, 3, of, 2, ft, nowhere, f);
    assert_false(are_twins(t, h, off));
    struct qty halved = one_of(t, &half, site, "ft");
    assert_false(are_twins(t, halved, one_of(t, &floored, site, "ft")));
}

static void it_hangs_on_what_its_operands_hang_on(void **state)
{
    struct table *t = *state;
    struct qty site = between(t, 54, 60, 66, "ft", 5);
    struct qty age = between(t, 70, 80, 90, "yr", 6);
    assert_true(graph_name(t->g, &site, "site index", nowhere, &t->f));
    assert_true(graph_name(t->g, &age, "age", nowhere, &t->f));
    struct hangs_on rows[4];
    assert_int_equal(spread_hangs_on(t->g, height_of(t, site, age), rows, 4, &t->f), 2);
    /* 6 x 4/3 = 8 against 10 x 0.1 = 1. */
    assert_string_equal(rows[0].name, "site index");
    assert_true(fabs(rows[0].share - 64.0 / 65) < 0.02);
    assert_string_equal(rows[1].name, "age");
}

static void operands_outlive_their_release(void **state)
{
    struct table *t = *state;
    struct qty gone[40], age = figure(t, 90, "yr");
    struct qty site = between(t, 54, 60, 72, "ft", 5);
    for (int i = 0; i < 40; i++)
        gone[i] = height_of(t, figure(t, i, "ft"), age);
    struct qty h = height_of(t, site, age);
    struct spread before = spread(t, h);
    for (int i = 0; i < 40; i++)
        graph_release(t->g, gone[i]);
    graph_release(t->g, site);
    graph_release(t->g, age);
    graph_collect(t->g);
    struct equation e = graph_equation_of(t->g, graph_node_of(t->g, h));
    assert_int_equal(e.with_count, 3);
    assert_memory_equal(e.with, numbers, sizeof numbers);
    assert_string_equal(e.operands[0].name, "site index");
    assert_int_equal(graph_range_of(t->g, e.operands[0].node).key, 5);
    struct spread after = spread(t, h);
    assert_memory_equal(&before, &after, sizeof before);
}

static void why(struct table *t, struct qty a, const char *wanted)
{
    struct explain_look look = { .width = 80, .depth = 12 };
    assert_false(fault_is_set(&t->f));
    buf_clear(&t->text);
    assert_true(explain_text(t->g, NULL, a, look, &t->text, &t->f));
    assert_string_equal(t->text.data, wanted);
}

static void why_shows_it_with_its_operands(void **state)
{
    struct table *t = *state;
    struct origin trees = { { 0, 0, 0 }, "five site trees" };
    struct origin core = { { 0, 0, 0 }, "increment core" };
    struct qty site = graph_range(t->g, 54, 60, 66, unit_of(t, "ft"), 5, trees, &t->f);
    struct qty age = graph_leaf(t->g, 90, unit_of(t, "yr"), core, &t->f);
    struct qty h = height_of(t, site, age);
    why(t, h, "89 ft (81 to 97)\n"
              "  = height at age (site index 60 ft, age 90 yr) [a handbook, fig. 48]\n"
              "  site index = 60 ft (54 to 66), from five site trees\n"
              "  age = 90 yr, from increment core\n"
              "hangs wholly on: five site trees\n");
    assert_true(graph_name(t->g, &site, "site index", nowhere, &t->f));
    assert_true(graph_name(t->g, &age, "age of the oaks", nowhere, &t->f));
    h = height_of(t, site, age);
    assert_true(graph_name(t->g, &h, "height", nowhere, &t->f));
    why(t, graph_scale(t->g, h, 2, &t->f),
        "178 ft (162 to 194)\n"
        "  = 2 x height\n"
        "  height = 89 ft (81 to 97)\n"
        "    = height at age (site index 60 ft, age 90 yr) [a handbook, fig. 48]\n"
        "    site index = 60 ft (54 to 66), from five site trees\n"
        "    age = age of the oaks = 90 yr, from increment core\n"
        "hangs wholly on: site index\n");
}

static void why_shows_what_operands_are_made_of(void **state)
{
    struct table *t = *state;
    struct origin own = { { 0, 0, 0 }, "own rule" };
    struct qty age = graph_add(t->g, figure(t, 30, "yr"), figure(t, 60, "yr"), &t->f);
    struct qty h = height_of(t, figure(t, 60, "ft"), age);
    assert_true(graph_name(t->g, &h, "height", own, &t->f));
    why(t, h, "height = 89 ft\n"
              "  = height at age (site index 60 ft, age 90 yr) [a handbook, fig. 48; own "
              "rule]\n"
              "  age = 90 yr\n"
              "    = 30 yr + 60 yr\n");
    struct qty four = one_of(t, &half, figure(t, 8, "ft"), "ft");
    struct qty quarter = one_of(t, &half, four, "ft");
    why(t, quarter, "2 ft\n"
                    "  = half (4 ft)\n"
                    "  4 ft\n"
                    "    = half (8 ft)\n");
}

static void why_changes_units_on_either_side(void **state)
{
    struct table *t = *state;
    struct origin from = { { 0, 0, 0 }, "a map" };
    struct qty site = graph_leaf(t->g, 18, unit_of(t, "m"), from, &t->f);
    struct qty h = height_of(t, site, figure(t, 90, "yr"));
    why(t, graph_say_in(t->g, h, unit_of(t, "m"), &t->f),
        "26.7 m\n"
        "  = height at age (site index 59.1 ft, age 90 yr) / 3.28 (change of units) [a\n"
        "      handbook, fig. 48]\n"
        "  site index = 18 m, that is 59.1 ft, from a map\n");
}

static void what_does_not_fit_is_refused(void **state)
{
    struct table *t = *state;
    struct qty site = figure(t, 60, "ft"), age = figure(t, 90, "yr");
    assert_fault(t, height_of(t, age, age), "dimension-say",
                 "90 yr is calendar time: it cannot be said in ft, which is for a length",
                 "height at age takes its site index in ft");
    assert_fault(t, height_of(t, site, figure(t, 201, "yr")), "value-not-finite",
                 "cannot work out height at age of site index 60 ft and age 201 yr: the "
                 "equation does not reach so far", NULL);
    assert_fault(t, one_of(t, &growth, figure(t, 800, ""), ""), "value-not-finite",
                 "cannot work out growth of 800: the result is too large to count with",
                 NULL);
    size_t nodes = graph_nodes(t->g);
    assert_false(qty_is(height_of(t, site, QTY_NONE)));
    assert_false(fault_is_set(&t->f));
    assert_int_equal(graph_nodes(t->g), nodes);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TABLE_TEST(operands_are_handed_over_in_their_units),
        TABLE_TEST(a_line_of_a_range_has_its_percentiles),
        TABLE_TEST(a_bend_of_ranges_has_the_bend_of_their_percentiles),
        TABLE_TEST(draws_go_with_those_of_its_operands),
        TABLE_TEST(draws_past_its_reach_are_lost),
        TABLE_TEST(the_same_equation_over_the_same_is_a_twin),
        TABLE_TEST(it_hangs_on_what_its_operands_hang_on),
        TABLE_TEST(operands_outlive_their_release),
        TABLE_TEST(why_shows_it_with_its_operands),
        TABLE_TEST(why_shows_what_operands_are_made_of),
        TABLE_TEST(why_changes_units_on_either_side),
        TABLE_TEST(what_does_not_fit_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
