/* What is read of each literal, where the Lua text begins, several faults at once, and
 * the warnings about == between a measure and a bare number. */
#include "literal_reading.h"

#include <stdio.h>

static const struct literal *only(struct reading *r, const char *text)
{
    if (!reading_next(r, text, strlen(text)))
        fail_msg("%s: %s", text, r->faults.list[0].message);
    assert_int_equal(script_literals(r->script), 1);
    assert_null(script_literal(r->script, 1));
    return script_literal(r->script, 0);
}

static void amount(struct reading *r, const char *text, enum literal_kind kind,
                   double low, double value, double high, const char *unit)
{
    const struct literal *l = only(r, text);
    assert_int_equal(l->kind, kind);
    assert_true(l->low == low && l->value == value && l->high == high);
    assert_string_equal(unit_name(r->host.units, l->unit, false), unit);
}

static void amounts_keep_the_unit_as_typed(void **state)
{
    (void)state;
    struct reading r;
    reading_open(&r);
    amount(&r, "x = 15 ft", LITERAL_MEASURE, 15, 15, 15, "ft");
    amount(&r, "x = 3.4 ac", LITERAL_MEASURE, 3.4, 3.4, 3.4, "ac");
    amount(&r, "x = 80 ft2/ac", LITERAL_MEASURE, 80, 80, 80, "ft2/ac");
    amount(&r, "x = 12 in", LITERAL_MEASURE, 12, 12, 12, "in");
    amount(&r, "x = 0x1p4 ft", LITERAL_MEASURE, 16, 16, 16, "ft");
    amount(&r, "x = 0xd h", LITERAL_MEASURE, 13, 13, 13, "h");
    amount(&r, "x = 1e3 ft", LITERAL_MEASURE, 1000, 1000, 1000, "ft");
    amount(&r, "x = .5 ac", LITERAL_MEASURE, 0.5, 0.5, 0.5, "ac");
    amount(&r, "x = 4 fl oz", LITERAL_MEASURE, 4, 4, 4, "fl oz");
    amount(&r, "x = 2 to 3", LITERAL_RANGE, 2, 2.5, 3, "");
    amount(&r, "x = 2 to 3 h", LITERAL_RANGE, 2, 2.5, 3, "h");
    amount(&r, "x = 2 to 3 h around 2.2", LITERAL_RANGE, 2, 2.2, 3, "h");
    amount(&r, "x = 2 to 3 h around 2.2 h", LITERAL_RANGE, 2, 2.2, 3, "h");
    amount(&r, "x = 2 to 4 ft around 30 in", LITERAL_RANGE, 2, 2.5, 4, "ft");
    amount(&r, "x = 2 h to 3 h", LITERAL_RANGE, 2, 2.5, 3, "h");
    amount(&r, "x = 30 in to 4 ft", LITERAL_RANGE, 2.5, 3.25, 4, "ft");
    assert_false(only(&r, "x = 2 to 3 h")->around);
    assert_true(only(&r, "x = 2 to 3 h around 2.5")->around);
    reading_close(&r);
}

static void dates_days_and_windows_are_read(void **state)
{
    (void)state;
    struct reading r;
    struct fault f = { 0 };
    struct date expected;
    reading_open(&r);
    const struct literal *l = only(&r, "x = Oct 14 2026");
    assert_true(date_make(2026, 10, 14, &expected, &f));
    assert_int_equal(l->kind, LITERAL_DATE);
    assert_int_equal(l->date.day, expected.day);
    l = only(&r, "x = February 29");
    assert_int_equal(l->kind, LITERAL_DAY);
    assert_int_equal(l->day.month, 2);
    assert_int_equal(l->day.day, 29);
    l = only(&r, "x = Nov 15 to Nov 10");
    assert_int_equal(l->kind, LITERAL_WINDOW);
    assert_int_equal(l->window.from.month, 11);
    assert_int_equal(l->window.from.day, 15);
    assert_int_equal(l->window.to.day, 10);
    struct place place = source_place(r.host.sources, l->at);
    assert_int_equal(place.column, 5);
    assert_int_equal(l->at.length, strlen("Nov 15 to Nov 10"));
    reading_close(&r);
}

static void lua_begins_behind_a_byte_order_mark_and_a_first_line_with_a_hash(void **state)
{
    (void)state;
    static const struct {
        const char *text, *whole, *lua;
    } rows[] = {
        { "x = 3 ft\r\ny = 4\n", READING_NAMES "x = (__lit[1])\r\ny = 4\n",
          READING_NAMES "x = (__lit[1])\r\ny = 4\n" },
        { "#!spinney\nx = 3 ft", "#!spinney\n" READING_NAMES "x = (__lit[1])",
          "\n" READING_NAMES "x = (__lit[1])" },
        { "\xEF\xBB\xBFx = 3 ft", "\xEF\xBB\xBF" READING_NAMES "x = (__lit[1])",
          READING_NAMES "x = (__lit[1])" },
        { "\xEF\xBB\xBF# 3d\r\nx = 3 ft",
          "\xEF\xBB\xBF# 3d\r\n" READING_NAMES "x = (__lit[1])",
          "\r\n" READING_NAMES "x = (__lit[1])" },
        { "#!spinney\n\nx = 3", "#!spinney\n\nx = 3", "\n\nx = 3" },
        { "# 15 ft", "# 15 ft", "" },
        { "", "", "" },
    };
    struct reading r;
    reading_open(&r);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        size_t length;
        assert_true(reading_next(&r, rows[i].text, strlen(rows[i].text)));
        assert_string_equal(script_text(r.script, &length), rows[i].whole);
        assert_int_equal(length, strlen(rows[i].whole));
        const char *lua = script_lua(r.script, &length);
        assert_string_equal(lua, rows[i].lua);
        assert_int_equal(length, strlen(rows[i].lua));
        assert_true(reading_compiles(&r, lua, length));
    }
    reading_close(&r);
}

static void all_faults_of_a_text_are_told_in_order(void **state)
{
    (void)state;
    struct reading r;
    reading_open(&r);
    const char *text = "x = 5m\ny = { w = 3 fot, h = 1,000 }\nz = Nov 31\nv = 3 to 2\n"
                       "u = 15 ft = 3\nt = 5 ft 3 fot 6 in\n";
    static const struct {
        const char *id;
        unsigned line;
    } expected[] = {
        { "number-blank", 1 }, { "unit-unknown", 2 }, { "number-thousands", 2 },
        { "date-day", 3 },     { "range-order", 4 },  { "literal-runs-on", 5 },
        { "unit-unknown", 6 },
    };
    assert_false(reading_next(&r, text, strlen(text)));
    assert_int_equal(r.faults.count, sizeof expected / sizeof expected[0]);
    for (size_t i = 0; i < r.faults.count; i++) {
        assert_string_equal(r.faults.list[i].id, expected[i].id);
        assert_int_equal(source_place(r.host.sources, r.faults.list[i].at).line,
                         expected[i].line);
    }
    char many[64 * 8] = "";
    for (size_t i = 0; i < 64; i++)
        strcat(many, "x = 5m\n");
    assert_false(reading_next(&r, many, strlen(many)));
    assert_int_equal(r.faults.count, FAULTS_MOST);
    assert_int_equal(r.faults.more, 64 - FAULTS_MOST);
    reading_close(&r);
}

static void what_lua_cannot_read_on_from_is_left_to_lua(void **state)
{
    (void)state;
    struct reading r;
    reading_open(&r);
    const char *text = "x = 3 ft\ny = \"15 ft\nz = 5m\n";
    assert_true(reading_next(&r, text, strlen(text)));
    assert_string_equal(reading_lua(&r), "x = (__lit[1])\ny = \"15 ft\nz = 5m\n");
    reading_close(&r);
}

static void a_text_of_more_than_a_megabyte_is_refused(void **state)
{
    (void)state;
    struct reading r;
    reading_open(&r);
    char *text = malloc(SCRIPT_MOST + 1);
    memset(text, '\n', SCRIPT_MOST + 1);
    assert_true(reading_next(&r, text, SCRIPT_MOST));
    assert_false(reading_next(&r, text, SCRIPT_MOST + 1));
    assert_string_equal(r.faults.list[0].id, "file-size");
    free(text);
    reading_close(&r);
}

static void deep_nesting_is_told_in_words(void **state)
{
    (void)state;
    struct reading r;
    reading_open(&r);
    char text[1024];
    memset(text, '{', 300);
    strcpy(text + 300, "return 3 ft");
    assert_false(reading_next(&r, text, strlen(text)));
    assert_int_equal(r.faults.count, 1);
    assert_string_equal(r.faults.list[0].id, "nesting-deep");
    reading_close(&r);
}

struct ration {
    size_t left; /* allocations until one fails */
};

static void *allocate(void *with, void *block, size_t old, size_t size)
{
    struct ration *ration = with;
    (void)old;
    if (size == 0) {
        free(block);
        return NULL;
    }
    if (ration->left == 0)
        return NULL;
    ration->left--;
    return realloc(block, size);
}

static void running_out_of_memory_in_lua_is_a_fault(void **state)
{
    (void)state;
    struct reading r;
    reading_open(&r);
    lua_close(r.host.L);
    const char *text = "x = 15 ft y = 2 to 3 h z = Nov 15";
    bool fine = false;
    size_t failed = 0;
    for (size_t most = 0; !fine; most++) {
        struct ration ration = { .left = SIZE_MAX };
        r.host.L = lua_newstate(allocate, &ration);
        assert_non_null(r.host.L);
        ration.left = most;
        fine = reading_next(&r, text, strlen(text));
        if (!fine)
            assert_string_equal(r.faults.list[0].id, "memory");
        failed += !fine;
        ration.left = SIZE_MAX;
        assert_true(reading_next(&r, text, strlen(text)));
        lua_close(r.host.L);
    }
    assert_true(failed > 20);
    r.host.L = luaL_newstate();
    reading_close(&r);
}

static void a_measure_compared_with_a_bare_number_is_warned_of(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        unsigned column; /* of the measure; 0: no warning */
    } rows[] = {
        { "x = 15 ft == 15", 5 },
        { "x = 15 ~= 15 ft", 11 },
        { "x = (2 to 3 h == 2)", 6 },
        { "w = 15 ft if w == 3 then end", 14 },
        { "local w = 2 to 3 h; if 3 ~= w then end", 29 },
        { "local w <const> = 15 ft; return w == 3 and 4", 33 },
        { "function f() return w == 3 end w = 15 ft", 21 },
        { "w = 15 ft t = { w = 3 } t.w = 4 if w == 3 then end", 36 },
        { "x = 15 ft == 15 ft", 0 },
        { "x = 15 ft == w", 0 },
        { "x = 15 ft / w == 15", 0 },
        { "x = w / 15 ft == 15", 0 },
        { "x = 15 ft == 15 * w", 0 },
        { "x = 15 ft < 15", 0 },
        { "w = 15 ft w = 3 if w == 3 then end", 0 },
        { "w = 15 ft; a, w = 1, 2; if w == 3 then end", 0 },
        { "w = 15 ft; w, a = 1, 2; if w == 3 then end", 0 },
        { "w = 15 ft / 3 ft if w == 3 then end", 0 },
        { "w = 15 ft function f(w) return w == 3 end", 0 },
        { "w = 15 ft for w = 1, 3 do y = w == 3 end", 0 },
        { "w = 15 ft local w y = w == 3", 0 },
        { "w = 15 ft local function w() end y = w == 3", 0 },
        { "w = 15 ft if w.x == 3 then end", 0 },
        { "w = 15 ft if t.w == 3 then end", 0 },
        { "w = 15 ft if w(2) == 3 then end", 0 },
        { "w = 15 ft if #w == 3 then end", 0 },
        { "t = { w = 15 ft } if w == 3 then end", 0 },
        { "w = Oct 14 2026 if w == 3 then end", 0 },
        { "x = '15 ft == 15' y = 3 ft", 0 },
    };
    struct reading r;
    reading_open(&r);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if (!reading_next(&r, rows[i].text, strlen(rows[i].text)))
            fail_msg("%s: %s", rows[i].text, r.faults.list[0].message);
        if (r.host.warnings.count != (rows[i].column > 0))
            fail_msg("%s: %zu warnings", rows[i].text, r.host.warnings.count);
        if (rows[i].column == 0)
            continue;
        const struct fault *f = &r.host.warnings.list[0];
        assert_string_equal(f->id, "measure-equals-number");
        if (source_place(r.host.sources, f->at).column != rows[i].column)
            fail_msg("%s: at %u", rows[i].text,
                     source_place(r.host.sources, f->at).column);
    }
    reading_next(&r, "x = 15 ft == 15", 15);
    assert_string_equal(
        r.host.warnings.list[0].message,
        "`15 ft` is a measure and `15` a bare number: this `==` never holds");
    reading_close(&r);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(amounts_keep_the_unit_as_typed),
        cmocka_unit_test(dates_days_and_windows_are_read),
        cmocka_unit_test(
            lua_begins_behind_a_byte_order_mark_and_a_first_line_with_a_hash),
        cmocka_unit_test(all_faults_of_a_text_are_told_in_order),
        cmocka_unit_test(what_lua_cannot_read_on_from_is_left_to_lua),
        cmocka_unit_test(a_text_of_more_than_a_megabyte_is_refused),
        cmocka_unit_test(deep_nesting_is_told_in_words),
        cmocka_unit_test(running_out_of_memory_in_lua_is_a_fault),
        cmocka_unit_test(a_measure_compared_with_a_bare_number_is_warned_of),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
