/* need "forest": site and stocking. */
#include "bind/forest_parts.h"

const luaL_Reg forest_site_functions[] = {
    { NULL, NULL },
};
