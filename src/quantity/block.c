#include "quantity/block.h"

#include <math.h>
#include <stdlib.h>

#include "base/wide.h"

void block_fill(double *restrict out, double value)
{
    for (int i = 0; i < BLOCK; i++)
        out[i] = value;
}

WIDE void block_leaf(double *restrict out, struct two_piece leaf,
                     const double *restrict table, const uint16_t *restrict order)
{
    for (int i = 0; i < BLOCK; i++)
        out[i] = two_piece_at(leaf, table[order[i]]);
}

WIDE void block_score(double *restrict out, const double *restrict table,
                      const uint16_t *restrict order)
{
    for (int i = 0; i < BLOCK; i++)
        out[i] = table[order[i]];
}

WIDE void block_bend(double *x, struct two_piece leaf)
{
    for (int i = 0; i < BLOCK; i++)
        x[i] = two_piece_at(leaf, x[i]);
}

WIDE void block_add(double *restrict out, const double *restrict a,
                    const double *restrict b)
{
    for (int i = 0; i < BLOCK; i++)
        out[i] = a[i] + b[i];
}

WIDE void block_subtract(double *restrict out, const double *restrict a,
                         const double *restrict b)
{
    for (int i = 0; i < BLOCK; i++)
        out[i] = a[i] - b[i];
}

WIDE void block_line(double *restrict out, double start, double s,
                     const double *restrict a)
{
    for (int i = 0; i < BLOCK; i++)
        out[i] = start + s * a[i];
}

WIDE void block_pair(double *restrict out, double start, double s,
                     const double *restrict a, double t, const double *restrict b)
{
    for (int i = 0; i < BLOCK; i++)
        out[i] = start + s * a[i] + t * b[i];
}

WIDE void block_into(double *restrict out, double s, const double *restrict a)
{
    for (int i = 0; i < BLOCK; i++)
        out[i] = out[i] + s * a[i];
}

WIDE void block_pair_into(double *restrict out, double s, const double *restrict a,
                          double t, const double *restrict b)
{
    for (int i = 0; i < BLOCK; i++)
        out[i] = out[i] + s * a[i] + t * b[i];
}

WIDE void block_multiply(double *restrict out, const double *restrict a,
                         const double *restrict b)
{
    for (int i = 0; i < BLOCK; i++)
        out[i] = a[i] * b[i];
}

WIDE void block_scale(double *restrict out, const double *restrict a, double by)
{
    for (int i = 0; i < BLOCK; i++)
        out[i] = a[i] * by;
}

WIDE void block_divide(double *restrict out, const double *restrict a,
                       const double *restrict b)
{
    for (int i = 0; i < BLOCK; i++)
        out[i] = a[i] / b[i];
}

WIDE void block_divide_by(double *restrict out, const double *restrict a, double by)
{
    for (int i = 0; i < BLOCK; i++)
        out[i] = a[i] / by;
}

WIDE void block_divide_into(double *restrict out, double a, const double *restrict b)
{
    for (int i = 0; i < BLOCK; i++)
        out[i] = a / b[i];
}

static void times(double *restrict out, const double *restrict a)
{
    for (int i = 0; i < BLOCK; i++)
        out[i] = out[i] * a[i];
}

/* A root first, then the whole power of it; the root of less than nothing is not a
 * number. */
WIDE void block_power(double *restrict out, const double *restrict a, int numerator,
                      int denominator)
{
    double root[BLOCK];
    for (int i = 0; i < BLOCK; i++)
        root[i] = denominator == 1 ? a[i] : denominator == 2 ? sqrt(a[i]) : cbrt(a[i]);
    block_fill(out, 1.0);
    for (int n = abs(numerator); n > 0; n--)
        times(out, root);
    if (numerator < 0) {
        for (int i = 0; i < BLOCK; i++)
            out[i] = 1.0 / out[i];
    }
}

/* What is not a number stays so, on either side: a draw that cannot be worked out must be
 * counted as lost, not passed over. */
static inline double least_of(double a, double b)
{
    return a < b || isnan(a) ? a : b;
}

static inline double most_of(double a, double b)
{
    return a > b || isnan(a) ? a : b;
}

WIDE void block_min(double *restrict out, const double *restrict a,
                    const double *restrict b)
{
    for (int i = 0; i < BLOCK; i++)
        out[i] = least_of(a[i], b[i]);
}

WIDE void block_max(double *restrict out, const double *restrict a,
                    const double *restrict b)
{
    for (int i = 0; i < BLOCK; i++)
        out[i] = most_of(a[i], b[i]);
}

WIDE void block_at_most(double *restrict out, const double *restrict a, double most)
{
    for (int i = 0; i < BLOCK; i++)
        out[i] = least_of(a[i], most);
}

WIDE void block_at_least(double *restrict out, const double *restrict a, double least)
{
    for (int i = 0; i < BLOCK; i++)
        out[i] = most_of(a[i], least);
}

static inline double whole_or(double x, double otherwise)
{
    double near = nearbyint(x);
    return fabs(x - near) <= 1e-9 ? near : otherwise;
}

WIDE void block_ceil(double *restrict out, const double *restrict a, double unit)
{
    for (int i = 0; i < BLOCK; i++) {
        double x = a[i] / unit;
        out[i] = whole_or(x, ceil(x)) * unit;
    }
}

WIDE void block_floor(double *restrict out, const double *restrict a, double unit)
{
    for (int i = 0; i < BLOCK; i++) {
        double x = a[i] / unit;
        out[i] = whole_or(x, floor(x)) * unit;
    }
}
