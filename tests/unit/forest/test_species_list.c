/* The built-in species list, read the way the host does: every row must be accepted. */
#include "../unit.h"

#include <lauxlib.h>
#include <lua.h>
#include <lualib.h>
#include <string.h>

#include "base/fault.h"
#include "forest/species.h"

enum { LIST_MOST = 16 };

static void texts(lua_State *L, const char *key, const char *out[LIST_MOST]) {
    size_t n = 0;
    lua_getfield(L, -1, key);
    for (lua_Integer i = 1; lua_istable(L, -1) && i <= luaL_len(L, -1); i++) {
        lua_rawgeti(L, -1, i);
        assert_true(n + 1 < LIST_MOST);
        out[n++] = lua_tostring(L, -1); /* the row keeps it */
        lua_pop(L, 1);
    }
    out[n] = NULL;
    lua_pop(L, 1);
}

static const char *text(lua_State *L, const char *key) {
    lua_getfield(L, -1, key);
    const char *s = lua_tostring(L, -1);
    lua_pop(L, 1);
    return s;
}

static void add_row(lua_State *L, struct species_table *t) {
    const char *aliases[LIST_MOST], *groups[LIST_MOST];
    struct fault f = { .id = NULL };
    texts(L, "aliases", aliases);
    texts(L, "groups", groups);
    struct species_row row = { .name = text(L, "name"),
                               .plural = text(L, "plural"),
                               .scientific = text(L, "scientific"),
                               .code = text(L, "code"),
                               .aliases = aliases,
                               .groups = groups,
                               .tons_source = text(L, "tons_source"),
                               .source = text(L, "source"),
                               .layer = "stdlib" };
    for (size_t i = 0; species_flag_at(i); i++) {
        lua_getfield(L, -1, species_flag_at(i));
        if (lua_toboolean(L, -1)) row.flags |= species_flag_find(species_flag_at(i));
        lua_pop(L, 1);
    }
    lua_getfield(L, -1, "tons_per_cord");
    row.tons_per_cord = lua_tonumber(L, -1);
    lua_pop(L, 1);
    if (!species_add(t, &row, &f)) fail_msg("%s: %s", row.name, f.message);
    assert_non_null(row.source);
    assert_true((row.tons_per_cord > 0) == (row.tons_source != NULL));
}

static size_t members(const struct species_table *t, const char *word) {
    struct species_set set;
    struct fault f = { .id = NULL };
    size_t n = 0;
    assert_true(species_select(t, word, strlen(word), &set, &f));
    for (size_t i = 0; i < species_count(t); i++) n += species_set_has(&set, i);
    return n;
}

static void every_row_is_accepted_and_no_word_means_two(void **state) {
    (void)state;
    lua_State *L = luaL_newstate();
    struct species_table *t = species_table_new();
    assert_int_equal(luaL_loadfile(L, "stdlib/species.lua"), LUA_OK);
    assert_int_equal(lua_pcall(L, 0, 1, 0), LUA_OK);
    lua_Integer rows = luaL_len(L, -1);
    for (lua_Integer i = 1; i <= rows; i++) {
        lua_rawgeti(L, -1, i);
        add_row(L, t);
        lua_pop(L, 1);
    }
    assert_int_equal(species_count(t), rows);
    assert_true(rows >= 40);
    /* words consultants use */
    assert_int_equal(members(t, "aspen"), 2);
    assert_int_equal(members(t, "red oak"), 1);
    assert_int_equal(members(t, "red oak group"), 3);
    assert_int_equal(members(t, "oaks"), 6);
    assert_int_equal(members(t, "oaks"), members(t, "wilts"));
    assert_true(members(t, "conifers") >= 10);
    assert_true(members(t, "mast") > members(t, "oak"));
    static const char *const one[] = { "alder",          "tag alder",    "white cedar",
                                       "hemlock",        "tamarack",     "ironwood",
                                       "juneberry",      "autumn olive", "elm",
                                       "balsam fir",     "BTA",          "red maples",
                                       "black cherries", "Quercus rubra" };
    for (size_t i = 0; i < sizeof one / sizeof one[0]; i++)
        assert_int_equal(members(t, one[i]), 1);
    species_table_free(t);
    lua_close(L);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_row_is_accepted_and_no_word_means_two),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
