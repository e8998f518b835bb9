/* tally.h: cruise notes as they are typed in the field, read into plots and trees.
 *
 *     struct tally *t = tally_read(text, length, at, species, &faults);
 *     for (size_t i = 0; t && i < t->plot_count; i++) ... t->plots[i].number
 *     tally_free(t);
 *
 *     baf 10                        -- how the plots below were taken: a prism's factor,
 *     radius 24 ft                  --   a fixed plot by its radius,
 *     size 1/10 ac                  --   or by its area
 *     plot 1: bigtooth aspen 7 8 8 9 11; red oak 14; red maple 5x3
 *             paper birch 6.5       # a plot may go on, on the next line
 *     plot 2: none                  -- an empty plot counts
 *
 * Diameters are in inches at breast height; `5x3` is three fives. A header holds for the
 * plots after it, until the next header. All faults of the text are told together, up to
 * ten, each at the bytes it means. */
#ifndef SPINNEY_FOREST_TALLY_H
#define SPINNEY_FOREST_TALLY_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/source.h"

struct fault;
struct faults;
struct species_table;

enum {
    TALLY_PLOTS_MOST = 1000,
    TALLY_TREES_MOST = 20000, /* entries: `5x3` is one */
    TALLY_COUNT_MOST = 500,   /* trees of one entry */
    TALLY_TEXT_MOST = 1 << 20
};
/* Breast-high stems thinner than half an inch are regeneration and counted otherwise;
 * thicker than 60 in is a slip of the pen in the Lake States. Common practice, no
 * source. */
#define TALLY_LEAST_IN 0.5
#define TALLY_MOST_IN 60.0

enum plot_kind { PLOT_POINT, PLOT_FIXED };

struct tally_plot {
    uint32_t number;
    enum plot_kind kind;
    double size;         /* PLOT_POINT: basal area factor, ft2/ac; PLOT_FIXED: acres */
    size_t first, count; /* its entries in `trees` */
    struct span at;      /* of "plot 1" */
};

struct tally_tree {
    uint32_t plot; /* index into plots */
    uint16_t species, count;
    double diameter_in;
};

struct tally {
    struct tally_plot *plots;
    struct tally_tree *trees;
    size_t plot_count, tree_count;
};

/* `at` is where the text starts in its source: faults are set there plus the offset
 * within the text (source 0 when the caller maps offsets itself). NULL when there was a
 * fault. The text may hold anything. Fault ids: tally-method, tally-plot, tally-twice,
 * tally-species, species-unknown, species-group, tally-diameter, tally-count, tally-size,
 * tally-empty. */
struct tally *tally_read(const char *text, size_t length, struct span at,
                         const struct species_table *species, struct faults *all);
void tally_free(struct tally *t);

#endif
