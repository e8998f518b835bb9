/* Texts with literals and the Lua made of them, and what was read of each literal. */
#include "literal_reading.h"

struct row {
    const char *text;
    const char *lua; /* without the first names; NULL: the text itself */
};

static void rewrites(const struct row *rows, size_t count)
{
    struct reading r;
    reading_open(&r);
    for (size_t i = 0; i < count; i++) {
        if (!reading_next(&r, rows[i].text, strlen(rows[i].text)))
            fail_msg("%s: %s", rows[i].text, r.faults.list[0].message);
        size_t length;
        const char *lua = script_lua(r.script, &length);
        assert_string_equal(reading_lua(&r), rows[i].lua ? rows[i].lua : rows[i].text);
        if (!reading_compiles(&r, lua, length))
            fail_msg("Lua refuses: %s", lua);
    }
    reading_close(&r);
}

static void measures_become_operands(void **state)
{
    (void)state;
    static const struct row rows[] = {
        { "width = 15 ft", "width = (__lit[1])" },
        { "x = {15 ft, 3.4 ac; 80 ft2/ac}", "x = {(__lit[1]), (__lit[2]); (__lit[3])}" },
        { "x = 45 USD/h + 60 percent * 12 in",
          "x = (__lit[1]) + (__lit[2]) * (__lit[3])" },
        { "return 3 m", "return (__lit[1])" },
        { "return 3 m\n, 4", "return (__lit[1])\n, 4" },
        { "x = 3 m\n(f)(x)", "x = (__lit[1]);\n(f)(x)" },
        { "x = 3 m -- why\n\n--[[ long\n]] (f)(x)",
          "x = (__lit[1]); -- why\n\n--[[ long\n]] (f)(x)" },
        { "if y then x = 3 m\n(f)(x) end", "if y then x = (__lit[1]);\n(f)(x) end" },
        { "x = f(function() local y = 3 m\n(g)() end)",
          "x = f(function() local y = (__lit[1]);\n(g)() end)" },
        { "x = 0x1p4 ft + 0xd m + 1e3 ft + .5 ac + 5. ac",
          "x = (__lit[1]) + (__lit[2]) + (__lit[3]) + (__lit[4]) + (__lit[5])" },
        { "x = {4 fl oz, 12 board ft, 3 gal/ac}",
          "x = {(__lit[1]), (__lit[2]), (__lit[3])}" },
        { "x = 3\tft", "x = (__lit[1])" },
        { "x = -15 ft", "x = -(__lit[1])" },
        { "x = a .. 15 ft", "x = a .. (__lit[1])" },
        { "x = a ..15 ft", "x = a ..(__lit[1])" },
        { "x = 15 ft == 15 ft", "x = (__lit[1]) == (__lit[2])" },
        { "if x > 15 ft then y() end", "if x > (__lit[1]) then y() end" },
        { "if not 3 ft or 4 ft and 5 ft then end",
          "if not (__lit[1]) or (__lit[2]) and (__lit[3]) then end" },
        { "while 3 h do end", "while (__lit[1]) do end" },
        { "x = 15 ft::here::", "x = (__lit[1])::here::" },
        { "x = 15 ft; (f)(x)", "x = (__lit[1]); (f)(x)" },
        { "x = 15 ft y = 3", "x = (__lit[1]) y = 3" },
        { "t[15 ft] = 3 ac", "t[(__lit[1])] = (__lit[2])" },
        { "x = 3 ft .. \"s\"", "x = (__lit[1]) .. \"s\"" },
        { "x = 3 ft / d", "x = (__lit[1]) / d" },
        { "x = 3 ft/2", "x = (__lit[1])/2" },
        { "x = 3 ft/(d)", "x = (__lit[1])/(d)" },
        { "x = 3 ft/width", "x = (__lit[1])/width" },
        { "x = 3 ft, y, 4", "x = (__lit[1]), y, 4" },
        { "local x <const> = 3 ft", "local x <const> = (__lit[1])" },
        { "x = 3 --[[c]] ft = 4", NULL },
        { "x = 12 in", "x = (__lit[1])" },
        { "for i = 1, 3 do x = 12 in end", "for i = 1, 3 do x = (__lit[1]) end" },
        { "x = { [[ft]], 15 ft }", "x = { [[ft]], (__lit[1]) }" },
        { "f(15 ft)(16 ft)", "f((__lit[1]))((__lit[2]))" },
        { "x = 15 ft--note", "x = (__lit[1])--note" },
        { "x = 15 ft // 2", "x = (__lit[1]) // 2" },
        { "x = 1200 ft + {1,200 }", "x = (__lit[1]) + {1,200 }" },
    };
    rewrites(rows, sizeof rows / sizeof rows[0]);
}

static void a_local_is_seen_where_lua_sees_it(void **state)
{
    (void)state;
    static const struct row rows[] = {
        { "local d = 10 h/d", "local d = (__lit[1])" },
        { "local d = 10 h + 3 h/d", "local d = (__lit[1]) + (__lit[2])" },
        { "local d = function() return 3 h/d end",
          "local d = function() return (__lit[1]) end" },
        { "do local d = 3 end x = 3 h/d", "do local d = 3 end x = (__lit[1])" },
        { "if y then local d = 3 else x = 3 h/d end",
          "if y then local d = 3 else x = (__lit[1]) end" },
        { "repeat local d = 3 until d x = 3 h/d",
          "repeat local d = 3 until d x = (__lit[1])" },
        { "for d = 3 h/d, 4 do end x = 3 h/d",
          "for d = (__lit[1]), 4 do end x = (__lit[2])" },
        { "for k, d in f(3 h/d) do end", "for k, d in f((__lit[1])) do end" },
        { "function f(d) end x = 3 h/d", "function f(d) end x = (__lit[1])" },
        { "function d() end x = 3 h/d", "function d() end x = (__lit[1])" },
        { "d = 4 x = 3 h/d", "d = 4 x = (__lit[1])" },
        { "local t = { d = 3 } x = 3 h/d", "local t = { d = 3 } x = (__lit[1])" },
        { "local d = 3 x = 3 d + 4 h / d",
          "local d = 3 x = (__lit[1]) + (__lit[2]) / d" },
        { "while x do local d = 3 break end x = 3 h/d",
          "while x do local d = 3 break end x = (__lit[1])" },
        { "local a <close>, b = 3 h/d", "local a <close>, b = (__lit[1])" },
    };
    rewrites(rows, sizeof rows / sizeof rows[0]);
}

static void ranges_become_new_quantities(void **state)
{
    (void)state;
    static const struct row rows[] = {
        { "x = 2 to 3", "x = (__each(1))" },
        { "x = {2 to 3 h, 40 to 60 ft, .5 to 1.5 percent}",
          "x = {(__each(1)), (__each(2)), (__each(3))}" },
        { "x = 2 to 3 h around 2.2", "x = (__each(1))" },
        { "x = 2 to 3 h around 2.2 h", "x = (__each(1))" },
        { "x = 2 to 3 around = 4", "x = (__each(1)) around = 4" },
        { "x = 2 h to 3 h", "x = (__each(1))" },
        { "x = 30 in to 4 ft", "x = (__each(1))" },
        { "x = 2 to 3 in", "x = (__each(1))" },
        { "x = 1 in to 2 in", "x = (__each(1))" },
        { "x = 2  to\t3  h", "x = (__each(1))" },
        { "x = 3 to = 4", NULL },
        { "x = 3 to(n)", NULL },
        { "x = 3 to, y = 4, 5", NULL },
        { "x = 3 ft to = 4", "x = (__lit[1]) to = 4" },
        { "to = 3 x = to y = to or 3", NULL },
        { "x = t.to + to * 3", NULL },
        { "goto to ::to::", NULL },
        { "x = y + 2 to 3 h", "x = y + (__each(1))" },
        { "x = 2 to 3 h * 4", "x = (__each(1)) * 4" },
        { "x = (2 to 3) * 4", "x = ((__each(1))) * 4" },
        { "x = -(2 to 3)", "x = -((__each(1)))" },
        { "x = 2 to 3 h\n(f)(x)", "x = (__each(1));\n(f)(x)" },
        { "for i = 1, 10 do local r = 2 to 3 end",
          "for i = 1, 10 do local r = (__each(1)) end" },
        { "for i = f(2 to 3), 4 do end", "for i = f((__each(1))), 4 do end" },
        { "x = 2 to 3 y = 4", "x = (__each(1)) y = 4" },
        { "x = 1e1 to 0x10 ft", "x = (__each(1))" },
    };
    rewrites(rows, sizeof rows / sizeof rows[0]);
}

static void dates_and_windows_become_operands(void **state)
{
    (void)state;
    static const struct row rows[] = {
        { "x = Oct 14 2026", "x = (__lit[1])" },
        { "x = {October 14 2026, Nov 15, Nov 15 to Mar 31}",
          "x = {(__lit[1]), (__lit[2]), (__lit[3])}" },
        { "x = Feb 29", "x = (__lit[1])" },
        { "x = Nov 15 to Nov 10", "x = (__lit[1])" },
        { "x = Nov 15 to Nov 15", "x = (__lit[1])" },
        { "x = {Nov 15, 3}", "x = {(__lit[1]), 3}" },
        { "x = {Nov 15, 2026 ft}", "x = {(__lit[1]), (__lit[2])}" },
        { "x = {Nov 15, 2000 to 3000}", "x = {(__lit[1]), (__each(2))}" },
        { "x = {Nov 15, 1899}", "x = {(__lit[1]), 1899}" },
        { "x = Nov 15\n(f)(x)", "x = (__lit[1]);\n(f)(x)" },
        { "x = Nov 15 to = 3", "x = (__lit[1]) to = 3" },
        { "x = a .. Nov 15", "x = a .. (__lit[1])" },
        { "local Nov = 3 x = Nov", NULL },
        { "Nov = 3 May(2)", NULL },
        { "x = t.Nov y = t.May", NULL },
        { "x = 3 May(2)", NULL },
        { "x = 3 May.y = 4", NULL },
        { "goto May ::May::", NULL },
        { "::May:: x = 3", NULL },
        { "local May <const> = 3", NULL },
        { "x = Nov\nx = 15", NULL },
        { "x = t:May()", NULL },
        { "x = May 1 - Apr 1", "x = (__lit[1]) - (__lit[2])" },
        { "x = May 08", "x = (__lit[1])" },
    };
    rewrites(rows, sizeof rows / sizeof rows[0]);
}

static void plain_lua_is_left_alone(void **state)
{
    (void)state;
    static const struct row rows[] = {
        { "x = 3 foo = 4", NULL },
        { "x = 3 foo(2)", NULL },
        { "x = 3 foo.y = 4", NULL },
        { "x = 3 foo[1] = 4", NULL },
        { "x = 3 foo:m()", NULL },
        { "x = 3 foo \"s\"", NULL },
        { "x = 3 foo {}", NULL },
        { "x = 3 foo, y = 1, 2", NULL },
        { "x = 3 foo\n= 4", NULL },
        { "x = 10 do y() end", NULL },
        { "x = 3 or 4 and 5", NULL },
        { "if x == 3 then y() elseif 3 then end", NULL },
        { "x = t.ft + t . ft + t['ft']", NULL },
        { "x = {1,200}", NULL },
        { "x = {1, 200, 300,400 }", NULL },
        { "x = {100,200,300, 4}", NULL },
        { "x = {0,050}", NULL },
        { "x = {1000,000}", NULL },
        { "x = {1,0000}", NULL },
        { "x = 7 // 2 y = 7//2", NULL },
        { "x = a[b[1]] y = [==[ 15 ft ]=] ]==]", NULL },
        { "x = \"15 ft\" .. '2 to 3' -- 15 ft", NULL },
        { "--[==[ 15 ft\n ]] 2 to 3 ]==] x = 3", NULL },
        { "x = \"a\\\"15 ft\\\n15 ft\" y = 'z\\z\n  15 ft'", NULL },
        { "x = ... y = {...}", NULL },
        { "goto done ::done::", NULL },
        { "local a <const>, b <close> = 1", NULL },
        { "x = 3 ~= 4", NULL },
        { "x = ~3 ~ 4", NULL },
        { "x = 0x.8p1 + 0xA.", NULL },
        { "x = 3 .. 4", NULL },
        { "x = 1 --[[ ]] ft = 3", NULL },
    };
    rewrites(rows, sizeof rows / sizeof rows[0]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(measures_become_operands),
        cmocka_unit_test(a_local_is_seen_where_lua_sees_it),
        cmocka_unit_test(ranges_become_new_quantities),
        cmocka_unit_test(dates_and_windows_become_operands),
        cmocka_unit_test(plain_lua_is_left_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
