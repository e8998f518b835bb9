/* When instructions are counted, and when what is trusted runs without the count. */
#include "../unit.h"

#include "rig.h"

static void what_is_trusted_is_not_counted(void **state)
{
    (void)state;
    struct rig r;
    rig_open(&r, NULL);
    limits_trust(r.host.L);
    assert_true(rig_run(&r, "local n = 0 for i = 1, 1e6 do n = n + i end"));
    assert_true(r.limits.ticks < 100000);
    rig_close(&r);
}

static void what_runs_in_c_is_charged_all_the_same(void **state)
{
    (void)state;
    struct rig r;
    rig_open(&r, NULL);
    r.limits.ticks_most = 1000000;
    limits_trust(r.host.L);
    assert_false(rig_run(&r, "local s = (\"x\"):rep(1e6) s = s:gsub(\"x\", \"%0\")\n"
                             "s = s:gsub(\"x\", \"%0\") s = s:gsub(\"x\", \"%0\")"));
    assert_string_equal(r.fault.id, "limit-steps");
    rig_close(&r);
}

static void once_watched_a_loop_ends(void **state)
{
    (void)state;
    struct rig r;
    rig_open(&r, NULL);
    r.limits.ticks_most = 1000000;
    limits_trust(r.host.L);
    assert_true(rig_run(&r, "function later() while true do end end"));
    limits_watch(r.host.L);
    limits_watch(r.host.L); /* twice is once */
    assert_false(rig_run(&r, "while true do end"));
    assert_string_equal(r.fault.id, "limit-steps");
    rig_close(&r);
}

/* The script that was running when the watch began is watched too. */
static int watch(lua_State *L)
{
    limits_watch(L);
    return 0;
}

static int fill(lua_State *L)
{
    sandbox_vocabulary(L);
    lua_pushcfunction(L, watch);
    lua_setfield(L, -2, "watch");
    lua_pop(L, 1);
    return 0;
}

static void the_watch_begins_in_the_middle_of_a_script(void **state)
{
    (void)state;
    static const char *const texts[] = {
        "watch() while true do end",
        "local function f() watch() end f() while true do end",
        "coroutine.wrap(function() watch() while true do end end)()",
        "coroutine.wrap(watch)() while true do end",
    };
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        struct rig r;
        rig_open(&r, fill);
        r.limits.ticks_most = 1000000;
        limits_trust(r.host.L);
        assert_false(rig_run(&r, texts[i]));
        assert_string_equal(r.fault.id, "limit-steps");
        rig_close(&r);
    }
}

static void the_collector_wakes_when_there_is_something_to_collect(void **state)
{
    (void)state;
    struct rig r;
    rig_open(&r, NULL);
    assert_true(r.limits.resting);
    assert_true(rig_run(&r, "local t = {} for i = 1, 100 do t[i] = { i } end"));
    assert_true(r.limits.resting);
    assert_true(rig_run(&r, "for i = 1, 1e6 do local t = { i } end"));
    assert_false(r.limits.resting);
    assert_true(r.limits.lua_bytes_peak < (size_t)40 << 20); /* 56 MB were made */
    rig_close(&r);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_trusted_is_not_counted),
        cmocka_unit_test(what_runs_in_c_is_charged_all_the_same),
        cmocka_unit_test(once_watched_a_loop_ends),
        cmocka_unit_test(the_watch_begins_in_the_middle_of_a_script),
        cmocka_unit_test(the_collector_wakes_when_there_is_something_to_collect),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
