/* pieces.h: the straight pieces of shapes, one after another.
 *
 *     struct pieces p = { .list = NULL };
 *     if (!pieces_add(&p, &rim, f)) ...
 *     near_build(&n, p.list, p.count, f);
 *     pieces_free(&p);
 *
 * Rings are closed; a point is a piece without length. Faults: memory. */
#ifndef SPINNEY_GROUND_PIECES_H
#define SPINNEY_GROUND_PIECES_H

#include "ground/segment.h"

struct fault;

struct pieces {
    struct segment *list;
    size_t count, room;
};

bool pieces_add(struct pieces *p, const struct shape *s, struct fault *f);
void pieces_free(struct pieces *p);

#endif
