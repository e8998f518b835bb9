/* forest_trees.h: how the objects of forest_stock.h are kept, for the files that make
 * them.
 *
 *     struct trees *t = trees_new(L);                  // pushed; empty, freed by Lua
 *     t->inv = cruise_inventory(tally, table, name, at, f);
 *     t->stock = stock_of(t->inv, f);
 */
#ifndef SPINNEY_BIND_FOREST_TREES_H
#define SPINNEY_BIND_FOREST_TREES_H

#include "forest/stock.h"

struct fault;
struct lua_State;

/* `inv` is owned by the object made from a tally or an estimate; stocks cut out of it
 * keep that one alive as their user value. */
struct trees {
    struct stock *stock;
    struct inventory *inv;
};

struct trees *trees_new(struct lua_State *L);
/* Gives the object on top the stock of all trees over the inventory that it holds; raises
 * what is set in the fault. Returns 1, the results of a function that ends so. */
int trees_finish(struct lua_State *L, struct trees *t, struct fault *f);

/* The stock at `index`; raises when there is none. */
const struct stock *trees_stock(struct lua_State *L, int index);
/* Which trees a word, a list of words or a table { species, except, from, below } means;
 * nothing means all. */
struct stock_pick trees_pick(struct lua_State *L, int index);
/* What `why` calls them: the word itself, or `what` of the table; else NULL. */
const char *trees_what(struct lua_State *L, int index);
/* The methods `cut` and `without` (forest_cut.c). */
int trees_cut(struct lua_State *L);
int trees_without(struct lua_State *L);

#endif
