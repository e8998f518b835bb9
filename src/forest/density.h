/* density.h: how crowded a stand is: stand density index, relative density, importance of
 * a species, crown cover.
 *
 *     struct qty index = figure_density_index(g, stock, &all, NULL, f);   // trees/ac
 *     struct qty from_means = density_reineke(g, trees, diameter, f);
 *     struct qty cover = figure_crown_cover(g, stock, &all, widths, NULL, f);  // percent
 *
 * The density index is the number of 10-in trees an acre that crowd as much: Reineke
 * 1933, J. Agric. Res. 46:627-638 (page numbers from memory), trees x (Dq/10)^1.605; or
 * summed tree by tree, which is less for stands of mixed sizes (Long and Daniel 1990,
 * West. J. Appl. For. 5:93-96, from memory).
 * Relative density is against the most that such wood carries, by its specific gravity:
 * each tree of a hectare (0.00015 + 0.00218 gravity) (D / 25 cm)^1.6. Ducey and Knapp
 * 2010, For. Ecol. Manage. 260:1613-1622 (pages from memory).
 * Importance is the mean of relative density (share of trees), relative dominance (share
 * of basal area) and, where plots were taken, relative frequency (its part of all
 * meetings of a species with a plot): Curtis and McIntosh 1951, Ecology 32:476-496 (from
 * memory).
 * Crown cover of crowns that lie over one another at random is 1 - exp(-crown area an
 * acre): Crookston and Stage 1999, Gen. Tech. Rep. RMRS-GTR-24 (from memory). */
#ifndef SPINNEY_FOREST_DENSITY_H
#define SPINNEY_FOREST_DENSITY_H

#include "forest/figure.h"

#define DENSITY_REINEKE_POWER 1.605
#define DENSITY_RELATIVE_POWER 1.6
/* Acres in a hectare, exact by the international foot. */
#define DENSITY_ACRES_PER_HECTARE 2.4710538146716536

/* One tree an acre of `diameter_in`: its part of the index; of relative density (1 = full),
 * whose equation is of trees a hectare and of centimeters by 25. */
double density_tree_index(double diameter_in);
double density_tree_relative(double diameter_in, double gravity);
/* Crown area in ft2 of a crown that wide. */
double density_crown_area(double width_ft);

/* From quantities: trees per acre and their (quadratic mean) diameter. */
struct qty density_reineke(struct graph *g, struct qty trees, struct qty diameter,
                           struct fault *f);
struct qty density_relative(struct graph *g, struct qty trees, struct qty diameter,
                            struct qty gravity, struct fault *f); /* percent */
struct qty density_diameter(struct graph *g, struct qty basal_area, struct qty trees,
                            struct fault *f); /* Dq, in */
/* Crown area (ft2/ac) to cover (percent). */
struct qty density_cover(struct graph *g, struct qty crown_area, struct fault *f);

/* Of a stand. Per-cell arrays have one number a cell of the inventory. */
bool density_index_estimate(const struct stock *s, const struct stock_pick *pick,
                            struct estimate *out, struct fault *f);
struct qty figure_density_index(struct graph *g, const struct stock *s,
                                const struct stock_pick *pick, const char *what,
                                struct fault *f);
struct qty figure_reineke(struct graph *g, const struct stock *s,
                          const struct stock_pick *pick, const char *what,
                          struct fault *f);
struct qty figure_relative_density(struct graph *g, const struct stock *s,
                                   const struct stock_pick *pick, const double *gravity,
                                   const char *what, struct fault *f); /* percent */
struct qty figure_crown_cover(struct graph *g, const struct stock *s,
                              const struct stock_pick *pick, const double *width_ft,
                              const char *what, struct fault *f); /* percent */
/* Percent; the sum over all species is 100. */
struct qty figure_importance(struct graph *g, const struct stock *s,
                             const struct stock_pick *pick, const char *what,
                             struct fault *f);

#endif
