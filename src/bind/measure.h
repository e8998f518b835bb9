/* measure.h: quantities as values of a script: arithmetic, comparison and printing in
 * units, and the functions of the vocabulary that take them (range, sum, ceil, chance,
 * ...).
 *
 *     measure_open(L);                              // once, after sandbox_open
 *     measure_push(L, graph_multiply(g, hours, rate, &f));
 *     struct qty width = measure_check(L, 2, ft);   // raises unless it is a length
 *
 * A measure holds its quantity until the collector finds that nothing needs it; it has no
 * finalizer (cells.h). What measure_at returns belongs to the value on the stack: do not
 * release it, and hold it (graph_hold) to keep it longer. Bare numbers multiply and
 * divide freely; they are added and compared only to bare numbers and percents. Texts are
 * never taken for numbers. */
#ifndef SPINNEY_BIND_MEASURE_H
#define SPINNEY_BIND_MEASURE_H

#include <stdbool.h>
#include <stddef.h>

#include "quantity/graph.h"

struct fault;
struct lua_State;

/* The metatable, the functions in the vocabulary, and wider math.abs, ceil, floor, max,
 * min and sqrt. Uses host_of(L)->graph, which must outlive the state. */
void measure_open(struct lua_State *L);

/* The graph that all measures of the run are in. */
struct graph *measure_graph(struct lua_State *L);
/* QTY_NONE when the value is no measure. */
struct qty measure_at(struct lua_State *L, int index);
/* Takes the hold, also when it runs out of memory. QTY_NONE is pushed as nil. */
void measure_push(struct lua_State *L, struct qty take);
/* Raises unless the value is a measure that can be said in `unit`. */
struct qty measure_check(struct lua_State *L, int index, struct unit_id unit);
/* Can a quantity be said in `unit`? */
bool measure_fits(struct lua_State *L, struct qty q, struct unit_id unit);
/* The unit named by the text at `index`; raises when there is none. */
struct unit_id measure_unit(struct lua_State *L, int index);
/* "15 ft", cut to fit. */
void measure_text(struct lua_State *L, struct qty q, char *out, size_t size);
/* Where the author's line is, as the origin of a leaf made there. */
struct origin measure_origin(struct lua_State *L, const char *words);
/* Pushes and takes; or raises what is set in `f` at the author's line. */
void measure_result(struct lua_State *L, struct qty take, const struct fault *f);

#endif
