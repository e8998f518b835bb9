#include "../unit.h"

#include <string.h>

#include "base/buf.h"
#include "page/glyph.h"

static int columns(const char *text)
{
    return glyph_columns(text, strlen(text));
}

static void letters_take_one_column_and_their_marks_none(void **state)
{
    (void)state;
    assert_int_equal(columns("Quill Creek"), 11);
    assert_int_equal(columns("caf\xC3\xA9"), 4);
    assert_int_equal(columns("cafe\xCC\x81"), 4);             /* e and U+0301 */
    assert_int_equal(columns("\xE0\xA4\xA8\xE0\xA5\x87"), 1); /* na, vowel sign e */
    assert_int_equal(columns("\xE0\xB8\x97\xE0\xB8\xB5\xE0\xB9\x88"), 1); /* two marks */
}

static void east_asian_letters_and_emoji_take_two(void **state)
{
    (void)state;
    assert_int_equal(columns("\xE6\xA3\xAE"), 2);         /* U+68EE, forest */
    assert_int_equal(columns("\xED\x95\x9C"), 2);         /* U+D55C */
    assert_int_equal(columns("\xEF\xBC\xA1"), 2);         /* full-width A */
    assert_int_equal(columns("\xF0\x9F\xA6\x8C"), 2);     /* U+1F98C, deer */
    assert_int_equal(columns("\xE2\x9C\x85"), 2);         /* U+2705 */
    assert_int_equal(columns("\xE2\x86\x92\xE2\x82\xAC"), 2); /* arrow, euro */
}

static void control_characters_are_removed_and_take_none(void **state)
{
    (void)state;
    assert_int_equal(columns("a\x1b[31mb"), 6); /* the escape goes, its letters stay */
    assert_int_equal(columns("a\x07\x7F\xC2\x9B" "b"), 2);
    assert_int_equal(columns("a\xE2\x80\xAE" "b"), 2); /* U+202E turns the text round */
    assert_int_equal(columns("a\xE2\x80\x8B" "b"), 2); /* blank of no width */
    assert_int_equal(glyph_next("\0", 1).kind, GLYPH_REMOVED);
}

static void blanks_part_words_but_for_stiff_ones(void **state)
{
    (void)state;
    assert_int_equal(glyph_next(" ", 1).kind, GLYPH_BLANK);
    assert_int_equal(glyph_next("\t", 1).kind, GLYPH_BLANK);
    assert_int_equal(glyph_next("\n", 1).kind, GLYPH_BLANK);
    assert_int_equal(glyph_next("\xE2\x80\xA8", 3).kind, GLYPH_BLANK); /* U+2028 */
    assert_int_equal(glyph_next("\xE3\x80\x80", 3).kind, GLYPH_BLANK); /* U+3000 */
    assert_int_equal(glyph_next("\xC2\xA0", 2).kind, GLYPH_STIFF);
}

static void bytes_that_are_no_utf_8_are_shown_as_such_one_by_one(void **state)
{
    (void)state;
    static const char *const bad[] = { "\xFF", "\x80", "\xC3", "\xC0\x80", "\xED\xA0\x80",
                                       "\xF5\x80\x80\x80", "\xE2\x82" };
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        struct glyph g = glyph_next(bad[i], strlen(bad[i]));
        assert_int_equal(g.code, 0xFFFD);
        assert_int_equal(g.bytes, 1);
        assert_int_equal(g.columns, 1);
    }
    struct buf b;
    buf_init(&b);
    glyph_mend(&b, "a\xFF\xC3\xA9\xC3", 5);
    assert_string_equal(b.data, "a\xEF\xBF\xBD\xC3\xA9\xEF\xBF\xBD");
    buf_clear(&b);
}

static void mending_keeps_what_is_sound_nul_and_all(void **state)
{
    (void)state;
    struct buf b;
    buf_init(&b);
    glyph_mend(&b, "a\0\x1b\xEF\xBF\xBD", 6);
    assert_int_equal(b.length, 6);
    assert_memory_equal(b.data, "a\0\x1b\xEF\xBF\xBD", 6);
    buf_clear(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(letters_take_one_column_and_their_marks_none),
        cmocka_unit_test(east_asian_letters_and_emoji_take_two),
        cmocka_unit_test(control_characters_are_removed_and_take_none),
        cmocka_unit_test(blanks_part_words_but_for_stiff_ones),
        cmocka_unit_test(bytes_that_are_no_utf_8_are_shown_as_such_one_by_one),
        cmocka_unit_test(mending_keeps_what_is_sound_nul_and_all),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
