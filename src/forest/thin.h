/* thin.h: which trees a marking rule takes: so many of them from the smallest up, from the
 * largest down or across all sizes, the worst species first, until a share of them is
 * taken or an agreed basal area or number is left on the acre.
 *
 *     struct thin rule = thin_of(&hardwoods);
 *     rule.from = THIN_BELOW;
 *     rule.until = THIN_TO;
 *     rule.measure = STOCK_BASAL_AREA;
 *     rule.amount = 60;                                 // ft2/ac that are left in all
 *     if (!thin_cut(stock, &rule, keeps, keep_count, &taken, &left, f)) ...
 *
 * Species go by their rank, all of one rank before any of the next; within a rank `from`
 * says which diameters go first. Trees of one diameter are taken in proportion. What is
 * kept counts among what is left: a residual is that of the whole acre.
 *
 * A share of what stands is as uncertain as what stands. Of a residual, sizes that go or
 * stay as a whole are as uncertain as the stand; in those of which some are left, these
 * are counted out and certain, and what is taken bears the doubt.
 *
 * Low, high (crown) and proportional thinning as every handbook of silviculture describes
 * them: common practice, no source. */
#ifndef SPINNEY_FOREST_THIN_H
#define SPINNEY_FOREST_THIN_H

#include <stdint.h>

#include "forest/stock.h"

enum thin_from { THIN_ACROSS, THIN_BELOW, THIN_ABOVE };
enum thin_until {
    THIN_SHARE, /* amount: 0 to 1 of the trees that may be taken, by number */
    THIN_TO     /* amount: what is left per acre, in `measure`, of all trees */
};

struct thin {
    struct stock_pick what;        /* which trees may be taken, */
    double least_in[SPECIES_MOST]; /* and from which diameter up, by species */
    uint16_t rank[SPECIES_MOST];   /* the lowest goes first */
    enum thin_from from;
    enum thin_until until;
    enum stock_measure measure;
    double amount;
};

/* All of `what`, whatever its size. */
struct thin thin_of(const struct stock_pick *what);

/* May trees of this species and diameter be taken? */
bool thin_has(const struct thin *rule, size_t species, double diameter_in);

/* Takes by the rule out of `rest`; `aside` is what else is left standing, or NULL. The
 * taken trees are the caller's; NULL when out of memory. A residual that cannot be reached
 * takes all that may be taken, one above what stands takes none. */
struct stock *thin_take(struct stock *rest, const struct stock *aside,
                        const struct thin *rule, struct fault *f);

/* Sets the keeps aside, one after another, then takes by the rule; what was set aside is
 * in `left` again. Both stocks are the caller's. False when out of memory. */
bool thin_cut(const struct stock *before, const struct thin *rule,
              struct stock_keep *keeps, size_t keep_count, struct stock **taken,
              struct stock **left, struct fault *f);

#endif
