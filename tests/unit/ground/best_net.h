/* best_net.h: the shortest choice of links there is, by trying them all: for tests. */
#ifndef SPINNEY_TESTS_BEST_NET_H
#define SPINNEY_TESTS_BEST_NET_H

#include <math.h>
#include <string.h>

#include "ground/joins.h"

enum { BEST_LINKS = 40 };

struct best_net {
    const struct joins *net;
    int wanted;
    uint8_t used[BEST_LINKS], best[BEST_LINKS];
    double least, tail[BEST_LINKS + 1];
};

/* Ways out by a search of its own: all sets of routes, one after the other, each route
 * marking its links and its exit; unlike a flow it takes nothing back. */
static inline int best_routes(const struct joins *net, uint8_t *used, uint32_t exits,
                              uint64_t seen, int place, int start, int most)
{
    if (most == 0)
        return 0;
    if (place >= net->openings) {
        if (exits >> (place - net->openings) & 1)
            return 0;
        exits |= 1u << (place - net->openings);
        return 1 + best_routes(net, used, exits, 0, start, start, most - 1);
    }
    int best = 0;
    seen |= (uint64_t)1 << place;
    for (size_t e = 0; e < net->link_count && best < most; e++) {
        const struct joins_link *l = &net->links[e];
        if (!used[e] || (l->a != place && l->b != place))
            continue;
        int next = l->a == place ? l->b : l->a;
        if (seen >> next & 1)
            continue;
        used[e] = 0;
        int found = best_routes(net, used, exits, seen, next, start, most);
        used[e] = 1;
        best = found > best ? found : best;
    }
    return best;
}

static inline bool best_serves(struct best_net *b, const uint8_t *used)
{
    uint8_t copy[BEST_LINKS];
    memcpy(copy, used, b->net->link_count);
    for (int i = 0; i < b->net->openings; i++)
        if (best_routes(b->net, copy, 0, 0, i, i, b->wanted) < b->wanted)
            return false;
    return true;
}

/* With link e and what follows still open (used so far): each with it and without. */
static inline void best_from(struct best_net *b, size_t e, double length)
{
    if (length >= b->least - 1e-9 || !best_serves(b, b->used))
        return;
    if (e == b->net->link_count) {
        b->least = length;
        memcpy(b->best, b->used, e);
        return;
    }
    b->used[e] = 0;
    best_from(b, e + 1, length);
    b->used[e] = 1;
    best_from(b, e + 1, length + b->net->links[e].length);
}

/* HUGE_VAL when there is none. */
static inline double best_length(struct best_net *b, const struct joins *net, int wanted)
{
    memset(b, 0, sizeof *b);
    b->net = net;
    b->wanted = wanted;
    b->least = HUGE_VAL;
    memset(b->used, 1, net->link_count);
    best_from(b, 0, 0);
    return b->least;
}

#endif
