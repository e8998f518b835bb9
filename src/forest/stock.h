/* stock.h: trees on an acre that can be taken and left: what `cut` and `keep` do. A stock
 * starts as all of an inventory; whatever is taken out of it is a stock again, and the
 * two always add up to what was there.
 *
 *     struct stock_keep keep = { .pick = oaks, .trees = 15, .order = STOCK_LARGEST };
 *     struct stock *before = stock_of(inv, f), *taken, *left;
 *     if (!stock_cut(before, &aspens, 1.0, &keep, 1, &taken, &left, f)) ...
 *     stock_trees(taken, &aspens);    // trees per acre
 *
 * A share of what stands is as uncertain as what stands. A number that is counted out on
 * the ground ("leave 15 an acre") is certain, and what remains beside it bears all the
 * doubt. An inventory must outlive its stocks. */
#ifndef SPINNEY_FOREST_STOCK_H
#define SPINNEY_FOREST_STOCK_H

#include <math.h>
#include <stdbool.h>
#include <stddef.h>

#include "forest/inventory.h"
#include "forest/species.h"

/* Which trees: these species, from this diameter up, and below that one. */
struct stock_pick {
    struct species_set species;
    double from_in, below_in;
};
static inline struct stock_pick stock_pick_all(void)
{
    return (struct stock_pick){ species_set_all(), 0, HUGE_VAL };
}
static inline bool stock_pick_has(const struct stock_pick *pick, size_t species,
                                  double diameter_in)
{
    return species_set_has(&pick->species, species) && diameter_in >= pick->from_in &&
           diameter_in < pick->below_in;
}

struct stock;

struct stock *stock_of(const struct inventory *inv, struct fault *f);
struct stock *stock_copy(const struct stock *s, struct fault *f);
/* No trees, of the same inventory. */
struct stock *stock_none(const struct stock *like, struct fault *f);
void stock_free(struct stock *s);
const struct inventory *stock_inventory(const struct stock *s);

/* Likely values, per acre. */
double stock_trees(const struct stock *s, const struct stock_pick *pick);
double stock_basal_area(const struct stock *s, const struct stock_pick *pick); /* ft2 */

/* A share (0 to 1) of the picked trees, out of `from`; NULL when out of memory. */
struct stock *stock_take_share(struct stock *from, const struct stock_pick *pick,
                               double share, struct fault *f);

/* Which of the picked trees are counted out first. */
enum stock_order { STOCK_AS_FOUND, STOCK_LARGEST, STOCK_SMALLEST };
enum stock_measure { STOCK_TREES, STOCK_BASAL_AREA };

/* A counted amount per acre of the picked trees (all of them when there are fewer:
 * compare with stock_trees of what comes back). */
struct stock *stock_take_amount(struct stock *from, const struct stock_pick *pick,
                                enum stock_measure measure, double amount,
                                enum stock_order order, struct fault *f);
/* `what` joins `into`; both of one inventory. */
void stock_add(struct stock *into, const struct stock *what);
/* `what` goes out of `from`, both of one inventory, as far as it is there: trees that two
 * cuts each lay claim to go once. */
void stock_remove(struct stock *from, const struct stock *what);

/* What stays whatever is cut: `except`, `keep`, `leave`, `leave_marked`. */
struct stock_keep {
    struct stock_pick pick;
    enum stock_measure measure;
    double amount; /* per acre; HUGE_VAL for all of them */
    enum stock_order order;
    double kept; /* comes back: how much was there to keep, in `measure` */
};

/* Sets the keeps aside out of `rest`, one after another. False when out of memory. */
bool stock_set_aside(struct stock *rest, struct stock *aside, struct stock_keep *keeps,
                     size_t count, struct fault *f);
/* Sets the keeps aside, then takes a share of what remains of `what`.
 * Both stocks are the caller's. False when out of memory. */
bool stock_cut(const struct stock *before, const struct stock_pick *what, double share,
               struct stock_keep *keeps, size_t keep_count, struct stock **taken,
               struct stock **left, struct fault *f);

/* The stock by species and diameter classes `width_in` wide (1: 8 in stands for 7.5 up to
 * 8.5; 2: for 7 up to 9; 0: one row a species), in the order of the species table. Rows
 * without trees are left out. Returns how many there are; at most `most` are filled. */
struct stock_row {
    size_t species;
    double class_in; /* 0 when width_in is 0 */
    double from_in, below_in;
    double trees, basal_area; /* per acre */
};
size_t stock_rows(const struct stock *s, double width_in, struct stock_row *rows,
                  size_t most);

/* For thin.c and release.c, which say how much of each cell goes: a share of cell i (0 to
 * 1), or all of it but so many trees per acre, which are counted out and stay. */
void stock_move_share(struct stock *from, struct stock *to, size_t i, double share);
void stock_move_but(struct stock *from, struct stock *to, size_t i, double trees);

/* The inside, for estimate.c and volume.c: cell i holds share[i] of what the inventory
 * found there, and count[i] trees per acre counted out (negative: counted away). */
struct stock_cells {
    const double *share, *count;
};
struct stock_cells stock_cells(const struct stock *s);
/* Likely trees per acre in cell i, never below zero. */
double stock_cell_trees(const struct stock *s, size_t i);

#endif
