#include "quantity/memory.h"

#include <stdint.h>
#include <stdlib.h>

#include "base/pages.h"

static void *plain_resize(void *context, void *block, size_t old, size_t size)
{
    (void)context;
    (void)old;
    if (size == 0) {
        free(block);
        return NULL;
    }
    return block ? realloc(block, size) : pages_get(size);
}

struct memory memory_plain(void)
{
    return (struct memory){ plain_resize, NULL };
}

void *memory_resize(const struct memory *m, void *block, size_t old, size_t size)
{
    return m->resize(m->context, block, old, size);
}

void *memory_grow(const struct memory *m, void *list, size_t *capacity, size_t needed,
                  size_t item)
{
    size_t wanted = *capacity < 8 ? 8 : *capacity;
    while (wanted < needed) {
        if (wanted > SIZE_MAX / 2)
            return NULL;
        wanted *= 2;
    }
    if (wanted > SIZE_MAX / item)
        return NULL;
    void *moved = memory_resize(m, list, *capacity * item, wanted * item);
    if (moved)
        *capacity = wanted;
    return moved;
}
