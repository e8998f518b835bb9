#include "forest/plot_counts.h"

#include <string.h>

#include "forest/species.h"

static bool chosen(const struct species_set *species, uint16_t which)
{
    return !species ||
           (which != INVENTORY_NO_SPECIES && species_set_has(species, which));
}

static size_t marked(const struct inventory *inv, const struct inventory_marked *list,
                     size_t count, const struct species_set *species, double from_in,
                     double below_in, double *values)
{
    memset(values, 0, inv->plots * sizeof *values);
    for (size_t i = 0; i < count; i++)
        if (chosen(species, list[i].species) && list[i].diameter_in >= from_in &&
            list[i].diameter_in < below_in)
            values[list[i].plot] += list[i].trees;
    return inv->plots;
}

size_t plot_snags(const struct inventory *inv, const struct species_set *species,
                  double from_in, double below_in, double *values)
{
    return marked(inv, inv->snags, inv->snag_count, species, from_in, below_in, values);
}

size_t plot_dens(const struct inventory *inv, const struct species_set *species,
                 double from_in, double below_in, double *values)
{
    return marked(inv, inv->dens, inv->den_count, species, from_in, below_in, values);
}

static bool in_class(const struct inventory_stems *s, const struct species_set *species,
                     double from_ft, double below_ft)
{
    return chosen(species, s->species) && s->from_ft >= from_ft &&
           s->below_ft <= below_ft;
}

/* Leaves out the plots without a small plot; returns how many stay. */
static size_t taken_only(const struct inventory *inv, double *values)
{
    size_t count = 0;
    for (size_t p = 0; inv->stems_taken && p < inv->plots; p++)
        if (inv->stems_taken[p])
            values[count++] = values[p];
    return count;
}

size_t plot_stems(const struct inventory *inv, const struct species_set *species,
                  double from_ft, double below_ft, double *values)
{
    memset(values, 0, inv->plots * sizeof *values);
    for (size_t i = 0; i < inv->stem_count; i++)
        if (in_class(&inv->stems[i], species, from_ft, below_ft))
            values[inv->stems[i].plot] += inv->stems[i].stems;
    return taken_only(inv, values);
}

size_t plot_stocked(const struct inventory *inv, const struct species_set *species,
                    double from_ft, double below_ft, unsigned least, double *values)
{
    memset(values, 0, inv->plots * sizeof *values);
    for (size_t i = 0; i < inv->stem_count; i++)
        if (in_class(&inv->stems[i], species, from_ft, below_ft))
            values[inv->stems[i].plot] += inv->stems[i].counted;
    for (size_t p = 0; p < inv->plots; p++)
        values[p] = values[p] >= least ? 1 : 0;
    return taken_only(inv, values);
}

const struct inventory_stems *plot_stems_cut(const struct inventory *inv,
                                             const struct species_set *species,
                                             double from_ft, double below_ft)
{
    for (size_t i = 0; i < inv->stem_count; i++) {
        const struct inventory_stems *s = &inv->stems[i];
        bool overlaps = s->from_ft < below_ft && s->below_ft > from_ft;
        if (chosen(species, s->species) && overlaps &&
            !in_class(s, species, from_ft, below_ft))
            return s;
    }
    return NULL;
}
