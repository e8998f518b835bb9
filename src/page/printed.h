/* printed.h: the quantities that one output prints, with the spread of each. They are
 * collected first and drawn together, in one call, when the output is made.
 *
 *     struct printed all;
 *     printed_init(&all, graph);
 *     size_t hours = printed_add(&all, q, true);
 *     if (!printed_settle(&all, f)) ...
 *     printed_put(&all, hours, &out);           // "70 h (60 to 80)"
 *     printed_clear(&all);
 *
 * Every figure is held until printed_clear, which must come before graph_free. Do not
 * collect inside a scope of the graph that closes before the output is made: closing it
 * takes the holds away. */
#ifndef SPINNEY_PAGE_PRINTED_H
#define SPINNEY_PAGE_PRINTED_H

#include "quantity/spread.h"

struct buf;

struct printed {
    struct graph *graph; /* borrowed; may be NULL when nothing is ever added */
    struct qty *list;
    bool *drawn; /* by number: is its spread asked for? */
    struct spread *spreads; /* of the first `settled` */
    size_t count, capacity, settled, drawn_capacity;
    bool failed; /* out of memory: told by printed_settle */
};

void printed_init(struct printed *all, struct graph *g);
void printed_clear(struct printed *all);
/* Takes a hold of its own; without `spread` nothing is drawn for it. Returns the number of the figure, PRINTED_NONE for QTY_NONE or
 * when out of memory. */
#define PRINTED_NONE ((size_t)-1)
size_t printed_add(struct printed *all, struct qty q, bool spread);
/* Draws all that were added since the last time. Costs nothing when there are none. */
__attribute__((warn_unused_result))
bool printed_settle(struct printed *all, struct fault *f);
/* After printed_settle; the part in parentheses where it was asked for. */
void printed_put(const struct printed *all, size_t number, struct buf *out);
/* Likewise without the unit: for where a heading names it. */
void printed_put_bare(const struct printed *all, size_t number, struct buf *out);

#endif
