/* dim.h: dimensions: what kind of thing a quantity counts or measures.
 *
 *     struct dim area = dim_of(DIM_LENGTH, 2);
 *     if (!dim_equal(a, b)) ...
 *
 * A dimension is a list of exponents over the bases below, held in sixths so that square
 * and cube roots stay exact. Working time (what a worker spends) and calendar time (what
 * passes) are two bases on purpose: only a crew's calendar turns one into the other.
 * Counts are bases of their own: stems cannot be added to plants. A tree length is a base
 * until the vocabulary knows the stand it belongs to. Further bases (a second currency,
 * "posts") are added by packs up to DIM_BASES. */
#ifndef SPINNEY_QUANTITY_DIM_H
#define SPINNEY_QUANTITY_DIM_H

#include <stdbool.h>
#include <stdint.h>

enum dim_base {
    DIM_LENGTH,      /* base unit 0.1 mm: inch, foot, gallon, acre are whole in it */
    DIM_MASS,        /* base unit 10 micrograms: the pound is a whole number of it */
    DIM_WORK,        /* person-minute */
    DIM_CALENDAR,    /* day */
    DIM_STEMS,
    DIM_TREES,
    DIM_PLANTS,
    DIM_MONEY,       /* USD */
    DIM_ANGLE,       /* degree */
    DIM_TREE_LENGTH,
    DIM_FIRST_ADDED, /* packs' own bases from here */
    DIM_BASES = 24
};

enum { DIM_WHOLE = 6 }; /* sixths in one whole exponent */

struct dim {
    int8_t sixths[DIM_BASES];
};

#define DIM_NUMBER ((struct dim){ { 0 } })

/* `power` in wholes: dim_of(DIM_LENGTH, 2) is an area. */
struct dim dim_of(int base, int power);
bool dim_equal(struct dim a, struct dim b);
bool dim_is_number(struct dim a);
/* Sum and difference of exponents; false when an exponent leaves its range (+-21). */
bool dim_multiply(struct dim a, struct dim b, struct dim *out);
bool dim_divide(struct dim a, struct dim b, struct dim *out);
/* a to the power numerator/denominator; false when it does not come out in sixths. */
bool dim_power(struct dim a, int numerator, int denominator, struct dim *out);

#endif
