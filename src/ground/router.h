/* router.h: ways over the ground from opening to opening, or out.
 *
 *     struct router r = { .room = &field, .free = free_cells, .half = 3 };
 *     if (!router_begin(&r, f)) ...
 *     router_own(&r, 0, rim, count);                // the cells of opening 0
 *     router_find(&r, from, 0, 2, &trace, f);       // 1: found; 0: no way; -1: no memory
 *     router_wear(&r, &trace, 20, 1);               // later ways keep 20 ft off it
 *
 * Places are openings, then gates (stretches of exits). The way is the cheapest over the
 * cells (A*: Hart, Nilsson and Raphael 1968, IEEE Trans. Syst. Sci. Cybern. 4), then
 * pulled straight where that costs no more. A foot costs up to twice as much close to a
 * wall, and several times as much close to another trail; other openings are closed.
 * O(cells looked at x log). */
#ifndef SPINNEY_GROUND_ROUTER_H
#define SPINNEY_GROUND_ROUTER_H

#include "ground/field.h"

struct trace {
    struct point *points;
    size_t count, space;
};

struct router_entry {
    float key;
    int32_t cell;
};

struct router {
    const struct field *room;
    const uint8_t *free; /* of each cell: there is room for a trail */
    double half;     /* half the width of a trail: the room that it needs */
    int32_t *owner;  /* of each cell: an opening + 1 */
    int32_t *gate;   /* of each cell: a gate + 1 */
    double *price;   /* of each cell, what a foot costs there; 0 where there is no room */
    uint8_t *worn;   /* trails close to the cell */
    int openings, gates;
    float *cost;
    int32_t *from;
    uint32_t *seen, turn;
    struct router_flood {
        bool is_on;      /* the last way was to a gate, and no ground was worn since */
        int a;
        long start, end; /* the cells it began at and came to; no end: -1 */
        int32_t *first;  /* of each gate, the cell that it met first; -1: none yet */
    } flood;             /* a way to another gate goes on from it */
    struct router_entry *heap;
    size_t heap_count, heap_space;
};

/* Which cells of the cover have room for a trail, half of whose width is given. */
void router_free_cells(const struct field *room, const uint8_t *cover, double half,
                       uint8_t *out);
bool router_begin(struct router *r, struct fault *f);
void router_end(struct router *r);
void router_own(struct router *r, int opening, const struct point *rim, size_t count);
void router_disown(struct router *r);
bool router_is_free(const struct router *r, long cell);
/* What it costs more close to another trail. */
#define ROUTER_WORN_PRICE 7.0
bool router_push(struct router *r, float key, long cell, struct fault *f);
bool router_pop(struct router *r, struct router_entry *out);
/* Appends the way to the trace, `from` first. `to` is a place; with `to_point` not NULL
 * the way goes to that point and may enter `to` too. */
int router_find(struct router *r, struct point from, int a, int to,
                const struct point *to_point, struct trace *out, struct fault *f);
void router_wear(struct router *r, const struct trace *t, double off, int by);

/* What a foot costs there, trails or not; 0 where no trail may be. `a` and `b` may be
 * entered. */
static inline double router_price(const struct router *r, long cell, int a, int b,
                                  bool trails)
{
    int owner = r->owner[cell] - 1;
    if (owner >= 0)
        return owner == a || owner == b ? 1 : 0;
    double price = r->price[cell];
    return trails && price > 0 && r->worn[cell] > 0 ? price + ROUTER_WORN_PRICE : price;
}

bool trace_add(struct trace *t, struct point p, struct fault *f);
double trace_length(const struct trace *t);

#endif
