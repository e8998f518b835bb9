/* arena.h: small blocks out of one piece of memory, by size, for as long as it lasts: a
 * plan makes tens of thousands of them, and they are taken and given back in a few
 * instructions each.
 *
 *     arena_init(&a, 4 << 20);
 *     block = arena_take(&a, size);          // NULL: ask malloc
 *     if (arena_holds(&a, block)) arena_give(&a, block, size); else free(block);
 *     arena_clear(&a);
 *
 * What has been given back serves blocks of the same size only; that no more than the one
 * piece can be lost in this way is why there is no second. */
#ifndef SPINNEY_LANG_ARENA_H
#define SPINNEY_LANG_ARENA_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

enum { ARENA_STEP = 16, ARENA_LARGEST = 4096 };

struct arena {
    char *start, *fresh, *end; /* NULL when there is none */
    void *unused[ARENA_LARGEST / ARENA_STEP + 1];
};

/* Without memory, or with `size` 0, it holds nothing and gives nothing. */
void arena_init(struct arena *a, size_t size);
void arena_clear(struct arena *a);
static inline size_t arena_step(size_t size)
{
    return (size + ARENA_STEP - 1) / ARENA_STEP;
}
/* Aligned to ARENA_STEP; NULL when the size is 0 or too large, or nothing is left. */
static inline void *arena_take(struct arena *a, size_t size)
{
    if (size == 0 || size > ARENA_LARGEST)
        return NULL;
    size_t step = arena_step(size);
    void *block = a->unused[step];
    if (block) {
        memcpy(&a->unused[step], block, sizeof block);
        return block;
    }
    if ((size_t)(a->end - a->fresh) < step * ARENA_STEP)
        return NULL;
    block = a->fresh;
    a->fresh += step * ARENA_STEP;
    return block;
}
/* `size` is that of arena_take, or another of the same step. */
static inline void arena_give(struct arena *a, void *block, size_t size)
{
    size_t step = arena_step(size);
    memcpy(block, &a->unused[step], sizeof block);
    a->unused[step] = block;
}
static inline bool arena_holds(const struct arena *a, const void *block)
{
    return (uintptr_t)block - (uintptr_t)a->start < (uintptr_t)(a->end - a->start);
}
/* May a block change from one size to the other where it lies? */
static inline bool arena_fits(size_t old, size_t size)
{
    return arena_step(old) == arena_step(size);
}

#endif
