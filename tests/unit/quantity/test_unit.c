/* Names of units, reading them, packs' units, and how figures are printed. */
#include "figures.h"

#include "base/suggest.h"

static void every_row_has_its_words_and_its_source(void **state)
{
    struct table *t = *state;
    struct unit_row row;
    size_t count = 0;
    for (; units_row(t->u, count, &row); count++) {
        assert_true(row.words[0] && row.source[0] && row.factor > 0);
        struct unit_id one = unit_of(t, row.name), many = unit_of(t, row.plural);
        assert_int_equal(one.i, many.i);
        assert_string_equal(unit_name(t->u, one, true), row.name);
        assert_string_equal(unit_name(t->u, one, false), row.plural);
        assert_true(unit_factor(t->u, one) == row.factor);
        assert_true(dim_equal(unit_dim(t->u, one), row.dim));
    }
    assert_true(count > 35);
}

static void full_names_and_plurals_are_the_same_unit(void **state)
{
    struct table *t = *state;
    static const char *const same[][2] = {
        { "feet", "ft" },
        { "inches", "in" },
        { "acres", "ac" },
        { "hours", "h" },
        { "pounds", "lb" },
        { "gallon", "gal" },
        { "cords", "cord" },
        { "tree", "trees" },
        { "board feet", "board ft" },
        { "bd ft", "board ft" },
        { "MBF", "mbf" },
        { "fluid ounces", "fl oz" },
        { "dollars", "USD" },
        { "square feet", "ft2" },
        { "sq ft/acre", "ft2/ac" },
        { "trees/acre", "tree/ac" },
        { "years", "yr" },
    };
    for (size_t i = 0; i < sizeof same / sizeof *same; i++)
        assert_int_equal(unit_of(t, same[i][0]).i, unit_of(t, same[i][1]).i);
}

static void factors_of_the_trade_are_whole_numbers(void **state)
{
    struct table *t = *state;
    static const char *const exact[] = {
        "in", "ft",  "yd", "rod", "chain", "mi", "mm",   "cm",       "m",
        "km", "ac",  "ha", "ft2", "in2",   "m2", "mi2",  "gal",      "qt",
        "pt", "L",   "mL", "ft3", "yd3",   "m3", "cord", "board ft", "mbf",
        "lb", "ton", "kg", "g",   "min",   "h",  "d",    "wk",
    };
    for (size_t i = 0; i < sizeof exact / sizeof *exact; i++) {
        double factor = unit_factor(t->u, unit_of(t, exact[i]));
        /* From 2^53 on every double is whole; these must be so by more than size. */
        assert_true(factor == (double)(int64_t)factor);
        assert_true(factor < 9007199254740992.0);
    }
}

static void twelve_inches_are_a_foot_and_43560_square_feet_an_acre(void **state)
{
    struct table *t = *state;
    static const struct {
        double many;
        const char *small, *large;
    } same[] = {
        { 12, "in", "ft" },     { 43560, "ft2", "ac" },    { 5280, "ft", "mi" },
        { 640, "ac", "mi2" },   { 80, "chain", "mi" },     { 10, "chain2", "ac" },
        { 4, "rod", "chain" },  { 231, "in3", "gal" },     { 16, "fl oz", "pt" },
        { 128, "ft3", "cord" }, { 12, "board ft", "ft3" }, { 16, "oz", "lb" },
        { 2000, "lb", "ton" },  { 60, "min", "h" },        { 10000, "m2", "ha" },
        { 27, "ft3", "yd3" },
    };
    for (size_t i = 0; i < sizeof same / sizeof *same; i++)
        assert_true(same[i].many * unit_factor(t->u, unit_of(t, same[i].small))
                    == unit_factor(t->u, unit_of(t, same[i].large)));
}

static void compounds_are_read_left_to_right(void **state)
{
    struct table *t = *state;
    assert_int_equal(unit_of(t, "USD/h/ac").i, unit_of(t, "USD/ac/h").i);
    assert_int_equal(unit_of(t, "ft3/ac").i, unit_of(t, "cu ft/acre").i);
    assert_int_equal(unit_of(t, "ft/ft").i, 0);
    assert_string_equal(unit_name(t->u, unit_of(t, "stems/ac"), false), "stems/ac");
    assert_string_equal(unit_name(t->u, unit_of(t, "stems/ac"), true), "stem/ac");
    assert_string_equal(unit_name(t->u, unit_of(t, "acres/gallons"), false), "ac/gal");
    assert_string_equal(unit_name(t->u, unit_of(t, "1/ac"), false), "1/ac");
    assert_string_equal(unit_name(t->u, unit_of(t, "trees*h"), false), "h*trees");
}

static void printed_names_read_back_as_the_same_unit(void **state)
{
    struct table *t = *state;
    static const char *const names[] = { "ft2/ac",      "lb/gal",  "1/ac",
                                         "trees*h/ac2", "m6",      "board ft/ac",
                                         "USD/fl oz",   "1/mi/yr3" };
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        struct unit_id id = unit_of(t, names[i]);
        assert_int_equal(unit_of(t, unit_name(t->u, id, false)).i, id.i);
        assert_int_equal(unit_of(t, unit_name(t->u, id, true)).i, id.i);
    }
}

static void unknown_units_are_refused_with_the_nearest_name(void **state)
{
    struct table *t = *state;
    static const struct {
        const char *text, *message, *hint;
    } cases[] = {
        { "acrs", "`acrs` is not a unit", "did you mean `acre`?" },
        { "ft2/acrs", "`acrs` is not a unit", "did you mean `acre`?" },
        { "galons", "`galons` is not a unit", "did you mean `gallons`?" },
        { "stem5/ac", NULL, NULL },
        { "ft7", "`ft7` is not a unit", "" },
        { "ft1", "`ft1` is not a unit", "" },
        { "zz", "`zz` is not a unit", "" },
        { "", "`` is not a unit", "" },
        { "ft/", "`` is not a unit", "" },
        { "ft ", "`ft ` is not a unit", NULL },
        { "1/", "`` is not a unit", "" },
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct unit_id id;
        bool found = units_find(t->u, cases[i].text, strlen(cases[i].text), &id, &t->f);
        assert_int_equal(found, cases[i].message == NULL);
        if (found)
            continue;
        assert_string_equal(t->f.id, "unit-unknown");
        assert_string_equal(t->f.message, cases[i].message);
        if (cases[i].hint)
            assert_string_equal(t->f.hint, cases[i].hint);
        fault_clear(&t->f);
    }
}

static void too_many_parts_are_refused(void **state)
{
    struct table *t = *state;
    static const char *const texts[] = { "ft6/ac*ft",
                                         "ft/lb/h/d/stem/tree/plant/USD/deg" };
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        struct unit_id id;
        assert_false(units_find(t->u, texts[i], strlen(texts[i]), &id, &t->f));
        assert_string_equal(t->f.id, "unit-powers");
        fault_clear(&t->f);
    }
}

static void the_longest_reading_wins_and_what_follows_is_left(void **state)
{
    struct table *t = *state;
    static const struct {
        const char *text, *unit;
    } cases[] = {
        { "fl oz + 3", "fl oz" },
        { "board ft", "board ft" },
        { "ft2/ac end", "ft2/ac" },
        { "oz/gal", "oz/gal" },
        { "USD/h/ac, x", "USD/h/ac" },
        { "ft/n", "ft" },
        { "ft*ac", "ft" },
        { "ft-2", "ft" },
        { "ft2", "ft2" },
        { "ft)", "ft" },
        { "h/wk}", "h/wk" },
        { "in, 3", "in" },
        { "ac\n/h", "ac" },
        { "ft/2", "ft" },
        { "m / h", "m" },
        { "yd  oz", "yd" },
        { "board ft2", NULL },
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct unit_id id;
        size_t took = units_match(t->u, cases[i].text, strlen(cases[i].text), &id);
        if (!cases[i].unit) {
            assert_int_equal(took,
                             strlen(cases[i].text)); /* a power of a two-word unit */
            continue;
        }
        assert_int_equal(took, strlen(cases[i].unit));
        assert_int_equal(id.i, unit_of(t, cases[i].unit).i);
    }
}

static void words_that_only_start_like_a_unit_are_none(void **state)
{
    struct table *t = *state;
    static const char *const texts[] = {
        "footing", "m_x", "ft27", "ft2x", "board", "fl",
        "m9",      "inx", "1/ac", "",     " ft",   "Ft"
    };
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        struct unit_id id;
        assert_int_equal(units_match(t->u, texts[i], strlen(texts[i]), &id), 0);
    }
    /* A text is read to its length, not to a NUL. */
    struct unit_id id;
    assert_int_equal(units_match(t->u, "footing", 4, &id), 4);
}

static void names_are_known_and_offered(void **state)
{
    struct table *t = *state;
    assert_true(units_is_name(t->u, "ft", 2));
    assert_true(units_is_name(t->u, "stems", 5));
    assert_true(units_is_name(t->u, "in", 2));
    assert_false(units_is_name(t->u, "ft2", 3));
    assert_false(units_is_name(t->u, "to", 2));
    struct suggest s = suggest_for("hecatre", 7);
    units_offer(t->u, &s);
    assert_string_equal(s.best, "hectare");
}

static void figures_are_printed_as_the_trade_says_them(void **state)
{
    struct table *t = *state;
    static const struct {
        double value;
        const char *unit, *printed;
    } cases[] = {
        { 3.4, "ac", "3.4 ac" },
        { 109, "ft2/ac", "109 ft2/ac" },
        { 1, "tree", "1 tree" },
        { 15, "tree", "15 trees" },
        { 1, "trees/ac", "1 tree/ac" },
        { 3150, "USD", "3,150 USD" },
        { 45, "USD/h", "45 USD/h" },
        { 60, "percent", "60 percent" },
        { 7, "", "7" },
        { 0, "ac", "0 ac" },
        { 3, "1/ac", "3 per ac" },
        { 2, "cord", "2 cords" },
        { 12, "in", "12 in" },
        /* the neighbour, outside 0.01 to 10,000 */
        { 43560, "ft2", "1 ac" },
        { 10000, "ft2", "10,000 ft2" },
        { 0.0033, "ac", "144 ft2" },
        { 0.01, "ac", "0.01 ac" },
        { 43560, "in", "3,630 ft" },
        { 0.005, "ft", "0.06 in" },
        { 12000, "min", "200 h" },
        { 0.005, "h", "0.3 min" },
        { 12800, "fl oz", "100 gal" },
        { 0.005, "gal", "0.64 fl oz" },
        { 16000, "oz", "1,000 lb" },
        { 0.005, "lb", "0.08 oz" },
        { 20000, "ft", "20,000 ft" },
        { -43560, "ft2", "-1 ac" },
        { 0.0001, "ft2/ac", "0.0001 ft2/ac" },
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        assert_string_equal(said(t, figure(t, cases[i].value, cases[i].unit)),
                            cases[i].printed);
}

static void units_are_called_what_they_measure(void **state)
{
    struct table *t = *state;
    static const char *const cases[][2] = {
        { "ft", "a length" },
        { "ac", "an area" },
        { "ft2", "an area" },
        { "gal", "a volume" },
        { "lb", "a weight" },
        { "h", "working time" },
        { "wk", "calendar time" },
        { "stems", "a count of stems" },
        { "USD", "money" },
        { "percent", "a percentage" },
        { "", "a bare number" },
        { "deg", "an angle" },
        { "ft2/ac", "basal area per area of land" },
        { "m2/ha", "basal area per area of land" },
        { "gal/ac", "volume per area of land" },
        { "ft/ac", "length per area of land" },
        { "trees/ac", "trees per area" },
        { "USD/h", "money per working time" },
        { "h/ac", "working time per area" },
        { "ac/gal", "area per volume" },
        { "ft/mi", "length per length" },
        { "h/wk", "working time per calendar time" },
        { "1/ac", "a number per area" },
        { "USD2", "money to the power 2" },
        { "ft4", "a length to the power 4" },
        { "trees*h", "working time times trees" },
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct buf b;
        buf_init(&b);
        unit_says(t->u, unit_of(t, cases[i][0]), &b);
        assert_string_equal(b.data, cases[i][1]);
        buf_clear(&b);
    }
}

static void packs_add_units_like_known_ones(void **state)
{
    struct table *t = *state;
    assert_true(
        units_define(t->u, "bundle", "bundles", "plants", 25, "nursery list", &t->f));
    assert_true(units_define(t->u, "forty", "forties", "ac", 40, NULL, &t->f));
    assert_true(units_define(t->u, "pack basket", NULL, "lb", 35, NULL, &t->f));
    assert_string_equal(said(t, figure(t, 2, "bundles")), "2 bundles");
    assert_true(unit_factor(t->u, unit_of(t, "bundle")) == 25);
    assert_int_equal(unit_kind(t->u, unit_of(t, "ft2/forty")),
                     unit_kind(t->u, unit_of(t, "ft2/ac")));
    assert_int_equal(unit_of(t, "pack basket").i, unit_of(t, "pack basket").i);
    struct unit_row row, last = { .name = NULL };
    for (size_t i = 0; units_row(t->u, i, &row); i++)
        last = row;
    assert_string_equal(last.name, "pack basket");
    assert_string_equal(last.words, "35 lb, from a pack");
    assert_string_equal(last.source, "no source");
}

static void packs_add_currencies_and_counts_with_bases_of_their_own(void **state)
{
    struct table *t = *state;
    assert_true(units_define(t->u, "CAD", NULL, NULL, 1, "ISO 4217", &t->f));
    assert_true(units_define(t->u, "post", "posts", NULL, 1, NULL, &t->f));
    struct qty a = figure(t, 3, "CAD"), b = figure(t, 2, "USD"),
               c = figure(t, 9, "posts");
    assert_fault(t, graph_add(t->g, a, b, &t->f), "dimension-add",
                 "3 CAD is CAD, 2 USD is money: they cannot be added", "");
    assert_fault(t, graph_add(t->g, c, b, &t->f), "dimension-add",
                 "9 posts is a count of posts, 2 USD is money: they cannot be added", "");
    struct qty rate = graph_divide(t->g, c, figure(t, 3, "h"), &t->f);
    assert_string_equal(said(t, rate), "3 posts/h");
}

static void the_same_definition_again_is_no_clash(void **state)
{
    struct table *t = *state;
    for (int i = 0; i < 2; i++) {
        assert_true(units_define(t->u, "CAD", NULL, NULL, 1, "ISO 4217", &t->f));
        assert_true(units_define(t->u, "bundle", "bundles", "plants", 25, NULL, &t->f));
    }
    assert_false(units_define(t->u, "bundle", "bundles", "plants", 50, NULL, &t->f));
    assert_string_equal(t->f.id, "unit-taken");
    fault_clear(&t->f);
    assert_false(units_define(t->u, "bundle", "bundles", NULL, 1, NULL, &t->f));
    assert_string_equal(t->f.id, "unit-taken");
}

static void bad_definitions_are_refused(void **state)
{
    struct table *t = *state;
    static const struct {
        const char *name, *like;
        double factor;
        const char *id;
    } cases[] = {
        { "ft", "in", 12, "unit-taken" },
        { "acre", NULL, 1, "unit-taken" },
        { "sq ft", NULL, 1, "unit-taken" },
        { "", "ft", 1, "unit-name" },
        { "ft9", "ft", 1, "unit-name" },
        { "a b c", "ft", 1, "unit-name" },
        { "end", "ft", 1, "unit-name" },
        { "to", "ft", 1, "unit-name" },
        { "big ", "ft", 1, "unit-name" },
        { " big", "ft", 1, "unit-name" },
        { "aaaaaaaaaaaaaaaaaaaaaaaaa", "ft", 1, "unit-name" },
        { "hop", "jump", 1, "unit-unknown" },
        { "hop", "ft", 0, "unit-factor" },
        { "hop", "ft", -2, "unit-factor" },
        { "hop", "ft", 1e300, "unit-factor" },
        { "hop", "ft2/ac", 10, "unit-like" },
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        assert_false(units_define(t->u, cases[i].name, NULL, cases[i].like,
                                  cases[i].factor, NULL, &t->f));
        assert_string_equal(t->f.id, cases[i].id);
        fault_clear(&t->f);
    }
    assert_false(units_is_name(t->u, "hop", 3));
}

static void bases_run_out_with_words(void **state)
{
    struct table *t = *state;
    char name[] = "count a";
    for (int i = DIM_FIRST_ADDED; i < DIM_BASES; i++, name[6]++)
        assert_true(units_define(t->u, name, NULL, NULL, 1, NULL, &t->f));
    assert_false(units_define(t->u, name, NULL, NULL, 1, NULL, &t->f));
    assert_string_equal(t->f.id, "unit-full");
    fault_clear(&t->f);
    assert_true(units_define(t->u, name, NULL, "ft", 2, NULL, &t->f));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TABLE_TEST(every_row_has_its_words_and_its_source),
        TABLE_TEST(full_names_and_plurals_are_the_same_unit),
        TABLE_TEST(factors_of_the_trade_are_whole_numbers),
        TABLE_TEST(twelve_inches_are_a_foot_and_43560_square_feet_an_acre),
        TABLE_TEST(compounds_are_read_left_to_right),
        TABLE_TEST(printed_names_read_back_as_the_same_unit),
        TABLE_TEST(unknown_units_are_refused_with_the_nearest_name),
        TABLE_TEST(too_many_parts_are_refused),
        TABLE_TEST(the_longest_reading_wins_and_what_follows_is_left),
        TABLE_TEST(words_that_only_start_like_a_unit_are_none),
        TABLE_TEST(names_are_known_and_offered),
        TABLE_TEST(figures_are_printed_as_the_trade_says_them),
        TABLE_TEST(units_are_called_what_they_measure),
        TABLE_TEST(packs_add_units_like_known_ones),
        TABLE_TEST(packs_add_currencies_and_counts_with_bases_of_their_own),
        TABLE_TEST(the_same_definition_again_is_no_clash),
        TABLE_TEST(bad_definitions_are_refused),
        TABLE_TEST(bases_run_out_with_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
