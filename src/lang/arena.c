#include "lang/arena.h"

#include <stdlib.h>
#include <string.h>

#include "base/pages.h"

void arena_init(struct arena *a, size_t size)
{
    memset(a, 0, sizeof *a);
    size -= size % ARENA_STEP;
    a->start = size > 0 ? pages_get(size) : NULL;
    a->fresh = a->start;
    a->end = a->start ? a->start + size : NULL;
}

void arena_clear(struct arena *a)
{
    free(a->start);
    memset(a, 0, sizeof *a);
}

static size_t step_of(size_t size)
{
    return (size + ARENA_STEP - 1) / ARENA_STEP;
}

void *arena_take(struct arena *a, size_t size)
{
    if (size == 0 || size > ARENA_LARGEST)
        return NULL;
    size_t step = step_of(size);
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

void arena_give(struct arena *a, void *block, size_t size)
{
    size_t step = step_of(size);
    memcpy(block, &a->unused[step], sizeof block);
    a->unused[step] = block;
}
