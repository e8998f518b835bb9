/* Plain Lua comes through byte for byte; whatever the text, the pass and Lua agree about
 * it, and the time grows with the text alone. */
#include "literal_reading.h"

#include <stdio.h>
#include <time.h>

static const char *const samples[] = {
    "local t = { 1, 2; x = 3, ['ft'] = 4, [5] = [[\n15 ft]] }\r\nreturn t.ft // 2\r\n",
    "for i = 1, 10 do if i % 2 == 0 then goto next end print(i) ::next:: end",
    "local s <const> = 'a\\'15 ft' .. \"b\\\"2 to 3\" .. [=[ ]] 15 ft ]=]",
    "--[==[ 15 ft\n]] ]=] Nov 15 ]==]\nreturn 1 -- 2 to 3 h",
    "return 0xA, 0Xa.8P-1, 3e-2, .5, 5., 1e+1, 0x.1, 3 .. 4, 7 // 2, ~5 ~ 6, 1 << 2 >> 3",
    "local function f(...) local a, b = ... return a and b or not a, #{...}, -a ^ 2 end",
    "return function(ft, in_) return ft.m.h:d(ft)[ft]{ft}'ft' end, {ft = 3, m = 4}",
    "x = 1 ft = 2 m = { 3 } h = 4; d = 5",
    "#!/usr/bin/lua 15 ft\nreturn 3",
    "\xEF\xBB\xBFreturn { '\\z\n   15 ft', 'a\\\r\n15 ft', '\\\\' }",
    "a\n.b\n:c\n()\n[1]\n= 2",
    "",
    "\n\n\r\n\r",
};

static void unchanged(struct reading *r, const char *text, size_t length)
{
    size_t out_length;
    if (!reading_next(r, text, length))
        fail_msg("%s: %.60s", r->faults.list[0].message, text);
    assert_int_equal(script_literals(r->script), 0);
    const char *out = script_text(r->script, &out_length);
    assert_int_equal(out_length, length);
    assert_memory_equal(out, text, length);
}

static void plain_lua_comes_through_byte_for_byte(void **state)
{
    (void)state;
    struct reading r;
    reading_open(&r);
    for (size_t i = 0; i < sizeof samples / sizeof samples[0]; i++) {
        /* `x = 1 ft = 2` is the form that was given up */
        if (strncmp(samples[i], "x = 1 ft", 8) != 0)
            unchanged(&r, samples[i], strlen(samples[i]));
        else
            assert_false(reading_next(&r, samples[i], strlen(samples[i])));
    }
    reading_close(&r);
}

/* The project's own Lua, which is not written for this test. */
static void the_vocabulary_comes_through_byte_for_byte(void **state)
{
    (void)state;
    static const char *const files[] = { "src/embed.lua",     "src/lang/literals.lua",
                                         "tests/run.lua",     "tests/rooms.lua",
                                         "stdlib/schema.lua", "stdlib/kinds.lua" };
    struct reading r;
    reading_open(&r);
    size_t read = 0;
    for (size_t i = 0; i < sizeof files / sizeof files[0]; i++) {
        static char text[SCRIPT_MOST];
        FILE *file = fopen(files[i], "rb");
        if (!file)
            continue;
        size_t length = fread(text, 1, sizeof text, file);
        fclose(file);
        unchanged(&r, text, length);
        read++;
    }
    assert_true(read > 0);
    reading_close(&r);
}

#define COUNT(array) (sizeof(array) / sizeof(array)[0])

struct soup {
    char text[512];
    size_t length;
};

static void pour(struct soup *s, uint64_t *seed, const char *const *words, size_t count,
                 size_t most)
{
    static const char *const gaps[] = {
        " ", " ", " ", "\n", "", "\t", " --[[c]] ", "\r\n"
    };
    static const char *const starts[] = { "x = ", "x = {", "f(", "return ", "" };
    size_t parts = 1 + reading_random(seed, (uint32_t)most);
    s->length =
        (size_t)sprintf(s->text, "%s", starts[reading_random(seed, COUNT(starts))]);
    for (size_t i = 0; i < parts && s->length < 400; i++)
        s->length += (size_t)sprintf(s->text + s->length, "%s%s",
                                     words[reading_random(seed, (uint32_t)count)],
                                     gaps[reading_random(seed, COUNT(gaps))]);
}

/* Without units and months: what the pass refuses, Lua refuses; and only texts that Lua
 * refuses have ranges. */
static void what_is_refused_is_no_lua(void **state)
{
    (void)state;
    static const char *const words[] = {
        "x",           "=",        "x = ",      "3",     "4",          "10",
        "to",          "to",       "foo",       "(",     ")",          "}",
        ",",           "-",        "3 to",      ";",     "..",         ".y",
        "[1]",         "\"s\"",    "for i = 1", "do",    "end",        "local",
        "function(a)", "return",   "if",        "then",  "==",         "0x1",
        "1e2",         "not",      "around",    "5x",    "3 to 4",     "2 to 3",
        "3 to = 4",    "3 foo(2)", "3 foo = 4", "3 foo", "around 2.5", "}",
        ")",           "= {",      "+",
    };
    struct reading r;
    reading_open(&r);
    uint64_t seed = 20261014;
    size_t compiled = 0, ranges = 0, refused = 0;
    for (int i = 0; i < 60000; i++) {
        struct soup s;
        pour(&s, &seed, words, COUNT(words), 5);
        bool lua = reading_compiles(&r, s.text, s.length);
        bool fine = reading_next(&r, s.text, s.length);
        compiled += lua;
        refused += !fine;
        if (lua && !fine)
            fail_msg("refused (%s): %s", r.faults.list[0].message, s.text);
        if (!fine || script_literals(r.script) == 0)
            continue;
        ranges++;
        if (lua)
            fail_msg("Lua had this already: %s", s.text);
    }
    assert_true(compiled > 1000 && ranges > 200 && refused > 2000);
    reading_close(&r);
}

/* With units and months: a literal does in its place what a number would. `;` behind it
 * is the one difference: a number there would be a fault. */
static void a_literal_is_an_operand_like_a_number(void **state)
{
    (void)state;
    static const char *const words[] = {
        "x",           "x =",   "y =",   "3 ft",  "4 ac",        "2 to 3 h", "Nov 15",
        "Oct 14 2026", "12 in", "3 ft",  "(",     ")",           ")",        "}",
        "}",           ",",     "-",     ";",     "..",          ".y",       "[1]",
        "\"s\"",       "do",    "end",   "local", "function(a)", "return",   "if",
        "then",        "==",    "+",     "not",   "f",           "(f)(x)",   ":m()",
        "5 min",       "3",     "while", "else",  "nil",         "or",
    };
    struct reading r;
    reading_open(&r);
    uint64_t seed = 19000101;
    size_t compiled = 0;
    for (int i = 0; i < 60000; i++) {
        struct soup s;
        pour(&s, &seed, words, COUNT(words), 5);
        if (!reading_next(&r, s.text, s.length) || script_literals(r.script) == 0)
            continue;
        char numbers[sizeof s.text];
        memcpy(numbers, s.text, s.length + 1);
        for (size_t n = 0; n < script_literals(r.script); n++) {
            struct span at = script_literal(r.script, n)->at;
            memset(numbers + at.at, ' ', at.length);
            numbers[at.at] = '0';
        }
        size_t length;
        const char *lua = script_lua(r.script, &length);
        bool ours = reading_compiles(&r, lua, length);
        bool theirs = reading_compiles(&r, numbers, s.length);
        compiled += ours;
        if (ours != theirs && !strstr(lua, ");"))
            fail_msg("%d and %d: %s", ours, theirs, s.text);
        if (theirs && !ours)
            fail_msg("Lua refuses what was made of: %s", s.text);
    }
    assert_true(compiled > 1000);
    reading_close(&r);
}

static double seconds(struct reading *r, const char *text, size_t length)
{
    clock_t start = clock();
    reading_next(r, text, length);
    return (double)(clock() - start) / CLOCKS_PER_SEC;
}

/* Four times the text in well under sixteen times the time; a busy machine gets more
 * tries. */
static bool is_linear(struct reading *r, const char *text, size_t length)
{
    for (int tries = 0; tries < 4; tries++) {
        double quarter = seconds(r, text, length / 4);
        if (seconds(r, text, length) < 8 * quarter + 0.01)
            return true;
    }
    return false;
}

static void the_time_grows_with_the_text_alone(void **state)
{
    (void)state;
    static const char *const parts[] = {
        "(",
        "1",
        "x = 1 + ",
        "x = \"15 ft\n",
        "\"",
        "\"\\\"",
        "[[",
        "[=",
        "[=[",
        "]=",
        "--[[",
        "--[==",
        "]]",
        "1,222,",
        "1,222",
        ",222",
        "3 ft ",
        "3 ft, ",
        "3 ft\n",
        "1 to ",
        "2 to 3 ",
        "2 to 3 around ",
        "Nov 15 ",
        "Nov 15 to ",
        "Nov ",
        "to ",
        "3 foo ",
        "{3 foo, ",
        "x = 3 foo y = 4 ",
        "local d = 3 h/d ",
        "local d, ac, ft, h = 3 ",
        "3 h/",
        "ft/",
        "3..",
        "3 ft --[[x]] ",
        "__lit ",
        "w == 3 ",
        "w = 3 ft w == 3 ",
        "do ",
        "function(d) ",
        "repeat until ",
        " ",
        "\n",
        "\\",
        "\xC3\xA9",
        "3 ft;(f)\n",
        "3 m\n(f)\n",
        "0x",
        "1e",
    };
    struct reading r;
    reading_open(&r);
    enum { SIZE = 1 << 16 };
    char *text = malloc(SIZE + 64);
    for (size_t i = 0; i < COUNT(parts); i++) {
        size_t size = strlen(parts[i]);
        for (size_t at = 0; at < SIZE; at += size)
            memcpy(text + at, parts[i], size);
        if (!is_linear(&r, text, SIZE))
            fail_msg("much more time for more of: %s", parts[i]);
    }
    free(text);
    reading_close(&r);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(plain_lua_comes_through_byte_for_byte),
        cmocka_unit_test(the_vocabulary_comes_through_byte_for_byte),
        cmocka_unit_test(what_is_refused_is_no_lua),
        cmocka_unit_test(a_literal_is_an_operand_like_a_number),
        cmocka_unit_test(the_time_grows_with_the_text_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
