#include "ground/pieces.h"

#include <stdlib.h>

#include "base/fault.h"
#include "base/grow.h"

static bool add(struct pieces *p, struct point a, struct point b, struct fault *f)
{
    struct segment *list = grow(p->list, &p->room, p->count, sizeof *list);
    if (!list)
        return fault_no_memory(f);
    p->list = list;
    list[p->count++] = (struct segment){ a, b };
    return true;
}

bool pieces_add(struct pieces *p, const struct shape *s, struct fault *f)
{
    for (size_t i = 0; i < s->part_count; i++) {
        const struct point *at = s->points + s->parts[i].first;
        size_t count = s->parts[i].count;
        bool lone = s->kind == SHAPE_POINTS || count == 1;
        size_t pieces = lone || s->kind == SHAPE_AREAS ? count : count - 1;
        for (size_t k = 0; count > 0 && k < pieces; k++)
            if (!add(p, at[k], lone ? at[k] : at[(k + 1) % count], f))
                return false;
    }
    return true;
}

void pieces_free(struct pieces *p)
{
    free(p->list);
    *p = (struct pieces){ .list = NULL };
}
