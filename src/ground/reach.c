#include "ground/reach.h"

#include <math.h>
#include <stdlib.h>

#include "base/fault.h"
#include "base/grow.h"
#include "ground/near.h"
#include "ground/pieces.h"

enum { SQUARES_MOST = 400000 }; /* then the best so far is told */

struct square {
    struct point middle;
    double half, bound;
};

struct search {
    const struct reach_ask *ask;
    struct pieces rim, held; /* of the cover; of the trails and openings */
    struct near near_rim, near_held;
    struct shape_box *boxes; /* of the openings */
    struct square *heap;     /* the highest bound on top */
    size_t count, room;
    struct reach best;
};

static double distance_from(const struct search *s, struct point p)
{
    for (size_t i = 0; i < s->ask->opening_count; i++) {
        struct shape_box b = s->boxes[i];
        if (p.x >= b.west && p.x <= b.east && p.y >= b.south && p.y <= b.north &&
            shape_has(s->ask->openings[i], p))
            return 0;
    }
    return near_distance(&s->near_held, p, NULL);
}

static void try_point(struct search *s, struct point p, double distance)
{
    if (distance > s->best.distance)
        s->best = (struct reach){ p, distance };
}

static bool push(struct search *s, struct square q, struct fault *f)
{
    struct square *heap = grow(s->heap, &s->room, s->count, sizeof *heap);
    if (!heap)
        return fault_no_memory(f);
    s->heap = heap;
    size_t i = s->count++;
    for (; i > 0 && heap[(i - 1) / 2].bound < q.bound; i = (i - 1) / 2)
        heap[i] = heap[(i - 1) / 2];
    heap[i] = q;
    return true;
}

static struct square pop(struct search *s)
{
    struct square top = s->heap[0], last = s->heap[--s->count];
    size_t i = 0;
    for (size_t k; (k = 2 * i + 1) < s->count; i = k) {
        if (k + 1 < s->count && s->heap[k + 1].bound > s->heap[k].bound)
            k++;
        if (s->heap[k].bound <= last.bound)
            break;
        s->heap[i] = s->heap[k];
    }
    s->heap[i] = last;
    return top;
}

/* A square that may hold a point of the cover; its middle, or the point of the rim
 * nearest it, is tried at once. */
static bool add_square(struct search *s, struct point middle, double half,
                       struct fault *f)
{
    double diagonal = half * sqrt(2), distance = distance_from(s, middle);
    size_t which;
    if (distance + diagonal <= s->best.distance + REACH_CLOSE)
        return true;
    if (shape_has(s->ask->cover, middle)) {
        try_point(s, middle, distance);
    } else {
        double t, gap = near_distance(&s->near_rim, middle, &which);
        if (gap > diagonal)
            return true;
        segment_distance(s->rim.list[which], middle, &t);
        struct point at = segment_at(s->rim.list[which], t);
        try_point(s, at, distance_from(s, at));
    }
    return push(s, (struct square){ middle, half, distance + diagonal }, f);
}

static bool search(struct search *s, struct fault *f)
{
    struct shape_box b = shape_box(s->ask->cover);
    double half = fmin(b.east - b.west, b.north - b.south) / 2;
    if (half <= 0)
        return true;
    half = fmax(half, fmax(b.east - b.west, b.north - b.south) / 200);
    for (size_t i = 0; i < s->rim.count; i++)
        try_point(s, s->rim.list[i].a, distance_from(s, s->rim.list[i].a));
    for (double y = b.south + half; y < b.north + half; y += 2 * half)
        for (double x = b.west + half; x < b.east + half; x += 2 * half)
            if (!add_square(s, (struct point){ x, y }, half, f))
                return false;
    for (int i = 0; s->count > 0 && i < SQUARES_MOST; i++) {
        struct square q = pop(s);
        if (q.bound <= s->best.distance + REACH_CLOSE)
            break;
        double quarter = q.half / 2;
        for (int k = 0; k < 4; k++) {
            struct point middle = { q.middle.x + (k % 2 ? quarter : -quarter),
                                    q.middle.y + (k / 2 ? quarter : -quarter) };
            if (!add_square(s, middle, quarter, f))
                return false;
        }
    }
    return true;
}

static bool gather(struct search *s, struct fault *f)
{
    const struct reach_ask *ask = s->ask;
    bool ok = pieces_add(&s->rim, ask->cover, f);
    for (size_t i = 0; ok && i < ask->line_count; i++)
        ok = pieces_add(&s->held, ask->lines[i], f);
    for (size_t i = 0; ok && i < ask->opening_count; i++)
        ok = pieces_add(&s->held, ask->openings[i], f);
    s->boxes = malloc((ask->opening_count + 1) * sizeof *s->boxes);
    if (!s->boxes)
        return fault_no_memory(f);
    for (size_t i = 0; i < ask->opening_count; i++)
        s->boxes[i] = shape_box(ask->openings[i]);
    return ok && near_build(&s->near_rim, s->rim.list, s->rim.count, f) &&
           near_build(&s->near_held, s->held.list, s->held.count, f);
}

bool reach_farthest(const struct reach_ask *ask, struct reach *out, struct fault *f)
{
    struct search s = { .ask = ask };
    *out = (struct reach){ .distance = 0 };
    if (shape_is_empty(ask->cover))
        return true;
    bool ok = gather(&s, f);
    if (ok && s.held.count == 0)
        s.best = (struct reach){ shape_inside(ask->cover), HUGE_VAL };
    else
        ok = ok && search(&s, f);
    *out = s.best;
    near_free(&s.near_rim);
    near_free(&s.near_held);
    pieces_free(&s.rim);
    pieces_free(&s.held);
    free(s.boxes);
    free(s.heap);
    return ok;
}
