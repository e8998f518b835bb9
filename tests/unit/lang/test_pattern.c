/* Our matcher answers as Lua's own does, for whatever pattern and subject; and it never
 * takes longer than its budget. */
#include "../unit.h"

#include <lualib.h>

#include "lang/pattern.h"
#include "rig.h"

struct dice {
    uint64_t state;
};

static uint32_t roll(struct dice *d, uint32_t below)
{
    d->state = d->state * 6364136223846793005u + 1442695040888963407u;
    return (uint32_t)(d->state >> 33) % below;
}

static size_t throw_text(struct dice *d, const char *letters, size_t count, char *out,
                         size_t most)
{
    size_t length = roll(d, (uint32_t)most);
    for (size_t i = 0; i < length; i++)
        out[i] = letters[roll(d, (uint32_t)count)];
    out[length] = '\0';
    return length;
}

/* Calls string.NAME and writes down all that came out, or "failed". */
static void answer(lua_State *L, int strings, const char *name, const char *s,
                   size_t s_length, const char *p, size_t p_length, const char *third,
                   struct buf *out)
{
    int top = lua_gettop(L);
    out->length = 0;
    lua_getfield(L, strings, name);
    lua_pushlstring(L, s, s_length);
    lua_pushlstring(L, p, p_length);
    if (third)
        lua_pushstring(L, third);
    if (lua_pcall(L, third ? 3 : 2, LUA_MULTRET, 0) != LUA_OK) {
        buf_puts(out, "failed");
    } else if (strcmp(name, "gmatch") == 0) {
        int step = lua_gettop(L);
        for (int rounds = 0; rounds < 100; rounds++) {
            lua_pushvalue(L, step);
            if (lua_pcall(L, 0, LUA_MULTRET, 0) != LUA_OK) {
                buf_puts(out, "failed");
                break;
            }
            if (lua_gettop(L) == step)
                break;
            for (int i = step + 1, last = lua_gettop(L); i <= last; i++)
                buf_printf(out, "%s|", luaL_tolstring(L, i, NULL));
            lua_settop(L, step);
        }
    } else {
        for (int i = top + 1, last = lua_gettop(L); i <= last; i++) {
            size_t length;
            const char *text = luaL_tolstring(L, i, &length);
            buf_put(out, text, length);
            buf_putc(out, '|');
        }
    }
    lua_settop(L, top);
}

static size_t differences(const char *letters, size_t count, int rounds, uint64_t seed)
{
    static const char *const functions[][2] = { { "find", NULL },   { "match", NULL },
                                                { "gmatch", NULL }, { "gsub", "<%0>" },
                                                { "gsub", "%1%%" }, { "find", "-4" },
                                                { "match", "3" } };
    static const char subject_letters[] = "ab1 ([]%-A\0z";
    struct rig r;
    struct dice d = { seed };
    size_t wrong = 0;
    rig_open(&r, NULL);
    r.limits.ticks_most = UINT64_MAX;
    lua_State *ours = r.host.L, *theirs = luaL_newstate();
    luaL_requiref(theirs, "string", luaopen_string, 0);
    sandbox_library(ours, "string");
    struct buf a, b;
    buf_init(&a);
    buf_init(&b);
    for (int i = 0; i < rounds; i++) {
        char subject[40], pattern[16];
        size_t length =
            throw_text(&d, subject_letters, sizeof subject_letters - 1, subject, 14);
        size_t p_length = throw_text(&d, letters, count, pattern, 12);
        for (size_t k = 0; k < sizeof functions / sizeof *functions; k++) {
            answer(ours, 1, functions[k][0], subject, length, pattern, p_length,
                   functions[k][1], &a);
            answer(theirs, 1, functions[k][0], subject, length, pattern, p_length,
                   functions[k][1], &b);
            if (a.length == b.length && memcmp(a.data, b.data, a.length) == 0)
                continue;
            if (wrong++ < 5)
                fprintf(stderr, "%s '%s' '%s'\n  ours   %s\n  theirs %s\n",
                        functions[k][0], subject, pattern, a.data, b.data);
        }
    }
    buf_clear(&a);
    buf_clear(&b);
    lua_close(theirs);
    rig_close(&r);
    return wrong;
}

static void random_patterns_answer_as_lua_does(void **state)
{
    (void)state;
    int rounds = RIG_SANITIZED ? 5000 : 30000;
    assert_int_equal(differences("ab1%.[]^$*+-?()d", 16, rounds, 1), 0);
    assert_int_equal(differences("a%abf[]-^", 9, rounds, 2), 0);
    assert_int_equal(differences("()%1a2.*", 8, rounds, 3), 0);
    assert_int_equal(differences("%aAcdDlpsSuUwWxXzg\0*-.+?", 24, rounds, 4), 0);
    assert_int_equal(differences("ab(", 3, rounds, 5), 0);
}

static void classes_agree_on_every_byte(void **state)
{
    (void)state;
    size_t wrong = 0;
    lua_State *L = luaL_newstate();
    luaL_requiref(L, "string", luaopen_string, 0);
    for (int c = 0; c < 256; c++) {
        for (const char *letter = "acdglpsuwxzACDGLPSUWXZ%."; *letter; letter++) {
            char subject[2] = { (char)c, '\0' }, text[3] = { '%', *letter, '\0' };
            struct pattern p;
            pattern_init(&p, subject, 1, text, 2, 1000);
            bool ours = pattern_match(&p, subject) != NULL;
            lua_getfield(L, 1, "find");
            lua_pushlstring(L, subject, 1);
            lua_pushlstring(L, text, 2);
            bool theirs = lua_pcall(L, 2, 1, 0) == LUA_OK && !lua_isnil(L, -1);
            lua_settop(L, 1);
            wrong += ours != theirs;
        }
    }
    lua_close(L);
    assert_int_equal(wrong, 0);
}

static void the_manual_is_followed(void **state)
{
    (void)state;
    assert_true(rig_prints("print(('hello world'):find('l+'))", "3\t4\n"));
    assert_true(
        rig_prints("print(('key = value'):match('(%w+)%s*=%s*(%w+)'))", "key\tvalue\n"));
    assert_true(rig_prints("print(('flaaap'):find('()aa()'))", "3\t4\t3\t5\n"));
    assert_true(
        rig_prints("print(('THE (quick) fox'):find('%((%a+)%)'))", "5\t11\tquick\n"));
    assert_true(rig_prints("print(('f(a (b) c) d'):match('%b()'))", "(a (b) c)\n"));
    assert_true(
        rig_prints("print(('THE (quick) fox'):gsub('%f[%a]%a+', 'x'))", "x (x) x\t3\n"));
    assert_true(rig_prints("print(('hello'):gsub('', '-'))", "-h-e-l-l-o-\t6\n"));
    assert_true(rig_fails("print(('abc'):gsub('%w', { a = 1, b = true, c = false }))",
                          "script-error", 1, "invalid replacement value (a boolean)"));
    assert_true(
        rig_prints("print(('abc'):gsub('%w', { a = 1, c = false }))", "1bc\t3\n"));
    assert_true(rig_prints("print(('abc'):gsub('%w', function(c) return c .. c end, 2))",
                           "aabbc\t2\n"));
    assert_true(rig_prints("print(('a.b'):find('.', 2, true), ('abc'):find('b', -1))",
                           "2\tnil\n"));
    assert_true(
        rig_prints("for k, v in ('a=1, b=2'):gmatch('(%w+)=(%w+)') do print(k, v) end",
                   "a\t1\nb\t2\n"));
    assert_true(rig_prints("print((' x '):match('^%s*(.-)%s*$') .. '|')", "x|\n"));
    assert_true(rig_prints("print(string.find('a\\0b', '\\0'))", "2\t2\n"));
    assert_true(rig_prints("print(('x'):find('', 2), ('x'):find('', 3))", "2\tnil\n"));
}

static void malformed_patterns_are_told(void **state)
{
    static const char *const wrong[][2] = {
        { "('x'):find('%')", "malformed pattern (ends with '%')" },
        { "('x'):find('[a')", "malformed pattern (missing ']')" },
        { "('x'):find('(x')", "unfinished capture" },
        { "('x'):match('x)')", "invalid pattern capture" },
        { "('x'):find('%1')", "invalid capture index" },
        { "('x'):find('%f')", "missing '[' after '%f' in pattern" },
        { "('x'):find('%b')", "malformed pattern (missing arguments to '%b')" },
        { "('x'):gsub('x', '%')", "invalid use of '%' in replacement string" },
        { "('x'):gsub('x', '%2')", "invalid capture index %2" },
        { "('x'):find(('()'):rep(33))", "too many captures" },
    };
    (void)state;
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++)
        assert_true(rig_fails(wrong[i][0], "script-error", 1, wrong[i][1]));
    assert_true(rig_fails("(('a'):rep(300)):find(('a?'):rep(300))", "script-error", 1,
                          "pattern too complex"));
}

/* A megabyte in a time that grows with it, not with its square. */
static void long_subjects_take_steps_in_proportion(void **state)
{
    (void)state;
    static char subject[1 << 20];
    static const char *const patterns[] = { "a*b", "(a-)b", "[^b]*$", "%a+%d", "^.-b" };
    memset(subject, 'a', sizeof subject - 1);
    for (size_t i = 0; i < sizeof patterns / sizeof *patterns; i++) {
        uint64_t steps[2];
        for (int half = 0; half < 2; half++) {
            struct pattern p;
            bool anchored = patterns[i][0] == '^';
            const char *text = patterns[i] + anchored;
            size_t length = (sizeof subject - 1) >> (1 - half);
            char kept = subject[length];
            subject[length] = '\0';
            pattern_init(&p, subject, length, text, strlen(text), UINT64_MAX);
            pattern_match(&p, subject);
            subject[length] = kept;
            steps[half] = UINT64_MAX - p.steps_left;
        }
        assert_true(steps[1] <= steps[0] * 2 + 100);
    }
}

static void steps_run_out_exactly(void **state)
{
    (void)state;
    static const char subject[] = "aaaaaaaaaaaaaaaaaaaaaaaa";
    struct pattern p;
    for (uint64_t steps = 0; steps < 2000; steps += 7) {
        pattern_init(&p, subject, sizeof subject - 1, "a*a*a*a*b", 9, steps);
        assert_null(pattern_match(&p, subject));
        assert_true(p.out_of_steps);
        assert_int_equal(p.steps_left, 0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(random_patterns_answer_as_lua_does),
        cmocka_unit_test(classes_agree_on_every_byte),
        cmocka_unit_test(the_manual_is_followed),
        cmocka_unit_test(malformed_patterns_are_told),
        cmocka_unit_test(long_subjects_take_steps_in_proportion),
        cmocka_unit_test(steps_run_out_exactly),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
