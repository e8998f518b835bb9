/* Operations: what comes out, in what unit, and what is said when it cannot. */
#include "figures.h"

#include <math.h>

#include "quantity/node.h"

static void sums_are_said_in_the_left_unit(void **state)
{
    struct table *t = *state;
    struct qty a = figure(t, 1, "ft"), b = figure(t, 6, "in");
    assert_string_equal(said(t, graph_add(t->g, a, b, &t->f)), "1.5 ft");
    assert_string_equal(said(t, graph_add(t->g, b, a, &t->f)), "18 in");
    assert_string_equal(said(t, graph_subtract(t->g, a, b, &t->f)), "0.5 ft");
    assert_string_equal(said(t, graph_negate(t->g, b, &t->f)), "-6 in");
    struct qty number = figure(t, 3, ""), share = figure(t, 2, "percent");
    assert_string_equal(said(t, graph_add(t->g, number, share, &t->f)), "3.02");
}

static void products_and_quotients_have_the_units_of_the_trade(void **state)
{
    struct table *t = *state;
    static const struct {
        double x;
        const char *a;
        char op;
        double y;
        const char *b, *result;
    } cases[] = {
        { 15, "trees/ac", '*', 3, "ac", "45 trees" },
        { 45, "USD/h", '*', 70, "h", "3,150 USD" },
        { 40, "ft", '*', 60, "ft", "2,400 ft2" },
        { 2400, "ft2", '*', 15, "trees/ac", "0.826 trees" },
        { 30, "ft2", '/', 2, "ac", "15 ft2/ac" },
        { 70, "h", '/', 10, "h/wk", "7 wk" },
        { 3, "ac", '/', 300, "ft", "436 ft" },
        { 43560, "ft2", '/', 1, "ac", "43,560 ft2/ac" },
        { 50, "percent", '*', 3, "ac", "1.5 ac" },
        { 1, "ac", '/', 43560, "ft2", "1" },
        { 100, "trees", '/', 20, "trees/h", "5 h" },
        { 3, "gal", '/', 12, "gal/ac", "0.25 ac" },
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct qty a = figure(t, cases[i].x, cases[i].a);
        struct qty b = figure(t, cases[i].y, cases[i].b);
        struct qty c = cases[i].op == '*' ? graph_multiply(t->g, a, b, &t->f)
                                          : graph_divide(t->g, a, b, &t->f);
        assert_string_equal(said(t, c), cases[i].result);
    }
}

static void powers_and_roots(void **state)
{
    struct table *t = *state;
    struct qty ft = figure(t, 3, "ft"), ac = figure(t, 1, "ac");
    assert_string_equal(said(t, graph_power(t->g, ft, 2, 1, &t->f)), "9 ft2");
    assert_string_equal(said(t, graph_power(t->g, ft, -1, 1, &t->f)), "0.333 per ft");
    assert_string_equal(said(t, graph_power(t->g, ft, 0, 1, &t->f)), "1");
    assert_string_equal(said(t, graph_power(t->g, ac, 1, 2, &t->f)), "209 ft");
    assert_string_equal(said(t, graph_power(t->g, figure(t, 27, "ft3"), 1, 3, &t->f)),
                        "3 ft");
    assert_string_equal(said(t, graph_power(t->g, figure(t, 8, ""), 2, 3, &t->f)), "4");
    assert_fault(t, graph_power(t->g, ft, 7, 1, &t->f), "dimension-power", NULL, NULL);
    assert_fault(t, graph_power(t->g, ft, 1, 5, &t->f), "dimension-power", NULL, NULL);
    assert_fault(t, graph_power(t->g, figure(t, -4, ""), 1, 2, &t->f), "value-not-finite",
                 "there is no square root of a number below zero", NULL);
    assert_fault(t, graph_power(t->g, figure(t, 0, "ft"), -2, 1, &t->f), "divide-by-zero",
                 NULL, NULL);
    struct qty high = graph_power(t->g, ft, 6, 1, &t->f);
    assert_fault(t, graph_multiply(t->g, high, ft, &t->f), "unit-powers", NULL, NULL);
}

static void least_and_most_keep_the_left_unit(void **state)
{
    struct table *t = *state;
    struct qty a = figure(t, 1, "ft"), b = figure(t, 6, "in"), c = figure(t, 1, "ac");
    assert_string_equal(said(t, graph_min(t->g, a, b, &t->f)), "0.5 ft");
    assert_string_equal(said(t, graph_max(t->g, b, a, &t->f)), "12 in");
    assert_fault(t, graph_min(t->g, a, c, &t->f), "dimension-compare", NULL, NULL);
}

static void rounding_is_to_whole_numbers_of_a_unit(void **state)
{
    struct table *t = *state;
    struct unit_id plant = unit_of(t, "plant"), ft = unit_of(t, "ft");
    assert_string_equal(
        said(t, graph_ceil(t->g, figure(t, 12.2, "plants"), plant, &t->f)), "13 plants");
    assert_string_equal(
        said(t, graph_floor(t->g, figure(t, 12.8, "plants"), plant, &t->f)), "12 plants");
    /* What only arithmetic put past a whole number is that number. */
    struct qty third = graph_divide(t->g, figure(t, 1, "plant"), figure(t, 3, ""), &t->f);
    struct qty whole = graph_sum(t->g, (struct qty[]){ third, third, third }, 3, &t->f);
    assert_string_equal(said(t, graph_ceil(t->g, whole, plant, &t->f)), "1 plant");
    struct qty over = figure(t, 12 + 1e-10, "plants"),
               under = figure(t, 12 - 1e-10, "plants");
    assert_true(graph_value(t->g, graph_ceil(t->g, over, plant, &t->f)) == 12);
    assert_true(graph_value(t->g, graph_floor(t->g, under, plant, &t->f)) == 12);
    struct qty beyond = figure(t, 12 + 1e-8, "plants");
    assert_true(graph_value(t->g, graph_ceil(t->g, beyond, plant, &t->f)) == 13);
    assert_true(graph_value_in(t->g, graph_ceil(t->g, figure(t, 13, "in"), ft, &t->f), ft)
                == 2);
    assert_fault(
        t, graph_ceil(t->g, figure(t, 3, "ac"), plant, &t->f), "dimension-say",
        "3 ac is an area: it cannot be said in plants, which is for a count of plants",
        NULL);
}

static void a_quantity_can_be_said_in_another_unit(void **state)
{
    struct table *t = *state;
    struct qty a = figure(t, 2, "ac");
    assert_string_equal(said(t, graph_say_in(t->g, a, unit_of(t, "ha"), &t->f)),
                        "0.809 ha");
    assert_true(graph_value(t->g, graph_say_in(t->g, a, unit_of(t, "ft2"), &t->f))
                == graph_value(t->g, a));
    assert_fault(t, graph_say_in(t->g, a, unit_of(t, "ft"), &t->f), "dimension-say",
                 "2 ac is an area: it cannot be said in ft, which is for a length", NULL);
    assert_fault(t, graph_say_in(t->g, a, UNIT_NUMBER, &t->f), "dimension-say",
                 "2 ac is an area: it is not a bare number", NULL);
    /* Basal area per acre is no percentage, although its dimension would be. */
    assert_fault(
        t, graph_say_in(t->g, figure(t, 80, "ft2/ac"), unit_of(t, "percent"), &t->f),
        "dimension-say", NULL, NULL);
}

static void what_does_not_fit_is_told_in_the_words_of_the_trade(void **state)
{
    struct table *t = *state;
    static const struct {
        double x;
        const char *a;
        double y;
        const char *b, *message, *hint;
    } cases[] = {
        { 15, "ft", 3, "ac", "15 ft is a length, 3 ac is an area: they cannot be added",
          "a length times a length is an area" },
        { 3, "ac", 15, "ft", "3 ac is an area, 15 ft is a length: they cannot be added",
          "a length times a length is an area" },
        { 2, "ac", 9, "gal", "2 ac is an area, 9 gal is a volume: they cannot be added",
          "an area times a length is a volume" },
        { 5, "stems", 3, "plants",
          "stems and plants are counted apart: 5 stems and 3 plants cannot be added",
          "" },
        { 60, "", 80, "ft2/ac",
          "60 is a bare number, 80 ft2/ac is basal area per area of "
          "land: they cannot be added",
          "write 60 ft2/ac" },
        { 3, "ac", 1, "", "3 ac is an area, 1 is a bare number: they cannot be added",
          "write 1 ac" },
        { 4, "trees", 1, "", NULL, "write 1 tree" },
        { 80, "ft2/ac", 60, "percent",
          "80 ft2/ac is basal area per area of land, 60 percent "
          "is a percentage: they cannot be added",
          "multiply the percentage by what it is a share of first" },
        { 3, "ac", 60, "percent", NULL,
          "multiply the percentage by what it is a share of first" },
        { 20, "gal/ac", 3, "gal",
          "20 gal/ac is volume per area of land, 3 gal is a volume: they cannot be added",
          "multiply 20 gal/ac by an area first" },
        { 30, "trees", 15, "trees/ac",
          "30 trees is a count of trees, 15 trees/ac is trees per area: they cannot be "
          "added",
          "multiply 15 trees/ac by an area first" },
        { 3, "ft2", 80, "ft2/ac", NULL, "multiply 80 ft2/ac by an area first" },
        { 45, "USD/h", 3, "USD",
          "45 USD/h is money per working time, 3 USD is money: they cannot be added",
          "multiply 45 USD/h by hours of work first" },
        { 3, "h", 2, "d",
          "3 h is working time, 2 d is calendar time: they cannot be added",
          "hours of work become days on the calendar only through a crew's week: divide "
          "by "
          "its hours, as in 70 h / (10 h/wk)" },
        { 2, "tree_length", 66, "ft",
          "2 tree_lengths is a length in tree lengths, 66 ft is a "
          "length: they cannot be added",
          "say both in feet, or both in tree lengths" },
        { 3, "lb", 2, "gal", "3 lb is a weight, 2 gal is a volume: they cannot be added",
          "" },
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        assert_fault(t,
                     graph_add(t->g, figure(t, cases[i].x, cases[i].a),
                               figure(t, cases[i].y, cases[i].b), &t->f),
                     "dimension-add", cases[i].message, cases[i].hint);
}

static void messages_fit_what_was_tried(void **state)
{
    struct table *t = *state;
    struct qty ft = figure(t, 15, "ft"), ac = figure(t, 3, "ac");
    struct qty stems = figure(t, 5, "stems"), trees = figure(t, 1, "tree");
    int order;
    assert_fault(t, graph_subtract(t->g, ft, ac, &t->f), "dimension-add",
                 "15 ft is a length, 3 ac is an area: one cannot be taken from the other",
                 NULL);
    assert_fault(t, graph_subtract(t->g, stems, trees, &t->f), "dimension-add",
                 "stems and trees are counted apart: 1 tree cannot be taken from 5 stems",
                 NULL);
    assert_false(graph_compare(t->g, ft, ac, &order, &t->f));
    assert_fault(t, QTY_NONE, "dimension-compare",
                 "15 ft is a length, 3 ac is an area: they cannot be compared", NULL);
    assert_false(graph_compare(t->g, stems, trees, &order, &t->f));
    assert_fault(
        t, QTY_NONE, "dimension-compare",
        "stems and trees are counted apart: 5 stems and 1 tree cannot be compared", NULL);
    struct qty cost = figure(t, 3150, "USD");
    assert_true(graph_name(t->g, &cost, "felling cost",
                           (struct origin){ { 0, 0, 0 }, NULL }, &t->f));
    assert_fault(
        t, graph_add(t->g, cost, ac, &t->f), "dimension-add",
        "felling cost (3,150 USD) is money, 3 ac is an area: they cannot be added", NULL);
    assert_fault(t, graph_sum(t->g, (struct qty[]){ ft, ft, ac }, 3, &t->f),
                 "dimension-add", NULL, NULL);
}

static void what_has_no_end_is_refused(void **state)
{
    struct table *t = *state;
    struct qty big = figure(t, 1e300, ""), zero = figure(t, 0, "ac"),
               ac = figure(t, 3, "ac");
    assert_fault(t, graph_divide(t->g, ac, zero, &t->f), "divide-by-zero",
                 "cannot divide 3 ac by 0 ac: that is zero", NULL);
    assert_fault(t, graph_divide(t->g, zero, zero, &t->f), "divide-by-zero", NULL, NULL);
    assert_fault(t, graph_multiply(t->g, big, big, &t->f), "value-not-finite", NULL,
                 NULL);
    assert_fault(t, graph_power(t->g, big, 3, 1, &t->f), "value-not-finite", NULL, NULL);
    struct qty most = figure(t, 1.7e308, "");
    assert_fault(t, graph_add(t->g, most, most, &t->f), "value-not-finite", NULL, NULL);
    assert_fault(t, graph_sum(t->g, (struct qty[]){ most, most }, 2, &t->f),
                 "value-not-finite", NULL, NULL);
    struct origin nowhere = { { 0, 0, 0 }, NULL };
    assert_fault(t, graph_leaf(t->g, NAN, UNIT_NUMBER, nowhere, &t->f),
                 "value-not-finite", "this is not a number", NULL);
    assert_fault(t, graph_leaf(t->g, INFINITY, UNIT_NUMBER, nowhere, &t->f),
                 "value-not-finite", NULL, NULL);
    assert_fault(t, graph_leaf(t->g, 1e308, unit_of(t, "mi3"), nowhere, &t->f),
                 "value-not-finite", NULL, NULL);
}

static void nothing_makes_nothing(void **state)
{
    struct table *t = *state;
    struct qty a = figure(t, 3, "ac"), none = QTY_NONE;
    size_t nodes = graph_nodes(t->g);
    struct unit_id ac = unit_of(t, "ac");
    assert_false(qty_is(graph_add(t->g, a, none, &t->f)));
    assert_false(qty_is(graph_subtract(t->g, none, a, &t->f)));
    assert_false(qty_is(graph_multiply(t->g, none, none, &t->f)));
    assert_false(qty_is(graph_divide(t->g, none, a, &t->f)));
    assert_false(qty_is(graph_negate(t->g, none, &t->f)));
    assert_false(qty_is(graph_scale(t->g, none, 2, &t->f)));
    assert_false(qty_is(graph_power(t->g, none, 2, 1, &t->f)));
    assert_false(qty_is(graph_min(t->g, none, a, &t->f)));
    assert_false(qty_is(graph_max(t->g, a, none, &t->f)));
    assert_false(qty_is(graph_sum(t->g, (struct qty[]){ a, none }, 2, &t->f)));
    assert_false(qty_is(graph_ceil(t->g, none, ac, &t->f)));
    assert_false(qty_is(graph_floor(t->g, none, ac, &t->f)));
    assert_false(qty_is(graph_say_in(t->g, none, ac, &t->f)));
    assert_false(qty_is(graph_hold(t->g, none, &t->f)));
    assert_false(graph_fits(t->g, none, a, "add", &t->f));
    graph_release(t->g, none);
    assert_false(fault_is_set(&t->f));
    assert_int_equal(graph_nodes(t->g), nodes);
}

static void comparing_allows_for_the_last_digits(void **state)
{
    struct table *t = *state;
    int order = 9;
    struct qty tenth = figure(t, 0.1, "ac");
    struct qty sum =
        graph_sum(t->g, (struct qty[]){ tenth, figure(t, 0.2, "ac") }, 2, &t->f);
    assert_true(graph_compare(t->g, sum, figure(t, 0.3, "ac"), &order, &t->f));
    assert_int_equal(order, 0);
    assert_true(
        graph_compare(t->g, figure(t, 43560, "ft2"), figure(t, 1, "ac"), &order, &t->f));
    assert_int_equal(order, 0);
    assert_true(
        graph_compare(t->g, figure(t, 12, "in"), figure(t, 1, "ft"), &order, &t->f));
    assert_int_equal(order, 0);
    assert_true(
        graph_compare(t->g, figure(t, 12, "mo"), figure(t, 1, "yr"), &order, &t->f));
    assert_int_equal(order, 0);
    assert_true(graph_compare(t->g, figure(t, 1, "ac"), figure(t, 1.0000001, "ac"),
                              &order, &t->f));
    assert_int_equal(order, -1);
    assert_true(
        graph_compare(t->g, figure(t, 0, ""), figure(t, -1e-300, ""), &order, &t->f));
    assert_int_equal(order, 1);
    assert_true(
        graph_compare(t->g, figure(t, 60, "percent"), figure(t, 0.6, ""), &order, &t->f));
    assert_int_equal(order, 0);
}

static void ranges_keep_their_three_figures(void **state)
{
    struct table *t = *state;
    struct qty a = between(t, 2, 2.2, 3, "h", 7);
    struct range r = graph_range_of(t->g, graph_node_of(t->g, a));
    assert_true(r.low == 120 && r.likely == 132 && r.high == 180 && r.key == 7);
    assert_true(graph_is_uncertain(t->g, a));
    assert_string_equal(said(t, a), "2.2 h");
    assert_int_equal(graph_origin(t->g, graph_node_of(t->g, a)).at.at, 7);
    struct qty b = between(t, 2, 2, 2, "h", 7);
    assert_false(graph_is_uncertain(t->g, b));
    assert_int_equal(graph_node(t->g, graph_node_of(t->g, b))->op, OP_LEAF);
    assert_true(graph_is_uncertain(t->g, graph_scale(t->g, a, 3, &t->f)));
    assert_true(graph_is_uncertain(t->g, graph_add(t->g, b, a, &t->f)));
}

static void ranges_the_wrong_way_round_are_refused(void **state)
{
    struct table *t = *state;
    struct origin from = { { 0, 0, 0 }, NULL };
    struct unit_id h = unit_of(t, "h");
    assert_fault(t, graph_range(t->g, 3, 2.5, 2, h, 1, from, &t->f), "range-order",
                 "3 h is more than 2 h",
                 "write the lower figure first, the likely one between the two");
    assert_fault(t, graph_range(t->g, 2, 4, 3, h, 1, from, &t->f), "range-order",
                 "2 h to 3 h does not have 4 h between its ends", NULL);
    assert_fault(t, graph_range(t->g, 2, 1, 3, h, 1, from, &t->f), "range-order", NULL,
                 NULL);
    assert_fault(t, graph_range(t->g, 2, 3, INFINITY, h, 1, from, &t->f),
                 "value-not-finite", NULL, NULL);
}

static void keys_differ_by_name_place_and_occurrence(void **state)
{
    (void)state;
    uint64_t keys[64];
    size_t count = 0;
    static const char *const names[] = { "plan.rx", "plan.ry", "", "a rate" };
    for (uint32_t name = 0; name < 4; name++)
        for (uint32_t at = 0; at < 4; at++)
            for (uint32_t again = 0; again < 4; again++)
                keys[count++] = graph_key(names[name], at, again);
    for (size_t i = 0; i < count; i++)
        for (size_t j = 0; j < i; j++)
            assert_true(keys[i] != keys[j]);
    assert_true(graph_key("plan.rx", 0, 1) == keys[1]);
}

static void names_and_places_can_be_read_back(void **state)
{
    struct table *t = *state;
    struct origin from = { { 3, 40, 5 },
                           "felling rate, stdlib: common practice, no source" };
    struct qty rate = graph_leaf(t->g, 4, unit_of(t, "h/ac"), from, &t->f);
    assert_null(graph_name_of(t->g, rate));
    struct origin back = graph_origin(t->g, graph_node_of(t->g, rate));
    assert_int_equal(back.at.source, 3);
    assert_int_equal(back.at.at, 40);
    assert_int_equal(back.at.length, 5);
    assert_string_equal(back.words, from.words);
    char name[] = "felling rate";
    assert_true(
        graph_name(t->g, &rate, name, (struct origin){ { 0, 0, 0 }, NULL }, &t->f));
    memset(name, 'x', 7); /* the graph has its own */
    assert_string_equal(graph_name_of(t->g, rate), "felling rate");
    struct qty metric = graph_say_in(t->g, rate, unit_of(t, "h/ha"), &t->f);
    assert_string_equal(graph_name_of(t->g, metric), "felling rate");
    struct qty twice = graph_scale(t->g, rate, 2, &t->f);
    assert_null(graph_name_of(t->g, twice));
    assert_string_equal(said(t, twice), "8 h/ac");
    assert_false(graph_name(t->g, &(struct qty){ 0 }, "none", from, &t->f));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TABLE_TEST(sums_are_said_in_the_left_unit),
        TABLE_TEST(products_and_quotients_have_the_units_of_the_trade),
        TABLE_TEST(powers_and_roots),
        TABLE_TEST(least_and_most_keep_the_left_unit),
        TABLE_TEST(rounding_is_to_whole_numbers_of_a_unit),
        TABLE_TEST(a_quantity_can_be_said_in_another_unit),
        TABLE_TEST(what_does_not_fit_is_told_in_the_words_of_the_trade),
        TABLE_TEST(messages_fit_what_was_tried),
        TABLE_TEST(what_has_no_end_is_refused),
        TABLE_TEST(nothing_makes_nothing),
        TABLE_TEST(comparing_allows_for_the_last_digits),
        TABLE_TEST(ranges_keep_their_three_figures),
        TABLE_TEST(ranges_the_wrong_way_round_are_refused),
        TABLE_TEST(keys_differ_by_name_place_and_occurrence),
        TABLE_TEST(names_and_places_can_be_read_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
