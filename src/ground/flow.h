/* flow.h: how many routes there are that share nothing, by the largest flow.
 *
 *     struct flow *fl = flow_new(places, f);
 *     flow_add(fl, a, b, 1, 1, f);                // a stretch, either way by one
 *     size_t routes = flow_most(fl, from, to);    // starts afresh each time
 *     if (flow_holds(fl, v)) ...                  // v is still reached: what holds the
 *                                                 // routes to so few is next to these
 *     flow_free(fl);
 *
 * The number of routes that share no stretch is the smallest number of stretches whose
 * loss cuts them all: Menger, 1927; the largest flow by shortest augmenting paths:
 * Edmonds and Karp, 1972 (both from memory). Costs at most (routes + 1) times the number
 * of stretches. Faults: memory. */
#ifndef SPINNEY_GROUND_FLOW_H
#define SPINNEY_GROUND_FLOW_H

#include <stdbool.h>
#include <stddef.h>

struct fault;
struct flow;

struct flow *flow_new(size_t places, struct fault *f);
void flow_free(struct flow *fl);
/* So many routes from a to b, and so many back. The first added is number 0. */
bool flow_add(struct flow *fl, size_t a, size_t b, int there, int back, struct fault *f);
size_t flow_most(struct flow *fl, size_t from, size_t to);
/* After flow_most: is the place on the side of `from` in the smallest cut nearest it? */
bool flow_holds(const struct flow *fl, size_t place);
/* After flow_most: is the number-th added one of that smallest cut? */
bool flow_cuts(const struct flow *fl, size_t number);
/* After flow_most: how many more go from a to b than back. */
int flow_of(const struct flow *fl, size_t number);

#endif
