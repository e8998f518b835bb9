#include "bind/page_csv.h"

#include <lauxlib.h>
#include <lua.h>

#include "base/buf.h"
#include "base/num.h"
#include "lang/held.h"
#include "lang/limits.h"
#include "page/csv.h"

enum { DECIMALS_MOST = 9 };

static int decimals_at(lua_State *L, int index)
{
    lua_Integer decimals = luaL_checkinteger(L, index);
    luaL_argcheck(L, decimals >= 0 && decimals <= DECIMALS_MOST, index,
                  "0 to 9 decimals are wanted");
    return (int)decimals;
}

/* fixed(number, decimals): a text; "?" when the number is not finite. */
int page_fixed(lua_State *L)
{
    double value = luaL_checknumber(L, 1);
    int decimals = decimals_at(L, 2);
    struct buf *text = held_new(L);
    num_fixed(text, value, decimals, false);
    return held_push(L, text);
}

/* The cell on top: a text, { number, decimals }, or false for an empty one. Checked
 * without a table, written with one. */
static void cell(lua_State *L, struct csv *c)
{
    size_t length;
    int at = lua_gettop(L);
    if (lua_type(L, at) == LUA_TTABLE) {
        lua_rawgeti(L, at, 1);
        lua_rawgeti(L, at, 2);
        double value = luaL_checknumber(L, -2);
        int decimals = decimals_at(L, at + 2);
        if (c)
            csv_number(c, value, decimals);
    } else if (lua_type(L, at) == LUA_TSTRING) {
        const char *text = lua_tolstring(L, at, &length);
        if (c)
            csv_text(c, text, length);
    } else if (lua_type(L, at) != LUA_TBOOLEAN) {
        luaL_error(L, "a cell is a text, { number, decimals } or false");
    } else if (c) {
        csv_empty(c);
    }
    lua_settop(L, at);
}

static void table(lua_State *L, struct csv *c)
{
    lua_Integer rows = luaL_len(L, 1);
    for (lua_Integer i = 1; i <= rows; i++) {
        lua_rawgeti(L, 1, i);
        luaL_checktype(L, -1, LUA_TTABLE);
        int row = lua_gettop(L);
        lua_Integer cells = luaL_len(L, row);
        for (lua_Integer k = 1; k <= cells; k++) {
            lua_rawgeti(L, row, k);
            cell(L, c);
            lua_pop(L, 1);
        }
        if (c)
            csv_end(c);
        lua_pop(L, 1);
    }
}

/* csv(rows): the table as a text. */
int page_csv(lua_State *L)
{
    luaL_checktype(L, 1, LUA_TTABLE);
    lua_settop(L, 1);
    table(L, NULL);
    struct csv c = { .out = held_new(L) };
    table(L, &c);
    limits_charge_bytes(L, c.out->length);
    return held_push(L, c.out);
}
