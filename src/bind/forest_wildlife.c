/* need "forest": browse, mast, cover. */
#include "bind/forest_parts.h"

const luaL_Reg forest_wildlife_functions[] = {
    { NULL, NULL },
};
