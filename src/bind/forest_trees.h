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

struct inventory;
struct lua_State;

/* `inv` is owned by the object made from a tally or an estimate; stocks cut out of it
 * keep that one alive as their user value. */
struct trees {
    struct stock *stock;
    struct inventory *inv;
};

struct trees *trees_new(struct lua_State *L);
/* The stock that a method was called on: argument 1. */
const struct stock *trees_stock(struct lua_State *L);
/* Which trees: nil for all, a species word, a list of them, or { species, except, from,
 * below } with diameters in inches. */
struct stock_pick trees_pick(struct lua_State *L, int index);
/* The method `cut` (forest_cut.c). */
int trees_cut(struct lua_State *L);

#endif
