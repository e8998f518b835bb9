/* max_flow.h: how many routes there are that share nothing, by the largest flow.
 *
 *     struct max_flow *fl = max_flow_new(places, f);
 *     max_flow_add(fl, a, b, 1, 1, f);               // a stretch, either way by one
 *     size_t routes = max_flow_most(fl, from, to);   // starts afresh each time
 *     if (max_flow_cuts(fl, 0)) ...                  // a stretch that holds it to so few
 *     max_flow_free(fl);
 *
 * The number of routes that share no stretch is the smallest number of stretches whose
 * loss cuts them all: Menger, 1927; the largest flow by shortest augmenting paths:
 * Edmonds and Karp, 1972 (both from memory). Costs at most (routes + 1) times the number
 * of stretches. Faults: memory. */
#ifndef SPINNEY_GROUND_MAX_FLOW_H
#define SPINNEY_GROUND_MAX_FLOW_H

#include <stdbool.h>
#include <stddef.h>

struct fault;
struct max_flow;

struct max_flow *max_flow_new(size_t places, struct fault *f);
void max_flow_free(struct max_flow *fl);
/* So many routes from a to b, and so many back. The first added is number 0. */
bool max_flow_add(struct max_flow *fl, size_t a, size_t b, int there, int back,
                  struct fault *f);
size_t max_flow_most(struct max_flow *fl, size_t from, size_t to);
/* After max_flow_most: is the number-th added in the smallest cut, that nearest `from`? */
bool max_flow_cuts(const struct max_flow *fl, size_t number);

#endif
