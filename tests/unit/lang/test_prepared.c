/* Scripts read at build time are what reading them now would give; and which scripts end by
 * themselves. */
#include "literal_reading.h"

#include "lang/builtin.h"
#include "lang/prepared.h"

static void every_script_that_is_built_in_is_prepared(void **state)
{
    (void)state;
    size_t scripts = 0;
    for (size_t i = 0; i < builtin_count; i++) {
        const struct builtin *b = builtin_at(i);
        const struct prepared *p = prepared_find(b->name);
        assert_int_equal(p == NULL, b->bytecode);
        if (p)
            assert_string_equal(p->name, b->name);
        scripts += !b->bytecode;
    }
    assert_int_equal(scripts, prepared_count);
    assert_true(scripts > 5);
    assert_null(prepared_find("stdlib/none.rx"));
    assert_null(prepared_find(""));
}

static void same_literal(const struct literal *a, const struct literal *b)
{
    assert_int_equal(a->kind, b->kind);
    assert_int_equal(a->at.at, b->at.at);
    assert_int_equal(a->at.length, b->at.length);
    assert_true(a->low == b->low && a->value == b->value && a->high == b->high);
    assert_int_equal(a->unit.i, b->unit.i);
    assert_int_equal(a->around, b->around);
    assert_int_equal(a->date.day, b->date.day);
    assert_memory_equal(&a->day, &b->day, sizeof a->day);
    assert_memory_equal(&a->window, &b->window, sizeof a->window);
}

static void prepared_literals_are_those_of_the_text(void **state)
{
    (void)state;
    struct reading r;
    reading_open(&r);
    size_t literals = 0;
    for (size_t i = 0; i < prepared_count; i++) {
        const struct prepared *p = &prepared_list[i];
        const struct builtin *b = builtin_find(p->name);
        const char *text = (const char *)b->data;
        assert_true(reading_next(&r, text, b->length));
        assert_int_equal(r.host.warnings.count, 0);
        struct fault f = { 0 };
        struct script *s =
            script_of_prepared(r.source, text, b->length, p, r.host.units, &f);
        assert_non_null(s);
        assert_int_equal(script_literals(s), script_literals(r.script));
        for (size_t k = 0; k < script_literals(s); k++)
            same_literal(script_literal(s, k), script_literal(r.script, k));
        literals += script_literals(s);
        script_free(s);
    }
    assert_true(literals > 100);
    reading_close(&r);
}

/* Where a thing stands is found in the text, whichever way its literals came. */
static void places_are_found_in_a_prepared_script(void **state)
{
    (void)state;
    struct reading r;
    reading_open(&r);
    const struct builtin *b = builtin_find("prescriptions/sprout-cover.rx");
    const char *text = (const char *)b->data;
    assert_true(reading_next(&r, text, b->length));
    struct fault f = { 0 };
    struct script *s = script_of_prepared(r.source, text, b->length,
                                          prepared_find(b->name), r.host.units, &f);
    assert_non_null(s);
    for (uint32_t line = 1; line < 30; line++) {
        struct span here = script_call_at(s, r.host.sources, line, "prescription");
        struct span wanted =
            script_call_at(r.script, r.host.sources, line, "prescription");
        assert_memory_equal(&here, &wanted, sizeof here);
        struct span key = script_key_in_call(s, r.host.sources, here, "title");
        struct span wanted_key =
            script_key_in_call(r.script, r.host.sources, wanted, "title");
        assert_memory_equal(&key, &wanted_key, sizeof key);
        assert_int_not_equal(key.source, 0);
    }
    script_free(s);
    reading_close(&r);
}

static void a_unit_that_is_not_there_is_told(void **state)
{
    (void)state;
    static const struct prepared_literal literal = { .kind = LITERAL_MEASURE,
                                                     .length = 1,
                                                     .unit = "ells" };
    static const struct prepared p = { "t.rx", NULL, 0, &literal, 1 };
    struct units *units = units_new();
    struct fault f = { 0 };
    assert_null(script_of_prepared(1, "1", 1, &p, units, &f));
    assert_string_equal(f.id, "unit-unknown");
    units_free(units);
}

static void only_loops_and_functions_can_go_on_for_ever(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        bool may;
    } rows[] = {
        { "", false },
        { "cut { stand = 'for', width = 3 ft } -- while, function\n", false },
        { "if a then b() elseif c then d() else e() end do f() end return g\n", false },
        { "local s = [[ repeat until ]] t.format = 1 ::here::\n", false },
        { "while a do end", true },
        { "repeat a() until b", true },
        { "for i = 1, 2 do end", true },
        { "f(function() end)", true },
        { "local function f() return f() end", true },
        { "::here:: goto here", true },
    };
    struct reading r;
    reading_open(&r);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        assert_true(reading_next(&r, rows[i].text, strlen(rows[i].text)));
        if (script_may_loop(r.script, r.host.sources) != rows[i].may)
            fail_msg("wrong of: %s", rows[i].text);
    }
    reading_close(&r);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_script_that_is_built_in_is_prepared),
        cmocka_unit_test(prepared_literals_are_those_of_the_text),
        cmocka_unit_test(places_are_found_in_a_prepared_script),
        cmocka_unit_test(a_unit_that_is_not_there_is_told),
        cmocka_unit_test(only_loops_and_functions_can_go_on_for_ever),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
