#include "forest/inventory.h"

#include <stdlib.h>

#include "base/fault.h"
#include "forest/species.h"

void inventory_free(struct inventory *inv)
{
    if (!inv)
        return;
    free(inv->stand);
    free(inv->words);
    free(inv->cells);
    free(inv->entries);
    free(inv->snags);
    free(inv->dens);
    free(inv->stems);
    free(inv->stems_taken);
    free(inv->doubt.shares);
    free(inv);
}

uint64_t inventory_species_key(const struct species_table *t, size_t species)
{
    const struct species *s = species_at(t, species);
    uint64_t h = UINT64_C(14695981039346656037); /* FNV-1a */
    for (const char *c = s ? s->name : ""; *c; c++)
        h = (h ^ (unsigned char)*c) * UINT64_C(1099511628211);
    return h;
}

static int by_diameter(const void *a, const void *b)
{
    const struct inventory_cell *const *x = a, *const *y = b;
    if ((*x)->diameter_in < (*y)->diameter_in)
        return -1;
    if ((*x)->diameter_in > (*y)->diameter_in)
        return 1;
    return (*x > *y) - (*x < *y); /* as they lie: sums do not hang on the sorting */
}

bool inventory_find_stout(struct inventory *inv, struct fault *f)
{
    const struct inventory_cell **cells = malloc((inv->cell_count + 1) * sizeof *cells);
    if (!cells)
        return fault_no_memory(f);
    double all = 0, thicker = 0;
    for (size_t i = 0; i < inv->cell_count; i++) {
        cells[i] = &inv->cells[i];
        all += cells[i]->trees * cells[i]->diameter_in * cells[i]->diameter_in;
    }
    qsort(cells, inv->cell_count, sizeof *cells, by_diameter);
    inv->stout_in = 0;
    for (size_t i = inv->cell_count; i-- > 0 && thicker < 0.1 * all;) {
        thicker += cells[i]->trees * cells[i]->diameter_in * cells[i]->diameter_in;
        inv->stout_in = cells[i]->diameter_in;
    }
    free(cells);
    return true;
}
