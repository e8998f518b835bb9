/* forest_stock.h: trees on an acre as a Lua object (part of bind/forest.c's room): made
 * from a tally or an estimate, cut into what is taken and what is left. */
#ifndef SPINNEY_BIND_FOREST_STOCK_H
#define SPINNEY_BIND_FOREST_STOCK_H

struct lua_State;

/* Makes the metatable; pushes nothing. */
void forest_stock_open(struct lua_State *L);
/* tally(text, stand, place, key, source): a stock, or nil when faults were told to the
 * host. `key` of the call at `place` has the text; `source` when it is a file's (notes). */
int forest_tally(struct lua_State *L);
/* tally_stands(text, names, place, key, source): a list of { name, trees } for the stands
 * that the notes name, each one of `names`; nil when faults were told. */
int forest_tally_stands(struct lua_State *L);
/* notes(file): its text and its source, found as `use` finds scripts; or nil and the id,
 * words and mend of the fault. */
int forest_notes(struct lua_State *L);
/* estimate(stand, place, table of what was judged and how much it is doubted) */
int forest_estimate(struct lua_State *L);

#endif
