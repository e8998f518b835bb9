/* need "forest": wood: log rules, trees, cords, weight. */
#include "bind/forest_parts.h"

const luaL_Reg forest_volume_functions[] = {
    { NULL, NULL },
};
