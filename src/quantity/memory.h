/* memory.h: where this room's memory comes from, so that a test can make any one request
 * fail and see that the room survives it.
 *
 *     struct memory m = memory_plain();
 *     int *list = memory_resize(&m, NULL, 0, 40 * sizeof *list);
 *     list = memory_resize(&m, list, 40 * sizeof *list, 0);    // frees, gives NULL
 *
 * The graph takes its memory from the units it borrows (unit_inner.h, units_new_on). */
#ifndef SPINNEY_QUANTITY_MEMORY_H
#define SPINNEY_QUANTITY_MEMORY_H

#include <stddef.h>

struct memory {
    /* As realloc, told the old size too; size 0 frees and returns NULL. */
    void *(*resize)(void *context, void *block, size_t old, size_t size);
    void *context;
};

struct memory memory_plain(void);
/* NULL when there is none left (the old block stays); making smaller may fail too. */
void *memory_resize(const struct memory *m, void *block, size_t old, size_t size);
/* A longer list: at least `needed` items, doubling from `*capacity`. Returns the list
 * moved, *capacity set; NULL when there is no memory or the size cannot be counted (the
 * old list stays). */
void *memory_grow(const struct memory *m, void *list, size_t *capacity, size_t needed,
                  size_t item);

#endif
