#include "../unit.h"

#include <stdlib.h>
#include <string.h>

#include "base/buf.h"

static void a_new_buffer_is_an_empty_text(void **state)
{
    (void)state;
    struct buf b;
    buf_init(&b);
    assert_string_equal(b.data, "");
    assert_int_equal(b.length, 0);
    buf_clear(&b);
    assert_string_equal(b.data, "");
}

static void pieces_follow_each_other(void **state)
{
    (void)state;
    struct buf b;
    buf_init(&b);
    buf_puts(&b, "acres");
    buf_putc(&b, ':');
    buf_fill(&b, ' ', 3);
    buf_put(&b, "3.4 of many", 3);
    buf_printf(&b, " in %s %d", "stand", 7);
    buf_put(&b, "", 0);
    buf_fill(&b, 'x', 0);
    assert_string_equal(b.data, "acres:   3.4 in stand 7");
    assert_int_equal(b.length, strlen(b.data));
    assert_false(b.failed);
    buf_clear(&b);
}

static void a_nul_is_a_byte_like_any_other(void **state)
{
    (void)state;
    struct buf b;
    buf_init(&b);
    buf_put(&b, "a\0b", 3);
    buf_putc(&b, '\0');
    assert_int_equal(b.length, 4);
    assert_memory_equal(b.data, "a\0b\0", 5);
    buf_clear(&b);
}

static void growing_keeps_every_byte(void **state)
{
    (void)state;
    struct buf b;
    buf_init(&b);
    for (int i = 0; i < 100000; i++)
        buf_putc(&b, (char)('a' + i % 26));
    assert_int_equal(b.length, 100000);
    for (int i = 0; i < 100000; i++)
        assert_int_equal(b.data[i], 'a' + i % 26);
    assert_int_equal(b.data[100000], '\0');
    buf_clear(&b);
}

static void a_formatted_piece_may_be_longer_than_the_room_left(void **state)
{
    (void)state;
    char word[5000];
    memset(word, 'w', sizeof word - 1);
    word[sizeof word - 1] = '\0';
    struct buf b;
    buf_init(&b);
    buf_printf(&b, "<%s>", word);
    assert_int_equal(b.length, sizeof word + 1);
    assert_int_equal(b.data[0], '<');
    assert_int_equal(b.data[b.length - 1], '>');
    buf_clear(&b);
}

static void a_text_taken_is_the_callers(void **state)
{
    (void)state;
    struct buf b;
    buf_init(&b);
    buf_puts(&b, "aspen");
    char *text = buf_take(&b);
    assert_string_equal(text, "aspen");
    assert_int_equal(b.length, 0);
    buf_puts(&b, "oak");
    assert_string_equal(text, "aspen");
    free(text);
    buf_clear(&b);
}

static void an_empty_text_can_be_taken_too(void **state)
{
    (void)state;
    struct buf b;
    buf_init(&b);
    char *text = buf_take(&b);
    assert_string_equal(text, "");
    free(text);
}

static void too_much_is_told_once_and_keeps_what_was_there(void **state)
{
    (void)state;
    struct buf b;
    buf_init(&b);
    buf_puts(&b, "oak");
    buf_fill(&b, 'x', SIZE_MAX - 2);
    assert_true(b.failed);
    buf_puts(&b, " and aspen");
    buf_printf(&b, "%d", 3);
    assert_string_equal(b.data, "oak");
    assert_null(buf_take(&b));
    assert_false(b.failed);
    assert_string_equal(b.data, "");
}

static void a_buffer_works_again_after_clearing(void **state)
{
    (void)state;
    struct buf b;
    buf_init(&b);
    buf_fill(&b, 'x', SIZE_MAX);
    assert_true(b.failed);
    buf_clear(&b);
    buf_puts(&b, "again");
    assert_string_equal(b.data, "again");
    buf_clear(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_new_buffer_is_an_empty_text),
        cmocka_unit_test(pieces_follow_each_other),
        cmocka_unit_test(a_nul_is_a_byte_like_any_other),
        cmocka_unit_test(growing_keeps_every_byte),
        cmocka_unit_test(a_formatted_piece_may_be_longer_than_the_room_left),
        cmocka_unit_test(a_text_taken_is_the_callers),
        cmocka_unit_test(an_empty_text_can_be_taken_too),
        cmocka_unit_test(too_much_is_told_once_and_keeps_what_was_there),
        cmocka_unit_test(a_buffer_works_again_after_clearing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
