#include "forest/inventory.h"

#include <stdlib.h>

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
