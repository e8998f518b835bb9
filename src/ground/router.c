#include "ground/router.h"

#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "base/grow.h"
#include "ground/outline.h"

/* Trails keep so far off walls where it costs little, ft; common practice, no source. */
#define EASE 15.0

bool trace_add(struct trace *t, struct point p, struct fault *f)
{
    struct point *points = grow(t->points, &t->space, t->count, sizeof *points);
    if (!points)
        return fault_no_memory(f);
    t->points = points;
    points[t->count++] = p;
    return true;
}

double trace_length(const struct trace *t)
{
    double sum = 0;
    for (size_t i = 1; i < t->count; i++)
        sum += point_apart(t->points[i - 1], t->points[i]);
    return sum;
}

static double price_of(const struct router *r, size_t cell)
{
    if (!r->free[cell])
        return 0;
    double spare = (r->room->room[cell] - r->half) / EASE;
    return spare < 1 ? 2 - spare : 1;
}

bool router_begin(struct router *r, struct fault *f)
{
    size_t count = lattice_count(&r->room->at);
    r->price = malloc(count * sizeof *r->price);
    r->owner = calloc(count, sizeof *r->owner);
    r->gate = calloc(count, sizeof *r->gate);
    r->worn = calloc(count, 1);
    r->cost = malloc(count * sizeof *r->cost);
    r->from = malloc(count * sizeof *r->from);
    r->seen = calloc(count, sizeof *r->seen);
    r->flood.first = malloc(((size_t)r->gates + 1) * sizeof *r->flood.first);
    if (!r->flood.first || !r->price || !r->owner || !r->gate || !r->worn || !r->cost || !r->from || !r->seen)
        return fault_no_memory(f);
    for (size_t i = 0; i < count; i++)
        r->price[i] = price_of(r, i);
    return true;
}

void router_end(struct router *r)
{
    free(r->price);
    free(r->owner);
    free(r->gate);
    free(r->worn);
    free(r->cost);
    free(r->from);
    free(r->seen);
    free(r->flood.first);
    free(r->heap);
    *r = (struct router){ 0 };
}

void router_own(struct router *r, int opening, const struct point *rim, size_t count)
{
    const struct lattice *at = &r->room->at;
    struct point low = rim[0], high = rim[0];
    r->flood.is_on = false;
    for (size_t i = 1; i < count; i++) {
        low.x = fmin(low.x, rim[i].x);
        low.y = fmin(low.y, rim[i].y);
        high.x = fmax(high.x, rim[i].x);
        high.y = fmax(high.y, rim[i].y);
    }
    long first = lattice_nearest(at, low), last = lattice_nearest(at, high);
    for (long row = first / at->columns; row <= last / at->columns; row++) {
        for (long x = first % at->columns; x <= last % at->columns; x++) {
            long i = row * at->columns + x;
            if (outline_has(rim, count, lattice_center(at, i)))
                r->owner[i] = opening + 1;
        }
    }
}

void router_disown(struct router *r)
{
    size_t count = lattice_count(&r->room->at);
    memset(r->owner, 0, count * sizeof *r->owner);
    memset(r->worn, 0, count);
    r->flood.is_on = false;
}

/* In narrow ground the middle of a cell need not be the middle of the way: it is looked
 * for a little off the nearest wall. */
static bool has_way(const struct field *room, long cell, double half)
{
    struct point c = lattice_center(&room->at, cell);
    const struct wall *w = &room->walls[room->nearest[cell]];
    struct point from = wall_nearest(w, c);
    double off = point_apart(from, c), lack = half + 0.2 - room->room[cell];
    if (off <= 0 || lack > room->at.cell)
        return false;
    struct point q = { c.x + (c.x - from.x) / off * lack,
                       c.y + (c.y - from.y) / off * lack };
    return lattice_cell(&room->at, q) == cell && field_room(room, q) >= half + 0.1;
}

void router_free_cells(const struct field *room, const uint8_t *cover, double half,
                       uint8_t *out)
{
    for (long i = 0; i < (long)lattice_count(&room->at); i++)
        out[i] = cover[i] && room->nearest[i] >= 0 &&
                 (room->room[i] >= half + 0.25 * room->at.cell || has_way(room, i, half));
}

bool router_is_free(const struct router *r, long cell)
{
    return r->free[cell] != 0;
}

bool router_push(struct router *r, float key, long cell, struct fault *f)
{
    struct router_entry *heap =
        grow(r->heap, &r->heap_space, r->heap_count, sizeof *heap);
    if (!heap)
        return fault_no_memory(f);
    r->heap = heap;
    size_t i = r->heap_count++;
    for (; i > 0 && heap[(i - 1) / 2].key > key; i = (i - 1) / 2)
        heap[i] = heap[(i - 1) / 2];
    heap[i] = (struct router_entry){ key, (int32_t)cell };
    return true;
}

bool router_pop(struct router *r, struct router_entry *out)
{
    if (r->heap_count == 0)
        return false;
    *out = r->heap[0];
    struct router_entry last = r->heap[--r->heap_count];
    size_t i = 0;
    for (;;) {
        size_t next = 2 * i + 1;
        if (next >= r->heap_count)
            break;
        if (next + 1 < r->heap_count && r->heap[next + 1].key < r->heap[next].key)
            next++;
        if (r->heap[next].key >= last.key)
            break;
        r->heap[i] = r->heap[next];
        i = next;
    }
    r->heap[i] = last;
    return true;
}

static void wear_around(struct router *r, long cell, long span, double off, int by)
{
    const struct lattice *at = &r->room->at;
    long column = cell % at->columns, row = cell / at->columns, wide = span;
    /* A row farther off is no longer than one nearer. */
    for (long dy = 0; dy <= span; dy++) {
        while (wide >= 0 && (double)(wide * wide + dy * dy) * at->cell * at->cell > off * off)
            wide--;
        long west = column < wide ? 0 : column - wide;
        long east = column + wide < at->columns ? column + wide : at->columns - 1;
        for (int side = dy > 0 ? -1 : 1; side <= 1; side += 2) {
            long y = row + side * dy;
            for (long x = west; y >= 0 && y < at->rows && x <= east; x++) {
                uint8_t *worn = &r->worn[y * at->columns + x];
                *worn = (uint8_t)(*worn + by); /* balanced; fewer than 256 */
            }
        }
    }
}

void router_wear(struct router *r, const struct trace *t, double off, int by)
{
    const struct lattice *at = &r->room->at;
    long span = (long)ceil(off / at->cell);
    long last = -1;
    r->flood.is_on = false;
    /* A cell counts once for each of the trail's cells that is close: many, at most 255.
     * */
    for (size_t i = 1; i < t->count; i++) {
        struct point a = t->points[i - 1], b = t->points[i];
        long steps = (long)ceil(point_apart(a, b) / at->cell) + 1;
        for (long k = 0; k <= steps; k++) {
            double part = (double)k / (double)steps;
            struct point p = { a.x + part * (b.x - a.x), a.y + part * (b.y - a.y) };
            long cell = lattice_nearest(at, p);
            if (cell == last)
                continue;
            last = cell;
            wear_around(r, cell, span, off, by);
        }
    }
}
