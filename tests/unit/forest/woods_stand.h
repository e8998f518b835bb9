/* woods_stand.h: one stand with all that its figures need, for the tests of this room.
 *
 *     struct wood w = wood_of("baf 10\nplot 1: BTA 8 9\n");
 *     figure_trees(w.g, w.all, &pick, NULL, &w.f);
 *     wood_clear(&w);
 */
#ifndef SPINNEY_TESTS_WOODS_STAND_H
#define SPINNEY_TESTS_WOODS_STAND_H

#include "woods.h"

#include "forest/stock.h"
#include "quantity/graph.h"

struct wood {
    struct species_table *species;
    struct inventory *inv;
    struct stock *all;
    struct units *units;
    struct graph *g;
    struct fault f;
};

/* Takes both. */
static struct wood wood_with(struct species_table *t, struct inventory *inv) {
    struct wood w = { .species = t, .inv = inv, .units = units_new(),
                      .f = { .id = NULL } };
    assert_non_null(inv);
    w.all = stock_of(w.inv, &w.f);
    w.g = graph_new(w.units);
    return w;
}

static inline struct wood wood_of(const char *text) {
    struct species_table *t = woods_table();
    return wood_with(t, woods_cruise(t, text));
}

static void wood_clear(struct wood *w) {
    graph_free(w->g);
    units_free(w->units);
    stock_free(w->all);
    inventory_free(w->inv);
    species_table_free(w->species);
}

#endif
