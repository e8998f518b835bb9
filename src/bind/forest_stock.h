/* forest_stock.h: trees on an acre as a Lua object (part of bind/forest.c's room): made
 * from a tally or an estimate, cut into what is taken and what is left. */
#ifndef SPINNEY_BIND_FOREST_STOCK_H
#define SPINNEY_BIND_FOREST_STOCK_H

struct lua_State;

/* Makes the metatable; pushes nothing. */
void forest_stock_open(struct lua_State *L);
/* tally(text, stand, place, key): a stock, or nil when faults were told to the host. */
int forest_tally(struct lua_State *L);
/* estimate(stand, place, table of what was judged and how much it is doubted) */
int forest_estimate(struct lua_State *L);

#endif
