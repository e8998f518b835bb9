/* grow.h: room for one more in an array that is only appended to.
 *
 *     struct run *runs = grow(d->runs, &d->run_room, d->run_count, sizeof *runs);
 *     if (!runs) return false;        // the old array is still there
 *     d->runs = runs;
 */
#ifndef SPINNEY_BASE_GROW_H
#define SPINNEY_BASE_GROW_H

#include <stdint.h>
#include <stdlib.h>

/* The array, moved if it was full; NULL when out of memory. Doubles, from 16. */
static inline void *grow(void *array, size_t *room, size_t count, size_t size)
{
    if (count < *room)
        return array;
    size_t wanted = *room == 0 ? 16 : *room * 2;
    if (wanted > SIZE_MAX / 2 / size)
        return NULL;
    void *moved = realloc(array, wanted * size);
    if (moved)
        *room = wanted;
    return moved;
}

#endif
