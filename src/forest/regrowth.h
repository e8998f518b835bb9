/* regrowth.h: the equations of suckers.h, sprouts.h, cover.h, browse.h and growth.h over
 * quantities, by name, so that ranges go in, ranges come out and `why` tells the rest.
 *
 *     const struct regrowth_formula *r = regrowth_formula_find("suckers in a year");
 *     // operands as r->operands say, in that order, then r->with_count plain numbers
 *     double with[FORMULA_WITH_MOST] = { 3 };
 *     size_t count = regrowth_prepare(r, with);
 *     struct qty stems = graph_formula(g, &r->of, with, count, operands, ...);
 */
#ifndef SPINNEY_FOREST_REGROWTH_H
#define SPINNEY_FOREST_REGROWTH_H

#include <stddef.h>

#include "quantity/graph.h"

struct regrowth_operand {
    const char *name, *unit;
};

struct regrowth_formula {
    struct formula of;
    const char *unit; /* of the result */
    struct regrowth_operand operands[FORMULA_OPERANDS_MOST];
    size_t operand_count, with_count;
};

/* Puts behind the plain numbers what of an equation hangs on them alone, so that it is
 * worked out once and not for each draw; returns how many they are then. */
size_t regrowth_prepare(const struct regrowth_formula *r, double with[FORMULA_WITH_MOST]);

/* NULL when there is none of that name. */
const struct regrowth_formula *regrowth_formula_find(const char *name);
/* In order; NULL past the end. */
const struct regrowth_formula *regrowth_formula_at(size_t i);

#endif
