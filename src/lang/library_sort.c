/* table.sort as a stable merge sort: a comparator that contradicts itself gives some
 * order and never a crash; equal items stay as they were; when the comparator fails, the
 * table is as it was before. */
#include <lauxlib.h>
#include <limits.h>

#include "lang/host.h"
#include "lang/library.h"
#include "lang/limits.h"
#include "lang/raise.h"

/* On the stack: 1 the table, 2 the comparator or nil, 3 a copy of the items. */
static bool item_before(lua_State *L, int32_t a, int32_t b)
{
    limits_charge(L, 2);
    bool before;
    if (lua_isnil(L, 2)) {
        lua_rawgeti(L, 3, a);
        lua_rawgeti(L, 3, b);
        before = lua_compare(L, -2, -1, LUA_OPLT);
        lua_pop(L, 2);
        return before;
    }
    lua_pushvalue(L, 2);
    lua_rawgeti(L, 3, a);
    lua_rawgeti(L, 3, b);
    limits_enter(L);
    lua_call(L, 2, 1);
    limits_leave(L);
    before = lua_toboolean(L, -1);
    lua_pop(L, 1);
    return before;
}

/* Merges two neighbouring runs of `from` into `to`. */
static void merge(lua_State *L, const int32_t *from, int32_t *to, size_t start,
                  size_t middle, size_t end)
{
    size_t left = start, right = middle;
    for (size_t i = start; i < end; i++) {
        bool take_right =
            right < end && (left >= middle || item_before(L, from[right], from[left]));
        to[i] = take_right ? from[right++] : from[left++];
    }
}

static int table_sort(lua_State *L)
{
    luaL_checktype(L, 1, LUA_TTABLE);
    size_t n = (size_t)lua_rawlen(L, 1);
    if (!lua_isnoneornil(L, 2))
        luaL_checktype(L, 2, LUA_TFUNCTION);
    luaL_argcheck(L, n < INT_MAX / 2, 1, "too many items");
    lua_settop(L, 2);
    library_charge(L, "table.sort", n);
    lua_createtable(L, (int)n, 0);
    for (size_t i = 1; i <= n; i++) {
        lua_geti(L, 1, (lua_Integer)i);
        lua_rawseti(L, 3, (lua_Integer)i);
    }
    int32_t *order = lua_newuserdatauv(L, 2 * n * sizeof *order + 1, 0),
            *other = order + n;
    for (size_t i = 0; i < n; i++)
        order[i] = (int32_t)i + 1;
    for (size_t width = 1; width < n; width *= 2) {
        for (size_t start = 0; start < n; start += 2 * width) {
            size_t middle = start + width < n ? start + width : n;
            size_t end = middle + width < n ? middle + width : n;
            merge(L, order, other, start, middle, end);
        }
        int32_t *sorted = other;
        other = order;
        order = sorted;
    }
    for (size_t i = 0; i < n; i++) {
        lua_rawgeti(L, 3, order[i]);
        lua_seti(L, 1, (lua_Integer)i + 1);
    }
    return 0;
}

void library_sort(lua_State *L)
{
    lua_pushcfunction(L, table_sort);
    lua_setfield(L, -2, "sort");
}
