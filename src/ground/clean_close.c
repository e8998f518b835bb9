#include <math.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/num.h"
#include "ground/clean.h"
#include "ground/shape.h"

static const double GAP_MOST = 50, GAP_SHARE = 0.05; /* ft; of the rim */

static bool left_open(const struct clean_ask *ask, double gap, struct fault *f)
{
    struct buf feet;
    buf_init(&feet);
    num_fixed(&feet, gap, 0, true);
    fault_set(f, "shape-open", SPAN_NONE,
              "the outline of `%s` is not closed: its ends lie %s ft apart", ask->name,
              feet.data);
    fault_hint(f, "walk it all the way round, or close it on the map");
    buf_clear(&feet);
    return false;
}

bool clean_close(struct shape *s, const struct clean_ask *ask, struct clean_done *done,
                 struct fault *f)
{
    struct shape closed = { .kind = SHAPE_AREAS };
    if (s->kind == SHAPE_POINTS)
        return fault_set(f, "shape-kind", SPAN_NONE, "`%s` is a point, not an area",
                         ask->name);
    if (s->kind == SHAPE_AREAS)
        return true;
    bool ok = true;
    for (size_t i = 0; ok && i < s->part_count; i++) {
        const struct shape_part *p = &s->parts[i];
        const struct point *points = s->points + p->first;
        struct point last = p->count > 0 ? points[p->count - 1] : (struct point){ 0, 0 };
        double rim = 0;
        for (size_t k = 0; k + 1 < p->count; k++)
            rim += hypot(points[k + 1].x - points[k].x, points[k + 1].y - points[k].y);
        double gap = p->count > 0 ? hypot(last.x - points[0].x, last.y - points[0].y) : 0;
        size_t count = p->count - (p->count > 1 && gap == 0);
        if (gap > fmax(GAP_MOST, GAP_SHARE * rim))
            ok = left_open(ask, gap, f);
        else if (count >= 3)
            ok = shape_add_part(&closed, points, count, false, f);
        if (gap > done->gap)
            done->gap = gap;
    }
    if (!ok) {
        shape_free(&closed);
        return false;
    }
    shape_free(s);
    *s = closed;
    return true;
}
