#include "bind/rooms.h"

#include <lauxlib.h>
#include <lua-lpeg.h>
#include <lua.h>

#include "bind/calendar.h"
#include "bind/layout.h"
#include "bind/measure.h"
#include "bind/module.h"
#include "bind/page.h"
#include "bind/shape.h"
#include "bind/stakeout.h"
#include "lang/sandbox.h"

static int maps_room(lua_State *L)
{
    return module_open(L, "maps");
}

/* need "lpeg": for readers of texts that are written in Lua. Scripts do not see it. */
static int lpeg_room(lua_State *L)
{
    luaL_requiref(L, "lpeg", luaopen_lpeg, false);
    return 1;
}

void rooms_open(lua_State *L)
{
    measure_open(L);
    calendar_open(L);
    sandbox_room(L, "quantity", quantity_room);
    sandbox_room(L, "calendar", calendar_room);
    sandbox_room(L, "forest", forest_room);
    sandbox_room(L, "work", work_room);
    sandbox_room(L, "plan", plan_room);
    sandbox_room(L, "page", page_room);
    sandbox_room(L, "shapes", shapes_room);
    sandbox_room(L, "maps", maps_room);
    sandbox_room(L, "access", access_room);
    sandbox_room(L, "stakeout", stakeout_room);
    sandbox_room(L, "layout", layout_room);
    sandbox_room(L, "routes", routes_room);
    sandbox_room(L, "survey", survey_room);
    sandbox_room(L, "sides", sides_room);
    sandbox_room(L, "lpeg", lpeg_room);
}
