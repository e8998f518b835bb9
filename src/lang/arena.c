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
