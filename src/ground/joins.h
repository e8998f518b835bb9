/* joins.h: which links to cut, so that every opening has its ways out at the least
 * length.
 *
 *     struct joins net = { .openings = 8, .exits = 3, .links = links, .link_count = 30 };
 *     if (!joins_begin(&net, f)) ...
 *     joins_count(&net, used, 4, 2);    // routes out of opening 4, 2 at most
 *     joins_choose(&net, 2, seed, used, f);      // the links to cut
 *     joins_end(&net);
 *
 * A way out is a route to an exit; the ways of one opening share no link and go to
 * different exits. Their number is a maximum flow (Menger 1927; Ford and Fulkerson 1956):
 * every link carries one, either way, every exit takes one. Links that go to an exit end
 * there.
 *
 * Choosing: all links, then those taken away that can be missed, longest first; then
 * parts of the net, small balls of links, are filled up and thinned out again in an order
 * by chance, and what is shorter is kept (a little longer, now and then: simulated
 * annealing, Kirkpatrick, Gelatt and Vecchi 1983, Science 220). Taking a link away can
 * only fail the openings it began or ended at: a set of openings with too few links out
 * of it holds one of them. So a try costs two flows, O(ways x links). The work is bounded
 * by `effort`, links looked at; what is chosen depends on nothing but links and seed. */
#ifndef SPINNEY_GROUND_JOINS_H
#define SPINNEY_GROUND_JOINS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct fault;

struct joins_link {
    int a, b;      /* a is an opening; b an opening, or an exit: openings + its number */
    double length; /* ft */
};

struct joins {
    int openings, exits;
    const struct joins_link *links;
    size_t link_count;
    uint64_t effort; /* 0: enough for a net of some 60 openings */
    /* Its own. */
    int *start, *half;  /* the links of each place */
    int8_t *flow;       /* 1 from a to b, -1 the other way */
    uint8_t *taken;     /* of each exit */
    int *queue, *by;    /* the search: places, and the link that led to each */
    uint64_t looked;
};

bool joins_begin(struct joins *net, struct fault *f);
void joins_end(struct joins *net);
/* How many ways out an opening has over the links that are used, at most `most`. */
int joins_count(struct joins *net, const uint8_t *used, int opening, int most);
/* Fills `used`. An opening that cannot have so many keeps as many as it can have. Returns
 * the length, ft; negative when out of memory. */
double joins_choose(struct joins *net, int wanted, uint64_t seed, uint8_t *used,
                   struct fault *f);

#endif
