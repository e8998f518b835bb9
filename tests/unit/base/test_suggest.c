#include "../unit.h"

#include <string.h>

#include "base/suggest.h"

/* Offers the names, which end in NULL, and gives the best. */
static const char *best(const char *word, const char *const *names)
{
    struct suggest s = suggest_for(word, strlen(word));
    for (size_t i = 0; names[i]; i++)
        suggest_offer(&s, names[i]);
    return s.best;
}

#define BEST(word, ...) best(word, (const char *const[]){ __VA_ARGS__, NULL })

static void the_nearest_name_is_found(void **state)
{
    (void)state;
    assert_string_equal(BEST("wdith", "leave", "width", "how", "with"), "width");
    assert_string_equal(BEST("hecatre", "hectare", "acre"), "hectare");
    assert_string_equal(BEST("specis", "stand", "species", "slash"), "species");
    assert_null(BEST("wdith", "leave", "how"));
    assert_null(BEST("wdith", NULL));
}

static void neighbours_swapped_are_one_edit(void **state)
{
    (void)state;
    struct suggest s = suggest_for("tset", 4);
    suggest_offer(&s, "test");
    assert_int_equal(s.distance, 1);
}

static void distances_are_counted_in_edits(void **state)
{
    (void)state;
    static const struct {
        const char *word, *name;
        size_t distance;
    } cases[] = {
        { "aspen", "aspen", 0 },         { "aspen", "aspens", 1 },
        { "aspen", "asen", 1 },          { "aspen", "aspin", 1 },
        { "aspen", "sapen", 1 },         { "aspen", "apsne", 2 },
        { "log-first", "log first", 0 }, { "leave_marked", "Leave-Marked", 0 },
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct suggest s = suggest_for(cases[i].word, strlen(cases[i].word));
        suggest_offer(&s, cases[i].name);
        assert_string_equal(s.best, cases[i].name);
        assert_int_equal(s.distance, cases[i].distance);
    }
}

static void at_most_a_third_of_the_letters_may_differ(void **state)
{
    (void)state;
    assert_string_equal(BEST("oak", "oat"), "oat");             /* 1 of 3 */
    assert_null(BEST("oak", "out"));                            /* 2 of 3 */
    assert_string_equal(BEST("maple", "mable"), "mable");       /* 1 of 5 */
    assert_string_equal(BEST("maple", "mabel"), "mabel");       /* 2 of 5 */
    assert_null(BEST("maple", "mabels"));                       /* 3 of 5 */
    assert_null(BEST("kitten", "sitting"));                     /* 3 of 6 */
    assert_string_equal(BEST("kittens", "sitting"), "sitting"); /* 3 of 7 */
}

static void words_of_one_or_two_letters_get_no_advice(void **state)
{
    (void)state;
    assert_null(BEST("f", "ft", "f"));
    assert_null(BEST("fo", "ft", "fo", "of"));
    assert_null(BEST("", "a", ""));
}

static void ties_go_to_the_alphabet_whatever_the_order(void **state)
{
    (void)state;
    assert_string_equal(BEST("cat", "rat", "bat", "hat"), "bat");
    assert_string_equal(BEST("cat", "bat", "hat", "rat"), "bat");
    assert_string_equal(BEST("cat", "hat", "rat", "bat"), "bat");
    assert_string_equal(BEST("leave marked", "leave_marked", "leave-marked"),
                        "leave-marked");
}

static void a_nearer_name_beats_the_alphabet(void **state)
{
    (void)state;
    assert_string_equal(BEST("width", "awidths", "width"), "width");
    assert_string_equal(BEST("widht", "wide", "width"), "width");
}

static void case_and_kinds_of_hyphen_are_alike(void **state)
{
    (void)state;
    assert_string_equal(BEST("BIGTOOTH_ASPEN", "bigtooth aspen", "quaking aspen"),
                        "bigtooth aspen");
}

static void only_the_letters_given_are_looked_at(void **state)
{
    (void)state;
    struct suggest s = suggest_for("width of the strip", 5);
    suggest_offer(&s, "width");
    assert_int_equal(s.distance, 0);
    /* No NUL behind the word either. */
    const char bare[5] = { 'w', 'i', 'd', 't', 'h' };
    s = suggest_for(bare, sizeof bare);
    suggest_offer(&s, "width");
    assert_string_equal(s.best, "width");
}

static void very_long_words_are_refused_not_overrun(void **state)
{
    (void)state;
    char word[400], name[66];
    memset(word, 'a', sizeof word);
    memset(name, 'a', sizeof name);
    name[65] = '\0';
    struct suggest s = suggest_for(word, sizeof word);
    suggest_offer(&s, name);
    assert_null(s.best);
    s = suggest_for(word, 64);
    suggest_offer(&s, name); /* 65 letters */
    assert_null(s.best);
    name[64] = '\0';
    suggest_offer(&s, name);
    assert_int_equal(s.distance, 0);
    assert_ptr_equal(s.best, name);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_nearest_name_is_found),
        cmocka_unit_test(neighbours_swapped_are_one_edit),
        cmocka_unit_test(distances_are_counted_in_edits),
        cmocka_unit_test(at_most_a_third_of_the_letters_may_differ),
        cmocka_unit_test(words_of_one_or_two_letters_get_no_advice),
        cmocka_unit_test(ties_go_to_the_alphabet_whatever_the_order),
        cmocka_unit_test(a_nearer_name_beats_the_alphabet),
        cmocka_unit_test(case_and_kinds_of_hyphen_are_alike),
        cmocka_unit_test(only_the_letters_given_are_looked_at),
        cmocka_unit_test(very_long_words_are_refused_not_overrun),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
