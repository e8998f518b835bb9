/* Mistakes of our own Lua are owned up to, and what only follows from a fault is not told
 * beside it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "rig.h"

/* The fault of a chunk of that name. */
static struct fault fault_of(const char *chunk, const char *text)
{
    struct rig r;
    struct fault f = { .id = NULL };
    rig_open(&r, NULL);
    lua_State *L = r.host.L;
    if (luaL_loadbufferx(L, text, strlen(text), chunk, "t") == LUA_OK)
        host_call(L, 0, 0, &f);
    rig_close(&r);
    return f;
}

static void a_mistake_of_ours_is_called_one(void **state)
{
    (void)state;
    struct fault f = fault_of("@stdlib/acts.lua", "\nlocal t\nreturn t.x");
    assert_string_equal(f.id, "internal");
    assert_non_null(
        strstr(f.message, "a mistake in Spinney itself (stdlib/acts.lua:3): "));
    assert_true(f.hint[0] != '\0');
}

static void a_mistake_of_an_author_is_none_of_ours(void **state)
{
    (void)state;
    struct fault f = fault_of("@stdlib.rx", "local t\nreturn t.x");
    assert_string_equal(f.id, "script-error");
    assert_true(f.of_nothing);
    f = fault_of("@plan.rx", "return {} + 1");
    assert_string_equal(f.id, "script-error");
    assert_false(f.of_nothing);
}

static void what_follows_from_a_fault_is_not_told(void **state)
{
    (void)state;
    struct host host = { .trace = false };
    struct fault first = { .id = NULL }, more = { .id = NULL }, ours = { .id = NULL };
    fault_set(&first, "key-kind", SPAN_NONE, "a");
    fault_set(&more, "script-error", SPAN_NONE, "b");
    more.of_nothing = true;
    fault_set(&ours, "internal", SPAN_NONE, "c");
    host_told(&host, &more); /* nothing it could follow from */
    assert_int_equal(host.faults.count, 1);
    host.faults.count = 0;
    host_told(&host, &first);
    host_told(&host, &more);
    host_told(&host, &ours);
    assert_int_equal(host.faults.count, 1);
    host.trace = true;
    host_told(&host, &more);
    host_told(&host, &ours);
    assert_int_equal(host.faults.count, 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_mistake_of_ours_is_called_one),
        cmocka_unit_test(a_mistake_of_an_author_is_none_of_ours),
        cmocka_unit_test(what_follows_from_a_fault_is_not_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
