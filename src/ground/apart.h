/* apart.h: how far two shapes lie from each other.
 *
 *     double ft;
 *     if (!shape_apart(&stand, &creek, &ft, f)) ...    // 0: they touch or overlap
 *
 * Areas are all that lies in them, not only their rims. Each piece of the one is held
 * against the pieces of the other, but for those whose boxes lie farther than what was
 * found so far: neighbours cost about n + m, n x m at worst. HUGE_VAL when one of them is
 * empty. Faults: memory. */
#ifndef SPINNEY_GROUND_APART_H
#define SPINNEY_GROUND_APART_H

#include "ground/shape.h"

bool shape_apart(const struct shape *a, const struct shape *b, double *ft,
                 struct fault *f);

#endif
