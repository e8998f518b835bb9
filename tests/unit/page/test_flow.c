#include "../unit.h"

#include <stdlib.h>
#include <string.h>

#include "page/flow.h"
#include "page/glyph.h"

/* The lines of a text, parted by "|". */
static void check(const char *text, size_t length, int columns, int hang,
                  const char *wanted)
{
    struct flow w;
    struct buf b;
    flow_init(&w);
    buf_init(&b);
    flow_add(&w, text, length, FLOW_PLAIN);
    flow_break(&w, columns, hang);
    for (size_t i = 0; i < w.line_count; i++) {
        if (i > 0)
            buf_putc(&b, '|');
        flow_put(&w, i, false, &b);
    }
    assert_false(w.failed || b.failed);
    assert_string_equal(b.data, wanted);
    buf_clear(&b);
    flow_clear(&w);
}

static void wrapped(const char *text, int columns, const char *wanted)
{
    check(text, strlen(text), columns, 0, wanted);
}

static void lines_break_at_blanks_and_never_end_in_one(void **state)
{
    (void)state;
    wrapped("keep every oak on the ridge", 10, "keep every|oak on the|ridge");
    wrapped("keep every oak on the ridge", 9, "keep|every oak|on the|ridge");
    wrapped("keep every", 10, "keep every");
    wrapped("keep every ", 10, "keep every");
    wrapped("  keep \t\n every  ", 80, "keep every");
    wrapped("", 10, "");
    wrapped("   ", 10, "");
}

static void a_word_longer_than_the_line_is_parted(void **state)
{
    (void)state;
    wrapped("abcdefghij", 4, "abcd|efgh|ij");
    wrapped("an abcdefghij end", 4, "an|abcd|efgh|ij|end");
    wrapped("lake-states/michigan", 12, "lake-states/|michigan");
    wrapped("lake-states/michigan", 9, "lake-|states/|michigan");
    wrapped("ab", 1, "a|b");
    wrapped("ab", 0, "a|b"); /* no room at all still gets through the text */
}

static void later_lines_may_be_narrower(void **state)
{
    (void)state;
    check("Alder first quarter", 19, 12, 2, "Alder first|quarter");
    check("aa bb cc dd ee", 14, 8, 3, "aa bb cc|dd ee");
    check("aa bb cc dd ee", 14, 8, 4, "aa bb cc|dd|ee");
}

static void stiff_blanks_hold_and_give_way_only_when_they_must(void **state)
{
    (void)state;
    wrapped("takes 3\xC2\xA0weeks", 9, "takes|3 weeks");
    wrapped("takes 31\xC2\xA0weeks", 6, "takes|31|weeks");
}

static void wide_and_combining_characters_are_counted_right(void **state)
{
    (void)state;
    wrapped("\xE6\xA3\xAE\xE6\x9E\x97\xE9\xB9\xBF", 5,
            "\xE6\xA3\xAE\xE6\x9E\x97|\xE9\xB9\xBF");
    wrapped("e\xCC\x81" "e\xCC\x81" "e\xCC\x81", 2,
            "e\xCC\x81" "e\xCC\x81|e\xCC\x81");
    wrapped("\xE6\xA3\xAE", 1, "\xE6\xA3\xAE"); /* wider than the line */
    wrapped("\xCC\x81x", 9, " \xCC\x81x");      /* a mark with nothing to sit on */
}

static void what_could_steer_a_terminal_is_dropped(void **state)
{
    (void)state;
    static const char text[] = "a\x1b]0;title\x07" "b\0c\x9b\xC2\x9b" "d\r\ne";
    check(text, sizeof text - 1, 40, 0, "a]0;titlebc\xEF\xBF\xBD" "d e");
}

static void colour_adds_sequences_and_nothing_else(void **state)
{
    (void)state;
    struct flow w;
    struct buf b;
    flow_init(&w);
    buf_init(&b);
    flow_add(&w, "keep ", 5, FLOW_PLAIN);
    flow_add(&w, "every oak", 9, FLOW_BOLD);
    flow_add(&w, "!", 1, FLOW_RED);
    flow_break(&w, 10, 0);
    assert_int_equal(w.line_count, 2);
    flow_put(&w, 0, true, &b);
    assert_string_equal(b.data, "keep \x1b[1mevery\x1b[0m");
    buf_clear(&b);
    flow_put(&w, 1, true, &b);
    assert_string_equal(b.data, "\x1b[1moak\x1b[0m\x1b[1;31m!\x1b[0m");
    buf_clear(&b);
    flow_put(&w, 1, false, &b);
    assert_string_equal(b.data, "oak!");
    buf_clear(&b);
    flow_clear(&w);
}

static void it_knows_its_columns_and_its_longest_word(void **state)
{
    (void)state;
    struct flow w;
    flow_init(&w);
    flow_add(&w, "red  maple ", 11, FLOW_PLAIN);
    assert_int_equal(flow_columns(&w), 9);
    assert_int_equal(flow_longest_word(&w), 5);
    flow_reset(&w);
    assert_int_equal(flow_columns(&w), 0);
    assert_int_equal(flow_longest_word(&w), 0);
    flow_clear(&w);
}

static void a_key_and_its_value_stand_side_by_side(void **state)
{
    (void)state;
    struct flow key, value;
    struct buf b;
    flow_init(&key), flow_init(&value), buf_init(&b);
    flow_add(&key, "Lines", 5, FLOW_PLAIN);
    flow_add(&value, "north surveyed, east not", 24, FLOW_PLAIN);
    flow_print_pair(&key, &value, 2, 6, 25, false, &b);
    assert_string_equal(b.data, "  Lines   north surveyed,\n"
                                "          east not\n");
    buf_clear(&b);
    flow_print_pair(&key, &value, 2, 3, 40, false, &b); /* a key too long for its place */
    assert_string_equal(b.data, "  Lines\n"
                                "       north surveyed, east not\n");
    buf_clear(&b);
    flow_reset(&value);
    flow_print_pair(&key, &value, 2, 6, 40, false, &b);
    assert_string_equal(b.data, "  Lines\n");
    buf_clear(&b), flow_clear(&key), flow_clear(&value);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lines_break_at_blanks_and_never_end_in_one),
        cmocka_unit_test(a_word_longer_than_the_line_is_parted),
        cmocka_unit_test(later_lines_may_be_narrower),
        cmocka_unit_test(stiff_blanks_hold_and_give_way_only_when_they_must),
        cmocka_unit_test(wide_and_combining_characters_are_counted_right),
        cmocka_unit_test(what_could_steer_a_terminal_is_dropped),
        cmocka_unit_test(colour_adds_sequences_and_nothing_else),
        cmocka_unit_test(it_knows_its_columns_and_its_longest_word),
        cmocka_unit_test(a_key_and_its_value_stand_side_by_side),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
