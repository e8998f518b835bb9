/* Whatever a script does to keep going, to fill the machine or to hang in C ends in a
 * fault that says which limit it was. */
#include "../unit.h"

#include <pthread.h>

#include "rig.h"

/* A life under tight limits: the fault's id, "" when the script came to its end. */
static const char *outcome(const char *text, uint64_t ticks, size_t bytes, char *words,
                           size_t size)
{
    struct rig r;
    rig_open(&r, NULL);
    r.limits.ticks_most = ticks;
    r.limits.bytes_most = bytes;
    r.limits.pattern_most = 1000000;
    limits_start(r.host.L);
    bool ok = rig_run(&r, text);
    snprintf(words, size, "%s%s line %u", r.printed.data, ok ? "" : r.fault.message,
             (unsigned)rig_line(&r));
    const char *id = ok ? "" : r.fault.id;
    rig_close(&r);
    return id;
}

/* True when the script is stopped by that limit and prints nothing. */
static bool stops(const char *text, const char *id, const char *says)
{
    char words[600];
    const char *was = outcome(text, 2000000, (size_t)40 << 20, words, sizeof words);
    if (strcmp(was, id) == 0 && strstr(words, says) && !strstr(words, "printed"))
        return true;
    fprintf(stderr, "%s\n  -> [%s] %s\n", text, was, words);
    return false;
}

static bool runs_out(const char *text)
{
    return stops(text, "limit-steps", "stopped after 2 million steps");
}

static void an_endless_loop_ends(void **state)
{
    (void)state;
    assert_true(runs_out("while true do end"));
    assert_true(runs_out("repeat local x = {} until false"));
    assert_true(runs_out("::again:: goto again"));
    assert_true(runs_out("for i = 1, math.huge do end"));
    assert_true(runs_out("local function f() return f() end f()"));
}

static void no_protected_call_catches_a_stop(void **state)
{
    (void)state;
    assert_true(runs_out("local function f() while true do end end\n"
                         "while true do pcall(f) end"));
    assert_true(runs_out("local function f() while true do end end\n"
                         "pcall(f) print 'printed'"));
    assert_true(runs_out("local function f() while true do end end\n"
                         "xpcall(f, function() print 'printed' while true do end end)\n"
                         "print 'printed'"));
    assert_true(runs_out("xpcall(error, function() while true do end end)"));
    assert_true(runs_out("local function deep(n)\n"
                         "  if n == 0 then while true do end end\n"
                         "  pcall(deep, n - 1) print 'printed' end\n"
                         "deep(100)"));
}

static void no_metamethod_keeps_a_loop_alive(void **state)
{
    (void)state;
    assert_true(runs_out("local t = setmetatable({}, { __index = function()\n"
                         "  while true do end end })\nlocal x = t.y"));
    assert_true(runs_out("do local x <close> = setmetatable({}, { __close = function()\n"
                         "  while true do end end }) end"));
    assert_true(runs_out("local function spin() while true do pcall(spin) end end\n"
                         "local m = { __close = function() print 'printed' spin() end }\n"
                         "local function f() local x <close> = setmetatable({}, m)\n"
                         "  while true do end end\n"
                         "f()"));
    assert_true(runs_out("print(setmetatable({}, { __tostring = function()\n"
                         "  while true do end end }))"));
    assert_true(runs_out("for k in pairs(setmetatable({}, { __pairs = function()\n"
                         "  while true do end end })) do end"));
    assert_true(runs_out("table.sort({ 3, 2, 1 }, function() while true do end end)"));
    assert_true(runs_out("('x'):gsub('x', function() while true do end end)"));
}

static void no_coroutine_hides_a_loop(void **state)
{
    (void)state;
    assert_true(runs_out("coroutine.wrap(function() while true do end end)()"));
    assert_true(runs_out("local co = coroutine.create(function() while true do end end)\n"
                         "coroutine.resume(co) print 'printed'"));
    assert_true(runs_out("while true do pcall(coroutine.wrap(function()\n"
                         "  while true do end end)) end"));
    assert_true(
        runs_out("local co = coroutine.wrap(function()\n"
                 "  while true do coroutine.yield() end end)\nwhile true do co() end"));
    assert_true(runs_out("local co = coroutine.create(function()\n"
                         "  local x <close> = setmetatable({}, { __close = function()\n"
                         "    while true do end end }) coroutine.yield() end)\n"
                         "coroutine.resume(co) coroutine.close(co) print 'printed'"));
    assert_true(
        runs_out("local co = coroutine.create(function()\n"
                 "  pcall(function() while true do end end) print 'printed' end)\n"
                 "coroutine.resume(co) coroutine.close(co)"));
    assert_true(runs_out("while true do coroutine.wrap(function() end)() end"));
}

static int count_one(lua_State *L)
{
    long *count = lua_touserdata(L, lua_upvalueindex(1));
    ++*count;
    return 0;
}

static long counted_until_stopped(const char *text)
{
    struct rig r;
    long count = 0;
    rig_open(&r, NULL);
    sandbox_vocabulary(r.host.L);
    lua_pushlightuserdata(r.host.L, &count);
    lua_pushcclosure(r.host.L, count_one, 1);
    lua_setfield(r.host.L, -2, "one");
    lua_pop(r.host.L, 1);
    r.limits.ticks_most = 1000000;
    bool ok = rig_run(&r, text);
    rig_close(&r);
    return ok ? -1 : count;
}

/* Each new thread starts its hook's count afresh. */
static void short_coroutines_are_charged_like_calls(void **state)
{
    (void)state;
    long calls = counted_until_stopped("local function f() local x = 0\n"
                                       "  for i = 1, 40 do x = x + i end one() end\n"
                                       "while true do f() end");
    long threads = counted_until_stopped("local function f() local x = 0\n"
                                         "  for i = 1, 40 do x = x + i end one() end\n"
                                         "while true do coroutine.wrap(f)() end");
    assert_true(calls > 1000);
    assert_true(threads > calls / 5 && threads < calls * 2);
    long long_threads = counted_until_stopped("local function f()\n"
                                              "  for i = 1, 290 do one() end end\n"
                                              "while true do coroutine.wrap(f)() end");
    long long_calls = counted_until_stopped("local function f()\n"
                                            "  for i = 1, 290 do one() end end\n"
                                            "while true do f() end");
    assert_true(long_threads > long_calls / 2 && long_threads < long_calls * 2);
}

static void coroutines_that_wait_are_limited(void **state)
{
    (void)state;
    assert_true(stops("local all = {}\nfor i = 1, 100000 do\n"
                      "  all[i] = coroutine.create(function() end) end",
                      "limit-coroutines", "more than 1000 coroutines wait"));
    assert_true(
        stops("local all = {}\nfor i = 1, 100000 do pcall(function()\n"
              "  all[i] = coroutine.create(function() end) end) end print 'printed'",
              "limit-coroutines", "more than 1000 coroutines wait"));
    assert_true(rig_prints("for i = 1, 5000 do coroutine.wrap(function() end)() end\n"
                           "for i = 1, 5000 do coroutine.create(function() end) end\n"
                           "print 'fine'",
                           "fine\n"));
}

static void long_work_in_c_ends_and_is_named(void **state)
{
    static const char *const work[][3] = {
        { "string.rep('', 1 << 62)  string.rep('x', 1 << 62)", "limit-string",
          "`string.rep`" },
        { "('x'):rep(1e9)", "limit-string", "`string.rep`" },
        { "string.rep('x', 10, ('y'):rep(1 << 23))", "limit-string", "`string.rep`" },
        { "table.move({}, 1, 1 << 62, 2)", "limit-steps", "`table.move`" },
        { "table.move({}, math.mininteger, -1, 1)", "limit-steps", "`table.move`" },
        { "table.concat({}, 'x', 1, 1 << 62)", "limit-steps", "`table.concat`" },
        { "table.unpack({}, 1, 1 << 62)", "limit-steps", "`table.unpack`" },
        { "print(('a'):rep(40):find(('a?'):rep(40) .. ('a'):rep(40)))", "limit-pattern",
          "`string.find`" },
        { "print(('a'):rep(3000):match('.-.-.-.-b$'))", "limit-pattern",
          "`string.match`" },
        { "for w in ('a'):rep(3000):gmatch('.-.-.-.-b$') do end", "limit-pattern",
          "`string.gmatch`" },
        { "print(('a'):rep(3000):gsub('.-.-.-.-b$', ''))", "limit-pattern",
          "`string.gsub`" },
        { "print(('a'):rep(1 << 20):find(('a'):rep(1 << 19) .. 'b', 1, true))",
          "limit-pattern", "`string.find`" },
        { "print(('x'):rep(1 << 20):gsub('', ('y'):rep(1 << 10)))", "limit-string",
          "`string.gsub`" },
        { "local s = ('x'):rep(1 << 19) print(string.format(('%s'):rep(99),\n"
          "table.unpack(setmetatable({}, { __index = function() return s end }), 1, "
          "99)))",
          "limit-string", "`string.format`" },
    };
    (void)state;
    for (size_t i = 0; i < sizeof work / sizeof *work; i++)
        assert_true(stops(work[i][0], work[i][1], work[i][2]));
}

/* Nothing of these is long once, but much of it is: the work itself is counted. */
static void work_in_c_is_counted(void **state)
{
    static const char *const work[] = {
        "local s = ('x'):rep(1 << 20) while true do local t = s:upper() end",
        "local s = ('x'):rep(1 << 20) while true do local t = s .. 'y' end",
        "local s = ('x'):rep(1 << 20) while true do local t = s:reverse() end",
        "local s = ('x'):rep(1 << 20) while true do s:find('y', 1, true) end",
        "local s = ('x'):rep(1 << 14) while true do local t = { s:byte(1, -1) } end",
        "local s = ('x'):rep(1 << 16) while true do utf8.len(s) end",
        "local t = {} for i = 1, 5000 do t[i] = 5000 - i end while true do table.sort(t) "
        "end",
        "local t = {} for i = 1, 9000 do t[i] = i end while true do next(t) end",
        "local t = {} for i = 1, 9000 do t[i] = i end while true do pairs(t) end",
        "local t = {} for i = 1, 9000 do t[i] = i end while true do\n"
        "  table.insert(t, 1, table.remove(t, 1)) end",
        "local t = setmetatable({}, { __len = function() return 1 << 62 end })\n"
        "while true do table.insert(t, 1) end",
    };
    (void)state;
    char words[600];
    for (size_t i = 0; i < sizeof work / sizeof *work; i++) {
        assert_string_equal(
            outcome(work[i], 2000000, (size_t)64 << 20, words, sizeof words),
            "limit-steps");
    }
    struct rig r;
    rig_open(&r, NULL);
    bool ok = rig_run(&r, "while true do print(('x'):rep(1000)) end");
    bool printed_too_much = !ok && strcmp(r.fault.id, "limit-print") == 0;
    rig_close(&r);
    assert_true(printed_too_much);
}

/* True when it is the memory that runs out, on that line. */
static bool fills_up(const char *text, int line)
{
    char words[600], wanted[100];
    const char *id = outcome(text, 50000000, (size_t)16 << 20, words, sizeof words);
    snprintf(wanted, sizeof wanted, "the script wants more than 16 MB of memory line %d",
             line);
    if (strcmp(id, "limit-memory") == 0 && strcmp(words, wanted) == 0)
        return true;
    fprintf(stderr, "%s\n  -> [%s] %s\n", text, id, words);
    return false;
}

static void memory_is_limited(void **state)
{
    (void)state;
    assert_true(stops("local s = 'x' while true do s = s .. s end", "limit-string",
                      "a text would grow past 16 MB line 1"));
    assert_true(fills_up("\nlocal t = {} for i = 1, 1e9 do t[i] = { i } end", 2));
    assert_true(fills_up("local t = {} pcall(function()\n"
                         "for i = 1, 1e9 do t[i] = { i } end end) print 'printed'",
                         2));
    assert_true(
        fills_up("local t = {}\nlocal m = { __close = function() error 'mine' end }\n"
                 "pcall(function() local x <close> = setmetatable({}, m)\n"
                 "for i = 1, 1e9 do t[i] = { i } end end) print 'printed'",
                 4));
    assert_true(fills_up("local t = {}\ncoroutine.wrap(function()\n"
                         "for i = 1, 1e9 do t[i] = { i } end end)() print 'printed'",
                         3));
}

static void memory_is_limited_at_every_size(void **state)
{
    (void)state;
    for (size_t kb = 0; kb <= 1024; kb += 64) {
        char words[600];
        const char *id =
            outcome("local t = {}\nwhile true do t[#t + 1] = { 'x' .. #t } end",
                    100000000, kb << 10, words, sizeof words);
        assert_string_equal(id, "limit-memory");
    }
}

static void quantities_count_as_memory(void **state)
{
    (void)state;
    assert_true(stops("local a, t = measure(1, 'ft'), {}\n"
                      "for i = 1, 1e9 do t[i] = a * a end",
                      "limit-memory", "line 2"));
    /* temporaries do not pile up */
    struct rig r;
    rig_open(&r, NULL);
    r.limits.bytes_most = 1u << 20;
    limits_start(r.host.L);
    assert_true(
        rig_run(&r, "local a, b = measure(1, 'ft'), measure(2, 'in')\n"
                    "for i = 1, 100000 do local c = (a + b) * 2 - b end print 'fine'"));
    assert_string_equal(r.printed.data, "fine\n");
    assert_true(graph_bytes(r.host.graph) < 400 * 1024);
    rig_close(&r);
}

static const char *const deep[] = {
    "local function f() return 1 + f() end f()",
    "local function f() pcall(f) end f() print 'printed'",
    "local t = setmetatable({}, {}) getmetatable(t).__index = function(t, k)\n"
    "  return t[k + 1] end local x = t[1]",
    "local function f() ('x'):gsub('x', f) end f() print 'printed'",
    "local function f() table.sort({ 1, 2 }, f) end f() print 'printed'",
    "local function f() coroutine.wrap(f)() end f() print 'printed'",
    "local function f() local co = coroutine.wrap(f) pcall(co) end f() print 'printed'",
    "local function make(n) local co = coroutine.create(function()\n"
    "  local x <close> = setmetatable({}, { __close = function()\n"
    "    coroutine.close(make(n + 1)) end }) coroutine.yield() end)\n"
    "  coroutine.resume(co) return co end\ncoroutine.close(make(1)) print 'printed'",
    "local t = setmetatable({}, {}) getmetatable(t).__tostring = function()\n"
    "  return tostring(t) end print(t)",
    "local function f() f() f() end xpcall(f, function(e) error(e) end) print 'printed'",
};

static void depth_is_limited(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof deep / sizeof *deep; i++) {
        char words[600];
        const char *id =
            outcome(deep[i], 100000000, (size_t)256 << 20, words, sizeof words);
        if (strcmp(id, "limit-depth") != 0 || strstr(words, "printed"))
            fprintf(stderr, "%s\n -> [%s] %s\n", deep[i], id, words);
        assert_string_equal(id, "limit-depth");
        assert_null(strstr(words, "printed"));
    }
}

static void *deep_in_a_thread(void *failures)
{
    for (size_t i = 0; i < sizeof deep / sizeof *deep; i++) {
        char words[600];
        const char *id =
            outcome(deep[i], 100000000, (size_t)256 << 20, words, sizeof words);
        *(int *)failures += strcmp(id, "limit-depth") != 0;
    }
    return NULL;
}

static void depth_is_limited_on_a_small_stack(void **state)
{
    (void)state;
    pthread_t thread;
    pthread_attr_t attributes;
    int failures = 0;
    pthread_attr_init(&attributes);
    pthread_attr_setstacksize(&attributes, RIG_SANITIZED ? 4u << 20 : 256u << 10);
    assert_int_equal(pthread_create(&thread, &attributes, deep_in_a_thread, &failures),
                     0);
    pthread_join(thread, NULL);
    pthread_attr_destroy(&attributes);
    assert_int_equal(failures, 0);
}

static void a_text_nested_too_deep_is_refused(void **state)
{
    (void)state;
    struct rig r;
    static char text[400000];
    for (size_t i = 0; i < 2; i++) {
        rig_open(&r, NULL);
        memset(text, i == 0 ? '(' : '{', sizeof text - 1);
        memcpy(text, "\nx =", 4);
        assert_false(rig_run(&r, text));
        assert_string_equal(r.fault.id, "limit-depth");
        assert_int_equal(rig_line(&r), 2);
        rig_close(&r);
    }
}

static void time_is_the_last_line(void **state)
{
    (void)state;
    struct rig r;
    rig_open(&r, NULL);
    r.limits.ticks_most = UINT64_MAX;
    r.limits.seconds_most = 0.05;
    assert_false(
        rig_run(&r, "while true do pcall(function() while true do end end) end"));
    assert_string_equal(r.fault.id, "limit-time");
    rig_close(&r);
}

static void the_first_stop_stays_and_the_run_is_over(void **state)
{
    (void)state;
    struct rig r;
    rig_open(&r, NULL);
    r.limits.ticks_most = 100000;
    assert_false(rig_run(&r, "while true do end"));
    assert_string_equal(r.fault.id, "limit-steps");
    assert_false(rig_run_as(&r, "other.rx", "print 'printed'"));
    assert_string_equal(r.fault.id, "limit-steps");
    assert_string_equal(r.printed.data, "");
    rig_close(&r);
}

static void closing_runs_no_script(void **state)
{
    (void)state;
    struct rig r;
    rig_open(&r, NULL);
    assert_true(rig_run(&r,
                        "local m = { __close = function() print 'printed' end }\n"
                        "keep = coroutine.wrap(function()\n"
                        "  local x <close> = setmetatable({}, m) coroutine.yield() end)\n"
                        "keep()"));
    lua_close(r.host.L);
    r.host.L = NULL;
    assert_string_equal(r.printed.data, "");
    rig_close(&r);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_endless_loop_ends),
        cmocka_unit_test(no_protected_call_catches_a_stop),
        cmocka_unit_test(no_metamethod_keeps_a_loop_alive),
        cmocka_unit_test(no_coroutine_hides_a_loop),
        cmocka_unit_test(short_coroutines_are_charged_like_calls),
        cmocka_unit_test(coroutines_that_wait_are_limited),
        cmocka_unit_test(long_work_in_c_ends_and_is_named),
        cmocka_unit_test(work_in_c_is_counted),
        cmocka_unit_test(memory_is_limited),
        cmocka_unit_test(memory_is_limited_at_every_size),
        cmocka_unit_test(quantities_count_as_memory),
        cmocka_unit_test(depth_is_limited),
        cmocka_unit_test(depth_is_limited_on_a_small_stack),
        cmocka_unit_test(a_text_nested_too_deep_is_refused),
        cmocka_unit_test(time_is_the_last_line),
        cmocka_unit_test(the_first_stop_stays_and_the_run_is_over),
        cmocka_unit_test(closing_runs_no_script),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
