/* need "forest": density and precision. */
#include "bind/forest_parts.h"

const luaL_Reg forest_density_functions[] = {
    { NULL, NULL },
};
