#include "forest/plot_counts.h"

#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "forest/species.h"

static bool chosen(const struct species_set *species, uint16_t which)
{
    return !species || (which != INVENTORY_NO_SPECIES && species_set_has(species, which));
}

static void marked(const struct inventory *inv, const struct inventory_marked *list,
                   size_t count, const struct species_set *species, double from_in,
                   double below_in, double *values)
{
    memset(values, 0, inv->plots * sizeof *values);
    for (size_t i = 0; i < count; i++)
        if (chosen(species, list[i].species) && list[i].diameter_in >= from_in &&
            list[i].diameter_in < below_in)
            values[list[i].plot] += list[i].trees;
}

void plot_snags(const struct inventory *inv, const struct species_set *species,
                double from_in, double below_in, double *values)
{
    marked(inv, inv->snags, inv->snag_count, species, from_in, below_in, values);
}

void plot_dens(const struct inventory *inv, const struct species_set *species,
               double from_in, double below_in, double *values)
{
    marked(inv, inv->dens, inv->den_count, species, from_in, below_in, values);
}

static bool in_class(const struct inventory_stems *s, const struct species_set *species,
                     double from_ft, double below_ft)
{
    return chosen(species, s->species) && s->from_ft >= from_ft &&
           s->below_ft <= below_ft;
}

void plot_stems(const struct inventory *inv, const struct species_set *species,
                double from_ft, double below_ft, double *values)
{
    memset(values, 0, inv->plots * sizeof *values);
    for (size_t i = 0; i < inv->stem_count; i++)
        if (in_class(&inv->stems[i], species, from_ft, below_ft))
            values[inv->stems[i].plot] += inv->stems[i].stems;
}

void plot_stocked(const struct inventory *inv, const struct species_set *species,
                  double from_ft, double below_ft, unsigned least, double *values)
{
    memset(values, 0, inv->plots * sizeof *values);
    for (size_t i = 0; i < inv->stem_count; i++)
        if (in_class(&inv->stems[i], species, from_ft, below_ft))
            values[inv->stems[i].plot] += inv->stems[i].counted;
    for (size_t p = 0; p < inv->plots; p++)
        values[p] = values[p] >= least ? 1 : 0;
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

size_t plot_count(const struct inventory *inv, const bool *taken)
{
    size_t count = 0;
    for (size_t p = 0; p < inv->plots; p++)
        count += !taken || taken[p];
    return count;
}

bool plot_estimate(const struct inventory *inv, const double *values, const bool *taken,
                   struct estimate *out, struct fault *f)
{
    size_t count = plot_count(inv, taken), n = 0;
    *out = (struct estimate){ .told = true };
    if (count == inv->plots)
        return estimate_plots(inv, values, NULL, out, f);
    if (count == 0)
        return true;
    /* A sample of its own, smaller than that of the trees. Its plots have other numbers,
     * so it must not share the causes of theirs. */
    static const char apart[] = ", small plots";
    double *some = calloc(count, sizeof *some);
    char *stand = malloc(strlen(inv->stand) + sizeof apart);
    bool good = some && stand;
    if (good) {
        strcpy(stand, inv->stand);
        strcat(stand, apart);
        for (size_t p = 0; p < inv->plots; p++)
            if (taken[p])
                some[n++] = values[p];
        struct inventory small = *inv;
        small.plots = count;
        small.stand = stand;
        good = estimate_plots(&small, some, NULL, out, f);
    } else {
        (void)fault_no_memory(f);
    }
    free(some);
    free(stand);
    return good;
}
