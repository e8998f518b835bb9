/* maps.h: need "maps", a Lua C module of its own (module.h): maps read, frames, and shapes
 * made of shapes. What each function takes stands above it in maps.c and maps_overlay.c. */
#ifndef SPINNEY_BIND_MAPS_H
#define SPINNEY_BIND_MAPS_H

struct lua_State;

/* Pushes the room's table; called by the program when the module is loaded. */
int luaopen_maps(struct lua_State *L);

/* Adds buffer, union, intersection and difference to the methods of shapes. */
void maps_overlay(struct lua_State *L);

#endif
