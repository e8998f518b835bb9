/* Texts in which a number with a unit, or what looks like one, is refused in words: the
 * id, the place, the message and the mend of each. */
#include "literal_reading.h"

static void two_statements_on_one_line_are_refused(void **state)
{
    (void)state;
    static const struct refused_row rows[] = {
        { "x = 15 ft = 3", "literal-runs-on", 1, 5,
          "`15 ft` is a measure, and `=` cannot follow it",
          "put `;` or a line break where the next statement begins" },
        { "x = 5 min(3)", "literal-runs-on", 1, 5,
          "`5 min` is a measure, and `(` cannot follow it",
          "put `;` or a line break where the next statement begins" },
        { "x = 3 m.y = 1", "literal-runs-on", 1, 5,
          "`3 m` is a measure, and `.` cannot follow it",
          "put `;` or a line break where the next statement begins" },
        { "x = 3 m[1] = 2", "literal-runs-on", 1, 5,
          "`3 m` is a measure, and `[` cannot follow it",
          "put `;` or a line break where the next statement begins" },
        { "x = 3 m:f()", "literal-runs-on", 1, 5,
          "`3 m` is a measure, and `:` cannot follow it",
          "put `;` or a line break where the next statement begins" },
        { "x = 3 m \"s\"", "literal-runs-on", 1, 5,
          "`3 m` is a measure, and `\"` cannot follow it",
          "put `;` or a line break where the next statement begins" },
        { "x = 3 m [[s]]", "literal-runs-on", 1, 5,
          "`3 m` is a measure, and `[` cannot follow it",
          "put `;` or a line break where the next statement begins" },
        { "x = 3 m {}", "literal-runs-on", 1, 5,
          "`3 m` is a measure, and `{` cannot follow it",
          "put `;` or a line break where the next statement begins" },
        { "x = 3 ft--[[ ]] = 3", "literal-runs-on", 1, 5,
          "`3 ft` is a measure, and `=` cannot follow it",
          "put `;` or a line break where the next statement begins" },
        { "x = 3 m\n= 2", "literal-runs-on", 1, 5,
          "`3 m` is a measure, and `=` cannot follow it",
          "put `;` or a line break where the next statement begins" },
        { "x = 3 m\n.y = 2", "literal-runs-on", 1, 5,
          "`3 m` is a measure, and `.` cannot follow it",
          "put `;` or a line break where the next statement begins" },
        { "x = 3 m\n\"s\"", "literal-runs-on", 1, 5,
          "`3 m` is a measure, and `\"` cannot follow it",
          "put `;` or a line break where the next statement begins" },
        { "x = 2 to 3 h (f)()", "literal-runs-on", 1, 5,
          "`2 to 3 h` is a range, and `(` cannot follow it",
          "put `;` or a line break where the next statement begins" },
        { "x = Nov 15 (3)", "literal-runs-on", 1, 5,
          "`Nov 15` is a day of the year, and `(` cannot follow it",
          "put `;` or a line break where the next statement begins" },
        { "x = Nov 15 \"s\"", "literal-runs-on", 1, 5,
          "`Nov 15` is a day of the year, and `\"` cannot follow it",
          "put `;` or a line break where the next statement begins" },
        { "x = Nov 15 = 3", "literal-runs-on", 1, 5,
          "`Nov 15` is a day of the year, and `=` cannot follow it",
          "put `;` or a line break where the next statement begins" },
        { "x = Oct 14 2026 { 3 }", "literal-runs-on", 1, 5,
          "`Oct 14 2026` is a date, and `{` cannot follow it",
          "put `;` or a line break where the next statement begins" },
        { "x = {15 ft = 3}", "literal-runs-on", 1, 6,
          "`15 ft` is a measure, and `=` cannot follow it",
          "put a comma or a name before `=`" },
    };
    reading_refuses(rows, sizeof rows / sizeof rows[0]);
}

static void a_missing_comma_is_named(void **state)
{
    (void)state;
    static const struct refused_row rows[] = {
        { "x = {3 m {}}", "comma-missing", 1, 6, "a comma is missing after `3 m`",
          "`3 m,`" },
        { "x = {3 m\n{}}", "comma-missing", 1, 6, "a comma is missing after `3 m`",
          "`3 m,`" },
        { "x = f(3 m\n(f)(x))", "comma-missing", 1, 7, "a comma is missing after `3 m`",
          "`3 m,`" },
        { "x = f(2 to 3 h (4))", "comma-missing", 1, 7,
          "a comma is missing after `2 to 3 h`", "`2 to 3 h,`" },
        { "x = {w = 3 height = 4}", "comma-missing", 1, 10,
          "a comma is missing between `3` and `height`", "`3,`" },
        { "x = {3 to = 4}", "comma-missing", 1, 6,
          "a comma is missing between `3` and `to`", "`3,`" },
        { "x = f(function() y = 3 m (g)() end)", "literal-runs-on", 1, 22,
          "`3 m` is a measure, and `(` cannot follow it",
          "put `;` or a line break where the next statement begins" },
    };
    reading_refuses(rows, sizeof rows / sizeof rows[0]);
}

static void a_compound_unit_and_a_local_of_its_name_are_refused(void **state)
{
    (void)state;
    static const struct refused_row rows[] = {
        { "local d = 3 x = 10 h/d", "unit-or-local", 1, 17,
          "`d` is a unit and a variable here",
          "`(10 h)/d` to divide by the variable, else give it another name" },
        { "local d <const> = 3; x = 10 h/d", "unit-or-local", 1, 26,
          "`d` is a unit and a variable here",
          "`(10 h)/d` to divide by the variable, else give it another name" },
        { "local h, ac = 1, 2 x = 3 stems/ac", "unit-or-local", 1, 24,
          "`ac` is a unit and a variable here",
          "`(3 stems)/ac` to divide by the variable, else give it another name" },
        { "local function d() return 3 h/d end", "unit-or-local", 1, 27,
          "`d` is a unit and a variable here",
          "`(3 h)/d` to divide by the variable, else give it another name" },
        { "function f(d) return 3 h/d end", "unit-or-local", 1, 22,
          "`d` is a unit and a variable here",
          "`(3 h)/d` to divide by the variable, else give it another name" },
        { "function f(a, d, ...) return 3 h/d end", "unit-or-local", 1, 30,
          "`d` is a unit and a variable here",
          "`(3 h)/d` to divide by the variable, else give it another name" },
        { "for d = 1, 3 do x = 3 h/d end", "unit-or-local", 1, 21,
          "`d` is a unit and a variable here",
          "`(3 h)/d` to divide by the variable, else give it another name" },
        { "for k, d in pairs(t) do x = 3 h/d end", "unit-or-local", 1, 29,
          "`d` is a unit and a variable here",
          "`(3 h)/d` to divide by the variable, else give it another name" },
        { "repeat local d = 3 until 3 h/d", "unit-or-local", 1, 26,
          "`d` is a unit and a variable here",
          "`(3 h)/d` to divide by the variable, else give it another name" },
        { "do local d = 3 if y then f(function() return {3 h/d} end) end end",
          "unit-or-local", 1, 47, "`d` is a unit and a variable here",
          "`(3 h)/d` to divide by the variable, else give it another name" },
        { "local d = 3 x = 2 to 3 h/d", "unit-or-local", 1, 22,
          "`d` is a unit and a variable here",
          "`(3 h)/d` to divide by the variable, else give it another name" },
        { "x = 3 ft^2", "unit-power", 1, 5,
          "`3 ft^2` would be the power of all of `3 ft`",
          "`3 ft2` for the unit, `(3 ft)^2` for the power" },
        { "x = 2 to 3 ft^2", "unit-power", 1, 10,
          "`3 ft^2` would be the power of all of `3 ft`",
          "`3 ft2` for the unit, `(3 ft)^2` for the power" },
    };
    reading_refuses(rows, sizeof rows / sizeof rows[0]);
}

static void numbers_that_lua_refuses_are_mended_in_words(void **state)
{
    (void)state;
    static const struct refused_row rows[] = {
        { "x = 3d", "number-blank", 1, 5,
          "a blank is wanted between a number and its unit", "`3 d`" },
        { "x = 5m", "number-blank", 1, 5,
          "a blank is wanted between a number and its unit", "`5 m`" },
        { "x = 5min", "number-blank", 1, 5,
          "a blank is wanted between a number and its unit", "`5 min`" },
        { "x = 5mim", "number-malformed", 1, 5, "`5mim` is not a number",
          "put a blank between the number and what follows it" },
        { "x = 1_000", "number-thousands", 1, 5,
          "a number is written without marks at the thousands", "`1000`" },
        { "x = 1_000_000 ft", "number-thousands", 1, 5,
          "a number is written without marks at the thousands", "`1000000`" },
        { "x = 1,000", "number-thousands", 1, 5,
          "a number is written without marks at the thousands",
          "`1000`, or a blank behind the comma where two numbers are meant" },
        { "x = 12,000,000", "number-thousands", 1, 5,
          "a number is written without marks at the thousands",
          "`12000000`, or a blank behind the comma where two numbers are meant" },
        { "x = {1,200 ft}", "number-thousands", 1, 6,
          "a number is written without marks at the thousands",
          "`1200`, or a blank behind the comma where two numbers are meant" },
        { "x = {1,200.5 ft}", "number-thousands", 1, 6,
          "a number is written without marks at the thousands",
          "`1200.5`, or a blank behind the comma where two numbers are meant" },
        { "x = 40 to 1,200 ft", "number-thousands", 1, 11,
          "a number is written without marks at the thousands",
          "`1200`, or a blank behind the comma where two numbers are meant" },
        { "x = 1,500 to 2 ft", "number-thousands", 1, 5,
          "a number is written without marks at the thousands",
          "`1500`, or a blank behind the comma where two numbers are meant" },
        { "x = 3..4", "number-malformed", 1, 5, "`3..4` is not a number",
          "to join texts with `..`, put blanks around it" },
        { "x = 3.4.5", "number-malformed", 1, 5, "`3.4.5` is not a number", "" },
        { "x = 0x", "number-malformed", 1, 5, "`0x` is not a number",
          "put a blank between the number and what follows it" },
        { "x = 0xft", "number-malformed", 1, 5, "`0xft` is not a number",
          "put a blank between the number and what follows it" },
        { "x = 1e", "number-malformed", 1, 5, "`1e` is not a number",
          "put a blank between the number and what follows it" },
        { "x = 1e400 ft", "number-size", 1, 5, "this number is too large to be a measure",
          "" },
        { "x = 0x1p9999 ft", "number-size", 1, 5,
          "this number is too large to be a measure", "" },
    };
    reading_refuses(rows, sizeof rows / sizeof rows[0]);
}

static void an_unknown_unit_is_told_where_lua_would_refuse(void **state)
{
    (void)state;
    static const struct refused_row rows[] = {
        { "x = 3 fot", "unit-unknown", 1, 7, "`fot` is not a unit",
          "did you mean `foot`?" },
        { "x = 3 acr + 4", "unit-unknown", 1, 7, "`acr` is not a unit",
          "did you mean `ac`?" },
        { "x = {w = 3 fot, h = 4}", "unit-unknown", 1, 12, "`fot` is not a unit",
          "did you mean `foot`?" },
        { "x = f(3 fot, 4)", "unit-unknown", 1, 9, "`fot` is not a unit",
          "did you mean `foot`?" },
        { "x = t[3 fot]", "unit-unknown", 1, 9, "`fot` is not a unit",
          "did you mean `foot`?" },
        { "x = {3 foo(2)}", "unit-unknown", 1, 8, "`foo` is not a unit",
          "did you mean `foot`?" },
        { "if x > 3 fot then end", "unit-unknown", 1, 10, "`fot` is not a unit",
          "did you mean `foot`?" },
        { "return 3 fot", "unit-unknown", 1, 10, "`fot` is not a unit",
          "did you mean `foot`?" },
        { "x = 3 fot\ny = 4", "unit-unknown", 1, 7, "`fot` is not a unit",
          "did you mean `foot`?" },
        { "x = 3 Ft", "unit-unknown", 1, 7, "`Ft` is not a unit",
          "did you mean `ft`?" },
        { "x = 3 ft2x", "unit-unknown", 1, 7, "`ft2x` is not a unit",
          "did you mean `ft`?" },
    };
    reading_refuses(rows, sizeof rows / sizeof rows[0]);
}

static void a_literal_where_no_operand_can_stand_is_refused(void **state)
{
    (void)state;
    static const struct refused_row rows[] = {
        { "x = 5 ft 6 in", "literal-place", 1, 10, "`5 ft` and `6 in` stand side by side",
          "`5 ft + 6 in`, or a comma between them" },
        { "x = y 15 ft", "literal-place", 1, 7,
          "nothing joins `15 ft` to what stands before it",
          "put a comma or an operator before it, or a name and `=`" },
        { "x = y\n15 ft", "literal-place", 2, 1,
          "nothing joins `15 ft` to what stands before it",
          "put a comma or an operator before it, or a name and `=`" },
        { "x = 3\n2 to 3 h", "literal-place", 2, 1,
          "nothing joins `2 to 3 h` to what stands before it",
          "put a comma or an operator before it, or a name and `=`" },
        { "x = f()\nNov 15", "literal-place", 2, 1,
          "nothing joins `Nov 15` to what stands before it",
          "put a comma or an operator before it, or a name and `=`" },
        { "x = \"s\" 15 ft", "literal-place", 1, 9,
          "nothing joins `15 ft` to what stands before it",
          "put a comma or an operator before it, or a name and `=`" },
        { "15 ft", "literal-place", 1, 1,
          "nothing joins `15 ft` to what stands before it",
          "put a comma or an operator before it, or a name and `=`" },
        { "do 15 ft end", "literal-place", 1, 4,
          "nothing joins `15 ft` to what stands before it",
          "put a comma or an operator before it, or a name and `=`" },
        { "x = t.3 ft", "literal-place", 1, 6,
          "nothing joins `.3 ft` to what stands before it",
          "put a comma or an operator before it, or a name and `=`" },
        { "local 15 ft", "literal-place", 1, 7,
          "nothing joins `15 ft` to what stands before it",
          "put a comma or an operator before it, or a name and `=`" },
        { "x = {Nov 15 Mar 31}", "literal-place", 1, 13,
          "`Nov 15` and `Mar 31` stand side by side", "put a comma between them" },
    };
    reading_refuses(rows, sizeof rows / sizeof rows[0]);
}

static void the_names_of_the_literals_are_kept(void **state)
{
    (void)state;
    static const struct refused_row rows[] = {
        { "x = __lit", "name-reserved", 1, 5,
          "the name `__lit` is kept for the measures of a script",
          "choose another name" },
        { "local __each = 3", "name-reserved", 1, 7,
          "the name `__each` is kept for the measures of a script",
          "choose another name" },
        { "x = t.__lit", "name-reserved", 1, 7,
          "the name `__lit` is kept for the measures of a script",
          "choose another name" },
    };
    reading_refuses(rows, sizeof rows / sizeof rows[0]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(two_statements_on_one_line_are_refused),
        cmocka_unit_test(a_missing_comma_is_named),
        cmocka_unit_test(a_compound_unit_and_a_local_of_its_name_are_refused),
        cmocka_unit_test(numbers_that_lua_refuses_are_mended_in_words),
        cmocka_unit_test(an_unknown_unit_is_told_where_lua_would_refuse),
        cmocka_unit_test(a_literal_where_no_operand_can_stand_is_refused),
        cmocka_unit_test(the_names_of_the_literals_are_kept),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
