#include "forest/sprouts.h"

#include <math.h>

/* Of the sprouts of a clump beyond those that stay, a sixth is lost each year: about 4 of
 * 15 are left at 23 years (Johnson 1975). */
#define CLUMP_THINS 0.18

static double within(double low, double x, double high)
{
    return x < low ? low : x > high ? high : x;
}

double sprouts_odds(double from_in, double share_from, double to_in, double share_to,
                    double diameter_in)
{
    if (to_in <= from_in)
        return share_from;
    double along = within(0, (diameter_in - from_in) / (to_in - from_in), 1);
    return share_from + along * (share_to - share_from);
}

double sprouts_stems(double stumps, double odds, double first, double last, double year)
{
    if (year <= 0)
        return 0;
    double clump = last + fmax(first - last, 0) * exp(-CLUMP_THINS * (year - 1));
    return fmax(stumps, 0) * within(0, odds, 100) / 100 * clump;
}

double sprouts_curve(double seasons)
{
    return pow(fmax(seasons, 0), 0.75);
}

double sprouts_height_at(double first_ft, double curve, double browse_slows,
                         double shade_slows, double residual)
{
    double over = fmax(residual, 0);
    return first_ft * curve * (1 - within(0, browse_slows, 100) / 100) *
           (1 - within(0, shade_slows, 100) / 100 * over / (over + 15));
}

double sprouts_height(double first_ft, double seasons, double browse_slows,
                      double shade_slows, double residual)
{
    return sprouts_height_at(first_ft, sprouts_curve(seasons), browse_slows, shade_slows,
                             residual);
}

/* A power of a whole number is most of the work of a plan's draws: by squares. */
static double power(double base, double exponent)
{
    if (exponent != floor(exponent) || exponent > 64)
        return pow(base, exponent);
    double product = 1;
    for (unsigned n = (unsigned)exponent; n > 0; n /= 2, base *= base)
        if (n % 2 == 1)
            product *= base;
    return product;
}

double shrubs_height(double full_ft, double percent_yearly, double seasons)
{
    double missing = power(1 - within(0, percent_yearly, 99) / 100, fmax(seasons, 0));
    return full_ft * (1 - missing);
}

double shrubs_stems(double first, double hold_years, double fade, double year)
{
    if (year <= 0)
        return 0;
    return fmax(first, 0) *
           power(1 - within(0, fade, 100) / 100, fmax(year - hold_years, 0));
}

double planted_height(double start_ft, double slow_ft, double fast_ft, double slow_years,
                      double most_ft, double year)
{
    double slow = fmin(year, slow_years), fast = fmax(year - slow_years, 0);
    return fmin(start_ft + slow_ft * slow + fast_ft * fast, most_ft);
}
