/* wood.h: the wood of a stand by product (sawlogs, pulpwood, all of it) in cords, cubic
 * feet, board feet or green tons, and its dry weight by parts, tree by tree from what was
 * tallied.
 *
 *     struct wood_ask ask = wood_usual();
 *     ask.product = WOOD_SAWLOGS;
 *     ask.as = WOOD_BOARD_FEET;
 *     ask.tree_length_ft = 66;
 *     struct qty feet = wood_figure(g, stock, &oaks, species, &ask, length, "oak", f);
 *
 * Which part of a stem is what (stem.h tells how high it reaches):
 * - a sawlog tree is thick enough at breast height; whole half logs up to the sawlog top
 *   are sawlogs;
 * - above them, and in smaller trees, the rest up to the pulpwood top is pulpwood, where it
 *   is as long as a bolt.
 * So sawlogs and pulpwood add up to all wood, each by its part of the stem's volume.
 *
 * Cords: by diameter alone (volume_cords_by_diameter), or, where the stand's height was
 * told (`heights_told`), the wood that Beers' composite equations give for that height of
 * stem, over the wood in a cord: 79 ft3 in Minnesota (Minn. Stat. 239.33), 80 by Michigan's
 * rule of thumb (Cook, MSU Extension, articles 209 and 218), 76 in Beers' own cord. So
 * cubic feet and cords of a stand are one amount. How near the two ways are: 10 in, 64 ft
 * tall: 0.151 cord by Beers, 0.15 by the table; 14 in, 66 ft: 0.309 and 0.33; a short
 * stand has less, a tall one more than the table. Beers wrote for hardwoods, and his are
 * used for conifers too: a pine of 10 in and 64 ft has 11.9 ft3 by them up to a 5-in top,
 * 12.6 by 0.42 of basal area times height (Gevorkiantz and Olsen 1955, Tech. Bull. 1104,
 * from memory) less stump and top, 6 percent more.
 * The stem is not cut down to whole bolts. Who takes only those leaves half a bolt a tree
 * on the average, its thinnest part: mostly 4 to 8 percent of the wood (stem_cubic_feet).
 * Beers' equations say how much wood a stem of that height has, not how much the last foot
 * of it has: by a height in whole bolts they would take off half as much again.
 *
 * Board feet: tree_girard where the rule has one, else the stem cut into logs and scaled.
 * A doubtful tree length moves the figure as a small change of it would move the likely
 * one. */
#ifndef SPINNEY_FOREST_WOOD_H
#define SPINNEY_FOREST_WOOD_H

#include <stdbool.h>

#include "forest/biomass.h"
#include "forest/log_rule.h"
#include "forest/estimate.h"
#include "forest/stock.h"
#include "quantity/graph.h"

struct species_table;

enum wood_product { WOOD_ALL, WOOD_SAWLOGS, WOOD_PULPWOOD, WOOD_PRODUCTS };
enum wood_as { WOOD_CORDS, WOOD_CUBIC_FEET, WOOD_BOARD_FEET, WOOD_TONS, WOOD_ASKS };

struct wood_form {
    double from_in; /* least diameter at breast height of a sawlog tree */
    double top_in;  /* inside bark */
};

struct wood_ask {
    enum wood_product product;
    enum wood_as as;
    enum log_rule rule;
    double form_class;
    bool bark;           /* cubic feet: with bark? */
    bool heights_told;   /* else cords go by diameter alone */
    double tree_length_ft; /* of the tallest trees */
    /* Pulpwood: least diameter, least top and its part of the diameter, length of a bolt. */
    double pulp_from_in, pulp_top_in, pulp_top_part, bolt_ft;
    struct wood_form hardwood, softwood;
    double solid_ft3; /* wood in a cord */
};

/* All wood, in cords, with the limits of stdlib/products.lua. */
struct wood_ask wood_usual(void);

/* What one tree of each cell has, in the unit asked for: one number a cell. */
bool wood_each(const struct stock *s, const struct species_table *t,
               const struct wood_ask *ask, double *each, struct fault *f);
/* An acre's, with its error by the plots. The estimate is the caller's to clear. */
bool wood_estimate(const struct stock *s, const struct stock_pick *pick,
                   const struct species_table *t, const struct wood_ask *ask,
                   struct estimate *out, struct fault *f);
/* An acre's, in cord/ac, ft3/ac, board ft/ac or ton/ac. `length` is the tree length that
 * ask->tree_length_ft is the likely value of; QTY_NONE leaves its doubt out. */
struct qty wood_figure(struct graph *g, const struct stock *s,
                       const struct stock_pick *pick, const struct species_table *t,
                       const struct wood_ask *ask, struct qty length, const char *what,
                       struct fault *f);
/* Dry weight of a part of the trees, ton/ac. */
struct qty wood_biomass(struct graph *g, const struct stock *s,
                        const struct stock_pick *pick, const struct species_table *t,
                        enum biomass_part part, const char *what, struct fault *f);
/* Dry weight of what lies there when the trees are felled and their wood is taken as `ask`
 * has it, ton/ac: limbs, leaves, and the stem above the pulpwood top; of trees that have
 * no wood in them, all. */
struct qty wood_slash(struct graph *g, const struct stock *s,
                      const struct stock_pick *pick, const struct species_table *t,
                      const struct wood_ask *ask, const char *what, struct fault *f);

/* The diameter that a tenth of the basal area is thicker than: the tallest trees'. */
bool wood_stout(const struct stock *s, double *out, struct fault *f);
/* Species that are conifers, by group or because they are evergreen. */
struct species_set wood_softwoods(const struct species_table *t);

#endif
