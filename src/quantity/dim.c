#include "quantity/dim.h"

#include <string.h>

/* The range of a whole exponent is +-21, the most a signed byte of sixths holds. */
enum { SIXTHS_MOST = 21 * DIM_WHOLE };

struct dim dim_of(int base, int power)
{
    struct dim d = DIM_NUMBER;
    d.sixths[base] = (int8_t)(power * DIM_WHOLE);
    return d;
}

bool dim_equal(struct dim a, struct dim b)
{
    return memcmp(a.sixths, b.sixths, sizeof a.sixths) == 0;
}

bool dim_is_number(struct dim a)
{
    return dim_equal(a, DIM_NUMBER);
}

static bool put_sixths(struct dim *d, int base, int sixths)
{
    if (sixths < -SIXTHS_MOST || sixths > SIXTHS_MOST)
        return false;
    d->sixths[base] = (int8_t)sixths;
    return true;
}

bool dim_multiply(struct dim a, struct dim b, struct dim *out)
{
    struct dim d = DIM_NUMBER;
    for (int i = 0; i < DIM_BASES; i++)
        if (!put_sixths(&d, i, a.sixths[i] + b.sixths[i]))
            return false;
    *out = d;
    return true;
}

bool dim_divide(struct dim a, struct dim b, struct dim *out)
{
    struct dim d = DIM_NUMBER;
    for (int i = 0; i < DIM_BASES; i++)
        if (!put_sixths(&d, i, a.sixths[i] - b.sixths[i]))
            return false;
    *out = d;
    return true;
}

bool dim_power(struct dim a, int numerator, int denominator, struct dim *out)
{
    struct dim d = DIM_NUMBER;
    /* Wider powers than this leave the range anyway, and could overflow on the way. */
    if (denominator == 0 || numerator < -SIXTHS_MOST || numerator > SIXTHS_MOST)
        return false;
    for (int i = 0; i < DIM_BASES; i++) {
        int raised = a.sixths[i] * numerator;
        if (raised % denominator != 0 || !put_sixths(&d, i, raised / denominator))
            return false;
    }
    *out = d;
    return true;
}
