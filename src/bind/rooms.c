#include "bind/rooms.h"

#include <lua.h>

#include "bind/calendar.h"
#include "bind/measure.h"
#include "bind/page.h"
#include "lang/sandbox.h"

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
}
