#include <math.h>
#include <stdlib.h>

#include "base/fault.h"
#include "forest/figure.h"
#include "forest/species.h"
#include "forest/wood.h"

#define POUNDS_PER_TON 2000.0

/* Dry tons of the part in one tree of a cell. */
static double tree_tons(const struct species *kind, double diameter_in, bool softwood,
                        enum biomass_part part)
{
    /* Species of no group: mixed hardwood, and pine for conifers. */
    const struct biomass_group *usual = biomass_group_at(softwood ? 6 : 2);
    double b0 = kind ? kind->traits[SPECIES_BIOMASS_0] : NAN;
    double b1 = kind ? kind->traits[SPECIES_BIOMASS_1] : NAN;
    bool known = !isnan(b0) && !isnan(b1);
    return biomass_dry_kg(known ? b0 : usual->b0, known ? b1 : usual->b1, diameter_in) *
           biomass_part(part, softwood, diameter_in) * BIOMASS_POUNDS_PER_KG /
           POUNDS_PER_TON;
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
        each[i] = tree_tons(species_at(t, cell->species), cell->diameter_in,
                            species_set_has(&soft, cell->species), part);
    }
    struct estimate e;
    struct qty q = QTY_NONE;
    if (estimate_weighted(s, pick, each, &e, f))
        q = figure_leaf(g, s, &e, "ton/ac", what,
                        part == BIOMASS_SLASH
                            ? "dry weight of tops, limbs and leaves, stems taken to a 4-in "
                              "top: " BIOMASS_SOURCE
                            : "dry weight: " BIOMASS_SOURCE,
                        f);
    free(each);
    return q;
}
