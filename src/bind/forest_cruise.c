/* need "forest": cruise arithmetic. */
#include "bind/forest_parts.h"

const luaL_Reg forest_cruise_functions[] = {
    { NULL, NULL },
};
