/* ranks.h: scores of draws by their ranks: what a normal would have at the same ones.
 *
 *     struct ranked room[RANKS_ROOM];
 *     ranks_score(row, table, room, scores);      // SPREAD_DRAWS of each
 *
 * Equal draws share the mean of their scores; those that cannot be worked out stand in
 * the middle, at 0. */
#ifndef SPINNEY_QUANTITY_RANKS_H
#define SPINNEY_QUANTITY_RANKS_H

#include "quantity/spread.h"

enum { RANKS_ROOM = 2 * SPREAD_DRAWS };

struct ranked {
    uint64_t key; /* in the order of the draws */
    int place;
};

/* `table`: the scores in order (draws_table). `ranked`: room to sort in. */
void ranks_score(const double *row, const double *table, struct ranked *ranked,
                 double *scores);

#endif
