/* The unit in which results are said. */
#include "figures.h"

struct row {
    const char *a, *b, *product, *quotient; /* NULL: not asked */
};

static const struct row rows[] = {
    { "", "", "", "" },
    { "ft", "", "ft", "ft" },
    { "", "ft", "ft", "1/ft" },
    { "trees/ac", "ac", "trees", NULL },
    { "USD/h", "h", "USD", NULL },
    { "trees", "trees/h", NULL, "h" },
    { "ac", "ac", "ac2", "" },
    /* mixed units of one kind: the first of them */
    { "ft", "in", "ft2", "" },
    { "in", "ft", "in2", "" },
    { "lb", "oz", "lb2", "" },
    { "h", "min", "h2", "" },
    { "USD/h", "min", "USD", NULL },
    { "lb/gal", "qt", "lb", NULL },
    { "gal", "L", NULL, "" },
    { "chain", "ft", "chain2", "" },
    /* geometry of mixed rank: one plain unit */
    { "ac", "ft", "ft3", "ft" },
    { "ac", "ft2", NULL, "" },
    { "ft2", "ft", "ft3", "ft" },
    { "gal", "ft2", NULL, "ft" },
    { "L", "ha", NULL, "L/ha" },
    { "ft3", "ac", NULL, "ft3/ac" },
    /* per land: as said */
    { "ft2", "ac", NULL, "ft2/ac" },
    { "ft2/tree", "trees/ac", "ft2/ac", NULL },
    { "cord/ac", "ft3/cord", "ft3/ac", NULL },
    { "m2", "ha", NULL, "m2/ha" },
    { "mi", "ac", NULL, "mi/ac" },
    { "ft", "ft2/ac", "ft3/ac", NULL },
    { "ft2/ac", "ac", "ft2", NULL },
    { "ft2/ac", "ft2/ac", "ft4/ac2", "" },
    { "ft2/ac", "ft2", NULL, "1/ac" },
    { "gal/ac", "oz/gal", "oz/ac", NULL },
    { "m2/ha", "ac", "m2", NULL },
    { "m2/ha", "ft2/ac", NULL, "" },
    { "ft2/ac", "yr", NULL, "ft2/ac/yr" },
    /* ... but where the rest cancels, it is so many of the rest */
    { "ft2", "trees/ac", "trees", NULL },
    { "trees/ac", "ft2", "trees", NULL },
    { "ft2", "USD/ac", "USD", NULL },
    { "ft2", "gal/ac", "gal", NULL },
    { "ft2", "ft2/ac", "ft2", NULL },
    { "trees/ft2", "ac", "trees", NULL },
    /* one over a unit: as said */
    { "", "gal/ac", NULL, "ac/gal" },
    { "gal", "ac/gal", "ac", NULL },
    /* percent of something is that something */
    { "percent", "ac", "ac", NULL },
    { "ac", "percent", "ac", "ac" },
    { "percent", "percent", "percent", "" },
    { "", "percent", "percent", "" },
    { "percent/yr", "yr", "percent", NULL },
    { "USD", "percent/yr", "USD/yr", NULL },
    /* two times that do not cancel */
    { "h/wk", "wk", "h", NULL },
    { "h", "h/wk", NULL, "wk" },
    { "h", "d", "h*d", "h/d" },
};

static struct unit_id find(struct table *t, const char *name)
{
    return unit_of(t, name);
}

static void results_are_said_as_the_table_has_it(void **state)
{
    struct table *t = *state;
    for (int again = 0; again < 2; again++) /* once worked out, once remembered */
        for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
            struct unit_id a = find(t, rows[i].a), b = find(t, rows[i].b);
            if (rows[i].product)
                assert_string_equal(unit_name(t->u, unit_multiply(t->u, a, b), true),
                                    unit_name(t->u, find(t, rows[i].product), true));
            if (rows[i].quotient)
                assert_string_equal(unit_name(t->u, unit_divide(t->u, a, b), true),
                                    unit_name(t->u, find(t, rows[i].quotient), true));
        }
}

static void assert_result(struct table *t, struct unit_id id, struct dim wanted)
{
    int length = wanted.sixths[DIM_LENGTH] / DIM_WHOLE;
    if (unit_is(id))
        assert_true(dim_equal(unit_dim(t->u, id), wanted));
    else
        assert_true(length < -UNIT_POWER || length > UNIT_POWER); /* ac2 x gal */
}

/* Whatever a result is said in, it must be of the product's dimension. */
static void results_have_the_dimension_of_their_operands(void **state)
{
    struct table *t = *state;
    static const char *const names[] = {
        "",         "ft",         "in",        "ac",       "ha",          "gal",
        "L",        "ft2",        "m2",        "ft2/ac",   "gal/ac",      "m2/ha",
        "trees/ac", "USD/h",      "h/ac",      "ac/gal",   "lb/gal",      "oz",
        "percent",  "percent/yr", "stems/ft2", "cord",     "ft3/cord",    "ft/mi",
        "d",        "h/wk",       "1/ac",      "ft/ac/yr", "tree_length", "deg",
        "USD/h/ac", "gal/min",    "ac2",       "1/ft3",
    };
    enum { COUNT = sizeof names / sizeof *names };
    for (size_t i = 0; i < COUNT; i++)
        for (size_t j = 0; j < COUNT; j++) {
            struct unit_id a = find(t, names[i]), b = find(t, names[j]);
            struct dim wanted;
            assert_true(dim_multiply(unit_dim(t->u, a), unit_dim(t->u, b), &wanted));
            assert_result(t, unit_multiply(t->u, a, b), wanted);
            assert_true(dim_divide(unit_dim(t->u, a), unit_dim(t->u, b), &wanted));
            assert_result(t, unit_divide(t->u, a, b), wanted);
        }
}

static void per_land_is_what_has_land_below_and_wood_or_water_above(void **state)
{
    struct table *t = *state;
    static const char *const yes[] = { "ft2/ac", "m2/ha",       "gal/ac",    "cord/ac",
                                       "ft/ac",  "board ft/ac", "ft2/ac/yr", "mbf/ac" };
    static const char *const no[] = { "trees/ac", "USD/ac", "ac",           "ft2",
                                      "ac/gal",   "lb/ac",  "ft2*trees/ac", "h/ac",
                                      "1/ac",     "ft2/mi2" };
    for (size_t i = 0; i < sizeof yes / sizeof *yes; i++)
        assert_true(unit_is_per_land(t->u, find(t, yes[i])));
    for (size_t i = 0; i < sizeof no / sizeof *no; i++)
        assert_false(unit_is_per_land(t->u, find(t, no[i])));
}

static void powers_and_roots_have_units(void **state)
{
    struct table *t = *state;
    static const struct {
        const char *unit;
        int numerator, denominator;
        const char *name;
    } cases[] = {
        { "ft", 2, 1, "ft2" },         { "ft2", 1, 2, "ft" },
        { "ac", 1, 2, "ft" },          { "ha", 1, 2, "m" },
        { "gal", 1, 3, "ft" },         { "ac", 2, 1, "ac2" },
        { "ac2", 1, 2, "ac" },         { "ft", 0, 1, "" },
        { "gal/ac", -1, 1, "ac/gal" }, { "ft", 1, 2, "ft^1/2" },
        { "USD", 1, 3, "USD^1/3" },    { "percent", 2, 1, "percent" },
        { "ft2/ac", 2, 1, "ft4/ac2" }, { "ft4/ac2", 1, 2, "ft2/ac" },
        { "ft", 5, 6, "ft^5/6" },
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct unit_id id = unit_power(t->u, find(t, cases[i].unit), cases[i].numerator,
                                       cases[i].denominator);
        assert_true(unit_is(id));
        assert_string_equal(unit_name(t->u, id, false), cases[i].name);
    }
    struct unit_id half = unit_power(t->u, find(t, "ft"), 1, 2);
    assert_int_equal(unit_power(t->u, half, 2, 1).i, find(t, "ft").i);
    double root = unit_factor(t->u, half);
    assert_true(root * root > 3047.999999 && root * root < 3048.000001);
}

static void powers_that_no_quantity_has_give_no_unit(void **state)
{
    struct table *t = *state;
    assert_false(unit_is(unit_power(t->u, find(t, "ft6"), 2, 1)));
    assert_false(unit_is(unit_multiply(t->u, find(t, "ft6"), find(t, "ft"))));
    assert_false(unit_is(unit_power(t->u, find(t, "ft"), 1, 5)));
    assert_false(unit_is(
        unit_multiply(t->u, find(t, "lb/h/d/stem/tree/plant/USD"), find(t, "ft/deg"))));
}

static void usual_units_are_those_of_the_trade(void **state)
{
    struct table *t = *state;
    static const char *const names[] = { "ft", "ac",  "gal",      "lb",         "h",
                                         "d",  "USD", "trees/ac", "h/ac",       "USD/h",
                                         "",   "ft4", "1/ac",     "tree_length" };
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        struct unit_id id = find(t, names[i]);
        assert_int_equal(unit_usual(t->u, unit_dim(t->u, id)).i, id.i);
    }
}

/* A hostile script may make new compounds as fast as it can: there is an end to it. */
static void compounds_run_out_with_words(void **state)
{
    struct table *t = *state;
    static const char *const simple[] = { "ft", "lb", "h", "d", "stem", "tree" };
    bool full = false;
    for (int n = 0; n < 7 * 7 * 7 * 7 * 7 && !full; n++) {
        struct unit_id id = UNIT_NUMBER;
        for (int i = 0, rest = n; i < 5; i++, rest /= 7) {
            struct unit_id power = unit_power(t->u, find(t, simple[i]), rest % 7, 1);
            if (!unit_product(t->u, id, power, 1, &id, &t->f)) {
                full = true;
                break;
            }
        }
    }
    assert_true(full);
    assert_string_equal(t->f.id, "unit-full");
    fault_clear(&t->f);
    assert_true(unit_is(unit_multiply(t->u, find(t, "ft"), find(t, "ft"))));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TABLE_TEST(results_are_said_as_the_table_has_it),
        TABLE_TEST(results_have_the_dimension_of_their_operands),
        TABLE_TEST(per_land_is_what_has_land_below_and_wood_or_water_above),
        TABLE_TEST(powers_and_roots_have_units),
        TABLE_TEST(powers_that_no_quantity_has_give_no_unit),
        TABLE_TEST(usual_units_are_those_of_the_trade),
        TABLE_TEST(compounds_run_out_with_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
