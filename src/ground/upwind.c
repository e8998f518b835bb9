#include "ground/upwind.h"

#include <math.h>
#include <stdlib.h>

#include "base/fault.h"
#include "ground/pieces.h"

/* A slice of the sector is narrow enough to be convex. */
enum { SLICE = 45, SLICE_CORNERS = SLICE / UPWIND_ARC + 2, HULL = 2 * SLICE_CORNERS };
#define DEGREE (3.14159265358979323846 / 180)

struct slice {
    struct point corners[SLICE_CORNERS];
};

static struct slice slice_of(double from, double wide, double distance)
{
    struct slice s = { .corners = { { 0, 0 } } };
    for (int i = 1; i < SLICE_CORNERS; i++) {
        double bearing = (from + wide * (i - 1) / (SLICE_CORNERS - 2)) * DEGREE;
        s.corners[i] = (struct point){ distance * sin(bearing), distance * cos(bearing) };
    }
    return s;
}

static int by_east(const void *a, const void *b)
{
    const struct point *p = a, *q = b;
    if (p->x != q->x)
        return p->x < q->x ? -1 : 1;
    return p->y < q->y ? -1 : p->y > q->y;
}

static bool turns_left(struct point a, struct point b, struct point c)
{
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x) > 0;
}

/* The outline round points, counterclockwise, from the west along the south and back. */
static size_t outline(struct point *points, size_t count, struct point *out)
{
    size_t held = 0, floor;
    qsort(points, count, sizeof *points, by_east);
    for (size_t i = 0; i < count; i++) {
        while (held >= 2 && !turns_left(out[held - 2], out[held - 1], points[i]))
            held--;
        out[held++] = points[i];
    }
    floor = held + 1;
    for (size_t i = count - 1; i-- > 0;) {
        while (held >= floor && !turns_left(out[held - 2], out[held - 1], points[i]))
            held--;
        out[held++] = points[i];
    }
    return held - 1;
}

static size_t spread_piece(struct segment piece, const struct slice *s, struct point *out)
{
    struct point points[HULL];
    for (int i = 0; i < SLICE_CORNERS; i++) {
        struct point c = s->corners[i];
        points[2 * i] = (struct point){ piece.a.x + c.x, piece.a.y + c.y };
        points[2 * i + 1] = (struct point){ piece.b.x + c.x, piece.b.y + c.y };
    }
    return outline(points, HULL, out);
}

static bool line_in(const struct point *line, size_t count, const struct point *corners,
                    size_t corner_count, struct segment rim, struct along_list *out,
                    struct fault *f)
{
    double start = 0;
    for (size_t i = 1; i < count; i++) {
        struct segment s = { line[i - 1], line[i] };
        double t, u, length = segment_length(s);
        if (segment_in_convex(s, corners, corner_count, &t, &u)) {
            struct segment part = { segment_at(s, t), segment_at(s, u) };
            struct along a = { start + t * length, start + u * length,
                               segment_gap(part, rim, NULL), part.a, part.b };
            if (!along_add(out, a, f))
                return false;
        }
        start += length;
    }
    return true;
}

bool along_upwind(const struct point *line, size_t count, const struct shape *area,
                  struct wind wind, double distance, struct along_list *out,
                  struct fault *f)
{
    struct pieces rim = { .list = NULL };
    size_t first = out->count;
    double spread = fmin(fmax(wind.spread, 0.01), 180);
    int slices = (int)ceil(2 * spread / SLICE);
    if (distance <= 0)
        return true;
    bool ok = pieces_add(&rim, area, f) && along_inside(line, count, area, out, f);
    for (int i = 0; ok && i < slices; i++) {
        double wide = 2 * spread / slices;
        struct slice slice = slice_of(wind.from - spread + i * wide, wide, distance);
        for (size_t k = 0; ok && k < rim.count; k++) {
            struct point corners[HULL + 1];
            size_t corner_count = spread_piece(rim.list[k], &slice, corners);
            ok = line_in(line, count, corners, corner_count, rim.list[k], out, f);
        }
    }
    pieces_free(&rim);
    along_settle(out, first);
    return ok;
}
