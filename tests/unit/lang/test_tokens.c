/* Tokens end where Lua ends them: numerals by Lua's own word, strings and brackets by
 * samples, and the pattern of literals.lua by random text. */
#include "literal_reading.h"

#include <stdio.h>

#include <lua-lpeg.h>

#include "lang/builtin.h"
#include "lang/tokens.h"

static void kinds_and_ends_are_those_of_lua(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        enum token_kind kind;
        const char *token;
        unsigned line;
    } rows[] = {
        { " \t\r\n\n\r--x\nname9 = 3", TOKEN_NAME, "name9", 4 },
        { "until9", TOKEN_NAME, "until9", 1 },
        { "until 9", TOKEN_KEYWORD, "until", 1 },
        { "--[==[ ]]\n]=] ]==]x", TOKEN_NAME, "x", 2 },
        { "--[=x\ny", TOKEN_NAME, "y", 2 },
        { "--[[]]--[[\n]]--\n z", TOKEN_NAME, "z", 3 },
        { "\"a\\\"b\" c", TOKEN_STRING, "\"a\\\"b\"", 1 },
        { "'\\\\' c", TOKEN_STRING, "'\\\\'", 1 },
        { "'a\\\r\nb' c", TOKEN_STRING, "'a\\\r\nb'", 1 },
        { "'a\\z \n\n b' c", TOKEN_STRING, "'a\\z \n\n b'", 1 },
        { "[[a]b]] c", TOKEN_STRING, "[[a]b]]", 1 },
        { "[=[a]]]==]]=] c", TOKEN_STRING, "[=[a]]]==]]=]", 1 },
        { "[x", TOKEN_SYMBOL, "[", 1 },
        { "...5", TOKEN_SYMBOL, "...", 1 },
        { "..5", TOKEN_SYMBOL, "..", 1 },
        { ".5", TOKEN_NUMBER, ".5", 1 },
        { "a.5", TOKEN_NAME, "a", 1 },
        { "~==", TOKEN_SYMBOL, "~=", 1 },
        { ">>=", TOKEN_SYMBOL, ">>", 1 },
        { ":::", TOKEN_SYMBOL, "::", 1 },
        { "3..4 x", TOKEN_NUMBER, "3..4", 1 },
        { "0x1p-4+1", TOKEN_NUMBER, "0x1p-4", 1 },
        { "0x1e-4", TOKEN_NUMBER, "0x1e", 1 },
        { "1e-4-1", TOKEN_NUMBER, "1e-4", 1 },
        { "5min(", TOKEN_NUMBER, "5min", 1 },
        { "'a", TOKEN_BROKEN, "'a", 1 },
        { "'a\n'", TOKEN_BROKEN, "'a", 1 },
        { "'a\\", TOKEN_BROKEN, "'a\\", 1 },
        { "[[a]", TOKEN_BROKEN, "[[a]", 1 },
        { "[=a", TOKEN_BROKEN, "[", 1 },
        { "--[[ a", TOKEN_BROKEN, "--[[ a", 1 },
        { "  -- a", TOKEN_END, "", 1 },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct reader r = reader_at(rows[i].text, strlen(rows[i].text), 0, 1);
        struct token t = token_read(&r);
        if (t.kind != rows[i].kind || t.line != rows[i].line ||
            t.length != strlen(rows[i].token) ||
            memcmp(rows[i].text + t.at, rows[i].token, t.length) != 0)
            fail_msg("%s: kind %d, line %u, %.*s", rows[i].text, t.kind, t.line,
                     (int)t.length, rows[i].text + t.at);
    }
}

static void keywords_are_the_22_of_lua(void **state)
{
    (void)state;
    static const char *const words[] = {
        "and",      "break",  "do",   "else", "elseif", "end",   "false", "for",
        "function", "goto",   "if",   "in",   "local",  "nil",   "not",   "or",
        "repeat",   "return", "then", "true", "until",  "while",
    };
    for (size_t i = 0; i < 22; i++)
        assert_int_equal(keyword_read(words[i], strlen(words[i])), KEYWORD_AND + (int)i);
    assert_int_equal(keyword_read("ands", 4), KEYWORD_NONE);
    assert_int_equal(keyword_read("en", 2), KEYWORD_NONE);
    assert_int_equal(keyword_read("Do", 2), KEYWORD_NONE);
    assert_int_equal(keyword_read("", 0), KEYWORD_NONE);
}

/* Lua reads one token from such a text, and takes it for a number or not. */
static void numerals_are_those_of_lua(void **state)
{
    (void)state;
    lua_State *L = luaL_newstate();
    uint64_t seed = 7;
    size_t numbers = 0;
    for (int i = 0; i < 60000; i++) {
        static const char letters[] = "0011239..eExXpP+-aAfF";
        char text[16] = "return ";
        size_t size = 1 + reading_random(&seed, 7);
        char *numeral = text + 7;
        for (size_t c = 0; c < size; c++)
            numeral[c] = letters[reading_random(&seed, sizeof letters - 1)];
        numeral[size] = '\0';
        if (!is_digit(numeral[0]) && !(numeral[0] == '.' && is_digit(numeral[1])))
            continue;
        struct reader r = reader_at(numeral, size, 0, 1);
        struct token t = token_read(&r);
        if (t.length != size)
            continue; /* there is more than a numeral */
        bool lua = luaL_loadstring(L, text) == LUA_OK;
        enum numeral kind = numeral_kind(numeral, size);
        if (lua != (kind != NUMERAL_NONE))
            fail_msg("%s", text);
        if (lua && (lua_pcall(L, 0, 1, 0) != LUA_OK || lua_type(L, -1) != LUA_TNUMBER))
            fail_msg("no number: %s", text);
        assert_true(!lua || numeral_start(numeral, size) == size);
        numbers += lua;
        lua_settop(L, 0);
    }
    assert_true(numbers > 2000);
    lua_close(L);
}

static int next_site(lua_State *L, const char *text, size_t length, size_t at)
{
    lua_pushvalue(L, 1);
    lua_pushvalue(L, 2);
    lua_pushlstring(L, text, length);
    lua_pushinteger(L, (lua_Integer)at + 1);
    lua_call(L, 3, 1);
    int site = (int)lua_tointeger(L, -1) - 1;
    lua_pop(L, 1);
    return site;
}

/* The pattern stops only where a token of tokens.h starts, or a long comment. */
static void the_pattern_stops_at_tokens_only(void **state)
{
    (void)state;
    static const char *const words[] = {
        "'",  "\"",   "\\",  "\n",  "\r\n", "-",    "--",       "[",    "]",     "[[",
        "]]", "[=[",  "]=]", "=",   "==",   "~=",   ".",        "..",   "1",     "23",
        "0x", "e",    "ft",  "to ", " ",    "3 ft", "Nov 15",   "__",   ",000",  "z",
        "x",  "--[[", "'a'", "{",   "x = ", "]==]", "\xC3\xA9", "\\z ", "__lit",
    };
    lua_State *L = luaL_newstate();
    luaL_requiref(L, "lpeg", luaopen_lpeg, 0);
    lua_getfield(L, -1, "match");
    const struct builtin *b = builtin_find("lang/literals.lua");
    assert_int_equal(luaL_loadbufferx(L, (const char *)b->data, b->length, b->name, "b"),
                     0);
    lua_pushvalue(L, 1);
    lua_call(L, 1, 1);
    lua_remove(L, 1); /* match pattern */
    uint64_t seed = 99;
    size_t sites = 0;
    for (int i = 0; i < 40000; i++) {
        char text[256] = "";
        for (uint32_t n = reading_random(&seed, 24); n > 0; n--)
            strcat(text, words[reading_random(&seed, sizeof words / sizeof words[0])]);
        size_t length = strlen(text), at = 0;
        struct reader walk = reader_at(text, length, 0, 1);
        struct token t = token_read(&walk);
        while (at < length) {
            size_t site = (size_t)next_site(L, text, length, at);
            while (t.kind != TOKEN_END && t.kind != TOKEN_BROKEN && t.at < site)
                t = token_read(&walk);
            if (site == length)
                break;
            struct reader here = reader_at(text, length, site, 1);
            struct token own = token_read(&here);
            if (own.at != t.at || own.kind != t.kind)
                if (own.kind != TOKEN_BROKEN || t.kind != TOKEN_BROKEN)
                    fail_msg("at %zu of %zu: %s", site, length, text);
            if (t.kind == TOKEN_BROKEN || t.kind == TOKEN_END)
                break;
            sites++;
            at = t.at == site ? (size_t)t.at + t.length : t.at;
        }
    }
    assert_true(sites > 10000);
    lua_close(L);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(kinds_and_ends_are_those_of_lua),
        cmocka_unit_test(keywords_are_the_22_of_lua),
        cmocka_unit_test(numerals_are_those_of_lua),
        cmocka_unit_test(the_pattern_stops_at_tokens_only),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
