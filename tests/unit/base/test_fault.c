#include "../unit.h"

#include <stdio.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"

static struct fault made_at(uint32_t source, uint32_t at, const char *message)
{
    struct fault f;
    fault_clear(&f);
    fault_set(&f, "test-fault", (struct span){ source, at, 1 }, "%s", message);
    return f;
}

static void setting_returns_false_and_keeps_all_of_it(void **state)
{
    (void)state;
    struct fault f;
    fault_clear(&f);
    assert_false(fault_is_set(&f));
    assert_false(fault_set(&f, "date-day", (struct span){ 1, 2, 3 },
                           "November has %d days, not %d", 30, 31));
    assert_true(fault_is_set(&f));
    assert_string_equal(f.id, "date-day");
    assert_string_equal(f.message, "November has 30 days, not 31");
    assert_string_equal(f.hint, "");
    assert_int_equal(f.at.at, 2);
    assert_int_equal(f.other.source, 0);
}

static void the_first_fault_stays(void **state)
{
    (void)state;
    struct fault f;
    fault_clear(&f);
    fault_set(&f, "first", SPAN_NONE, "one");
    assert_false(fault_set(&f, "second", (struct span){ 1, 2, 3 }, "two"));
    assert_string_equal(f.id, "first");
    assert_string_equal(f.message, "one");
    assert_int_equal(f.at.source, 0);
}

static void the_first_hint_stays_and_needs_a_fault(void **state)
{
    (void)state;
    struct fault f;
    fault_clear(&f);
    fault_hint(&f, "too early");
    fault_set(&f, "first", SPAN_NONE, "one");
    assert_string_equal(f.hint, "");
    fault_hint(&f, "write `%d`", 3);
    fault_hint(&f, "write `4`");
    assert_string_equal(f.hint, "write `3`");
}

static void a_place_is_given_only_where_there_is_none(void **state)
{
    (void)state;
    struct fault f;
    fault_clear(&f);
    fault_place(&f, (struct span){ 1, 2, 3 });
    assert_int_equal(f.at.source, 0);
    fault_set(&f, "first", SPAN_NONE, "one");
    fault_place(&f, (struct span){ 1, 2, 3 });
    fault_place(&f, (struct span){ 2, 4, 6 });
    assert_int_equal(f.at.source, 1);
    assert_int_equal(f.at.length, 3);
}

static void a_long_message_is_cut_between_characters(void **state)
{
    (void)state;
    /* Two-byte letters, a byte before them or not: the cut falls on both halves. */
    for (int shift = 0; shift < 2; shift++) {
        char text[1200] = "";
        if (shift)
            strcat(text, "x");
        for (int i = 0; i < 400; i++)
            strcat(text, "\xC3\xA9");
        struct fault f;
        fault_clear(&f);
        fault_set(&f, "long", SPAN_NONE, "%s", text);
        fault_hint(&f, "%s", text);
        const char *const cut[] = { f.message, f.hint };
        const size_t room[] = { sizeof f.message, sizeof f.hint };
        for (int i = 0; i < 2; i++) {
            size_t length = strlen(cut[i]);
            assert_true(length < room[i] && length >= room[i] - 2);
            assert_string_equal(cut[i] + length - 3, "...");
            assert_int_equal((unsigned char)cut[i][length - 4], 0xA9);
            assert_memory_equal(cut[i], text, length - 3);
        }
    }
}

static void a_message_that_just_fits_is_not_cut(void **state)
{
    (void)state;
    char text[sizeof((struct fault *)0)->message];
    memset(text, 'm', sizeof text - 1);
    text[sizeof text - 1] = '\0';
    struct fault f = made_at(0, 0, text);
    assert_string_equal(f.message, text);
}

static void running_out_of_memory_can_be_told(void **state)
{
    (void)state;
    struct fault f;
    fault_clear(&f);
    assert_false(fault_no_memory(&f));
    assert_string_equal(f.id, "memory");
}

static void a_list_keeps_source_order(void **state)
{
    (void)state;
    struct faults all = { .count = 0 };
    static const uint32_t order[][2] = {
        { 2, 1 }, { 1, 9 }, { 1, 3 }, { 0, 0 }, { 1, 5 }
    };
    for (size_t i = 0; i < 5; i++) {
        struct fault f = made_at(order[i][0], order[i][1], "x");
        faults_add(&all, &f);
    }
    assert_int_equal(all.count, 5);
    static const uint32_t wanted[][2] = {
        { 0, 0 }, { 1, 3 }, { 1, 5 }, { 1, 9 }, { 2, 1 }
    };
    for (size_t i = 0; i < 5; i++) {
        assert_int_equal(all.list[i].at.source, wanted[i][0]);
        assert_int_equal(all.list[i].at.at, wanted[i][1]);
    }
}

static void faults_of_one_place_keep_the_order_they_came_in(void **state)
{
    (void)state;
    struct faults all = { .count = 0 };
    static const char *const words[] = { "b", "a", "c" };
    for (size_t i = 0; i < 3; i++) {
        struct fault f = made_at(1, 7, words[i]);
        faults_add(&all, &f);
    }
    for (size_t i = 0; i < 3; i++)
        assert_string_equal(all.list[i].message, words[i]);
}

static void exact_repeats_are_dropped(void **state)
{
    (void)state;
    struct faults all = { .count = 0 };
    struct fault f = made_at(1, 7, "x"), other = made_at(1, 7, "y"), none;
    fault_clear(&none);
    faults_add(&all, &f);
    faults_add(&all, &f);
    faults_add(&all, &other);
    faults_add(&all, &f);
    faults_add(&all, &none);
    assert_int_equal(all.count, 2);
    assert_int_equal(all.more, 0);
}

static void the_first_ten_of_the_text_are_kept_whatever_order_they_come_in(void **state)
{
    (void)state;
    struct faults up = { .count = 0 }, down = { .count = 0 };
    for (uint32_t i = 0; i < 25; i++) {
        struct fault f = made_at(1, i, "x"), g = made_at(1, 24 - i, "x");
        faults_add(&up, &f);
        faults_add(&down, &g);
    }
    assert_int_equal(up.count, FAULTS_MOST);
    assert_int_equal(up.more, 15);
    assert_int_equal(down.count, FAULTS_MOST);
    assert_int_equal(down.more, 15);
    for (uint32_t i = 0; i < FAULTS_MOST; i++) {
        assert_int_equal(up.list[i].at.at, i);
        assert_int_equal(down.list[i].at.at, i);
    }
}

static void a_fault_is_shown_with_place_line_carets_and_mend(void **state)
{
    (void)state;
    static const char text[] = "-- a plan\nx = 15 ft + 3 ac\n";
    struct sources *all = sources_new();
    uint32_t id = sources_add(all, "plan.rx", text, sizeof text - 1);
    struct fault f;
    fault_clear(&f);
    fault_set(&f, "dimension-add", (struct span){ id, 14, 5 },
              "cannot add 15 ft to 3 ac");
    f.other = (struct span){ id, 22, 4 };
    fault_hint(&f, "add lengths to lengths");
    struct buf b;
    buf_init(&b);
    fault_show(all, &f, "error", &b);
    assert_string_equal(b.data, "plan.rx:2:5: error: cannot add 15 ft to 3 ac\n"
                                "    x = 15 ft + 3 ac\n"
                                "        ^^^^^   ^^^^\n"
                                "    try: add lengths to lengths\n");
    buf_clear(&b);
    sources_free(all);
}

static void a_fault_without_a_place_is_shown_in_one_line(void **state)
{
    (void)state;
    struct sources *all = sources_new();
    struct fault f = made_at(0, 0, "there is no file `plan.rx`");
    struct buf b;
    buf_init(&b);
    fault_show(all, &f, "warning", &b);
    assert_string_equal(b.data, "warning: there is no file `plan.rx`\n");
    buf_clear(&b);
    sources_free(all);
}

static void lines_of_a_message_are_set_in_and_cannot_steer_the_terminal(void **state)
{
    (void)state;
    struct sources *all = sources_new();
    uint32_t id = sources_add(all, "a\x1B[2J.rx", "x", 1);
    struct fault f = made_at(id, 0, "one\ntwo \x1B[31m\n");
    struct buf b;
    buf_init(&b);
    fault_show(all, &f, "error", &b);
    assert_string_equal(b.data, "a?[2J.rx:1:1: error: one\n"
                                "    two ?[31m\n"
                                "    x\n"
                                "    ^\n");
    buf_clear(&b);
    sources_free(all);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(setting_returns_false_and_keeps_all_of_it),
        cmocka_unit_test(the_first_fault_stays),
        cmocka_unit_test(the_first_hint_stays_and_needs_a_fault),
        cmocka_unit_test(a_place_is_given_only_where_there_is_none),
        cmocka_unit_test(a_long_message_is_cut_between_characters),
        cmocka_unit_test(a_message_that_just_fits_is_not_cut),
        cmocka_unit_test(running_out_of_memory_can_be_told),
        cmocka_unit_test(a_list_keeps_source_order),
        cmocka_unit_test(faults_of_one_place_keep_the_order_they_came_in),
        cmocka_unit_test(exact_repeats_are_dropped),
        cmocka_unit_test(the_first_ten_of_the_text_are_kept_whatever_order_they_come_in),
        cmocka_unit_test(a_fault_is_shown_with_place_line_carets_and_mend),
        cmocka_unit_test(a_fault_without_a_place_is_shown_in_one_line),
        cmocka_unit_test(lines_of_a_message_are_set_in_and_cannot_steer_the_terminal),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
