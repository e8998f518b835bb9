/* normal.h: the inverse of the normal distribution, and the two-piece normal that an
 * uncertain leaf is drawn from.
 *
 *     double z = normal_inverse(0.9);                      // 1.2816
 *     struct two_piece t = two_piece_through(60, 70, 90);  // percentiles as typed
 *     double hours = two_piece_at(t, z);                   // 90
 *
 * A two-piece normal is the left half of one normal and the right half of another that
 * share their middle: the 10th, 50th and 90th percentiles are exactly the three figures
 * typed. A range that lies on one side of zero (zero included) never leaves it: what
 * would fall beyond is held at zero. As all three typed figures lie on that side, no more
 * than one draw in ten is ever held, and the three percentiles stay exact. */
#ifndef SPINNEY_QUANTITY_NORMAL_H
#define SPINNEY_QUANTITY_NORMAL_H

/* For p from 1e-10 to 1 - 1e-10, to about 16 figures. */
double normal_inverse(double p);

struct two_piece {
    double middle;
    double below, above;   /* standard deviations of the two halves */
    double floor, ceiling; /* 0 or endless */
};

struct two_piece two_piece_through(double low, double likely, double high);
/* The value at z standard deviations of the standard normal. */
static inline double two_piece_at(struct two_piece t, double z)
{
    double left = z < 0 ? z : 0, right = z > 0 ? z : 0;
    double x = t.middle + (t.below * left + t.above * right);
    x = x < t.floor ? t.floor : x;
    return x > t.ceiling ? t.ceiling : x;
}

#endif
