#include "../unit.h"

#include <lauxlib.h>
#include <lua.h>
#include <string.h>

#include "lang/builtin.h"

static void names_are_sorted_and_each_is_found(void **state)
{
    (void)state;
    assert_true(builtin_count > 0);
    for (size_t i = 0; i < builtin_count; i++) {
        const struct builtin *b = builtin_at(i);
        assert_ptr_equal(builtin_find(b->name), b);
        if (i > 0)
            assert_true(strcmp(builtin_at(i - 1)->name, b->name) < 0);
    }
    assert_null(builtin_at(builtin_count));
}

static void what_is_not_built_in_is_not_found(void **state)
{
    (void)state;
    static const char *const names[] = {
        "", "a", "stdlib", "stdlib/", "stdlib/none.lua", "stdlib/../src/embed.lua", "zzz"
    };
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        assert_null(builtin_find(names[i]));
}

static void modules_are_bytecode_and_scripts_are_text(void **state)
{
    (void)state;
    for (size_t i = 0; i < builtin_count; i++) {
        const struct builtin *b = builtin_at(i);
        const char *end = strrchr(b->name, '.');
        assert_non_null(end);
        assert_int_equal(b->bytecode, strcmp(end, ".lua") == 0);
        assert_int_equal(b->data[0] == '\x1B', b->bytecode);
        assert_int_equal(b->data[b->length], 0);
    }
}

static void modules_load_and_keep_their_name_and_lines(void **state)
{
    (void)state;
    lua_State *L = luaL_newstate();
    for (size_t i = 0; i < builtin_count; i++) {
        const struct builtin *b = builtin_at(i);
        if (!b->bytecode)
            continue;
        int failed = luaL_loadbufferx(L, (const char *)b->data, b->length, b->name, "b");
        assert_int_equal(failed, LUA_OK);
        lua_Debug about;
        lua_getinfo(L, ">SL", &about); /* the table of lines */
        assert_int_equal(about.source[0], '@');
        assert_string_equal(about.source + 1, b->name);
        lua_pushnil(L);
        int has_lines = lua_next(L, -2);
        assert_int_equal(has_lines, 1);
        lua_settop(L, 0);
    }
    lua_close(L);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(names_are_sorted_and_each_is_found),
        cmocka_unit_test(what_is_not_built_in_is_not_found),
        cmocka_unit_test(modules_are_bytecode_and_scripts_are_text),
        cmocka_unit_test(modules_load_and_keep_their_name_and_lines),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
