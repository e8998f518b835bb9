#include "forest/species.h"

#include <string.h>

struct species_set species_set_all(void)
{
    struct species_set all;
    memset(&all, 0xff, sizeof all);
    return all;
}

void species_set_put(struct species_set *set, size_t index, bool in)
{
    if (index >= SPECIES_MOST)
        return;
    uint64_t bit = UINT64_C(1) << (index % 64);
    set->bits[index / 64] =
        in ? set->bits[index / 64] | bit : set->bits[index / 64] & ~bit;
}

void species_set_join(struct species_set *into, const struct species_set *other)
{
    for (size_t i = 0; i < SPECIES_MOST / 64; i++)
        into->bits[i] |= other->bits[i];
}

void species_set_without(struct species_set *into, const struct species_set *other)
{
    for (size_t i = 0; i < SPECIES_MOST / 64; i++)
        into->bits[i] &= ~other->bits[i];
}

bool species_set_meets(const struct species_set *a, const struct species_set *b)
{
    for (size_t i = 0; i < SPECIES_MOST / 64; i++)
        if (a->bits[i] & b->bits[i])
            return true;
    return false;
}

bool species_set_is_empty(const struct species_set *set)
{
    for (size_t i = 0; i < SPECIES_MOST / 64; i++)
        if (set->bits[i])
            return false;
    return true;
}
