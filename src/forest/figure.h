/* figure.h: figures of a stock as quantities of the expression graph, each knowing the
 * tally or the estimate it comes from.
 *
 *     struct qty t = figure_trees(g, stock, &aspens, "aspen", f);            // trees/ac
 *     struct qty small = figure_part(g, t, stock, &aspens, &under_8, STOCK_TREES, f);
 *
 * A figure is one uncertain leaf whose range comes from the plot totals of exactly the
 * trees asked for, and which leans on the causes of doubt of its stand (estimate.h): all
 * figures of a stand rise and fall together as its plots say they do. Species add up to
 * the whole with the error of the whole, a share and the rest to 100 percent; two figures
 * of the same trees are the same draw. */
#ifndef SPINNEY_FOREST_FIGURE_H
#define SPINNEY_FOREST_FIGURE_H

#include "forest/estimate.h"
#include "quantity/graph.h"

/* `what` names the choice in `why` ("aspen", "trees felled"); NULL for all trees. All
 * return QTY_NONE with the fault set when refused. A choice without trees is a certain 0,
 * but has no diameter and no share (figure-none). */
struct qty figure_trees(struct graph *g, const struct stock *s,
                        const struct stock_pick *pick, const char *what, struct fault *f);
/* ft2/ac */
struct qty figure_basal_area(struct graph *g, const struct stock *s,
                             const struct stock_pick *pick, const char *what,
                             struct fault *f);
/* Quadratic mean diameter, in inches: of the tree of mean basal area. */
struct qty figure_diameter(struct graph *g, const struct stock *s,
                           const struct stock_pick *pick, const char *what,
                           struct fault *f);
/* Percent of `of` (NULL: of all trees), in basal area or in trees. */
struct qty figure_share(struct graph *g, const struct stock *s,
                        const struct stock_pick *pick, const struct stock_pick *of,
                        enum stock_measure measure, const char *what, struct fault *f);

/* The part of a figure of `whole` that lies in `part` (only what lies in both counts), as
 * a certain share of it: which class a tree is in counts as known. */
struct qty figure_part(struct graph *g, struct qty figure, const struct stock *s,
                       const struct stock_pick *whole, const struct stock_pick *part,
                       enum stock_measure measure, struct fault *f);

/* Any estimate of that stock as a leaf, in `unit` as typed; `note` is further words of
 * origin or NULL. Clears the estimate. */
struct qty figure_leaf(struct graph *g, const struct stock *s, struct estimate *e,
                       const char *unit, const char *what, const char *note,
                       struct fault *f);

#endif
