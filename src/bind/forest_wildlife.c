/* need "forest": mast and cover as plain numbers; over measures see forest_regrowth.c. */
#include <lua.h>

#include "bind/forest_parts.h"
#include "forest/browse.h"
#include "forest/cover.h"

/* mast_pounds({ c0, c1, c2, c3, c4 }, from, to, diameter): lb a tree, plain. */
static int l_mast_pounds(lua_State *L)
{
    double coefficients[5];
    luaL_checktype(L, 1, LUA_TTABLE);
    for (int i = 0; i < 5; i++) {
        lua_rawgeti(L, 1, i + 1);
        coefficients[i] = luaL_optnumber(L, -1, 0);
        lua_pop(L, 1);
    }
    lua_pushnumber(L, mast_pounds(coefficients, luaL_checknumber(L, 2),
                                  luaL_checknumber(L, 3), luaL_checknumber(L, 4)));
    return 1;
}

/* light_under_crowns(percent of crown cover): percent of full light, plain. */
static int l_light_under_crowns(lua_State *L)
{
    lua_pushnumber(L, light_under_crowns(luaL_checknumber(L, 1)));
    return 1;
}

const luaL_Reg forest_wildlife_functions[] = {
    { "mast_pounds", l_mast_pounds },
    { "light_under_crowns", l_light_under_crowns },
    { NULL, NULL },
};
