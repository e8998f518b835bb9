/* woods.h: a small table of species and helpers for the tests of this room. */
#ifndef SPINNEY_TESTS_WOODS_H
#define SPINNEY_TESTS_WOODS_H

#include <math.h>
#include <string.h>

#include "base/fault.h"
#include "forest/cruise.h"
#include "forest/species.h"

#define close_to(value, expected, within)                                                \
    assert_true(fabs((value) - (expected)) <= (within))

enum { BIGTOOTH, QUAKING, RED_OAK, PIN_OAK, RED_MAPLE, PAPER_BIRCH, HAZEL, WOODS_COUNT };

static inline struct species_table *woods_table(void) {
    static const char *const aspen[] = { "aspen", "hardwood", NULL };
    static const char *const oak[] = { "oak", "red oak group", "hardwood", NULL };
    static const char *const maple[] = { "maple", "hardwood", NULL };
    static const char *const hardwood[] = { "hardwood", NULL };
    static const char *const red_oak[] = { "red oak", NULL };
    const struct species_row rows[WOODS_COUNT] = {
        { .name = "bigtooth aspen",
          .code = "BTA",
          .groups = aspen,
          .scientific = "Populus grandidentata",
          .flags = SPECIES_SUCKERS,
          .tons_per_cord = 2.4,
          .tons_source = "handbook",
          .layer = "stdlib" },
        { .name = "quaking aspen",
          .code = "QA",
          .groups = aspen,
          .flags = SPECIES_SUCKERS,
          .tons_per_cord = 2.4,
          .layer = "stdlib" },
        { .name = "northern red oak",
          .code = "RO",
          .aliases = red_oak,
          .groups = oak,
          .flags = SPECIES_SPROUTS | SPECIES_WILTS | SPECIES_MAST,
          .tons_per_cord = 2.85,
          .tons_source = "handbook",
          .layer = "stdlib" },
        { .name = "northern pin oak",
          .code = "NPO",
          .groups = oak,
          .flags = SPECIES_SPROUTS | SPECIES_WILTS | SPECIES_MAST,
          .layer = "stdlib" },
        { .name = "red maple",
          .code = "RM",
          .groups = maple,
          .flags = SPECIES_SPROUTS,
          .layer = "stdlib" },
        { .name = "paper birch", .code = "PB", .groups = hardwood, .layer = "stdlib" },
        { .name = "beaked hazel",
          .code = "BHZ",
          .flags = SPECIES_SHRUB,
          .layer = "stdlib" },
    };
    struct species_table *t = species_table_new();
    struct fault f = { .id = NULL };
    for (size_t i = 0; i < WOODS_COUNT; i++) assert_true(species_add(t, &rows[i], &f));
    return t;
}

/* An inventory of cruise notes that have no fault. */
static inline struct inventory *woods_cruise(const struct species_table *t,
                                             const char *notes) {
    struct faults all = { .count = 0 };
    struct fault f = { .id = NULL };
    struct span at = { 1, 100, 0 };
    struct tally *tally = tally_read(notes, strlen(notes), at, t, &all);
    assert_non_null(tally);
    struct inventory *inv = cruise_inventory(tally, t, "Bench aspen", at, &f);
    assert_non_null(inv);
    tally_free(tally);
    return inv;
}

/* Numbers of the tests' own, the same on every machine. */
static inline double woods_random(uint32_t *state) {
    *state = *state * 1664525u + 1013904223u;
    return (double)(*state >> 8) / 16777216.0;
}

#endif
