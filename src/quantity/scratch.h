/* scratch.h: memory for one computation of this room, given back all at once.
 *
 *     struct scratch s = scratch_of(g);              // the graph's own allocator
 *     double *row = scratch_get(&s, 4096, sizeof *row);
 *     bool *seen = scratch_zeroed(&s, nodes, sizeof *seen);
 *     if (s.failed) fault_no_memory(f);              // asked once, after the last get
 *     scratch_clear(&s);
 */
#ifndef SPINNEY_QUANTITY_SCRATCH_H
#define SPINNEY_QUANTITY_SCRATCH_H

#include <stdbool.h>

#include "quantity/memory.h"

struct graph;
struct scratch_piece;

struct scratch {
    struct memory memory;
    struct scratch_piece *last;
    bool failed;
};

struct scratch scratch_of(const struct graph *g);
/* NULL, and `failed` set, when there is none left or the size cannot be counted. Nothing
 * asked for (0 of it) gives a pointer that may not be read. */
void *scratch_get(struct scratch *s, size_t count, size_t item);
void *scratch_zeroed(struct scratch *s, size_t count, size_t item);
void scratch_clear(struct scratch *s);

#endif
