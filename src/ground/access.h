/* access.h: does the way in, or the seat it leads to, give a hunter away?
 *
 *     struct access_ask ask = { .way = &way, .seats = &seats, .bedding = beds,
 *                               .bedding_count = 2, .least = 300, .upwind = 600,
 *                               .wind = { 270, 30 } };
 *     struct access_list found;
 *     if (!access_check(&ask, &found, f)) ...
 *     found.list[0].kind, .where.from, .where.to      // ft along the way
 *     free(found.list);
 *
 * A way in should not cross bedding cover or openings, nor come near them, nor lie upwind
 * of them (common practice, no source): each stretch that does is told. Where a way
 * crosses, it is near too: both are told. Distances of 0 ask for nothing; cover is told
 * before openings, the way before the seats. Costs the pieces of the way times those of
 * the rims. Faults: memory. */
#ifndef SPINNEY_GROUND_ACCESS_H
#define SPINNEY_GROUND_ACCESS_H

#include "ground/upwind.h"

struct access_ask {
    const struct shape *way;   /* lines, or NULL */
    const struct shape *seats; /* points, or NULL */
    const struct shape *const *bedding;
    size_t bedding_count;
    const struct shape *const *openings;
    size_t opening_count;
    double least, upwind; /* ft */
    struct wind wind;     /* what prevails */
};

enum access_kind { ACCESS_CROSSES, ACCESS_NEAR, ACCESS_UPWIND };

struct access_finding {
    enum access_kind kind;
    bool seat, opening; /* a seat rather than the way; an opening rather than bedding */
    size_t part;        /* of the way; or which seat */
    size_t area;        /* which bedding cover or opening */
    struct along where; /* no length for a seat */
};

struct access_list {
    struct access_finding *list;
    size_t count, room;
};

bool access_check(const struct access_ask *ask, struct access_list *out, struct fault *f);

#endif
