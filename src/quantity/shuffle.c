#include "quantity/shuffle.h"

#include "base/chance.h"
#include "base/wide.h"

/* The one seed of all draws: any number would do, but another one makes other last digits
 * in every paper. */
#define SEED UINT64_C(0x7370696e6e657921)

enum { LOW = SHUFFLE_SIZE - 1, HALF = SHUFFLE_BITS / 2 };

struct shuffle shuffle_of(uint64_t key)
{
    uint64_t state = key ^ SEED;
    /* Once through the mill, so that neighbouring keys do not walk the same sequence one
     * step apart. */
    state = chance_next(&state);
    struct shuffle s;
    for (int i = 0; i < SHUFFLE_ROUNDS; i++) {
        uint64_t x = chance_next(&state);
        s.mask[i] = (uint16_t)(x & LOW);
        s.factor[i] = (uint16_t)(((x >> 32) & LOW) | 1);
    }
    return s;
}

/* Each part of a round can be undone within 12 bits (flip bits by a mask; multiply by an
 * odd number; fold the upper half into the lower), so together they permute. Multiplying
 * carries what the low bits hold upward, folding carries it back down; six rounds of it,
 * with masks and factors from the key, leave no trace that the tests can find. */
static inline uint16_t mixed(uint16_t x, const struct shuffle *s, int round)
{
    x = (uint16_t)((uint16_t)((x ^ s->mask[round]) * s->factor[round]) & LOW);
    return (uint16_t)(x ^ (x >> HALF));
}

WIDE void shuffle_block(const struct shuffle *s, unsigned from, uint16_t *restrict out)
{
    const struct shuffle local = *s; /* that `out` cannot overlap */
    uint16_t first = (uint16_t)from;
    for (uint16_t i = 0; i < SHUFFLE_BLOCK; i++) {
        uint16_t x = mixed((uint16_t)(first + i), &local, 0);
        x = mixed(x, &local, 1);
        x = mixed(x, &local, 2);
        x = mixed(x, &local, 3);
        x = mixed(x, &local, 4);
        out[i] = mixed(x, &local, 5);
    }
}
