#include "../unit.h"

#include <string.h>

#include "paper.h"
#include "sample.h"

static const struct doc_column name_and_words[] = {
    { "Stand", 5, DOC_LEFT, true },
    { "What grows there", 16, DOC_LEFT, true },
};

static void one_row(struct doc *d, const char *a, const char *b)
{
    doc_row(d), sample_cell(d, a), sample_cell(d, b);
}

static void a_table_with_room_is_as_wide_as_its_words(void **state)
{
    (void)state;
    struct doc *d = doc_new(NULL);
    doc_table(d, name_and_words, 2);
    one_row(d, "Bench aspen", "aspen");
    one_row(d, "Oak ridge", "red oak, red maple");
    paper_check(d, 60, false,
                "  Stand        What grows there\n"
                "  -----------  ------------------\n"
                "  Bench aspen  aspen\n"
                "  Oak ridge    red oak, red maple\n");
    doc_free(d);
}

static void words_wrap_in_their_column_and_names_hang(void **state)
{
    (void)state;
    struct doc *d = doc_new(NULL);
    doc_table(d, name_and_words, 2);
    one_row(d, "Bench aspen", "bigtooth aspen, paper birch");
    one_row(d, "The old pasture by the road", "hawthorn");
    paper_check(d, 36, false,
                "  Stand             What grows there\n"
                "  ----------------  ----------------\n"
                "  Bench aspen       bigtooth aspen,\n"
                "                    paper birch\n"
                "  The old pasture   hawthorn\n"
                "    by the road\n");
    doc_free(d);
}

static void headings_wrap_before_words_do(void **state)
{
    (void)state;
    struct doc *d = doc_new(NULL);
    doc_table(d, name_and_words, 2);
    one_row(d, "Bench aspen by the creek", "aspen");
    paper_check(d, 38, false,
                "  Stand                     What grows\n"
                "                            there\n"
                "  ------------------------  ----------\n"
                "  Bench aspen by the creek  aspen\n");
    doc_free(d);
}

/* Words of a cell wrap before "in 100" does; where that is not enough, it does too. */
static void a_short_heading_keeps_its_line(void **state)
{
    (void)state;
    static const struct doc_column columns[] = {
        { "what", 4, DOC_LEFT, true },
        { "in 100", 6, DOC_RIGHT, false },
        { "in all", 6, DOC_RIGHT, false },
        { "of all", 6, DOC_RIGHT, false },
    };
    struct doc *d = doc_new(NULL);
    doc_table(d, columns, 2);
    one_row(d, "cut aspen flush", ">95");
    paper_check(d, 24, false,
                "  what            in 100\n"
                "  --------------  ------\n"
                "  cut aspen          >95\n"
                "    flush\n");
    doc_free(d);
    d = doc_new(NULL);
    doc_table(d, columns, 4);
    one_row(d, "aspen", ">95");
    paper_check(d, 24, false,
                "  what    in    in    of\n"
                "         100   all   all\n"
                "  -----  ---  ----  ----\n"
                "  aspen  >95\n");
    doc_free(d);
}

static void one_row_and_no_row_are_tables_too(void **state)
{
    (void)state;
    struct doc *d = doc_new(NULL);
    doc_table(d, name_and_words, 2);
    one_row(d, "Bench", "aspen");
    doc_table(d, name_and_words, 2);
    paper_check(d, 60, false,
                "  Stand  What grows there\n"
                "  -----  ----------------\n"
                "  Bench  aspen\n"
                "\n"
                "  Stand  What grows there\n"
                "  -----  ----------------\n"
                "  none\n");
    doc_free(d);
}

static void cells_left_out_are_empty_and_lines_end_without_blanks(void **state)
{
    (void)state;
    struct doc *d = doc_new(NULL);
    doc_table(d, name_and_words, 2);
    doc_row(d);
    doc_row(d), sample_cell(d, "Bench");
    doc_row(d), doc_cell(d), sample_cell(d, "aspen");
    paper_check(d, 60, false,
                "  Stand  What grows there\n"
                "  -----  ----------------\n"
                "\n"
                "  Bench\n"
                "         aspen\n");
    doc_free(d);
}

static void numbers_stand_point_under_point_unit_under_unit(void **state)
{
    (void)state;
    struct doc *d = doc_new(NULL);
    static const struct doc_column columns[] = {
        { "Act", 3, DOC_LEFT, true },
        { "Work", 4, DOC_NUMBER, false },
        { "Cost", 4, DOC_RIGHT, false },
    };
    static const char *const rows[][3] = {
        { "fell", "72 h (58 to 88)", "$ 3,150" },
        { "mow", "9.5 h (6 to 13)", "$ 80" },
        { "haul", "1,250 h", "none" },
        { "rise", "-3.25 h", "" },
        { "burn", "not known", "$ 5" },
        { "ask", "-", "" },
    };
    doc_table(d, columns, 3);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        doc_row(d);
        for (int k = 0; k < 3; k++)
            sample_cell(d, rows[i][k]);
    }
    doc_total(d), sample_cell(d, "all"), sample_cell(d, "1,330 h (1,310 to 1,350)");
    paper_check(d, 80, false,
                "  Act   Work                            Cost\n"
                "  ----  ---------------------------  -------\n"
                "  fell     72    h (58 to 88)        $ 3,150\n"
                "  mow       9.5  h (6 to 13)            $ 80\n"
                "  haul  1,250    h                      none\n"
                "  rise     -3.25 h\n"
                "  burn  not known                        $ 5\n"
                "  ask       -\n"
                "  ----  ---------------------------  -------\n"
                "  all   1,330    h (1,310 to 1,350)\n");
    doc_free(d);
}

/* A number is no word: where its heading may wrap, the column is as wide as it all the same. */
static void numbers_are_never_parted(void **state)
{
    (void)state;
    static const struct doc_column columns[] = {
        { "crew", 4, DOC_LEFT, true },
        { "labor, USD", 10, DOC_NUMBER, true },
        { "travel, USD", 11, DOC_NUMBER, true },
    };
    struct doc *d = doc_new(NULL);
    doc_table(d, columns, 3);
    doc_row(d), sample_cell(d, "saw crew"), sample_cell(d, "5,541 (3,962 to 8,356)");
    sample_cell(d, "570 (492 to 707)");
    paper_check(d, 48, false,
                "  crew      labor, USD        travel, USD\n"
                "  --------  ----------------  ------------\n"
                "  saw crew  5,541             570\n"
                "            (3,962 to 8,356)  (492 to 707)\n");
    doc_free(d);
}

static void plain_numbers_stand_at_the_right_of_a_wide_heading(void **state)
{
    (void)state;
    struct doc *d = doc_new(NULL);
    static const struct doc_column columns[] = {
        { "Species", 7, DOC_LEFT, true },
        { "Trees an acre", 13, DOC_NUMBER, false },
    };
    doc_table(d, columns, 2);
    one_row(d, "aspen", "412");
    one_row(d, "oak", "38.5");
    doc_row(d), sample_cell(d, "fir"); /* an empty number at the end leaves no blanks */
    paper_check(d, 80, false,
                "  Species  Trees an acre\n"
                "  -------  -------------\n"
                "  aspen            412\n"
                "  oak               38.5\n"
                "  fir\n");
    doc_free(d);
}

static void spreads_go_below_their_numbers_before_a_table_gives_up(void **state)
{
    (void)state;
    struct doc *d = doc_new(NULL);
    static const struct doc_column columns[] = {
        { "Stand", 5, DOC_LEFT, true },
        { "Basal area", 10, DOC_NUMBER, false },
        { "Trees", 5, DOC_NUMBER, false },
    };
    static const char *const rows[][3] = {
        { "Bench aspen", "70 ft2/ac (45.3 to 94.7)", "198 trees/ac (144 to 251)" },
        { "Oak ridge", "9.5 ft2/ac", "not known" },
        { "Creek alder", "", "1,250 trees/ac (900 to 1,620)" },
    };
    doc_table(d, columns, 3);
    for (size_t i = 0; i < 3; i++) {
        doc_row(d);
        for (int k = 0; k < 3; k++)
            sample_cell(d, rows[i][k]);
    }
    paper_check(d, 50, false,
                "  Stand        Basal area      Trees\n"
                "  -----------  --------------  --------------\n"
                "  Bench aspen  70   ft2/ac       198 trees/ac\n"
                "               (45.3 to 94.7)  (144 to 251)\n"
                "  Oak ridge     9.5 ft2/ac     not known\n"
                "  Creek alder                  1,250 trees/ac\n"
                "                               (900 to 1,620)\n");
    doc_free(d);
}

static void a_table_that_cannot_fit_is_told_row_by_row(void **state)
{
    (void)state;
    struct doc *d = doc_new(NULL);
    static const struct doc_column columns[] = {
        { "Act", 3, DOC_LEFT, true },
        { "Start", 5, DOC_LEFT, false },
        { "Finish", 6, DOC_LEFT, false },
        { "Hours of work", 13, DOC_NUMBER, false },
    };
    doc_table(d, columns, 4);
    doc_row(d), sample_cell(d, "Fell the bench aspen"), sample_cell(d, "Nov 16 2026");
    sample_cell(d, "Dec 19 2026"), sample_cell(d, "72 h (58 to 88)");
    doc_total(d), sample_cell(d, "All"), doc_cell(d), doc_cell(d), sample_cell(d, "72 h");
    paper_check(d, 40, false,
                "  Fell the bench aspen\n"
                "    Start          Nov 16 2026\n"
                "    Finish         Dec 19 2026\n"
                "    Hours of work  72 h (58 to 88)\n"
                "\n"
                "  All\n"
                "    Hours of work  72 h\n");
    doc_free(d);
}

static void a_table_told_row_by_row_that_has_no_row_says_so(void **state)
{
    (void)state;
    struct doc *d = doc_new(NULL);
    static const struct doc_column columns[] = {
        { "Herbicide", 9, DOC_LEFT, false }, { "Concentration", 13, DOC_LEFT, false },
    };
    doc_table(d, columns, 2);
    paper_check(d, 24, false, "  none\n");
    doc_free(d);
}

static void a_word_too_long_for_the_page_is_parted_in_its_column(void **state)
{
    (void)state;
    struct doc *d = doc_new(NULL);
    doc_table(d, name_and_words, 2);
    one_row(d, "Bench", "abcdefghijklmnopqrstuvwxyz abcdefghijklmnopqrstuvwxyz");
    paper_check(d, 31, false,
                "  Stand  What grows there\n"
                "  -----  ----------------------\n"
                "  Bench  abcdefghijklmnopqrstuv\n"
                "         wxyz\n"
                "         abcdefghijklmnopqrstuv\n"
                "         wxyz\n");
    doc_free(d);
}

static void wide_characters_keep_the_columns_straight(void **state)
{
    (void)state;
    struct doc *d = doc_new(NULL);
    doc_table(d, name_and_words, 2);
    one_row(d, "\xE6\xA3\xAE\xE6\x9E\x97", "two by two");
    one_row(d, "caf\xC3\xA9", "one by one");
    one_row(d, "cafe\xCC\x81", "one by one");
    paper_check(d, 60, false,
                "  Stand  What grows there\n"
                "  -----  ----------------\n"
                "  \xE6\xA3\xAE\xE6\x9E\x97   two by two\n"
                "  caf\xC3\xA9   one by one\n"
                "  cafe\xCC\x81   one by one\n");
    doc_free(d);
}

static void headings_are_bold_in_colour(void **state)
{
    (void)state;
    struct doc *d = doc_new(NULL);
    doc_table(d, name_and_words, 2);
    doc_row(d), doc_cell(d), doc_strong(d, "Bench", 5), sample_cell(d, "aspen");
    paper_check(d, 60, true,
                "  \x1b[1mStand\x1b[0m  \x1b[1mWhat grows there\x1b[0m\n"
                "  -----  ----------------\n"
                "  \x1b[1mBench\x1b[0m  aspen\n");
    doc_free(d);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_table_with_room_is_as_wide_as_its_words),
        cmocka_unit_test(words_wrap_in_their_column_and_names_hang),
        cmocka_unit_test(headings_wrap_before_words_do),
        cmocka_unit_test(a_short_heading_keeps_its_line),
        cmocka_unit_test(one_row_and_no_row_are_tables_too),
        cmocka_unit_test(cells_left_out_are_empty_and_lines_end_without_blanks),
        cmocka_unit_test(numbers_stand_point_under_point_unit_under_unit),
        cmocka_unit_test(numbers_are_never_parted),
        cmocka_unit_test(plain_numbers_stand_at_the_right_of_a_wide_heading),
        cmocka_unit_test(spreads_go_below_their_numbers_before_a_table_gives_up),
        cmocka_unit_test(a_table_that_cannot_fit_is_told_row_by_row),
        cmocka_unit_test(a_table_told_row_by_row_that_has_no_row_says_so),
        cmocka_unit_test(a_word_too_long_for_the_page_is_parted_in_its_column),
        cmocka_unit_test(wide_characters_keep_the_columns_straight),
        cmocka_unit_test(headings_are_bold_in_colour),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
