/* inventory.h: what stands on an acre of a stand, by species and diameter, and all that
 * is known of how sure that is. It is made once, from a tally (cruise.h) or from an
 * estimate by eye (eye.h), and never changed; what is taken and left of it is a stock
 * (stock.h).
 *
 *     struct inventory *inv = cruise_inventory(tally, species, "Bench aspen", at, f);
 *     for (size_t i = 0; i < inv->cell_count; i++) ... inv->cells[i].trees
 *     inventory_free(inv);
 *
 * A cell is one species at one diameter as it was written down, so that a limit of 7.5 in
 * cuts where it says; classes of an inch or two are made for showing only. */
#ifndef SPINNEY_FOREST_INVENTORY_H
#define SPINNEY_FOREST_INVENTORY_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/source.h"

struct fault;
struct species_table;

/* Basal area of a tree in ft2 from its diameter in inches: pi D^2 / 576. Husch, Beers and
 * Kershaw 2003, Forest Mensuration, print it as 0.005454154 D^2. */
#define INVENTORY_FT2_PER_IN2 0.005454153912482

enum inventory_basis {
    INVENTORY_TALLY, /* plots were taken */
    INVENTORY_EYE,   /* walked and judged */
    INVENTORY_GUESS  /* not walked */
};
/* What the judgement by eye was of: the other follows from the diameters. */
enum inventory_judged { JUDGED_BASAL_AREA, JUDGED_TREES };

struct inventory_cell {
    uint16_t species; /* index into the species table */
    uint16_t share;   /* by eye: which of the shares it belongs to */
    uint64_t key;     /* of the species' name, for keys of draws */
    double diameter_in;
    double trees; /* per acre */
};

/* Trees per acre that one plot found in one cell. */
struct inventory_entry {
    uint32_t plot, cell;
    double trees;
};

/* A tree or snag noted on a plot for what it is, by species and diameter: trees per acre
 * that the plot found. */
struct inventory_marked {
    uint32_t plot;
    uint16_t species; /* INVENTORY_NO_SPECIES: not told */
    double diameter_in, trees;
};
#define INVENTORY_NO_SPECIES UINT16_MAX

/* Stems of regeneration per acre that one small plot found in one class of heights. */
struct inventory_stems {
    uint32_t plot;
    uint16_t species;
    double from_ft, below_ft; /* 0 and HUGE_VAL: no height was told */
    uint32_t counted;         /* stems on the plot itself */
    double stems;             /* per acre */
};

/* How far a judgement by eye may be off (eye.h), all as parts of 1. */
struct inventory_share {
    double share, off;
};
struct inventory_doubt {
    enum inventory_judged judged;
    double below, above; /* of basal area or trees per acre in all */
    double diameter;     /* of the diameters */
    struct inventory_share *shares;
    size_t share_count;
};

struct inventory {
    enum inventory_basis basis;
    char *stand, *words;          /* "tally of Bench aspen: 5 plots, BAF 10" */
    struct span at;               /* where it was written */
    struct inventory_cell *cells; /* by species, then diameter */
    size_t cell_count;
    double stout_in; /* a tenth of the basal area is thicker: the tallest trees */
    struct inventory_entry *entries; /* tally */
    size_t entry_count, plots;       /* empty plots count; 0 by eye */
    struct inventory_doubt doubt;    /* by eye */
    /* Tally: what is counted beside the living trees (plot_counts.h). Den trees live and
     * are in the cells too; snags and regeneration are in no cell. Dead wood and sprouts
     * are never basal area, trees or cords. */
    struct inventory_marked *snags, *dens;
    size_t snag_count, den_count;
    struct inventory_stems *stems;
    size_t stem_count;
    bool snags_told, dens_told; /* false: the notes never speak of them */
    bool *stems_taken;          /* for each plot: had it a small plot for regeneration? */
};

void inventory_free(struct inventory *inv);
/* For who makes one: fills stout_in from the cells. False only when out of memory. */
bool inventory_find_stout(struct inventory *inv, struct fault *f);

/* The key of a species in a draw, from its name. */
uint64_t inventory_species_key(const struct species_table *t, size_t species);

#endif
