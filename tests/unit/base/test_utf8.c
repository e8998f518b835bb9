#include "../unit.h"

#include <string.h>

#include "base/buf.h"
#include "base/utf8.h"

static size_t step(const char *text, uint32_t *code)
{
    return utf8_next(text, strlen(text), code);
}

static void characters_of_one_to_four_bytes_are_read(void **state)
{
    (void)state;
    uint32_t code;
    assert_int_equal(step("a", &code), 1);
    assert_int_equal(code, 'a');
    assert_int_equal(step("\xC3\xA9", &code), 2); /* e with acute */
    assert_int_equal(code, 0xE9);
    assert_int_equal(step("\xE2\x82\xAC", &code), 3); /* euro sign */
    assert_int_equal(code, 0x20AC);
    assert_int_equal(step("\xF0\x9F\x8C\xB2", &code), 4); /* evergreen tree */
    assert_int_equal(code, 0x1F332);
    assert_int_equal(utf8_next("\0", 1, &code), 1);
    assert_int_equal(code, 0);
}

static void bad_bytes_are_taken_one_at_a_time(void **state)
{
    (void)state;
    static const char *const bad[] = {
        "\x80",             /* a later byte without a first */
        "\xC0\xAF",         /* longer than needed: a slash in disguise */
        "\xC1\xBF",         /* the same */
        "\xE0\x80\xAF",     /* the same in three bytes */
        "\xF0\x80\x80\xAF", /* the same in four */
        "\xED\xA0\x80",     /* half of a surrogate pair */
        "\xF4\x90\x80\x80", /* past the last character */
        "\xF5\x80\x80\x80", /* no such first byte */
        "\xFF",             /* no such byte */
        "\xC3",             /* cut short */
        "\xE2\x82",         /* cut short */
        "\xE2\x41\x41",     /* letters where later bytes belong */
    };
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        uint32_t code = 0;
        assert_int_equal(step(bad[i], &code), 1);
        assert_int_equal(code, UTF8_BAD);
    }
}

static void every_character_is_read_back(void **state)
{
    (void)state;
    for (uint32_t c = 0x80; c <= 0x10FFFF; c++) {
        if (c >= 0xD800 && c <= 0xDFFF)
            continue;
        char text[4];
        size_t size;
        if (c < 0x800) {
            size = 2;
            text[0] = (char)(0xC0 | c >> 6);
        } else if (c < 0x10000) {
            size = 3;
            text[0] = (char)(0xE0 | c >> 12);
        } else {
            size = 4;
            text[0] = (char)(0xF0 | c >> 18);
        }
        for (size_t i = 1; i < size; i++)
            text[i] = (char)(0x80 | (c >> (6 * (size - 1 - i)) & 0x3F));
        uint32_t code;
        if (utf8_next(text, size, &code) != size || code != c)
            fail_msg("U+%04X was read as U+%04X", (unsigned)c, (unsigned)code);
    }
}

static void widths_are_those_of_a_terminal(void **state)
{
    (void)state;
    assert_int_equal(utf8_width('a'), 1);
    assert_int_equal(utf8_width(0xE9), 1);
    assert_int_equal(utf8_width(0x0301), 0);  /* acute on the letter before */
    assert_int_equal(utf8_width(0x0E49), 0);  /* a tone of Thai */
    assert_int_equal(utf8_width(0x05BC), 0);  /* a point of Hebrew */
    assert_int_equal(utf8_width(0x1F34), 1);  /* a letter of Greek */
    assert_int_equal(utf8_width(0x2705), 2);  /* check mark */
    assert_int_equal(utf8_width(0x5C71), 2);  /* mountain */
    assert_int_equal(utf8_width(0x1F332), 2); /* evergreen tree */
    assert_int_equal(utf8_width(UTF8_BAD), 1);
    assert_int_equal(utf8_columns("e\xCC\x81", 3), 1);
    assert_int_equal(utf8_columns("\xF0\x9F\x8C\xB2 x", 6), 4);
    assert_int_equal(utf8_columns("\x1B[m\xFF", 4), 4);
    assert_int_equal(utf8_columns("", 0), 0);
}

static void what_steers_a_terminal_is_shown_as_a_question_mark(void **state)
{
    (void)state;
    struct buf b;
    buf_init(&b);
    static const char text[] = "a\x1B[31m\x7F\xC2\x9B\xE2\x80\xAEok\0\t\xFF\xC3\xA9";
    utf8_put_plain(&b, text, sizeof text - 1);
    assert_string_equal(b.data, "a?[31m???ok???\xC3\xA9");
    buf_clear(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(characters_of_one_to_four_bytes_are_read),
        cmocka_unit_test(bad_bytes_are_taken_one_at_a_time),
        cmocka_unit_test(every_character_is_read_back),
        cmocka_unit_test(widths_are_those_of_a_terminal),
        cmocka_unit_test(what_steers_a_terminal_is_shown_as_a_question_mark),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
