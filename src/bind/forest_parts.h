/* forest_parts.h: the functions of `need "forest"`, a list a topic, each in a file of its
 * own (forest_volume.c, ...).
 *
 *     luaL_setfuncs(L, forest_volume_functions, 0);
 */
#ifndef SPINNEY_BIND_FOREST_PARTS_H
#define SPINNEY_BIND_FOREST_PARTS_H

#include <lauxlib.h>

extern const luaL_Reg forest_cruise_functions[];
extern const luaL_Reg forest_density_functions[];
extern const luaL_Reg forest_precision_functions[];
extern const luaL_Reg forest_volume_functions[];
extern const luaL_Reg forest_wood_functions[];
extern const luaL_Reg forest_site_functions[];
extern const luaL_Reg forest_regrowth_functions[];
extern const luaL_Reg forest_wildlife_functions[];

#endif
