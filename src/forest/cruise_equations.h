/* cruise_equations.h: the arithmetic of cruise.h over quantities, so that a diameter that
 * is not known well gives a distance that is not, and `why` names the equation.
 *
 *     const struct qty x[] = { factor, diameter };
 *     struct qty far = cruise_equation(g, cruise_equation_find("limit_center"), x, f);
 *
 * Operands in order, with their units:
 *     limit_center, limit_face   ft2/ac, in            -> ft, on the level
 *     radius_factor              ft2/ac                -> ft/in
 *     plot_radius                ac                    -> ft
 *     trees_at_point             ft2/ac, in            -> trees/ac
 *     trees_on_plot              ac                    -> trees/ac
 *     tree_basal_area            in                    -> ft2
 *     along_slope, on_the_level  ft, percent           -> ft */
#ifndef SPINNEY_FOREST_CRUISE_EQUATIONS_H
#define SPINNEY_FOREST_CRUISE_EQUATIONS_H

#include "quantity/graph.h"

struct cruise_equation;

/* NULL when there is none of that name. */
const struct cruise_equation *cruise_equation_find(const char *name);
size_t cruise_equation_operands(const struct cruise_equation *e);
/* QTY_NONE with the fault set when an operand does not fit. */
struct qty cruise_equation(struct graph *g, const struct cruise_equation *e,
                           const struct qty *x, struct fault *f);

#endif
