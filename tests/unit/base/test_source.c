#include "../unit.h"

#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "base/source.h"

static struct sources *all;

static int begin(void **state)
{
    (void)state;
    all = sources_new();
    return all ? 0 : -1;
}

static int end(void **state)
{
    (void)state;
    sources_free(all);
    return 0;
}

static uint32_t add(const char *text)
{
    return sources_add(all, "plan.rx", text, strlen(text));
}

static void check_place(uint32_t id, uint32_t at, uint32_t line, uint32_t column)
{
    struct place p = source_place(all, (struct span){ id, at, 1 });
    assert_string_equal(p.file, "plan.rx");
    assert_int_equal(p.line, line);
    assert_int_equal(p.column, column);
}

static void check_line(uint32_t id, uint32_t line, uint32_t at, uint32_t length)
{
    struct span s = source_line(all, id, line);
    assert_int_equal(s.source, id);
    assert_int_equal(s.at, at);
    assert_int_equal(s.length, length);
}

static void a_place_is_a_line_and_a_column_from_one(void **state)
{
    (void)state;
    uint32_t id = add("one\ntwo\n\nfour");
    check_place(id, 0, 1, 1);
    check_place(id, 2, 1, 3);
    check_place(id, 3, 1, 4); /* the line's end belongs to the line */
    check_place(id, 4, 2, 1);
    check_place(id, 8, 3, 1);
    check_place(id, 9, 4, 1);
    check_place(id, 12, 4, 4);
}

static void a_place_past_the_end_is_the_end(void **state)
{
    (void)state;
    uint32_t id = add("one\n");
    check_place(id, 4, 2, 1);
    check_place(id, 4000000000u, 2, 1);
    uint32_t empty = add("");
    check_place(empty, 0, 1, 1);
    check_place(empty, 7, 1, 1);
}

static void nowhere_has_no_place(void **state)
{
    (void)state;
    uint32_t id = add("one");
    struct place p = source_place(all, (struct span){ 0, 2, 1 });
    assert_string_equal(p.file, "");
    assert_int_equal(p.line, 0);
    assert_int_equal(p.column, 0);
    p = source_place(all, (struct span){ id + 1, 0, 0 });
    assert_int_equal(p.line, 0);
    assert_int_equal(source_line(all, 0, 1).source, 0);
    assert_string_equal(source_name(all, 0), "");
    size_t length = 9;
    assert_string_equal(source_text(all, 99, &length), "");
    assert_int_equal(length, 0);
}

static void columns_count_characters_not_bytes(void **state)
{
    (void)state;
    /* e with acute: two bytes; euro: three; evergreen: four; a tab: one character. */
    uint32_t id = add("\xC3\xA9x\n\xE2\x82\xACx\n\xF0\x9F\x8C\xB2x\n\tx");
    check_place(id, 2, 1, 2);
    check_place(id, 7, 2, 2);
    check_place(id, 13, 3, 2);
    check_place(id, 16, 4, 2);
    check_place(id, 1, 1, 1); /* inside a character: that character */
    check_place(id, 11, 3, 1);
}

static void bytes_that_are_no_utf8_count_one_each(void **state)
{
    (void)state;
    uint32_t id = add("\xFF\x80\xC3x");
    check_place(id, 0, 1, 1);
    check_place(id, 1, 1, 2);
    check_place(id, 2, 1, 3);
    check_place(id, 3, 1, 4);
}

static void lines_end_as_they_do_for_lua(void **state)
{
    (void)state;
    uint32_t id = add("a\r\nb\rc\n\rd\n\ne");
    check_place(id, 0, 1, 1);
    check_place(id, 2, 1, 3);
    check_place(id, 3, 2, 1);
    check_place(id, 5, 3, 1);
    check_place(id, 8, 4, 1);
    check_place(id, 11, 6, 1);
    check_line(id, 1, 0, 1);
    check_line(id, 2, 3, 1);
    check_line(id, 3, 5, 1);
    check_line(id, 5, 10, 0);
    check_line(id, 6, 11, 1);
    assert_int_equal(source_line(all, id, 7).source, 0);
    assert_int_equal(source_line(all, id, 0).source, 0);
}

static void a_byte_order_mark_is_no_column(void **state)
{
    (void)state;
    uint32_t id = add("\xEF\xBB\xBFx = 3");
    check_place(id, 3, 1, 1);
    check_place(id, 7, 1, 5);
    check_place(id, 0, 1, 1);
    check_line(id, 1, 3, 5);
}

static void a_line_is_told_without_its_blanks(void **state)
{
    (void)state;
    uint32_t id = add("  \t width = 40 ft \t\r\n\t \n");
    check_line(id, 1, 4, 13);
    check_line(id, 2, 23, 0);
    struct span full = source_full_line(all, id, 1);
    assert_int_equal(full.at, 0);
    assert_int_equal(full.length, 19);
}

static void a_nul_hides_nothing_behind_it(void **state)
{
    (void)state;
    uint32_t id = sources_add(all, "plan.rx", "a\0b\nc\0", 6);
    size_t length;
    const char *text = source_text(all, id, &length);
    assert_int_equal(length, 6);
    assert_memory_equal(text, "a\0b\nc\0", 7);
    check_place(id, 2, 1, 3);
    check_place(id, 5, 2, 2);
}

static void the_newest_text_of_a_name_is_found(void **state)
{
    (void)state;
    uint32_t first = sources_add(all, "a.rx", "1", 1);
    uint32_t other = sources_add(all, "b.rx", "2", 1);
    assert_int_equal(sources_find(all, "a.rx"), first);
    uint32_t again = sources_add(all, "a.rx", "3", 1);
    assert_int_equal(sources_find(all, "a.rx"), again);
    assert_int_equal(sources_find(all, "b.rx"), other);
    assert_int_equal(sources_find(all, "c.rx"), 0);
    assert_string_equal(source_name(all, other), "b.rx");
}

static void texts_are_copied_and_stay_put(void **state)
{
    (void)state;
    char name[] = "plan.rx", text[] = "x = 3";
    uint32_t id = sources_add(all, name, text, 5);
    size_t length;
    const char *kept = source_text(all, id, &length);
    memset(name, '-', sizeof name - 1);
    memset(text, '-', sizeof text - 1);
    for (int i = 0; i < 200; i++)
        assert_int_not_equal(add("more"), 0);
    assert_string_equal(kept, "x = 3");
    assert_ptr_equal(source_text(all, id, &length), kept);
    assert_string_equal(source_name(all, id), "plan.rx");
}

static void every_byte_of_a_long_text_has_its_line(void **state)
{
    (void)state;
    enum { LINES = 5000, WIDTH = 7 };
    char *text = malloc(LINES * WIDTH);
    for (int i = 0; i < LINES; i++)
        memcpy(text + i * WIDTH, "abcdef\n", WIDTH);
    uint32_t id = sources_add(all, "plan.rx", text, LINES * WIDTH);
    for (uint32_t at = 0; at < LINES * WIDTH; at++) {
        struct place p = source_place(all, (struct span){ id, at, 1 });
        assert_int_equal(p.line, at / WIDTH + 1);
        assert_int_equal(p.column, at % WIDTH + 1);
    }
    free(text);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, begin, end)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_place_is_a_line_and_a_column_from_one),
        TEST(a_place_past_the_end_is_the_end),
        TEST(nowhere_has_no_place),
        TEST(columns_count_characters_not_bytes),
        TEST(bytes_that_are_no_utf8_count_one_each),
        TEST(lines_end_as_they_do_for_lua),
        TEST(a_byte_order_mark_is_no_column),
        TEST(a_line_is_told_without_its_blanks),
        TEST(a_nul_hides_nothing_behind_it),
        TEST(the_newest_text_of_a_name_is_found),
        TEST(texts_are_copied_and_stay_put),
        TEST(every_byte_of_a_long_text_has_its_line),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
