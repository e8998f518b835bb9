/* quantity_inner.h: what the two halves of need "quantity" have in common. Not for others. */
#ifndef SPINNEY_BIND_QUANTITY_INNER_H
#define SPINNEY_BIND_QUANTITY_INNER_H

#include "quantity/graph.h"

struct lua_State;

/* The measure at that index; raises when it is none. */
struct qty quantity_need(struct lua_State *L, int index);
/* Adds to the room on top: spreads, figures, explanations. */
void quantity_told(struct lua_State *L);

#endif
