#include "quantity/scratch.h"

#include <stdint.h>
#include <string.h>

#include "quantity/graph.h"
#include "quantity/unit_inner.h"

struct scratch_piece {
    struct scratch_piece *before;
    size_t size;
    _Alignas(max_align_t) unsigned char data[];
};

struct scratch scratch_of(const struct graph *g)
{
    return (struct scratch){ .memory = graph_units(g)->memory };
}

void *scratch_get(struct scratch *s, size_t count, size_t item)
{
    struct scratch_piece *piece = NULL;
    if (count <= (SIZE_MAX - sizeof *piece) / item) {
        size_t size = sizeof *piece + count * item;
        piece = memory_resize(&s->memory, NULL, 0, size);
        if (piece) {
            *piece = (struct scratch_piece){ .before = s->last, .size = size };
            s->last = piece;
            return piece->data;
        }
    }
    s->failed = true;
    return NULL;
}

void *scratch_zeroed(struct scratch *s, size_t count, size_t item)
{
    void *data = scratch_get(s, count, item);
    if (data)
        memset(data, 0, count * item);
    return data;
}

void scratch_clear(struct scratch *s)
{
    while (s->last) {
        struct scratch_piece *piece = s->last;
        s->last = piece->before;
        memory_resize(&s->memory, piece, piece->size, 0);
    }
}
