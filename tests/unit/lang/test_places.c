/* Where calls, keys, values, strings and operators of a script stand. */
#include "literal_reading.h"

static const char script[] =
    "stand \"Bench aspen\" {\n"
    "  ground = \"moist\", site_index = { [\"bigtooth aspen\"] = 68 ft, aspen = 12 in "
    "},\n"
    "  tally = [[\n"
    "    baf 10\r\n"
    "    plot 1: red oak 14\n"
    "  ]],\n"
    "  seen = function(o) local t = { cut = 1 } if o then ground, width = 1, 2 end end,\n"
    "  share = 60 percent; [\"of\"] = t[\"share\"], width = o.width\n"
    "      + 2 ft,\n"
    "  note = 'a\\n\\x41\\u{20AC}\\z\n   b\\065c',\n"
    "}\n"
    "cut { leave = 15 trees/ac, keep = true } local x = cut y = cut(3, { leave = 4 })\n"
    "x = o.stand.area[1] + f(3, 4):acres() - (2 to 3 h) * 4 .. \"s\" + -15 ft\n"
    "tally [[\n  baf 20\n]] seed('N 42\\x20E') plant(3) burn\n"
    "x = { treat [[\n\n]],\n"
    "treat([[\n\n]]) }\n"
    "lots { maps = { 'a, b.gpx', { 7, file = 'c' }, x = 3, ['y'] = 4, f(1, 2); name, },\n"
    "  none = {}, no = 3 }\n";

static struct reading r;

static int read_script(void **state)
{
    (void)state;
    reading_open(&r);
    return reading_next(&r, script, strlen(script)) ? 0 : 1;
}

static int forget(void **state)
{
    (void)state;
    reading_close(&r);
    return 0;
}

static void is(struct span at, const char *text)
{
    if (!text) {
        assert_int_equal(at.source, 0);
        return;
    }
    assert_int_equal(at.source, r.source);
    if (at.length != strlen(text) || memcmp(script + at.at, text, at.length) != 0)
        fail_msg("%.*s instead of %s", (int)at.length, script + at.at, text);
}

static struct span call(uint32_t line, const char *name)
{
    return script_call_at(r.script, r.host.sources, line, name);
}

static struct span key(struct span at, const char *name)
{
    return script_key_in_call(r.script, r.host.sources, at, name);
}

static struct span value(struct span at, const char *name)
{
    return script_value_of_key(r.script, r.host.sources, at, name);
}

static void a_call_is_found_on_its_line_or_near_it(void **state)
{
    (void)state;
    is(call(1, "stand"), "stand");
    assert_int_equal(call(1, "stand").at, 0);
    assert_int_equal(call(13, "cut").at, strstr(script, "cut { leave") - script);
    assert_int_equal(call(4, "stand").at, 0);
    assert_int_equal(call(99, "cut").at, strstr(script, "cut(3") - script);
    assert_int_equal(call(10, "cut").at, strstr(script, "cut { leave") - script);
    is(call(1, "mow"), NULL);
    is(call(1, "baf"), NULL);
    /* The texts of both end on their lines; the second begins nearer to the first's end. */
    assert_int_equal(call(20, "treat").at, strstr(script, "treat [[") - script);
    assert_int_equal(call(23, "treat").at, strstr(script, "treat([[") - script);
    assert_int_equal(call(22, "treat").at, strstr(script, "treat([[") - script);
}

static void a_key_is_found_at_the_top_of_its_table(void **state)
{
    (void)state;
    struct span stand = call(1, "stand");
    is(key(stand, "ground"), "ground");
    assert_int_equal(key(stand, "ground").at, strstr(script, "ground") - script);
    assert_int_equal(key(stand, "share").at, strstr(script, "share") - script);
    is(key(stand, "of"), "\"of\"");
    is(key(stand, "aspen"), NULL);
    is(key(stand, "cut"), NULL);
    is(key(stand, "leave"), NULL);
    assert_int_equal(key(stand, "width").at, strstr(script, "width = o") - script);
    is(key(key(stand, "site_index"), "aspen"), "aspen");
    is(key(key(stand, "site_index"), "bigtooth aspen"), "\"bigtooth aspen\"");
    is(key(key(stand, "site_index"), "ground"), NULL);
    is(key(call(13, "cut"), "leave"), "leave");
    is(key((struct span){ 0, 0, 0 }, "mow"), NULL);
    is(key((struct span){ r.source, 3, 1 }, "ground"), NULL);
}

static struct span entry(struct span at, uint32_t number)
{
    return script_entry_in_call(r.script, r.host.sources, at, number);
}

static void an_entry_of_a_list_is_found_by_its_number(void **state)
{
    (void)state;
    struct span lots = call(25, "lots"), maps = key(lots, "maps");
    is(entry(maps, 1), "'a, b.gpx'");
    is(entry(maps, 2), "{");
    is(key(entry(maps, 2), "file"), "file");
    assert_int_equal(key(entry(maps, 2), "file").at,
                     strstr(script, "file = 'c'") - script);
    is(entry(maps, 3), "f");
    is(entry(maps, 4), "name");
    is(entry(maps, 5), NULL);
    is(entry(maps, 0), NULL);
    is(entry(key(lots, "none"), 1), NULL);
    is(entry(key(lots, "no"), 1), NULL);
    is(entry((struct span){ 0, 0, 0 }, 1), NULL);
}

static void a_table_that_never_ends_has_no_more_entries(void **state)
{
    (void)state;
    static const char open[] = "x {";
    struct reading own;
    reading_open(&own);
    if (reading_next(&own, open, strlen(open))) {
        struct span at = script_call_at(own.script, own.host.sources, 1, "x");
        assert_int_equal(at.length, 1);
        at = script_entry_in_call(own.script, own.host.sources, at, 1);
        assert_int_equal(at.source, 0);
    } else {
        fail_msg("a text that is no Lua has its literals all the same");
    }
    reading_close(&own);
}

static void a_value_is_the_whole_of_it_on_one_line(void **state)
{
    (void)state;
    struct span stand = call(1, "stand");
    is(value(stand, "ground"), "\"moist\"");
    is(value(stand, "share"), "60 percent");
    is(value(stand, "of"), "t[\"share\"]");
    is(value(stand, "width"), "o");
    is(value(stand, "tally"), "[[\n    baf 10\r\n    plot 1: red oak 14\n  ]]");
    is(value(stand, "site_index"), "{ [\"bigtooth aspen\"] = 68 ft, aspen = 12 in }");
    is(value(key(stand, "site_index"), "bigtooth aspen"), "68 ft");
    is(value(call(13, "cut"), "leave"), "15 trees/ac");
    is(value(call(13, "cut"), "keep"), "true");
    is(value(stand, "mow"), NULL);
}

static void a_place_in_a_long_string_is_found(void **state)
{
    (void)state;
    struct span inside =
        script_string_at(r.script, r.host.sources, call(1, "stand"), "tally");
    is(inside, "    baf 10\r\n    plot 1: red oak 14\n  ");
    /* Of the value, "    baf 10\n    plot 1: red oak 14\n  ". */
    is(script_inside_string(r.script, r.host.sources, inside, 4, 3), "baf");
    is(script_inside_string(r.script, r.host.sources, inside, 15, 4), "plot");
    is(script_inside_string(r.script, r.host.sources, inside, 10, 1), "\r\n");
    is(script_inside_string(r.script, r.host.sources, inside, 15, 0), "");
    is(script_inside_string(r.script, r.host.sources, inside, 900, 3), "");
    struct span place = script_inside_string(r.script, r.host.sources, inside, 23, 3);
    is(place, "red");
    assert_int_equal(source_place(r.host.sources, place).line, 5);
    assert_int_equal(source_place(r.host.sources, place).column, 13);
    is(script_string_at(r.script, r.host.sources, call(1, "stand"), "share"), NULL);
}

static void a_place_in_a_quoted_string_passes_escapes(void **state)
{
    (void)state;
    struct span inside =
        script_string_at(r.script, r.host.sources, call(1, "stand"), "note");
    is(inside, "a\\n\\x41\\u{20AC}\\z\n   b\\065c");
    /* The value: a, newline, A, three bytes of the euro sign, b, A, c. */
    is(script_inside_string(r.script, r.host.sources, inside, 0, 1), "a");
    is(script_inside_string(r.script, r.host.sources, inside, 1, 1), "\\n");
    is(script_inside_string(r.script, r.host.sources, inside, 2, 1), "\\x41");
    is(script_inside_string(r.script, r.host.sources, inside, 3, 3), "\\u{20AC}");
    is(script_inside_string(r.script, r.host.sources, inside, 6, 1), "b");
    is(script_inside_string(r.script, r.host.sources, inside, 7, 1), "\\065");
    is(script_inside_string(r.script, r.host.sources, inside, 8, 1), "c");
}

static void a_text_given_alone_is_found(void **state)
{
    (void)state;
    struct span text = script_string_at(r.script, r.host.sources, call(15, "tally"), "");
    is(text, "  baf 20\n");
    is(script_inside_string(r.script, r.host.sources, text, 2, 3), "baf");
    text = script_string_at(r.script, r.host.sources, call(17, "seed"), "");
    is(text, "N 42\\x20E");
    is(script_inside_string(r.script, r.host.sources, text, 5, 1), "E");
    is(script_string_at(r.script, r.host.sources, call(17, "plant"), ""), NULL);
    is(script_string_at(r.script, r.host.sources, call(17, "burn"), ""), NULL);
    is(script_string_at(r.script, r.host.sources, call(12, "cut"), ""), NULL);
}

static void operands(const char *symbol, const char *left, const char *right)
{
    struct span a, b;
    struct span at = script_operator_at(r.script, r.host.sources, 14, symbol);
    is(at, symbol);
    assert_true(script_operands(r.script, r.host.sources, at, &a, &b));
    is(a, left);
    is(b, right);
}

static void an_operator_and_its_operands_are_found(void **state)
{
    (void)state;
    operands("+", "o.stand.area[1]", "f(3, 4):acres()");
    operands("-", "f(3, 4):acres()", "(2 to 3 h)");
    operands("*", "(2 to 3 h)", "4");
    operands("..", "4", "\"s\"");
    struct span a, b, plus = script_operator_at(r.script, r.host.sources, 14, "+");
    plus.at = (uint32_t)(strstr(script, "+ -15") - script);
    assert_true(script_operands(r.script, r.host.sources, plus, &a, &b));
    is(b, "-15 ft");
    is(script_operator_at(r.script, r.host.sources, 14, "//"), NULL);
    is(script_operator_at(r.script, r.host.sources, 99, "+"), NULL);
    assert_false(script_operands(r.script, r.host.sources, call(1, "stand"), &a, &b));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_call_is_found_on_its_line_or_near_it),
        cmocka_unit_test(a_key_is_found_at_the_top_of_its_table),
        cmocka_unit_test(an_entry_of_a_list_is_found_by_its_number),
        cmocka_unit_test(a_table_that_never_ends_has_no_more_entries),
        cmocka_unit_test(a_value_is_the_whole_of_it_on_one_line),
        cmocka_unit_test(a_place_in_a_long_string_is_found),
        cmocka_unit_test(a_place_in_a_quoted_string_passes_escapes),
        cmocka_unit_test(a_text_given_alone_is_found),
        cmocka_unit_test(an_operator_and_its_operands_are_found),
    };
    return cmocka_run_group_tests(tests, read_script, forget);
}
