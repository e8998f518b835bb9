/* planting.h: how many plants: to the acre, along a line, and how many to order.
 *
 *     double n = planting_per_ac(6, 8);             // 907.5
 *     double row = planting_along(400, 8);          // 51: one at each end
 *     struct qty plants = planting_on_area(g, area, row, in_row, false, f);
 *
 * On an area plants are counted down (each needs its whole space), orders up. */
#ifndef SPINNEY_WORK_PLANTING_H
#define SPINNEY_WORK_PLANTING_H

#include <stdbool.h>

#include "quantity/graph.h"

double planting_per_ac(double row_ft, double in_row_ft);
/* Each plant as far from all its neighbours: rows as far as a triangle is high. */
double planting_per_ac_triangular(double apart_ft);
/* Plants of one row, the first at its start and one at its end where it comes out. */
double planting_along(double length_ft, double in_row_ft);
/* What must be ordered: with `extra` in a hundred added; so that `survival` in a hundred
 * of them leave enough. */
double planting_order_extra(double plants, double extra_percent);
double planting_order_survival(double wanted, double survival_percent);

/* The same through the graph; QTY_NONE on failure. Faults: those of the graph, and
 * plant-spacing, plant-survival. */
struct qty planting_on_area(struct graph *g, struct qty area, struct qty row,
                            struct qty in_row, bool triangular, struct fault *f);
struct qty planting_in_rows(struct graph *g, struct qty length, struct qty in_row,
                            struct qty rows, struct fault *f);
/* `extra`: a share on top (10 percent), or QTY_NONE; `survival`: the share that lives, or
 * QTY_NONE. */
struct qty planting_order(struct graph *g, struct qty plants, struct qty extra,
                          struct qty survival, struct fault *f);

#endif
