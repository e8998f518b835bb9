/* Leaves that share their doubt with others. */
#include "figures.h"

#include <math.h>

#include "quantity/draws.h"
#include "quantity/explain.h"
#include "quantity/node.h"
#include "quantity/select.h"
#include "quantity/spread.h"

static const struct origin nowhere = { { 0, 0, 0 }, NULL };

static struct qty shared(struct table *t, double low, double likely, double high,
                         const struct cause *causes, size_t count)
{
    struct qty a =
        graph_shared(t->g, low, likely, high, UNIT_NUMBER, causes, count, nowhere, &t->f);
    assert_true(qty_is(a));
    return a;
}

static struct spread spread(struct table *t, struct qty a)
{
    struct spread s;
    assert_true(spread_of(t->g, &a, 1, &s, &t->f));
    return s;
}

static void draw(struct table *t, struct qty a, double *out)
{
    uint32_t node = graph_node_of(t->g, a);
    struct draws *d = draws_of(t->g, &node, 1, &t->f);
    assert_non_null(d);
    memcpy(out, draws_row(d, 0), SPREAD_DRAWS * sizeof *out);
    draws_free(d);
}

static double correlation(struct table *t, struct qty a, struct qty b)
{
    static double x[SPREAD_DRAWS], y[SPREAD_DRAWS];
    double sx = 0, sy = 0, xx = 0, yy = 0, xy = 0, n = SPREAD_DRAWS;
    draw(t, a, x);
    draw(t, b, y);
    for (int i = 0; i < SPREAD_DRAWS; i++) {
        sx += x[i];
        sy += y[i];
        xx += x[i] * x[i];
        yy += y[i] * y[i];
        xy += x[i] * y[i];
    }
    return (xy - sx * sy / n) / sqrt((xx - sx * sx / n) * (yy - sy * sy / n));
}

static void its_percentiles_read_back_exactly(void **state)
{
    struct table *t = *state;
    struct cause causes[] = { { 1, 0.3 }, { 2, -4 }, { 3, 0.1 } };
    struct unit_id ac = unit_of(t, "ac");
    struct qty a = graph_shared(t->g, 60, 70, 95, ac, causes, 3, nowhere, &t->f);
    double size = unit_factor(t->u, ac);
    struct spread s = spread(t, a);
    assert_true(s.low == 60 * size && s.median == 70 * size && s.high == 95 * size);
    assert_true(s.value == 70 * size && s.uncertain && !s.skewed && s.lost == 0);
    s = spread(t, graph_scale(t->g, a, -2, &t->f));
    assert_true(s.low == -190 * size && s.high == -120 * size);
}

/* Their percentiles as drawn, beside the three figures. */
static void its_draws_have_these_percentiles(void **state)
{
    struct table *t = *state;
    struct cause causes[20];
    static double row[SPREAD_DRAWS];
    for (size_t i = 0; i < 20; i++)
        causes[i] = (struct cause){ graph_key("plot", (uint32_t)i, 0), i < 10 ? 1 : -2 };
    draw(t, shared(t, 60, 70, 90, causes, 20), row);
    struct percentiles p = select_percentiles(row, SPREAD_DRAWS);
    assert_true(fabs(p.low - 60) < 0.04 * 30);
    assert_true(fabs(p.median - 70) < 0.04 * 30);
    assert_true(fabs(p.high - 90) < 0.04 * 30);
}

static void one_cause_is_the_draw_of_a_range_of_its_key(void **state)
{
    struct table *t = *state;
    static double x[SPREAD_DRAWS], y[SPREAD_DRAWS];
    draw(t, between(t, 2, 3, 7, "", 5), x);
    draw(t, shared(t, 2, 3, 7, &(struct cause){ 5, 0.01 }, 1), y);
    assert_memory_equal(x, y, sizeof x);
}

/* The deviations of the plots from their mean, as a tally would have them: no leaf is a
 * multiple of another. */
static const struct cause oak[] = { { 11, 3 }, { 12, -1 }, { 13, 2 }, { 14, -4 } };
static const struct cause maple[] = { { 11, -2 }, { 12, 1 }, { 13, 5 }, { 14, -4 } };
static const struct cause birch[] = { { 21, 1 }, { 22, 1 } };

static void they_are_correlated_as_their_weights_are(void **state)
{
    struct table *t = *state;
    struct qty a = shared(t, 20, 30, 40, oak, 4), b = shared(t, 5, 9, 13, maple, 4);
    double wanted = (3 * -2 - 1 + 2 * 5 + 16) / sqrt(30.0 * 46.0);
    assert_true(fabs(correlation(t, a, b) - wanted) < 0.04);
    assert_true(fabs(correlation(t, a, shared(t, 5, 9, 13, birch, 2))) < 0.04);
    struct cause turned[] = { { 11, -3 }, { 12, 1 }, { 13, -2 }, { 14, 4 } };
    assert_true(correlation(t, a, shared(t, 20, 30, 40, turned, 4)) < -0.999);
    /* Far from zero, where nothing is held. */
    struct cause larger[] = { { 14, -8 }, { 13, 4 }, { 12, -2 }, { 11, 6 } };
    assert_true(correlation(t, a, shared(t, 91, 92, 93, larger, 4)) > 0.999999);
}

/* Twelve plots, five classes: the spread of each class from the deviations of its plots,
 * and their sum against the total's own. */
static void classes_add_up_to_the_spread_of_the_total(void **state)
{
    enum { PLOTS = 12, CLASSES = 5 };
    struct table *t = *state;
    struct qty classes[CLASSES];
    double count[CLASSES + 1][PLOTS] = { { 0 } }, z90 = 1.2815515655446004;
    struct spread all = { 0 };
    uint32_t seed = 4;
    for (int c = 0; c < CLASSES; c++) {
        for (int p = 0; p < PLOTS; p++) {
            seed = seed * 1664525u + 1013904223u;
            count[c][p] = 50 + (double)((seed >> 16) % 20) + (c % 2 ? 4 * p : -2 * p);
            count[CLASSES][p] += count[c][p];
        }
    }
    for (int c = 0; c <= CLASSES; c++) {
        struct cause causes[PLOTS];
        double mean = 0, squares = 0;
        for (int p = 0; p < PLOTS; p++)
            mean += count[c][p] / PLOTS;
        for (int p = 0; p < PLOTS; p++) {
            double off = count[c][p] - mean;
            causes[p] = (struct cause){ graph_key("tally", (uint32_t)p, 1), off };
            squares += off * off;
        }
        double half = z90 * sqrt(squares / (PLOTS * (PLOTS - 1)));
        struct qty leaf = shared(t, mean - half, mean, mean + half, causes, PLOTS);
        if (c == CLASSES)
            all = spread(t, leaf);
        else
            classes[c] = leaf;
    }
    struct spread sum = spread(t, graph_sum(t->g, classes, CLASSES, &t->f));
    double width = all.high - all.low;
    assert_true(fabs(sum.value - all.value) < 1e-9);
    assert_true(fabs(sum.low - all.low) < 0.04 * width);
    assert_true(fabs(sum.high - all.high) < 0.04 * width);
    /* As if they were independent, it would be another. */
    double apart = 0;
    for (int c = 0; c < CLASSES; c++) {
        struct spread s = spread(t, classes[c]);
        apart += (s.high - s.low) * (s.high - s.low);
    }
    assert_true(fabs(sqrt(apart) - width) > 0.1 * width);
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

static void the_same_causes_in_any_order_are_twins(void **state)
{
    struct table *t = *state;
    struct cause a[] = { { 1, 3 }, { 2, -4 } };
    struct cause b[] = { { 2, -8 }, { 7, 0 }, { 1, 2 }, { 1, 4 } };
    struct cause c[] = { { 1, 3 }, { 3, -4 } };
    struct qty one = shared(t, 1, 2, 4, a, 2);
    assert_true(are_twins(t, one, shared(t, 1, 2, 4, b, 4)));
    assert_false(are_twins(t, one, shared(t, 1, 2, 5, a, 2)));
    assert_false(are_twins(t, one, shared(t, 1, 2, 4, c, 2)));
    assert_false(are_twins(t, one, shared(t, 1, 2, 4, a, 1)));
    a[1].weight = 4;
    assert_false(are_twins(t, one, shared(t, 1, 2, 4, a, 2)));
    struct causes kept = graph_causes_of(t->g, graph_node_of(t->g, one));
    assert_int_equal(kept.count, 2);
    assert_int_equal(kept.list[0].key, 1);
    assert_true(kept.list[0].weight == 0.6 && kept.list[1].weight == -0.8);
}

static void no_draw_depends_on_what_else_is_asked(void **state)
{
    struct table *t = *state;
    struct qty a = shared(t, 20, 30, 40, oak, 4), b = shared(t, 5, 9, 13, maple, 4);
    struct qty c = between(t, 1, 2, 3, "", 12);
    struct qty sum = graph_add(t->g, graph_multiply(t->g, a, b, &t->f), c, &t->f);
    static double alone[4][SPREAD_DRAWS];
    struct qty all[] = { b, sum, a, c };
    uint32_t nodes[4];
    for (int i = 0; i < 4; i++) {
        draw(t, all[i], alone[i]);
        nodes[i] = graph_node_of(t->g, all[i]);
    }
    struct draws *d = draws_of(t->g, nodes, 4, &t->f);
    assert_non_null(d);
    for (size_t i = 0; i < 4; i++)
        assert_memory_equal(draws_row(d, i), alone[i], sizeof alone[i]);
    for (int k = 0; k < SPREAD_DRAWS; k++)
        assert_true(alone[1][k] == alone[2][k] * alone[0][k] + alone[3][k]);
    draws_free(d);
    assert_true(spread_ahead(t->g, all, 4, &t->f));
    struct spread before = spread(t, sum);
    graph_collect(t->g); /* what was drawn ahead goes */
    struct spread after = spread(t, sum);
    assert_memory_equal(&before, &after, sizeof before);
}

/* Two leaves of one tally and a range beside them: a + b has a variance of 46 + 30 + 2 x
 * 19 from what they share, against that of the range. */
static void a_tally_is_one_row_of_what_a_sum_hangs_on(void **state)
{
    struct table *t = *state;
    double z90 = 1.2815515655446004;
    struct origin tally = { { 1, 40, 9 }, "tally of the bench, plots" };
    struct origin by_eye = { { 1, 90, 9 }, "walk, by eye" };
    double a = z90 * sqrt(30), b = z90 * sqrt(46), c = z90 * sqrt(50);
    struct qty parts[] = {
        graph_shared(t->g, 90 - a, 90, 90 + a, UNIT_NUMBER, oak, 4, tally, &t->f),
        graph_range(t->g, 90 - c, 90, 90 + c, UNIT_NUMBER, 77, by_eye, &t->f),
        graph_shared(t->g, 90 - b, 90, 90 + b, UNIT_NUMBER, maple, 4, tally, &t->f),
    };
    struct hangs_on rows[8];
    /* Also where each of them bears a name of its own. */
    assert_true(graph_name(t->g, &parts[0], "oak", nowhere, &t->f));
    assert_true(graph_name(t->g, &parts[2], "maple", nowhere, &t->f));
    struct qty sum = graph_sum(t->g, parts, 3, &t->f);
    assert_int_equal(spread_hangs_on(t->g, sum, rows, 8, &t->f), 2);
    double of_tally = 30 + 46 + 2 * 19;
    assert_string_equal(rows[0].name, tally.words);
    assert_true(fabs(rows[0].share - of_tally / (of_tally + 50)) < 0.03);
    assert_string_equal(rows[1].name, by_eye.words);
    assert_true(fabs(rows[0].share + rows[1].share - 1) < 1e-12);
    /* What goes up with one and down with the other cancels: 30 + 46 - 2 x 19. */
    struct qty less = graph_subtract(t->g, parts[2], parts[0], &t->f);
    less = graph_add(t->g, less, parts[1], &t->f);
    assert_int_equal(spread_hangs_on(t->g, less, rows, 8, &t->f), 2);
    assert_string_equal(rows[0].name, by_eye.words);
    assert_true(fabs(rows[0].share - 50.0 / (38 + 50)) < 0.03);
}

static void a_leaf_without_a_name_is_one_row_too(void **state)
{
    struct table *t = *state;
    struct hangs_on rows[8];
    struct qty sum = graph_add(t->g, shared(t, 20, 30, 40, oak, 4),
                               between(t, 2, 3, 4, "", 5), &t->f);
    assert_int_equal(spread_hangs_on(t->g, sum, rows, 8, &t->f), 2);
    assert_true(rows[0].share > 0.95);
}

static void why_reads_as_for_a_range(void **state)
{
    struct table *t = *state;
    struct unit_id trees = unit_of(t, "trees/ac");
    struct origin tally = { { 0, 0, 0 }, "tally, 4 plots" };
    struct qty a = graph_shared(t->g, 20, 30, 40, trees, oak, 4, tally, &t->f);
    struct qty b = graph_shared(t->g, 5, 9, 13, trees, maple, 4, tally, &t->f);
    assert_true(graph_name(t->g, &a, "oak", nowhere, &t->f));
    assert_true(graph_name(t->g, &b, "maple", nowhere, &t->f));
    struct qty sum = graph_add(t->g, a, b, &t->f);
    struct explain_look look = { .width = 80, .depth = 12 };
    assert_true(explain_text(t->g, NULL, a, look, &t->text, &t->f));
    assert_string_equal(t->text.data, "oak = 30 trees/ac (20 to 40), from tally, 4 "
                                      "plots\n");
    struct spread s = spread(t, sum);
    struct buf wanted;
    buf_init(&wanted);
    explain_figure(t->g, sum, &s, &wanted);
    buf_puts(&wanted, "\n  = oak + maple\n"
                      "  oak = 30 trees/ac (20 to 40), from tally, 4 plots\n"
                      "  maple = 9 trees/ac (5 to 13), from tally, 4 plots\n");
    buf_clear(&t->text);
    assert_true(explain_text(t->g, NULL, sum, look, &t->text, &t->f));
    assert_memory_equal(t->text.data, wanted.data, wanted.length);
    assert_string_equal(t->text.data + wanted.length, "hangs wholly on: tally\n");
    buf_clear(&wanted);
}

static void what_does_not_fit_is_refused(void **state)
{
    struct table *t = *state;
    struct graph *g = t->g;
    struct cause one = { 1, 1 }, none[] = { { 1, 0 }, { 2, 0 } };
    struct cause even[] = { { 1, 2 }, { 1, -2 } }, lost[] = { { 1, 1 }, { 2, NAN } };
    const char *unmoved = "a figure with a low and a high needs a cause of doubt that "
                          "moves it: all its weights are 0";
    const struct unit_id n = UNIT_NUMBER;
    struct fault *f = &t->f;
    assert_fault(t, graph_shared(g, 1, 2, 3, n, none, 2, nowhere, f), "value-not-finite",
                 unmoved, NULL);
    assert_fault(t, graph_shared(g, 1, 2, 3, n, even, 2, nowhere, f), "value-not-finite",
                 unmoved, NULL);
    assert_fault(t, graph_shared(g, 1, 2, 3, n, NULL, 0, nowhere, f), "value-not-finite",
                 unmoved, NULL);
    assert_fault(t, graph_shared(g, 1, 2, 3, n, lost, 2, nowhere, f), "value-not-finite",
                 "the weight of a cause of doubt is not a number that can be counted "
                 "with",
                 NULL);
    assert_fault(t, graph_shared(g, 3, 2, 1, n, &one, 1, nowhere, f), "range-order", NULL,
                 NULL);
    assert_fault(t, graph_shared(g, 1, 2, INFINITY, n, &one, 1, nowhere, f),
                 "value-not-finite", NULL, NULL);
    assert_int_equal(graph_nodes(g), 0);
    struct qty certain = shared(t, 2, 2, 2, none, 2);
    assert_false(graph_is_uncertain(g, certain));
    struct cause huge[] = { { 1, 1e308 }, { 2, 1e308 } };
    struct cause small[] = { { 1, 1 }, { 2, 1 } };
    assert_true(are_twins(t, shared(t, 1, 2, 3, huge, 2), shared(t, 1, 2, 3, small, 2)));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TABLE_TEST(its_percentiles_read_back_exactly),
        TABLE_TEST(its_draws_have_these_percentiles),
        TABLE_TEST(one_cause_is_the_draw_of_a_range_of_its_key),
        TABLE_TEST(they_are_correlated_as_their_weights_are),
        TABLE_TEST(classes_add_up_to_the_spread_of_the_total),
        TABLE_TEST(the_same_causes_in_any_order_are_twins),
        TABLE_TEST(no_draw_depends_on_what_else_is_asked),
        TABLE_TEST(a_tally_is_one_row_of_what_a_sum_hangs_on),
        TABLE_TEST(a_leaf_without_a_name_is_one_row_too),
        TABLE_TEST(why_reads_as_for_a_range),
        TABLE_TEST(what_does_not_fit_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
