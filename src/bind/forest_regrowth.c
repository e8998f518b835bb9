/* need "forest": what grows back. */
#include "bind/forest_parts.h"

const luaL_Reg forest_regrowth_functions[] = {
    { NULL, NULL },
};
