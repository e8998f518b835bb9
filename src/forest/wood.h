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
 * - above them, and in smaller trees, whole bolts up to the pulpwood top are pulpwood.
 * So sawlogs and pulpwood add up to all wood.
 *
 * Cords: by diameter alone (volume_cords_by_diameter), or, where the stand's height was
 * told (`heights_told`), Beers' composite equations with that height of stem. Sawlogs take
 * of a tree's cords the part that Beers' equations give them. Board feet: tree_girard where
 * the rule has one, else the stem cut into logs and scaled. A doubtful tree length moves
 * the figure as a small change of it would move the likely one. */
#ifndef SPINNEY_FOREST_WOOD_H
#define SPINNEY_FOREST_WOOD_H

#include <stdbool.h>

#include "forest/biomass.h"
#include "forest/log_rule.h"
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
    double solid_ft3; /* wood in a cord, where cords go by diameter */
};

/* All wood, in cords, with the limits of stdlib/products.lua. */
struct wood_ask wood_usual(void);

/* What one tree of each cell has, in the unit asked for: one number a cell. */
bool wood_each(const struct stock *s, const struct species_table *t,
               const struct wood_ask *ask, double *each, struct fault *f);
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

/* The diameter that a tenth of the basal area is thicker than: the tallest trees'. */
bool wood_stout(const struct stock *s, double *out, struct fault *f);
/* Species that are conifers, by group or because they are evergreen. */
struct species_set wood_softwoods(const struct species_table *t);

#endif
