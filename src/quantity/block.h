/* block.h: arithmetic over a block of draws: what the steps of draws.c are made of.
 *
 *     double a[BLOCK], b[BLOCK], out[BLOCK];
 *     block_multiply(out, a, b);
 *
 * Plain loops of a length known beforehand over arrays that do not overlap, which
 * compilers turn into vector instructions. `out` is never one of the operands. A sum that
 * takes several of these steps adds from left to right. */
#ifndef SPINNEY_QUANTITY_BLOCK_H
#define SPINNEY_QUANTITY_BLOCK_H

#include <stdint.h>

#include "quantity/normal.h"

enum { BLOCK = 512 };

void block_fill(double *restrict out, double value);
/* Draws of a leaf: `order` says which of `table` comes when. */
void block_leaf(double *restrict out, struct two_piece leaf, const double *restrict table,
                const uint16_t *restrict order);
/* The same in two parts, where scores of several are summed between: the scores, and the
 * figures that stand at the scores in `x`. */
void block_score(double *restrict out, const double *restrict table,
                 const uint16_t *restrict order);
void block_bend(double *x, struct two_piece leaf);

void block_add(double *restrict out, const double *restrict a, const double *restrict b);
void block_subtract(double *restrict out, const double *restrict a,
                    const double *restrict b);
/* out = start + s a */
void block_line(double *restrict out, double start, double s, const double *restrict a);
/* out = start + s a + t b */
void block_pair(double *restrict out, double start, double s, const double *restrict a,
                double t, const double *restrict b);
/* out += s a, and out += s a + t b */
void block_into(double *restrict out, double s, const double *restrict a);
void block_pair_into(double *restrict out, double s, const double *restrict a, double t,
                     const double *restrict b);

void block_multiply(double *restrict out, const double *restrict a,
                    const double *restrict b);
void block_scale(double *restrict out, const double *restrict a, double by);
void block_divide(double *restrict out, const double *restrict a,
                  const double *restrict b);
void block_divide_by(double *restrict out, const double *restrict a, double by);
void block_divide_into(double *restrict out, double a, const double *restrict b);
void block_power(double *restrict out, const double *restrict a, int numerator,
                 int denominator);
void block_min(double *restrict out, const double *restrict a, const double *restrict b);
void block_max(double *restrict out, const double *restrict a, const double *restrict b);
void block_at_most(double *restrict out, const double *restrict a, double most);
void block_at_least(double *restrict out, const double *restrict a, double least);
/* Up or down to a whole number of `unit`; within 1e-9 of one counts as that one. */
void block_ceil(double *restrict out, const double *restrict a, double unit);
void block_floor(double *restrict out, const double *restrict a, double unit);

#endif
