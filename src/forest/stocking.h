/* stocking.h: how full of trees the ground is, by the room that a tree of its diameter
 * takes at the average most (the A level, 100 percent), and how much stands at a line of a
 * stocking guide.
 *
 *     struct stocking_room oak = { -0.00507, 0.01698, 0.00317, 0 };   // Gingrich 1967
 *     double percent = 150 * stocking_tree(&oak, 11.9);
 *     struct qty now = figure_stocking(g, stock, &all, rooms, NULL, "upland oak", f);
 *     struct qty b = stocking_basal_area_at(g, &line, diameter, "B line", f);   // ft2/ac
 *
 * The room of a tree of D in, in percent of an acre: a + b D + c D^2 (tree-area equations:
 * Gingrich 1967, For. Sci. 13:38-53; Ernst and Knapp 1985, Gen. Tech. Rep. NE-96), or
 * k D^1.6 (Ducey and Knapp 2010, For. Ecol. Manage. 260:1613-1622, by the specific gravity
 * of the wood). Which numbers belong to which species is said in stdlib. */
#ifndef SPINNEY_FOREST_STOCKING_H
#define SPINNEY_FOREST_STOCKING_H

#include "forest/figure.h"

struct stocking_room {
    double a, b, c, k;
};

/* Percent of an acre; never below zero. */
double stocking_tree(const struct stocking_room *room, double diameter_in);
/* k of a species: (0.00015 + 0.00218 gravity)(D/25 cm)^1.6 of a hectare for each tree;
 * the most is 100 percent. */
double stocking_wood_density(double gravity);

/* Percent of the picked trees; `rooms` has one a cell of the inventory. */
struct qty figure_stocking(struct graph *g, const struct stock *s,
                           const struct stock_pick *pick,
                           const struct stocking_room *rooms, const char *what,
                           const char *words, struct fault *f);

/* A guide read for trees of one mean diameter: the chart. The chart's equations take the
 * plain mean too, as mean_from + mean_slope x the quadratic mean. */
struct stocking_line {
    struct stocking_room room;
    double percent; /* of that room: 100 for the A line */
    double mean_from, mean_slope;
};
double stocking_line_trees(const struct stocking_line *l, double quadratic_mean_in);

/* Of quantities: percent of the guide from two of trees per acre, quadratic mean diameter
 * and basal area; the third is QTY_NONE. */
struct qty stocking_percent_of(struct graph *g, const struct stocking_line *l,
                               struct qty trees, struct qty diameter,
                               struct qty basal_area, const char *words, struct fault *f);
struct qty stocking_trees_at(struct graph *g, const struct stocking_line *l,
                             struct qty diameter, const char *words, struct fault *f);
struct qty stocking_basal_area_at(struct graph *g, const struct stocking_line *l,
                                  struct qty diameter, const char *words,
                                  struct fault *f);

#endif
