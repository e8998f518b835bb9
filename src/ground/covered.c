#include "ground/covered.h"

#include <math.h>
#include <stdlib.h>

#include "base/fault.h"
#include "base/grow.h"
#include "ground/pieces.h"

/* Scan lines run this way: the tangent is the golden ratio less one, which no map's frame
 * or grid has. */
#define TANGENT 0.61803398874989485
enum { LINES_MOST = 20000 };

struct part {
    double from, to;
};

struct parts {
    struct part *list;
    size_t count, room;
};

/* A strip, or the pieces of one area's rim: what lies between its south and its north. */
struct item {
    double south, north;
    const struct strip *strip; /* NULL: an area */
    size_t first, count;       /* its pieces */
};

struct scan {
    struct strip *strips;
    struct pieces pieces;
    struct item *items; /* the ground first, then the rest by south */
    size_t *active;
    size_t item_count, active_count;
    double *cuts; /* as many as pieces */
    struct parts ground, held;
    double west, east;
};

static struct point turned(struct point p)
{
    double c = 1 / sqrt(1 + TANGENT * TANGENT), s = c * TANGENT;
    return (struct point){ c * p.x - s * p.y, s * p.x + c * p.y };
}

static struct segment turned_piece(struct segment s)
{
    return (struct segment){ turned(s.a), turned(s.b) };
}

static bool add_part(struct parts *p, double from, double to, struct fault *f)
{
    struct part *list = grow(p->list, &p->room, p->count, sizeof *list);
    if (!list)
        return fault_no_memory(f);
    p->list = list;
    list[p->count++] = (struct part){ from, to };
    return true;
}

static int by_value(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return x < y ? -1 : x > y;
}

static int by_south(const void *a, const void *b)
{
    const struct item *x = a, *y = b;
    if (x->south != y->south)
        return x->south < y->south ? -1 : 1;
    return x->first < y->first ? -1 : x->first > y->first;
}

static int by_from(const void *a, const void *b)
{
    const struct part *x = a, *y = b;
    if (x->from != y->from)
        return x->from < y->from ? -1 : 1;
    return x->to < y->to ? -1 : x->to > y->to;
}

static bool add_area(struct scan *s, const struct shape *area, struct fault *f)
{
    struct item *item = &s->items[s->item_count];
    size_t first = s->pieces.count;
    if (!pieces_add(&s->pieces, area, f))
        return false;
    *item = (struct item){ HUGE_VAL, -HUGE_VAL, NULL, first, s->pieces.count - first };
    for (size_t i = first; i < s->pieces.count; i++) {
        struct segment *piece = &s->pieces.list[i];
        *piece = turned_piece(*piece);
        item->south = fmin(item->south, piece->a.y);
        item->north = fmax(item->north, piece->a.y);
        s->west = fmin(s->west, piece->a.x);
        s->east = fmax(s->east, piece->a.x);
    }
    s->item_count += item->count > 0;
    return true;
}

static void add_strip(struct scan *s, size_t i)
{
    struct segment axis = turned_piece(s->strips[i].axis);
    double r = s->strips[i].radius;
    s->strips[i].axis = axis;
    s->items[s->item_count++] =
        (struct item){ fmin(axis.a.y, axis.b.y) - r, fmax(axis.a.y, axis.b.y) + r,
                       &s->strips[i], i, 0 };
    s->west = fmin(s->west, fmin(axis.a.x, axis.b.x) - r);
    s->east = fmax(s->east, fmax(axis.a.x, axis.b.x) + r);
}

static bool gather(struct scan *s, const struct covered_ask *ask, struct fault *f)
{
    size_t most = 1 + ask->area_count + ask->strip_count;
    *s = (struct scan){ .west = HUGE_VAL, .east = -HUGE_VAL };
    s->items = malloc(most * sizeof *s->items);
    s->active = malloc(most * sizeof *s->active);
    s->strips = malloc((ask->strip_count + 1) * sizeof *s->strips);
    if (!s->items || !s->active || !s->strips)
        return fault_no_memory(f);
    if (!add_area(s, ask->ground, f))
        return false;
    for (size_t i = 0; i < ask->area_count; i++)
        if (!add_area(s, ask->areas[i], f))
            return false;
    for (size_t i = 0; i < ask->strip_count; i++) {
        s->strips[i] = ask->strips[i];
        add_strip(s, i);
    }
    s->cuts = malloc((s->pieces.count + 1) * sizeof *s->cuts);
    if (!s->cuts)
        return fault_no_memory(f);
    if (s->item_count > 1)
        qsort(s->items + 1, s->item_count - 1, sizeof *s->items, by_south);
    return true;
}

static bool scan_area(struct scan *s, const struct item *item, double y,
                      struct parts *out, struct fault *f)
{
    size_t count = 0;
    for (size_t i = item->first; i < item->first + item->count; i++) {
        struct segment p = s->pieces.list[i];
        if ((p.a.y > y) != (p.b.y > y))
            s->cuts[count++] = p.a.x + (y - p.a.y) / (p.b.y - p.a.y) * (p.b.x - p.a.x);
    }
    if (count > 0)
        qsort(s->cuts, count, sizeof *s->cuts, by_value);
    for (size_t i = 0; i + 1 < count; i += 2)
        if (!add_part(out, s->cuts[i], s->cuts[i + 1], f))
            return false;
    return true;
}

static bool scan_strip(struct scan *s, const struct item *item, double y, struct fault *f)
{
    struct segment line = { { s->west, y }, { s->east, y } };
    double t, u, wide = s->east - s->west;
    return !segment_in_capsule(line, item->strip->axis, item->strip->radius, &t, &u) ||
           add_part(&s->held, s->west + t * wide, s->west + u * wide, f);
}

/* Length of the ground's parts that the held ones take, each foot once. */
static double length_held(struct scan *s, double *whole)
{
    struct parts *g = &s->ground, *h = &s->held;
    double length = 0, done = -HUGE_VAL;
    size_t k = 0;
    if (h->count > 0)
        qsort(h->list, h->count, sizeof *h->list, by_from);
    for (size_t i = 0; i < g->count; i++)
        *whole += g->list[i].to - g->list[i].from;
    for (size_t i = 0; i < h->count; i++) {
        double from = fmax(h->list[i].from, done), to = h->list[i].to;
        if (to <= from)
            continue;
        done = to;
        while (k < g->count && g->list[k].to <= from)
            k++;
        for (size_t m = k; m < g->count && g->list[m].from < to; m++)
            length += fmax(fmin(to, g->list[m].to) - fmax(from, g->list[m].from), 0);
    }
    return length;
}

static bool scan_line(struct scan *s, double y, size_t *next, struct fault *f)
{
    size_t kept = 0;
    s->ground.count = s->held.count = 0;
    while (*next < s->item_count && s->items[*next].south <= y)
        s->active[s->active_count++] = (*next)++;
    for (size_t i = 0; i < s->active_count; i++) {
        const struct item *item = &s->items[s->active[i]];
        if (item->north < y)
            continue;
        s->active[kept++] = s->active[i];
        if (!(item->strip ? scan_strip(s, item, y, f)
                          : scan_area(s, item, y, &s->held, f)))
            return false;
    }
    s->active_count = kept;
    return scan_area(s, &s->items[0], y, &s->ground, f);
}

static bool scan(struct scan *s, double step, struct covered *out, struct fault *f)
{
    double south = s->items[0].south, high = s->items[0].north - south;
    double lines = fmin(ceil(high / step), LINES_MOST);
    size_t next = 1;
    step = high / lines;
    for (double i = 0; i < lines; i++) {
        if (!scan_line(s, south + (i + 0.5) * step, &next, f))
            return false;
        out->covered += step * length_held(s, &out->whole);
    }
    out->whole *= step;
    return true;
}

bool covered_area(const struct covered_ask *ask, struct covered *out, struct fault *f)
{
    struct scan s;
    *out = (struct covered){ 0, 0 };
    bool ok = shape_is_empty(ask->ground) || ask->ground->kind != SHAPE_AREAS;
    if (ok)
        return true;
    ok = gather(&s, ask, f) && scan(&s, ask->step, out, f);
    free(s.items);
    free(s.active);
    free(s.strips);
    free(s.cuts);
    free(s.ground.list);
    free(s.held.list);
    pieces_free(&s.pieces);
    return ok;
}
