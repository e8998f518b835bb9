#include "../unit.h"

#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "base/source.h"

#define NOWHERE ((struct span){ 0, 0, 0 })

/* Shows the place in the text; `other_length` 0 for no second place. */
static void check(const char *text, size_t length, uint32_t at, uint32_t at_length,
                  uint32_t other, uint32_t other_length, const char *wanted)
{
    struct sources *all = sources_new();
    uint32_t id = sources_add(all, "plan.rx", text, length);
    struct buf b;
    buf_init(&b);
    source_show(all, (struct span){ id, at, at_length },
                other_length > 0 ? (struct span){ id, other, other_length } : NOWHERE,
                &b);
    assert_string_equal(b.data, wanted);
    buf_clear(&b);
    sources_free(all);
}

static void check_text(const char *text, uint32_t at, uint32_t length, const char *wanted)
{
    check(text, strlen(text), at, length, 0, 0, wanted);
}

static void carets_stand_under_the_place(void **state)
{
    (void)state;
    check_text("a = 1\nwdith = 40 ft\nb = 2", 6, 5,
               "    wdith = 40 ft\n"
               "    ^^^^^\n");
    check_text("a = 1\nwdith = 40 ft\nb = 2", 14, 5,
               "    wdith = 40 ft\n"
               "            ^^^^^\n");
}

static void carets_stand_under_both_operands(void **state)
{
    (void)state;
    check("x = 15 ft + 3 ac", 16, 4, 5, 12, 4,
          "    x = 15 ft + 3 ac\n"
          "        ^^^^^   ^^^^\n");
    check("x = 15 ft + 3 ac", 16, 12, 4, 4, 5,
          "    x = 15 ft + 3 ac\n"
          "        ^^^^^   ^^^^\n");
}

static void an_operand_on_another_line_is_left_out(void **state)
{
    (void)state;
    check("x = 15 ft +\n3 ac", 16, 4, 5, 12, 4,
          "    x = 15 ft +\n"
          "        ^^^^^\n");
}

static void an_empty_place_has_one_caret(void **state)
{
    (void)state;
    check_text("x = ", 4, 0,
               "    x =\n"
               "        ^\n");
    check_text("", 0, 0, "\n    ^\n");
}

static void a_place_over_several_lines_is_shown_to_the_end_of_the_first(void **state)
{
    (void)state;
    check_text("cut {\n  stand = 3\n}", 4, 14,
               "    cut {\n"
               "        ^\n");
}

static void nowhere_shows_nothing(void **state)
{
    (void)state;
    struct sources *all = sources_new();
    struct buf b;
    buf_init(&b);
    source_show(all, NOWHERE, NOWHERE, &b);
    assert_string_equal(b.data, "");
    buf_clear(&b);
    sources_free(all);
}

static void tabs_and_letters_of_several_bytes_keep_carets_in_place(void **state)
{
    (void)state;
    check_text("\tx = 3", 1, 1,
               "     x = 3\n"
               "     ^\n");
    check_text("caf\xC3\xA9 = x", 8, 1,
               "    caf\xC3\xA9 = x\n"
               "           ^\n");
    /* A wide character takes two columns, an accent on the letter before none. */
    check_text("\xE5\xB1\xB1 = x", 6, 1,
               "    \xE5\xB1\xB1 = x\n"
               "         ^\n");
    check_text("e\xCC\x81 = x", 6, 1,
               "    e\xCC\x81 = x\n"
               "        ^\n");
}

static void line_ends_and_marks_are_not_shown(void **state)
{
    (void)state;
    check_text("a\r\nb = x  \r\nc", 7, 1,
               "    b = x\n"
               "        ^\n");
    check_text("\xEF\xBB\xBFx = 3", 3, 1,
               "    x = 3\n"
               "    ^\n");
}

static void what_steers_a_terminal_is_not_passed_on(void **state)
{
    (void)state;
    check("x\0y \x1B[31mz", 10, 9, 1, 0, 0,
          "    x?y ?[31mz\n"
          "             ^\n");
    check_text("\xFF\xFEx", 2, 1,
               "    ??x\n"
               "      ^\n");
}

/* A line of 2,000 letters; carets must be under what `at` holds, within 80 columns. */
static void check_long(uint32_t at, uint32_t length)
{
    char text[2001];
    for (int i = 0; i < 2000; i++)
        text[i] = (char)('a' + i % 26);
    text[2000] = '\0';
    struct sources *all = sources_new();
    uint32_t id = sources_add(all, "plan.rx", text, 2000);
    struct buf b;
    buf_init(&b);
    source_show(all, (struct span){ id, at, length }, NOWHERE, &b);
    const char *carets = strchr(b.data, '\n') + 1;
    size_t line = (size_t)(carets - b.data) - 1, first = strspn(carets, " ");
    assert_true(line <= 80);
    assert_true(strlen(carets) - 1 <= 80);
    assert_memory_equal(b.data, "    ", 4);
    size_t shown = strspn(carets + first, "^");
    assert_true(shown >= 1 && shown <= length);
    assert_int_equal(carets[first + shown], '\n');
    assert_memory_equal(b.data + first, text + at, shown);
    if (length <= 60)
        assert_int_equal(shown, length);
    buf_clear(&b);
    sources_free(all);
}

static void a_long_line_is_cut_around_the_carets(void **state)
{
    (void)state;
    for (uint32_t at = 0; at < 1990; at++)
        check_long(at, 10);
    check_long(0, 2000);
    check_long(500, 1000);
    check_long(1999, 1);
}

static void a_cut_is_marked_at_either_end(void **state)
{
    (void)state;
    char text[201];
    memset(text, 'x', 200);
    text[200] = '\0';
    struct sources *all = sources_new();
    uint32_t id = sources_add(all, "plan.rx", text, 200);
    struct buf b;
    buf_init(&b);
    source_show(all, (struct span){ id, 100, 2 }, NOWHERE, &b);
    assert_memory_equal(b.data, "    ...xxx", 10);
    assert_memory_equal(strchr(b.data, '\n') - 6, "xxx...", 6);
    buf_clear(&b);
    source_show(all, (struct span){ id, 3, 2 }, NOWHERE, &b);
    assert_memory_equal(b.data, "    xxx", 7);
    assert_memory_equal(strchr(b.data, '\n') - 6, "xxx...", 6);
    buf_clear(&b);
    source_show(all, (struct span){ id, 198, 2 }, NOWHERE, &b);
    assert_memory_equal(b.data, "    ...xxx", 10);
    assert_memory_equal(strchr(b.data, '\n') - 6, "xxxxxx", 6);
    buf_clear(&b);
    sources_free(all);
}

static void both_places_are_kept_on_a_long_line_when_they_fit(void **state)
{
    (void)state;
    char text[301];
    memset(text, ' ', 300);
    memcpy(text + 200, "15 ft", 5);
    memcpy(text + 220, "3 ac", 4);
    text[299] = 'x';
    text[300] = '\0';
    struct sources *all = sources_new();
    uint32_t id = sources_add(all, "plan.rx", text, 300);
    struct buf b;
    buf_init(&b);
    source_show(all, (struct span){ id, 200, 5 }, (struct span){ id, 220, 4 }, &b);
    assert_non_null(strstr(b.data, "15 ft               3 ac"));
    assert_non_null(strstr(b.data, "^^^^^               ^^^^"));
    buf_clear(&b);
    sources_free(all);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(carets_stand_under_the_place),
        cmocka_unit_test(carets_stand_under_both_operands),
        cmocka_unit_test(an_operand_on_another_line_is_left_out),
        cmocka_unit_test(an_empty_place_has_one_caret),
        cmocka_unit_test(a_place_over_several_lines_is_shown_to_the_end_of_the_first),
        cmocka_unit_test(nowhere_shows_nothing),
        cmocka_unit_test(tabs_and_letters_of_several_bytes_keep_carets_in_place),
        cmocka_unit_test(line_ends_and_marks_are_not_shown),
        cmocka_unit_test(what_steers_a_terminal_is_not_passed_on),
        cmocka_unit_test(a_long_line_is_cut_around_the_carets),
        cmocka_unit_test(a_cut_is_marked_at_either_end),
        cmocka_unit_test(both_places_are_kept_on_a_long_line_when_they_fit),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
