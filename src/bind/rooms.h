/* rooms.h: the Lua faces of the rooms of C: what `need "forest"` and its like give to the
 * built-in Lua. Each opener pushes one table; scripts see none of them directly. */
#ifndef SPINNEY_BIND_ROOMS_H
#define SPINNEY_BIND_ROOMS_H

struct lua_State;

/* Registers every room of this folder with the sandbox. */
void rooms_open(struct lua_State *L);

int quantity_room(struct lua_State *L);
int calendar_room(struct lua_State *L);
int plan_room(struct lua_State *L);
int forest_room(struct lua_State *L);
int work_room(struct lua_State *L);
int access_room(struct lua_State *L);
int survey_room(struct lua_State *L);
int sides_room(struct lua_State *L);

#endif
