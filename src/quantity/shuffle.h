/* shuffle.h: the order in which an uncertain leaf takes the parts of its distribution: a
 * permutation of 0 .. SHUFFLE_SIZE - 1 that follows from the leaf's key alone.
 *
 *     struct shuffle s = shuffle_of(key);
 *     uint16_t order[SHUFFLE_BLOCK];
 *     shuffle_block(&s, 0, order);            // the first 512 of 4,096
 *
 * Same key, same order: one draw however many nodes say it. Orders of different keys are
 * as good as independent: their correlation is 0 give or take 1 in 64, as for orders
 * dealt like cards (the tests hold it to that). Computed place by place rather than
 * dealt: no memory for each leaf, any block by itself, a third of the time. */
#ifndef SPINNEY_QUANTITY_SHUFFLE_H
#define SPINNEY_QUANTITY_SHUFFLE_H

#include <stdint.h>

enum {
    SHUFFLE_BITS = 12,
    SHUFFLE_SIZE = 1 << SHUFFLE_BITS,
    SHUFFLE_ROUNDS = 6,
    SHUFFLE_BLOCK = 512
};

struct shuffle {
    uint16_t mask[SHUFFLE_ROUNDS], factor[SHUFFLE_ROUNDS];
};

struct shuffle shuffle_of(uint64_t key);
/* SHUFFLE_BLOCK places of the order, from place `from` on. */
void shuffle_block(const struct shuffle *s, unsigned from, uint16_t *restrict out);

#endif
