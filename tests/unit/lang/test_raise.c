/* Whatever is thrown, from whatever layer, comes out as a fault at the author's line in
 * plain words. */
#include "../unit.h"

#include "rig.h"

/* ---- words ---- */

struct said {
    const char *script, *id;
    uint32_t line;
    const char *message, *hint;
};

static bool says(const struct said *s)
{
    struct rig r;
    rig_open(&r, NULL);
    bool ok = !rig_run(&r, s->script) && strcmp(r.fault.id, s->id) == 0 &&
              rig_line(&r) == s->line && strcmp(r.fault.message, s->message) == 0 &&
              strcmp(r.fault.hint, s->hint) == 0;
    if (!ok)
        fprintf(stderr,
                "script: %s\n  [%s] line %u: %s\n  try: %s\n  wanted [%s] line %u: %s\n"
                "  try: %s\n",
                s->script, r.fault.id ? r.fault.id : "none", (unsigned)rig_line(&r),
                r.fault.message, r.fault.hint, s->id, (unsigned)s->line, s->message,
                s->hint);
    rig_close(&r);
    return ok;
}

static size_t wrong(const struct said *list, size_t count)
{
    size_t bad = 0;
    for (size_t i = 0; i < count; i++)
        bad += !says(&list[i]);
    return bad;
}
#define WRONG(list) wrong(list, sizeof list / sizeof *list)

#define FEET "number(m, \"ft\") is the bare number in feet"

static void unknown_names_get_a_suggestion(void **state)
{
    static const struct said list[] = {
        { "\nprnt(3)", "name-unknown", 2, "there is no `prnt` here",
          "did you mean `print`?" },
        { "local x = mesure + 3", "name-unknown", 1, "`mesure` is not known here",
          "did you mean `measure`?" },
        { "local stand = {}\nprint(stnad.area)", "name-unknown", 2,
          "`stnad` is not known here", "did you mean `stand`?" },
        { "local s = 'x' print(s:uper())", "name-unknown", 1,
          "there is no `uper` to call here", "did you mean `upper`?" },
        { "print(math.flor(3))", "name-unknown", 1, "there is no `flor` to call here",
          "did you mean `floor`?" },
        { "print(xylophone.area)", "name-unknown", 1, "`xylophone` is not known here",
          "" },
        { "print(#lenght)", "name-unknown", 1, "`lenght` is not known here", "" },
        { "print('a' .. nme)", "name-unknown", 1, "`nme` is not known here", "" },
        { "xy()", "name-unknown", 1, "there is no `xy` here", "" },
    };
    (void)state;
    assert_int_equal(WRONG(list), 0);
}

static void mistakes_are_told_in_plain_words(void **state)
{
    static const struct said list[] = {
        { "local t = {}\nprint(t.a.b)", "script-error", 2,
          "`a` is nil (nothing), which has no parts to ask for", "" },
        { "local n = 3 n()", "script-error", 1, "`n` is a number, which cannot be called",
          "" },
        { "local m = measure(3, 'ft')\nlocal x = m\n(print)(3)", "script-error", 2,
          "`m` is a measure, which cannot be called", "" },
        { "(3)()", "script-error", 1, "a number cannot be called like a function",
          "put `;` or a line break before the `(` or `{`, or an operator" },
        { "for x in { 1 } do end", "script-error", 1,
          "`for ... in` cannot go through a table",
          "for i, x in ipairs(list) do, or for k, x in pairs(t) do" },
        { "local x = {} + 1", "script-error", 1, "a table is no number to reckon with",
          "" },
        { "local x = 'abc' + 1", "script-error", 1, "text is no number to reckon with",
          "" },
        { "local x = #3", "script-error", 1, "a number has no length (#)", "" },
        { "local x = {} & 1", "script-error", 1, "a table has no bits", "" },
        { "local b = true\nlocal x = 'a' .. b", "script-error", 2,
          "`b` is a boolean, which cannot be joined to a text", "" },
        { "print(1 < 'x')", "script-error", 1, "cannot compare a number with text", "" },
        { "print({} < {})", "script-error", 1, "cannot compare a table with a table",
          "" },
        { "print(1 < nil)", "script-error", 1,
          "cannot compare a number with nil (nothing)", "" },
        { "for i = measure(1, 'ft'), 3 do end", "script-error", 1,
          "`for` can only count from a bare number", FEET },
        { "for i = 1, measure(3, 'ft') do end", "script-error", 1,
          "`for` can only count to a bare number", FEET },
        { "for i = 1, 3, measure(1, 'ft') do end", "script-error", 1,
          "`for` can only step by a bare number", FEET },
        { "for i = 1, 3, 0 do end", "script-error", 1,
          "`for` with a step of 0 would never end", "" },
        { "print(1 // 0)", "script-error", 1, "a whole number was divided by 0", "" },
        { "print(1 % 0)", "script-error", 1, "a whole number was divided by 0", "" },
        { "print(2^53 | 1.5)", "script-error", 1, "a whole number is wanted here",
          "math.floor(x) or math.ceil(x)" },
        { "table.insert(nil, 3)", "script-error", 1,
          "`insert` wants a table as its first value, this is nil (nothing)", "" },
        { "math.floor()", "script-error", 1, "`floor` wants a number as its first value",
          "" },
        { "math.exp(measure(3, 'ft'))", "script-error", 1,
          "`exp` wants a number as its first value, this is a measure", FEET },
        { "('x'):rep(1.5)", "script-error", 1,
          "`rep`, the first value: number has no integer representation", "" },
        { "assert(false)", "script-error", 1, "a check in the script (assert) failed",
          "assert(check, \"words\") tells which" },
        { "assert(nil, 'no stand')", "script-error", 1, "no stand", "" },
        { "error 'too wet here'", "script-error", 1, "too wet here", "" },
        { "error('too wet here', 0)", "script-error", 1, "too wet here", "" },
        { "error('plan.rx:9: not a place of mine: 3')", "script-error", 1,
          "plan.rx:9: not a place of mine: 3", "" },
        { "error()", "script-error", 1, "the script stopped itself without saying why",
          "error \"words\" tells what is wrong" },
        { "error {}", "script-error", 1, "the script stopped itself without saying why",
          "error \"words\" tells what is wrong" },
        { "error(setmetatable({}, { __tostring = function() error 'again' end }))",
          "script-error", 1, "the script stopped itself without saying why",
          "error \"words\" tells what is wrong" },
        { "error(42)", "script-error", 1, "the script stopped itself without saying why",
          "error \"words\" tells what is wrong" },
    };
    (void)state;
    assert_int_equal(WRONG(list), 0);
}

static void texts_that_are_not_lua_are_told(void **state)
{
    static const struct said list[] = {
        { "\nx = = 3", "syntax", 2, "unexpected symbol near '='", "" },
        { "x = 3 +", "syntax", 1, "unexpected symbol at the end of the file", "" },
        { "\nif x then\n", "syntax", 3,
          "'end' expected (to close 'if' at line 2) "
          "at the end of the file",
          "" },
        { "x = 'abc\ny = 2", "syntax", 1, "unfinished string near ''abc'", "" },
        { "goto nowhere", "syntax", 1, "no visible label 'nowhere' for <goto> at line 1",
          "" },
        { "local x <const> = 1\nx = 2", "syntax", 2,
          "attempt to assign to const variable 'x'", "" },
    };
    (void)state;
    assert_int_equal(WRONG(list), 0);
}

/* ---- places ---- */

/* What our own Lua does: a module of the stdlib, which no author has written. */
static int add_stdlib(lua_State *L)
{
    static const char text[] = "local M = {}\n"
                               "function M.fails() error('stdlib words') end\n"
                               "function M.blames() error('your words', 2) end\n"
                               "function M.indexes() local t = nil return t.x end\n"
                               "function M.throws() error({}) end\n"
                               "function M.mistypes() M.sqrtt() end\n"
                               "function M.calls(f) return f() end\n"
                               "return M";
    if (luaL_loadbufferx(L, text, sizeof text - 1, "@stdlib/inner.lua", "t") != LUA_OK)
        return lua_error(L);
    sandbox_module_env(L);
    lua_setupvalue(L, -2, 1);
    lua_call(L, 0, 1);
    sandbox_vocabulary(L);
    lua_insert(L, -2);
    lua_setfield(L, -2, "inner");
    return 0;
}

static bool placed(const char *script, uint32_t line, const char *message)
{
    struct rig r;
    rig_open(&r, add_stdlib);
    bool ok = !rig_run(&r, script) && rig_line(&r) == line &&
              strcmp(r.fault.message, message) == 0;
    if (!ok)
        fprintf(stderr, "script: %s\n  line %u: %s\n", script, (unsigned)rig_line(&r),
                r.fault.message);
    rig_close(&r);
    return ok;
}

/* A mistake of ours is owned up to, at the line that came upon it. */
#define MISTAKE "this is a mistake in Spinney itself (stdlib/inner.lua:"

static void the_author_is_told_his_own_line(void **state)
{
    (void)state;
    assert_true(placed("\ninner.fails()", 2, MISTAKE "2): stdlib words"));
    assert_true(placed("\ninner.blames()", 2, "your words"));
    assert_true(placed("\n\ninner.indexes()", 3,
                       MISTAKE "4): attempt to index a nil value (local 't')"));
    assert_true(
        placed("\ninner.throws()", 2, "the script stopped itself without saying why"));
    assert_true(placed("inner.calls(function()\n  error 'here' end)", 2, "here"));
    assert_true(placed("inner.calls(function()\n  error {} end)", 2,
                       "the script stopped itself without saying why"));
    /* a tail call of a function written in Lua leaves no trace of its line */
    assert_true(placed("local function f()\n  return inner.fails() end\nf()", 3,
                       MISTAKE "2): stdlib words"));
    assert_true(placed("local function f()\n  return error('tail', 0) end\nlocal x = f()",
                       2, "tail"));
    assert_true(placed("table.sort({ 2, 1 }, function(a, b)\n  error 'sorting' end)", 2,
                       "sorting"));
    assert_true(
        placed("('x'):gsub('x', function()\n  error 'replacing' end)", 2, "replacing"));
    assert_true(
        placed("coroutine.wrap(function()\n  error 'inside' end)()", 2, "inside"));
    assert_true(
        placed("coroutine.wrap(function()\n  local x = measure(1, 'ft') + nil end)()", 2,
               "cannot work out 1 ft + nil (nothing)"));
    assert_true(placed(
        "local ok, e = pcall(function()\n  error 'first' end)\nerror(e, 0)", 2, "first"));
    assert_true(placed("local t = setmetatable({}, { __index = function(t, k)\n"
                       "  error('no ' .. k) end })\nprint(t.oak)",
                       2, "no oak"));
}

/* Suggestions out of the author's words for a name of ours would only lead astray. */
static void our_own_names_get_no_suggestion(void **state)
{
    (void)state;
    struct rig r;
    rig_open(&r, add_stdlib);
    assert_false(rig_run(&r, "inner.mistypes()"));
    assert_string_equal(r.fault.message,
                        MISTAKE "6): attempt to call a nil value (field 'sqrtt')");
    assert_null(strstr(r.fault.hint, "did you mean"));
    rig_close(&r);
}

static void a_caught_fault_can_be_asked_and_thrown_again(void **state)
{
    (void)state;
    assert_true(
        rig_prints("local ok, e = pcall(function()\n"
                   "  return measure(1, 'ft') + 'x' end)\n"
                   "print(ok, e) print(e.id) print(e.message) print(e.hint)\n"
                   "print(e.other, getmetatable(e), pcall(function() e.id = 1 end))",
                   "false\tplan.rx:2:3: cannot work out 1 ft + text (\"x\")\n"
                   "operand-kind\ncannot work out 1 ft + text (\"x\")\n"
                   "a measure is written without quotes: 3 ft\n"
                   "nil\tfalse\tfalse\tplan.rx:4: attempt to index a fault value "
                   "(upvalue 'e')\n"));
    assert_true(rig_fails("local ok, e = pcall(function()\n"
                          "  return measure(1, 'ft') + 'x' end)\nerror(e)",
                          "operand-kind", 2, "cannot work out"));
}

static void a_pause_inside_a_callback_is_told(void **state)
{
    static const char *const pauses[] = {
        "table.sort({ 2, 1 }, function() coroutine.yield() end)",
        "('x'):gsub('x', function() coroutine.yield() end)",
        "tostring(setmetatable({}, { __tostring = function() coroutine.yield() end }))",
        "for k in pairs(setmetatable({}, { __pairs = function() coroutine.yield() end "
        "})) do "
        "end",
        "table.concat(setmetatable({ }, { __index = function() coroutine.yield() end "
        "}),\n"
        "  '', 1, 2)",
        "error((select(2, xpcall(error, function() coroutine.yield() end))), 0)",
    };
    (void)state;
    for (size_t i = 0; i < sizeof pauses / sizeof *pauses; i++) {
        char text[300];
        snprintf(text, sizeof text, "coroutine.wrap(function() %s end)()", pauses[i]);
        assert_true(rig_fails(text, "script-error", 1, "a step cannot pause here"));
    }
}

/* ---- the chain ---- */

static int apply(lua_State *L)
{
    struct fault f;
    struct span at = SPAN_NONE;
    raise_author(L, &at);
    host_chain_push(L, luaL_checkstring(L, 1), at);
    lua_pushvalue(L, 2);
    if (!host_call(L, 0, 0, &f))
        fault_raise(L, &f);
    host_chain_pop(L);
    return 0;
}

/* The same with the error passing through. */
static int within(lua_State *L)
{
    struct span at = SPAN_NONE;
    raise_author(L, &at);
    host_chain_push(L, luaL_checkstring(L, 1), at);
    lua_pushvalue(L, 2);
    lua_call(L, 0, 0);
    host_chain_pop(L);
    return 0;
}

static int add_apply(lua_State *L)
{
    sandbox_vocabulary(L);
    lua_pushcfunction(L, apply);
    lua_setfield(L, -2, "apply");
    lua_pushcfunction(L, within);
    lua_setfield(L, -2, "within");
    return 0;
}

static bool chained(const char *script, const char *message, size_t depth_after)
{
    struct rig r;
    rig_open(&r, add_apply);
    bool ok = !rig_run(&r, script) && strcmp(r.fault.message, message) == 0 &&
              host_chain_depth(r.host.L) == depth_after;
    if (!ok)
        fprintf(stderr, "script: %s\n  %s\n", script, r.fault.message);
    rig_close(&r);
    return ok;
}

static void the_chain_tells_what_led_there(void **state)
{
    static const char *const how[] = { "apply", "within" };
    (void)state;
    for (int i = 0; i < 2; i++) {
        char text[400], wanted[300];
        snprintf(text, sizeof text,
                 "\n%s('prescription sprout-cover', function()\n"
                 "  local x = measure(1, 'ft') + nil end)",
                 how[i]);
        assert_true(chained(text,
                            "cannot work out 1 ft + nil (nothing), in prescription "
                            "sprout-cover, applied at plan.rx:2",
                            0));
        snprintf(text, sizeof text,
                 "%s('prescription outer', function()\n"
                 "  %s('prescription inner', function()\n    error 'deep' end) end)",
                 how[i], how[i]);
        snprintf(wanted, sizeof wanted,
                 "deep, in prescription inner, applied at plan.rx:2, "
                 "in prescription outer, applied at plan.rx:1");
        assert_true(chained(text, wanted, 0));
        /* where it was applied on the very line, that line says it all */
        snprintf(text, sizeof text, "%s('one', function() error 'here' end)", how[i]);
        assert_true(chained(text, "here", 0));
        snprintf(text, sizeof text,
                 "%s('one', function() end)\n"
                 "pcall(%s, 'two', function() error 'x' end)\nerror 'after'",
                 how[i], how[i]);
        assert_true(chained(text, "after", 0));
        snprintf(text, sizeof text, "%s('steps', function()\n  while true do end end)",
                 how[i]);
        assert_true(chained(text,
                            "the script was stopped after 200 million steps, in steps, "
                            "applied at plan.rx:1",
                            0));
    }
}

static void a_long_chain_is_cut_not_lost(void **state)
{
    (void)state;
    struct rig r;
    rig_open(&r, add_apply);
    assert_false(
        rig_run(&r, "local function go(n)\n"
                    "  if n == 0 then error 'bottom' end\n"
                    "  within('prescription number ' .. n, function() go(n - 1) end)\n"
                    "end go(40)"));
    assert_true(strncmp(r.fault.message, "bottom, in ", 11) == 0);
    assert_int_equal(host_chain_depth(r.host.L), 0);
    rig_close(&r);
}

/* ---- the call itself ---- */

static void the_stack_is_left_as_it_was(void **state)
{
    (void)state;
    struct rig r;
    struct fault f;
    rig_open(&r, NULL);
    lua_State *L = r.host.L;
    lua_pushinteger(L, 7);
    sandbox_vocabulary(L);
    lua_getfield(L, -1, "max");
    lua_remove(L, -2);
    lua_pushinteger(L, 3);
    lua_pushinteger(L, 5);
    assert_true(host_call(L, 2, 1, &f));
    assert_int_equal(lua_gettop(L), 2);
    assert_int_equal(lua_tointeger(L, -1), 5);
    sandbox_vocabulary(L);
    lua_getfield(L, -1, "error");
    lua_remove(L, -2);
    lua_pushstring(L, "no");
    assert_false(host_call(L, 1, 1, &f));
    assert_int_equal(lua_gettop(L), 2);
    assert_string_equal(f.message, "no");
    rig_close(&r);
}

static void a_trace_is_kept_only_when_asked_for(void **state)
{
    (void)state;
    struct rig r;
    rig_open(&r, add_stdlib);
    assert_false(rig_run(&r, "inner.fails()"));
    assert_string_equal(host_last_trace(r.host.L), "");
    r.host.trace = true;
    assert_false(rig_run(&r, "inner.fails()"));
    assert_non_null(strstr(host_last_trace(r.host.L), "stdlib/inner.lua:2"));
    rig_close(&r);
}

static void long_names_and_odd_texts_do_no_harm(void **state)
{
    (void)state;
    struct rig r;
    char name[300], text[2000];
    rig_open(&r, NULL);
    memset(name, 'n', sizeof name);
    memcpy(name + sizeof name - 4, ".rx", 4);
    assert_false(rig_run_as(&r, name, "\nlocal x = nil + 1"));
    assert_int_equal(rig_line(&r), 2);
    assert_false(rig_run_as(&r, name, "\n\nx = = 1"));
    assert_int_equal(rig_line(&r), 3);
    memset(text, 'w', sizeof text);
    memcpy(text, "error '", 7);
    memcpy(text + sizeof text - 2, "'", 2);
    assert_false(rig_run(&r, text));
    assert_true(strlen(r.fault.message) < sizeof r.fault.message);
    memset(text, 'w', sizeof text);
    memcpy(text + sizeof text - 4, "()\n", 4);
    assert_false(rig_run(&r, text));
    assert_string_equal(r.fault.id, "name-unknown");
    assert_false(rig_run(&r, "error('\\0\\255%s%n: 12: 3:4: ')"));
    rig_close(&r);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(unknown_names_get_a_suggestion),
        cmocka_unit_test(mistakes_are_told_in_plain_words),
        cmocka_unit_test(texts_that_are_not_lua_are_told),
        cmocka_unit_test(the_author_is_told_his_own_line),
        cmocka_unit_test(our_own_names_get_no_suggestion),
        cmocka_unit_test(a_caught_fault_can_be_asked_and_thrown_again),
        cmocka_unit_test(a_pause_inside_a_callback_is_told),
        cmocka_unit_test(the_chain_tells_what_led_there),
        cmocka_unit_test(a_long_chain_is_cut_not_lost),
        cmocka_unit_test(the_stack_is_left_as_it_was),
        cmocka_unit_test(a_trace_is_kept_only_when_asked_for),
        cmocka_unit_test(long_names_and_odd_texts_do_no_harm),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
