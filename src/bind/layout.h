/* layout.h: the Lua faces of the layout of openings and trails (ground/layout.h) and of
 * its check (ground/routes.h): need "layout" and need "routes", for the built-in Lua.
 *
 *     layout.design { cover = shape, exits = { { line = shape, apart = 150 } },
 *                     width = 40, count = 3, ways_out = 2, trail_width = 6, seed = 1 }
 *     routes.check { cover = shape, openings = { shape, ... },
 *                    trails = { { line = shape, width = 6 } }, ways_out = 2 }
 *
 * Numbers are plain: feet, square feet, shares from 0 to 1; openings, trails and exits
 * are counted from 1. What the tables may hold is told at each function. */
#ifndef SPINNEY_BIND_LAYOUT_H
#define SPINNEY_BIND_LAYOUT_H

struct lua_State;

int layout_room(struct lua_State *L);
int routes_room(struct lua_State *L);

#endif
