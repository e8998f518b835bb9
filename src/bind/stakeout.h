/* stakeout.h: need "stakeout": flags of shapes, and the order in which they are walked. */
#ifndef SPINNEY_BIND_STAKEOUT_H
#define SPINNEY_BIND_STAKEOUT_H

struct lua_State;

int stakeout_room(struct lua_State *L);

#endif
