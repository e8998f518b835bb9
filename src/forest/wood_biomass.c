#include <math.h>
#include <stdlib.h>

#include "base/fault.h"
#include "forest/figure.h"
#include "forest/species.h"
#include "forest/wood.h"
#include "forest/wood_tree.h"

#define POUNDS_PER_TON 2000.0

/* Dry tons above ground in one tree of a cell. */
static double tree_tons(const struct species *kind, double diameter_in, bool softwood)
{
    /* Species of no group: mixed hardwood, and pine for conifers. */
    const struct biomass_group *usual = biomass_group_at(softwood ? 6 : 2);
    double b0 = kind ? kind->traits[SPECIES_BIOMASS_0] : NAN;
    double b1 = kind ? kind->traits[SPECIES_BIOMASS_1] : NAN;
    bool known = !isnan(b0) && !isnan(b1);
    return biomass_dry_kg(known ? b0 : usual->b0, known ? b1 : usual->b1, diameter_in) *
           BIOMASS_POUNDS_PER_KG / POUNDS_PER_TON;
}

/* An acre's of what `each` says of a tree. */
static struct qty weight(struct graph *g, const struct stock *s,
                         const struct stock_pick *pick, const double *each,
                         const char *what, const char *note, struct fault *f)
{
    struct estimate e;
    return estimate_weighted(s, pick, each, &e, f)
               ? figure_leaf(g, s, &e, "ton/ac", what, note, f)
               : QTY_NONE;
}

struct qty wood_biomass(struct graph *g, const struct stock *s,
                        const struct stock_pick *pick, const struct species_table *t,
                        enum biomass_part part, const char *what, struct fault *f)
{
    const struct inventory *inv = stock_inventory(s);
    struct species_set soft = wood_softwoods(t);
    double *each = calloc(inv->cell_count + 1, sizeof *each);
    if (!each) {
        (void)fault_no_memory(f);
        return QTY_NONE;
    }
    for (size_t i = 0; i < inv->cell_count; i++) {
        const struct inventory_cell *cell = &inv->cells[i];
        bool softwood = species_set_has(&soft, cell->species);
        each[i] = tree_tons(species_at(t, cell->species), cell->diameter_in, softwood) *
                  biomass_part(part, softwood, cell->diameter_in);
    }
    struct qty q = weight(g, s, pick, each, what, "dry weight: " BIOMASS_SOURCE, f);
    free(each);
    return q;
}

/* The part of a tree's dry weight above ground that its wood takes away. */
static double taken(const struct stem *stem, const struct wood_ask *ask, bool softwood)
{
    double d = stem->diameter_in;
    return wood_stem_taken(stem, ask, softwood ? &ask->softwood : &ask->hardwood) *
           (biomass_part(BIOMASS_WOOD, softwood, d) +
            biomass_part(BIOMASS_BARK, softwood, d));
}

struct qty wood_slash(struct graph *g, const struct stock *s,
                      const struct stock_pick *pick, const struct species_table *t,
                      const struct wood_ask *ask, const char *what, struct fault *f)
{
    const struct inventory *inv = stock_inventory(s);
    struct species_set soft = wood_softwoods(t);
    double stout = 0, *each = calloc(inv->cell_count + 1, sizeof *each);
    if (!each) {
        (void)fault_no_memory(f);
        return QTY_NONE;
    }
    if (!wood_stout(s, &stout, f)) {
        free(each);
        return QTY_NONE;
    }
    for (size_t i = 0; i < inv->cell_count; i++) {
        const struct inventory_cell *cell = &inv->cells[i];
        const struct species *kind = species_at(t, cell->species);
        bool softwood = species_set_has(&soft, cell->species);
        struct stem stem =
            wood_stem(kind, cell->diameter_in, stout, ask->tree_length_ft);
        bool brush = !kind || kind->flags & SPECIES_SHRUB;
        each[i] = tree_tons(kind, cell->diameter_in, softwood) *
                  (1 - (brush ? 0 : taken(&stem, ask, softwood)));
    }
    struct qty q = weight(g, s, pick, each, what,
                          "dry weight of limbs and leaves, and of the stems above the "
                          "pulpwood top: " BIOMASS_SOURCE
                          "; taper of the stems: common practice, no source",
                          f);
    free(each);
    return q;
}
