/* forest_wood.h: what Lua asks of the wood of a stand, for the files that answer it.
 *
 *     struct wood_ask ask = wood_ask_at(L, 3);     // { product, as, rule, tree_length, ... }
 *
 * All raise an argument error where a word is none of those that fit. */
#ifndef SPINNEY_BIND_FOREST_WOOD_H
#define SPINNEY_BIND_FOREST_WOOD_H

#include "forest/wood.h"

struct lua_State;

/* The table that stdlib/products.lua makes; what it does not say is the usual. */
struct wood_ask wood_ask_at(struct lua_State *L, int row);
/* A word of log_rule_word, or the first of them when nothing is said. */
enum log_rule wood_rule_at(struct lua_State *L, int index);
enum biomass_part wood_part_at(struct lua_State *L, int index);

#endif
