/* tally.h: cruise notes as they are typed in the field, read into plots and trees.
 *
 *     struct tally *t = tally_read(text, length, at, species, &faults);
 *     for (size_t i = 0; t && i < t->plot_count; i++) ... t->plots[i].number
 *     tally_free(t);
 *
 *     stand Bench aspen             -- several stands in one file: whose plots follow
 *     baf 10                        -- how the plots below were taken: a prism's factor,
 *     radius 24 ft                  --   a fixed plot by its radius,
 *     size 1/10 ac                  --   or by its area
 *     slope 30%                     -- of the plots below, to the next such line or stand
 *     slope 30%, corrected          --   the cruiser mended it in the field
 *     saplings on 1/100 ac, below 5 in    -- small plots about the same centers;
 *     regeneration on 1/1000 ac           --   ended by: no saplings, no regeneration
 *     plot 1: bigtooth aspen 7 8 8 9 11; red oak 14 half; red maple 5x3
 *             paper birch 6.5       # a plot may go on, on the next line
 *       saplings: red maple 1x3 2; bigtooth aspen 1x5
 *       regeneration: bigtooth aspen 12 under 1 ft, 5 1-3 ft; red oak 3 under 1 ft
 *       snags: 12 14, bigtooth aspen 9;  den trees: red maple 18
 *     plot 2: none                  -- an empty plot counts
 *     plot 3, slope 25%, half: ...  -- of this plot only; half a plot at a stand's edge
 *
 * Diameters are in inches at breast height; `5x3` is three fives; `14 half` is a
 * borderline tree that counts half, `14 double` one that counts twice (seen from the
 * mirage point too). A header holds for the plots after it, until the next header. A den
 * tree lives and counts among the trees; a snag is dead and counts with snags only. All
 * faults of the text are told together, up to ten, each at the bytes it means.
 *
 * Slope: a radius taped along the ground covers less on the map than it should, by the
 * cosine of the slope, and so does a prism that is not tilted; the plot's trees then
 * stand for 1/cos more (cruise.h). `corrected` says that the plot was laid out level, or
 * the prism turned, so that nothing is left to do. */
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
    TALLY_STEMS_MOST = 5000,  /* stems of one entry of regeneration */
    TALLY_STANDS_MOST = 200,
    TALLY_TEXT_MOST = 1 << 20
};
/* Breast-high stems thinner than half an inch are regeneration and counted otherwise;
 * thicker than 60 in is a slip of the pen in the Lake States. Common practice, no
 * source. */
#define TALLY_LEAST_IN 0.5
#define TALLY_MOST_IN  60.0

/* A sapling is thinner than this where nothing else is said: 1.0 to 4.9 in is the custom
 * of the national inventory (from memory). */
#define TALLY_SAPLINGS_BELOW_IN 5.0
#define TALLY_SLOPE_MOST        150.0      /* percent; steeper ground is not cruised */
#define TALLY_HEIGHT_MOST       30.0       /* ft, of a height class */
#define TALLY_NO_SPECIES        UINT16_MAX /* a snag whose species was not told */

enum plot_kind { PLOT_POINT, PLOT_FIXED };

/* Fields that are 0 say the plain thing: level ground, a whole plot, no small plots. */
struct tally_plot {
    uint32_t number;
    enum plot_kind kind;
    double size;         /* PLOT_POINT: basal area factor, ft2/ac; PLOT_FIXED: acres */
    size_t first, count; /* its entries in `trees`, saplings and snags among them */
    struct span at;      /* of "plot 1" */
    double slope;        /* percent */
    bool corrected;      /* for slope, in the field */
    unsigned parts; /* 2: half a plot was taken, at an edge; 4: a quarter, in a corner */
    double saplings_ac, saplings_below_in; /* 0: none were taken apart */
    double stems_ac;                       /* the plot for regeneration; 0: none */
    bool snags_told; /* of snags something was said, if only "none" */
    bool dens_told;
};

enum tree_state { TREE_LIVING, TREE_DEN, TREE_SNAG };

struct tally_tree {
    uint32_t plot; /* index into plots */
    uint16_t species, count;
    double diameter_in;
    double times; /* what each counts for: 0.5 a borderline tree, 2 double; 0 is 1 */
    enum tree_state state;
    bool sapling; /* on the small plot */
};

/* Stems of regeneration: a count in a height class. */
struct tally_stems {
    uint32_t plot;
    uint16_t species, count;
    double from_ft, below_ft; /* 0 and HUGE_VAL where no height was told */
};

struct tally_stand {
    char *name;
    size_t first, count; /* its plots */
    struct span at;      /* of the name */
};

struct tally {
    struct tally_plot *plots;
    struct tally_tree *trees;
    struct tally_stems *stems;
    struct tally_stand *stands; /* none when the notes name none */
    size_t plot_count, tree_count, stem_count, stand_count;
};

/* `at` is where the text starts in its source: faults are set there plus the offset
 * within the text (source 0 when the caller maps offsets itself). NULL when there was a
 * fault. The text may hold anything. Fault ids: tally-method, tally-plot, tally-twice,
 * tally-species, species-unknown, species-group, tally-diameter, tally-count,
 * tally-comma, tally-size, tally-empty, tally-slope, tally-stand, tally-part,
 * tally-height. */
struct tally *tally_read(const char *text, size_t length, struct span at,
                         const struct species_table *species, struct faults *all);
void tally_free(struct tally *t);
/* The notes of one of the stands, as a tally of its own; NULL when out of memory. */
struct tally *tally_of_stand(const struct tally *t, size_t stand, struct fault *f);

#endif
