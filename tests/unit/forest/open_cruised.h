/* open_cruised.h: one cruise of an open stand, with what each of its plots found, for the
 * tests of errors against the bootstrap.
 *
 *     struct cruised c = cruised_of("lansing", tenths, 21);
 *     plot_totals(c.inv, &oaks, STOCK_TREES, totals);
 *     cruised_clear(&c); */
#ifndef SPINNEY_TESTS_OPEN_CRUISED_H
#define SPINNEY_TESTS_OPEN_CRUISED_H

#include "open_stand.h"

static const char *const lansing_species[] = { "hickory", "maple",     "white oak",
                                               "red oak", "black oak", "other hardwood" };
enum { LANSING_SPECIES = sizeof lansing_species / sizeof lansing_species[0] };

static const struct open_cruise tenths = { .acres = 0.1, .plots = 30 };
static const struct open_cruise points = { .baf = 10, .plots = 30 };

struct cruised {
    struct species_table *species;
    struct inventory *inv;
    struct stock *all;
};

static inline struct cruised cruised_of(const char *stand, struct open_cruise how,
                                        uint64_t seed)
{
    struct fault f = { .id = NULL };
    struct open_stand s = open_stand_read(stand);
    struct cruised c = { .species = open_species() };
    struct buf notes = open_stand_cruise(&s, &how, &seed);
    c.inv = open_inventory(c.species, &notes);
    c.all = stock_of(c.inv, &f);
    assert_non_null(c.all);
    assert_int_equal(c.inv->plots, how.plots);
    buf_clear(&notes);
    free(s.trees);
    return c;
}

static inline void cruised_clear(struct cruised *c)
{
    stock_free(c->all);
    inventory_free(c->inv);
    species_table_free(c->species);
}

static inline struct stock_pick pick_of(const struct cruised *c, const char *word,
                                        double from, double below)
{
    struct fault f = { .id = NULL };
    struct stock_pick p = stock_pick_all();
    p.from_in = from;
    p.below_in = below;
    assert_true(species_select(c->species, word, strlen(word), &p.species, &f));
    return p;
}

/* What each plot found of the picked trees, an acre. */
static inline void plot_totals(const struct inventory *inv, const struct stock_pick *pick,
                               enum stock_measure measure, double *totals)
{
    for (size_t p = 0; p < inv->plots; p++)
        totals[p] = 0;
    for (size_t i = 0; i < inv->entry_count; i++) {
        const struct inventory_entry *e = &inv->entries[i];
        const struct inventory_cell *cell = &inv->cells[e->cell];
        double d = cell->diameter_in;
        if (stock_pick_has(pick, cell->species, d))
            totals[e->plot] +=
                e->trees * (measure == STOCK_TREES ? 1 : 0.005454154 * d * d);
    }
}

#endif
