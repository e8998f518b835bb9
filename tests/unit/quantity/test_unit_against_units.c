/* The whole table of units against an independent converter: the program `units` (GNU
 * units, Debian package of that name), which works from its own definitions. Where it is
 * not installed these tests are skipped, and say so. */
#include "figures.h"

#include <math.h>
#include <stdio.h>

#include "base/num.h"

/* What our row is called there, and what our base unit of its kind is. NULL: a count,
 * money or a length of this house, of which a converter knows nothing; its factor must
 * be 1. */
static const struct {
    const char *ours, *theirs, *base;
} rows[] = {
    { "ft", "foot", "0.1 mm" },
    { "in", "inch", "0.1 mm" },
    { "yd", "yard", "0.1 mm" },
    { "rod", "rod", "0.1 mm" },
    { "chain", "chain", "0.1 mm" },
    { "link", "link", "0.1 mm" },
    { "mi", "mile", "0.1 mm" },
    { "mm", "millimeter", "0.1 mm" },
    { "cm", "centimeter", "0.1 mm" },
    { "m", "meter", "0.1 mm" },
    { "km", "kilometer", "0.1 mm" },
    { "ac", "acre", "(0.1 mm)^2" },
    { "ha", "hectare", "(0.1 mm)^2" },
    { "gal", "usgallon", "(0.1 mm)^3" },
    { "qt", "usquart", "(0.1 mm)^3" },
    { "pt", "uspint", "(0.1 mm)^3" },
    { "cup", "uscup", "(0.1 mm)^3" },
    { "fl oz", "usfluidounce", "(0.1 mm)^3" },
    { "L", "liter", "(0.1 mm)^3" },
    { "mL", "milliliter", "(0.1 mm)^3" },
    { "cord", "cord", "(0.1 mm)^3" },
    { "board ft", "boardfoot", "(0.1 mm)^3" },
    { "mbf", "1000 boardfoot", "(0.1 mm)^3" },
    { "lb", "pound", "10 microgram" },
    { "oz", "ounce", "10 microgram" },
    { "ton", "shortton", "10 microgram" },
    { "kg", "kilogram", "10 microgram" },
    { "g", "gram", "10 microgram" },
    { "min", "minute", "minute" },
    { "h", "hour", "minute" },
    { "d", "day", "day" },
    { "wk", "week", "day" },
    { "mo", "gregorianyear/12", "day" },
    { "yr", "gregorianyear", "day" },
    { "stem", NULL, NULL },
    { "tree", NULL, NULL },
    { "plant", NULL, NULL },
    { "USD", NULL, NULL },
    { "percent", "percent", "1" },
    { "deg", "degree", "degree" },
    { "tree_length", NULL, NULL },
};

/* Compounds as they are typed. */
static const struct {
    const char *ours, *theirs, *base;
} compounds[] = {
    { "ft2/ac", "foot^2/acre", "1" },
    { "m2/ha", "meter^2/hectare", "1" },
    { "gal/ac", "usgallon/acre", "0.1 mm" },
    { "cord/ac", "cord/acre", "0.1 mm" },
    { "lb/gal", "pound/usgallon", "10 microgram/(0.1 mm)^3" },
    { "oz/gal", "ounce/usgallon", "10 microgram/(0.1 mm)^3" },
    { "h/ac", "hour/acre", "minute/(0.1 mm)^2" },
    { "mi2", "mile^2", "(0.1 mm)^2" },
    { "yd3", "yard^3", "(0.1 mm)^3" },
    { "ft/mi", "foot/mile", "1" },
    { "ac/gal", "acre/usgallon", "1/(0.1 mm)" },
};

/* The factor by the program; below 0 when it did not answer with a number. */
static double ask(const char *from, const char *to)
{
    char command[256], answer[64] = "";
    double value = -1;
    snprintf(command, sizeof command,
             "LC_ALL=C UNITS_ENGLISH=US units -t -o %%.17g '%s' '%s' 2>/dev/null", from,
             to);
    FILE *program = popen(command, "r");
    if (!program)
        return -1;
    if (fgets(answer, sizeof answer, program)) {
        answer[strcspn(answer, "\n")] = '\0';
        if (num_read(answer, strlen(answer), &value) != strlen(answer))
            value = -1;
    }
    pclose(program);
    return value;
}

static void need_the_program(void)
{
    if (ask("foot", "inch") > 0)
        return;
    fprintf(stderr,
            "SKIPPED, NOT CHECKED: the table of units against the program `units`, "
            "which is not here: apt-get install units\n");
    skip();
}

static void assert_same(const char *name, double ours, const char *theirs,
                        const char *base)
{
    double answer = ask(theirs, base);
    if (fabs(answer - ours) <= 1e-14 * ours)
        return;
    fail_msg("%s: %.17g here, %.17g by `units '%s' '%s'`", name, ours, answer, theirs,
             base);
}

static void every_row_agrees_with_an_independent_converter(void **state)
{
    struct table *t = *state;
    struct unit_row row;
    need_the_program();
    /* In the same order, so that a row added to the table must be added here. */
    for (size_t i = 0; units_row(t->u, i, &row); i++) {
        assert_true(i < sizeof rows / sizeof *rows);
        assert_string_equal(row.name, rows[i].ours);
        if (rows[i].theirs)
            assert_same(row.name, row.factor, rows[i].theirs, rows[i].base);
        else
            assert_true(row.factor == 1);
    }
}

static void compounds_agree_too(void **state)
{
    struct table *t = *state;
    need_the_program();
    for (size_t i = 0; i < sizeof compounds / sizeof *compounds; i++)
        assert_same(compounds[i].ours, unit_factor(t->u, unit_of(t, compounds[i].ours)),
                    compounds[i].theirs, compounds[i].base);
}

/* What unit_table.c says of the foot that was retired. */
static void the_survey_foot_is_two_parts_in_a_million_longer(void **state)
{
    (void)state;
    need_the_program();
    double longer = ask("surveyfoot", "foot");
    assert_true(fabs(longer - 1 - 2e-6) < 1e-9);
    /* An acre of 43,560 square survey feet: about 0.17 ft2 more. */
    assert_true(fabs(43560 * (longer * longer - 1) - 0.174) < 0.001);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TABLE_TEST(every_row_agrees_with_an_independent_converter),
        TABLE_TEST(compounds_agree_too),
        cmocka_unit_test(the_survey_foot_is_two_parts_in_a_million_longer),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
