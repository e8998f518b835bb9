#include "../unit.h"

#include <jansson.h>
#include <math.h>
#include <string.h>

#include "../comma_locale.h"
#include "page/json.h"
#include "sample.h"

/* Writes, reads the text back and returns what was read; the text too when asked for. */
static json_t *written(struct json *j, struct buf *text)
{
    struct buf b;
    struct fault f;
    json_error_t wrong;
    buf_init(&b);
    fault_clear(&f);
    assert_true(json_write(j, &b, &f));
    json_t *back = json_loadb(b.data, b.length, 0, &wrong);
    assert_non_null(back);
    if (text != NULL)
        *text = b;
    else
        buf_clear(&b);
    return back;
}

static void check(struct json *j, const char *wanted)
{
    struct buf text;
    json_t *back = written(j, &text);
    assert_string_equal(text.data, wanted);
    json_decref(back);
    buf_clear(&text);
}

static void keys_stay_in_the_order_they_were_given(void **state)
{
    (void)state;
    struct json *j = json_new(NULL);
    json_text(j, "property", "Quill Creek");
    json_list_open(j, "stands");
    json_object_open(j, NULL);
    json_text(j, "name", "Bench aspen"), json_truth(j, "walked", true);
    json_close(j);
    json_text(j, NULL, "more"), json_nothing(j, NULL);
    json_close(j);
    json_list_open(j, "acts"), json_close(j);
    json_object_open(j, "a map"), json_close(j);
    json_text(j, "county", NULL);
    check(j, "{\n"
             "  \"property\": \"Quill Creek\",\n"
             "  \"stands\": [\n"
             "    {\n"
             "      \"name\": \"Bench aspen\",\n"
             "      \"walked\": true\n"
             "    },\n"
             "    \"more\",\n"
             "    null\n"
             "  ],\n"
             "  \"acts\": [],\n"
             "  \"a map\": {},\n"
             "  \"county\": null\n"
             "}\n");
    json_free(j);
}

static void numbers(struct json *j)
{
    static const double values[] = { 0,    -0.0, 3, -12, 0.1 + 0.2, 1.0 / 3, -2.5,
                                     1e-9, 70.0000000000001, 123456789012, 1e15,
                                     1e300, INFINITY, NAN };
    json_list_open(j, "n");
    for (size_t i = 0; i < sizeof values / sizeof *values; i++)
        json_number(j, NULL, values[i]);
    json_close(j);
}

static const char numbers_text[] = "{\n"
                                   "  \"n\": [\n"
                                   "    0,\n    0,\n    3,\n    -12,\n    0.3,\n"
                                   "    0.333333333333,\n    -2.5,\n    1e-9,\n    70,\n"
                                   "    123456789012,\n    1e15,\n    1e300,\n"
                                   "    null,\n    null\n"
                                   "  ]\n"
                                   "}\n";

static void numbers_have_twelve_digits_and_no_noise(void **state)
{
    (void)state;
    struct json *j = json_new(NULL);
    numbers(j);
    check(j, numbers_text);
    json_free(j);
}

static void a_comma_locale_changes_no_byte(void **state)
{
    (void)state;
    assert_true(comma_locale_begin());
    struct json *j = json_new(NULL);
    struct buf text;
    struct fault f;
    buf_init(&text), fault_clear(&f);
    numbers(j);
    bool done = json_write(j, &text, &f);
    comma_locale_end();
    assert_true(done);
    assert_string_equal(text.data, numbers_text);
    buf_clear(&text);
    json_free(j);
}

static void numbers_read_back_to_their_twelve_digits(void **state)
{
    (void)state;
    uint64_t seed = 20261014;
    struct json *j = json_new(NULL);
    double wanted[2000];
    json_list_open(j, "n");
    for (size_t i = 0; i < 2000; i++) {
        seed = seed * 6364136223846793005u + 1442695040888963407u;
        double digits = (double)(seed >> 11) / 9007199254740992.0 - 0.5;
        wanted[i] = digits * pow(10, (double)(i % 41) - 20);
        json_number(j, NULL, wanted[i]);
    }
    json_close(j);
    json_t *back = written(j, NULL), *list = json_object_get(back, "n");
    assert_int_equal(json_array_size(list), 2000);
    for (size_t i = 0; i < 2000; i++) {
        double read = json_number_value(json_array_get(list, i));
        assert_true(fabs(read - wanted[i]) <= 5e-12 * fabs(wanted[i]));
    }
    json_decref(back);
    json_free(j);
}

static void texts_come_back_as_they_were_but_for_what_is_no_utf_8(void **state)
{
    (void)state;
    static const char awkward[] = "\"quoted\" \\ / \b\f\n\r\t \x01 \x7F caf\xC3\xA9 "
                                  "\xF0\x9F\xA6\x8C \xE2\x80\xA8";
    struct json *j = json_new(NULL);
    json_text(j, "text", awkward);
    json_text(j, awkward, "as a key");
    json_text(j, "bad", "a\xFF" "b");
    json_text(j, "bad \xC3", "key");
    json_t *back = written(j, NULL);
    assert_string_equal(json_string_value(json_object_get(back, "text")), awkward);
    assert_string_equal(json_string_value(json_object_get(back, awkward)), "as a key");
    assert_string_equal(json_string_value(json_object_get(back, "bad")),
                        "a\xEF\xBF\xBD" "b");
    assert_non_null(json_object_get(back, "bad \xEF\xBF\xBD"));
    json_decref(back);
    struct buf text;
    json_free(j);
    j = json_new(NULL);
    json_text_bytes(j, "nul", "a\0b", 3);
    buf_init(&text);
    struct fault f;
    fault_clear(&f);
    assert_true(json_write(j, &text, &f));
    assert_string_equal(text.data, "{\n  \"nul\": \"a\\u0000b\"\n}\n");
    buf_clear(&text);
    json_free(j);
}

static void control_characters_are_written_as_their_numbers(void **state)
{
    (void)state;
    static const char typed[] = "\x1B[31m\x7F\xC2\x9B[m\xC2\x80\xC2\xA0\xC3\x9Bz\xC2\x9F";
    struct json *j = json_new(NULL);
    json_text(j, "a\x7F", typed);
    check(j, "{\n  \"a\\u007F\": \"\\u001B[31m\\u007F\\u009B[m\\u0080\xC2\xA0\xC3\x9Bz"
             "\\u009F\"\n}\n");
    json_t *back = written(j, NULL);
    assert_string_equal(json_string_value(json_object_get(back, "a\x7F")), typed);
    json_decref(back);
    json_free(j);
}

static void a_figure_is_value_low_high_and_unit(void **state)
{
    (void)state;
    struct sample s;
    sample_open(&s);
    struct qty acres = sample_qty(&s, 7.5, 7.5, 7.5, "ac");
    struct qty hours = sample_qty(&s, 60, 70, 80, "h");
    struct json *j = json_new(s.graph);
    json_figure(j, "area", acres);
    json_figure(j, "hours", hours);
    json_figure(j, "cost", QTY_NONE);
    json_day(j, "start", sample_date(&s, 2026, 11, 16));
    graph_release(s.graph, acres), graph_release(s.graph, hours); /* it holds its own */
    struct buf text;
    json_t *back = written(j, &text);
    const char *certain = "{\n"
                          "  \"area\": {\n"
                          "    \"value\": 7.5,\n"
                          "    \"low\": 7.5,\n"
                          "    \"high\": 7.5,\n"
                          "    \"unit\": \"ac\"\n"
                          "  },\n"
                          "  \"hours\": {\n"
                          "    \"value\": 70,\n"
                          "    \"low\": ";
    assert_memory_equal(text.data, certain, strlen(certain));
    json_t *figure = json_object_get(back, "hours");
    double low = json_number_value(json_object_get(figure, "low"));
    double high = json_number_value(json_object_get(figure, "high"));
    assert_true(fabs(low - 60) < 0.8 && fabs(high - 80) < 0.8);
    assert_string_equal(json_string_value(json_object_get(figure, "unit")), "h");
    assert_null(json_object_get(figure, "median"));
    const char *end = "  \"cost\": null,\n"
                      "  \"start\": \"2026-11-16\"\n"
                      "}\n";
    assert_string_equal(strstr(text.data, "  \"cost\""), end);
    json_decref(back);
    buf_clear(&text);
    json_free(j);
    sample_close(&s);
}

static void a_second_writing_of_the_same_gives_the_same_bytes(void **state)
{
    (void)state;
    struct buf texts[2];
    for (int i = 0; i < 2; i++) {
        struct sample s;
        sample_open(&s);
        struct json *j = json_new(s.graph);
        json_object_open(j, "totals");
        struct qty hours = sample_qty(&s, 121, 143, 170, "h");
        struct qty cost = sample_qty(&s, 2100, 2460, 2900, "USD");
        json_figure(j, "hours", hours), json_figure(j, "cost", cost);
        json_close(j);
        json_decref(written(j, &texts[i]));
        graph_release(s.graph, hours), graph_release(s.graph, cost);
        json_free(j);
        sample_close(&s);
    }
    assert_string_equal(texts[0].data, texts[1].data);
    buf_clear(&texts[0]), buf_clear(&texts[1]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(keys_stay_in_the_order_they_were_given),
        cmocka_unit_test(numbers_have_twelve_digits_and_no_noise),
        cmocka_unit_test(a_comma_locale_changes_no_byte),
        cmocka_unit_test(numbers_read_back_to_their_twelve_digits),
        cmocka_unit_test(texts_come_back_as_they_were_but_for_what_is_no_utf_8),
        cmocka_unit_test(control_characters_are_written_as_their_numbers),
        cmocka_unit_test(a_figure_is_value_low_high_and_unit),
        cmocka_unit_test(a_second_writing_of_the_same_gives_the_same_bytes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
