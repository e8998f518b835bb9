/* chance.h: numbers by chance that are the same on every machine.
 *
 *     uint64_t state = seed;
 *     double part = chance_unit(&state);          // 0 up to, not including, 1
 *     size_t one = chance_below(&state, count);   // count is not 0
 *     uint64_t hash = chance_mixed(sum);          // neighbours differ in every bit
 *
 * The splitmix64 generator (Steele, Lea, Flood 2014, "Fast splittable pseudorandom number
 * generators", OOPSLA 2014; its constants from memory). */
#ifndef SPINNEY_BASE_CHANCE_H
#define SPINNEY_BASE_CHANCE_H

#include <stddef.h>
#include <stdint.h>

/* Each bit goes to all others, and no two numbers become one: the generator's last steps,
 * for what hashes too. */
static inline uint64_t chance_mixed(uint64_t z)
{
    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    return z ^ (z >> 31);
}

static inline uint64_t chance_next(uint64_t *state)
{
    return chance_mixed(*state += UINT64_C(0x9e3779b97f4a7c15));
}

static inline double chance_unit(uint64_t *state)
{
    return (double)(chance_next(state) >> 11) * 0x1p-53;
}

static inline size_t chance_below(uint64_t *state, size_t count)
{
    return (size_t)(chance_unit(state) * (double)count);
}

#endif
