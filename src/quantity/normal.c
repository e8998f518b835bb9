#include "quantity/normal.h"

#include <math.h>

/* The standard normal's 90th percentile. Abramowitz and Stegun, Handbook of Mathematical
 * Functions, table 26.5, to more places. */
#define Z_90 1.2815515655446004

/* Rational approximations of M. J. Wichura, Algorithm AS 241 (PPND16), Applied Statistics
 * 37 (1988), pages 477-484; coefficients from memory, checked in the tests against erfc.
 * Only its central and near-tail parts: the draws never go past 1 in 8,192. */
static double central(double q)
{
    double r = 0.180625 - q * q;
    double over = (((((((2.5090809287301226727e+3 * r + 3.3430575583588128105e+4) * r +
                        6.7265770927008700853e+4) * r + 4.5921953931549871457e+4) * r +
                      1.3731693765509461125e+4) * r + 1.9715909503065514427e+3) * r +
                    1.3314166789178437745e+2) * r + 3.3871328727963666080e+0);
    double under = (((((((5.2264952788528545610e+3 * r + 2.8729085735721942674e+4) * r +
                         3.9307895800092710610e+4) * r + 2.1213794301586595867e+4) * r +
                       5.3941960214247511077e+3) * r + 6.8718700749205790830e+2) * r +
                     4.2313330701600911252e+1) * r + 1.0);
    return q * over / under;
}

static double near_tail(double r)
{
    double over = (((((((7.74545014278341407640e-4 * r + 2.27238449892691845833e-2) * r +
                        2.41780725177450611770e-1) * r + 1.27045825245236838258e+0) * r +
                      3.64784832476320460504e+0) * r + 5.76949722146069140550e+0) * r +
                    4.63033784615654529590e+0) * r + 1.42343711074968357734e+0);
    double under = (((((((1.05075007164441684324e-9 * r + 5.47593808499534494600e-4) * r +
                         1.51986665636164571966e-2) * r + 1.48103976427480074590e-1) * r +
                       6.89767334985100004550e-1) * r + 1.67638483018380384940e+0) * r +
                     2.05319162663775882187e+0) * r + 1.0);
    return over / under;
}

double normal_inverse(double p)
{
    double q = p - 0.5;
    if (fabs(q) <= 0.425)
        return central(q);
    double z = near_tail(sqrt(-log(q < 0 ? p : 1.0 - p)) - 1.6);
    return q < 0 ? -z : z;
}

struct two_piece two_piece_through(double low, double likely, double high)
{
    return (struct two_piece){
        .middle = likely,
        .below = (likely - low) / Z_90,
        .above = (high - likely) / Z_90,
        .floor = low >= 0 ? 0.0 : -INFINITY,
        .ceiling = high <= 0 ? 0.0 : INFINITY,
    };
}
