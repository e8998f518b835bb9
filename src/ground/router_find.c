#include <stdlib.h>

#include "base/fault.h"
#include "ground/router.h"

#define DIAGONAL 1.4142135623730951

struct hunt {
    struct router *r;
    int a, b;
    long target;          /* a cell, or -1: any of gate b */
    int32_t column, row;  /* of the target */
};

static inline int32_t columns_of(const struct hunt *h)
{
    return (int32_t)h->r->room->at.columns;
}

static inline double to_go(const struct hunt *h, int32_t column, int32_t row)
{
    if (h->target < 0)
        return 0;
    double dx = (double)abs(column - h->column), dy = (double)abs(row - h->row);
    double most = dx > dy ? dx : dy, least = dx > dy ? dy : dx;
    return (most + (DIAGONAL - 1) * least) * h->r->room->at.cell;
}

/* Of a flood, notes the gate that the cell is the first of. */
static bool is_there(const struct hunt *h, int32_t cell)
{
    if (h->target >= 0)
        return cell == h->target;
    int32_t gate = h->r->gate[cell] - 1;
    if (gate >= 0 && gate < h->r->gates && h->r->flood.first[gate] < 0)
        h->r->flood.first[gate] = cell;
    return gate == h->b - h->r->openings;
}

/* To a neighbour, so many cells off; `here` is the price of the cell. */
static inline bool step_to(struct hunt *h, long cell, double here, int32_t x, int32_t y,
                           double far, struct fault *f)
{
    struct router *r = h->r;
    long next = (long)y * columns_of(h) + x;
    /* One that is as near to the start already is no farther on. */
    bool seen = r->seen[next] == r->turn;
    if (seen && r->cost[next] <= r->cost[cell])
        return true;
    double price = router_price(r, next, h->a, h->b, true);
    if (price <= 0)
        return true;
    float cost = (float)(r->cost[cell] + far * r->room->at.cell * (price + here) / 2);
    if (seen && r->cost[next] <= cost)
        return true;
    r->seen[next] = r->turn;
    r->cost[next] = cost;
    r->from[next] = (int32_t)cell;
    return router_push(r, (float)(cost + to_go(h, x, y)), next, f);
}

static bool look_around(struct hunt *h, long cell, int32_t column, int32_t row,
                        struct fault *f)
{
    int32_t columns = columns_of(h), rows = (int32_t)h->r->room->at.rows;
    double here = router_price(h->r, cell, h->a, h->b, true);
    for (int32_t y = row > 0 ? row - 1 : 0; y <= row + 1 && y < rows; y++)
        for (int32_t x = column > 0 ? column - 1 : 0; x <= column + 1 && x < columns; x++)
            if ((x != column || y != row) &&
                !step_to(h, cell, here, x, y, x != column && y != row ? DIAGONAL : 1, f))
                return false;
    return true;
}

/* The cells nearest to the start first, until it is there: that cell; -1: no way; -2: out of
 * memory. */
static long go_on(struct hunt *h, struct fault *f)
{
    struct router *r = h->r;
    struct router_entry e;
    int32_t columns = columns_of(h);
    while (router_pop(r, &e)) {
        int32_t column = e.cell % columns, row = e.cell / columns;
        if (e.key > (float)(r->cost[e.cell] + to_go(h, column, row)) + 1e-3f)
            continue;
        if (is_there(h, e.cell))
            return e.cell;
        if (!look_around(h, e.cell, column, row, f))
            return -2;
    }
    return -1;
}

static long begin(struct hunt *h, long start, struct fault *f)
{
    struct router *r = h->r;
    int32_t columns = columns_of(h);
    r->turn++;
    r->heap_count = 0;
    r->seen[start] = r->turn;
    r->cost[start] = 0;
    r->from[start] = -1;
    for (int i = 0; h->target < 0 && i < r->gates; i++)
        r->flood.first[i] = -1;
    double far = to_go(h, (int32_t)start % columns, (int32_t)start / columns);
    return router_push(r, (float)far, start, f) ? go_on(h, f) : -2;
}

/* From the same start to another gate the same cells come first. */
static long resume(struct hunt *h, struct fault *f)
{
    struct router *r = h->r;
    int32_t gate = h->b - r->openings, columns = columns_of(h);
    long end = r->flood.end;
    if (r->flood.first[gate] >= 0)
        return r->flood.first[gate];
    r->flood.end = -1;
    if (end >= 0 && !look_around(h, end, (int32_t)end % columns, (int32_t)end / columns, f))
        return -2;
    return go_on(h, f);
}

/* The cell where it ends; -1: no way; -2: out of memory. */
static long hunt_down(struct hunt *h, long start, struct fault *f)
{
    struct router_flood *flood = &h->r->flood;
    bool to_gate = h->target < 0 && h->b - h->r->openings < h->r->gates;
    if (!to_gate || !flood->is_on || flood->a != h->a || flood->start != start) {
        *flood = (struct router_flood){ to_gate, h->a, start, -1, flood->first };
        flood->end = begin(h, start, f);
        return flood->end;
    }
    long end = resume(h, f);
    if (flood->end < 0)
        flood->end = end;
    return end;
}

/* What the straight way costs; HUGE_VAL when it is closed. */
static double straight(const struct hunt *h, struct point a, struct point b)
{
    const struct lattice *at = &h->r->room->at;
    double length = point_apart(a, b), sum = 0;
    long steps = (long)ceil(2 * length / at->cell);
    for (long i = 0; i < steps; i++) {
        double t = ((double)i + 0.5) / (double)steps;
        struct point p = { a.x + t * (b.x - a.x), a.y + t * (b.y - a.y) };
        double price = router_price(h->r, lattice_nearest(at, p), h->a, h->b, true);
        if (price <= 0)
            return HUGE_VAL;
        sum += price;
    }
    return steps > 0 ? sum / (double)steps * length : 0;
}

/* From each point as far on as a straight way costs no more than the cells' way. */
static bool pull(const struct hunt *h, const struct point *points, const double *cost,
                 size_t count, struct trace *out, struct fault *f)
{
    size_t i = 0;
    while (i + 1 < count) {
        size_t best = i + 1, misses = 0;
        for (size_t j = i + 2; j < count && misses < 6; j += 1 + (j - i) / 8) {
            double c = straight(h, points[i], points[j]);
            if (c <= cost[j] - cost[i] + 0.02 * h->r->room->at.cell) {
                best = j;
                misses = 0;
            } else {
                misses++;
            }
        }
        if (best + 1 < count && straight(h, points[i], points[count - 1]) <=
                                    cost[count - 1] - cost[i])
            best = count - 1;
        i = best;
        if (!trace_add(out, points[i], f))
            return false;
    }
    return true;
}

int router_find(struct router *r, struct point from, int a, int to,
                const struct point *to_point, struct trace *out, struct fault *f)
{
    struct hunt h = { .r = r, .a = a, .b = to, .target = -1 };
    if (to_point)
        h.target = lattice_nearest(&r->room->at, *to_point);
    h.column = (int32_t)(h.target % r->room->at.columns);
    h.row = (int32_t)(h.target / r->room->at.columns);
    long end = hunt_down(&h, lattice_nearest(&r->room->at, from), f);
    if (end < 0)
        return end == -1 ? 0 : -1;
    size_t count = 0;
    for (long i = end; i >= 0; i = r->from[i])
        count++;
    struct point *points = malloc(count * sizeof *points);
    double *cost = malloc(count * sizeof *cost);
    bool good = (points && cost) || fault_no_memory(f);
    size_t k = count;
    for (long i = end; good && i >= 0; i = r->from[i]) {
        points[--k] = lattice_center(&r->room->at, i);
        cost[k] = r->cost[i];
    }
    if (good) {
        points[0] = from;
        if (to_point)
            points[count - 1] = *to_point;
        if (count == 1)
            good = trace_add(out, points[0], f);
        else
            good = (out->count > 0 || trace_add(out, from, f)) &&
                   pull(&h, points, cost, count, out, f);
    }
    free(points);
    free(cost);
    return good ? 1 : -1;
}
