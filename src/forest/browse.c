#include "forest/browse.h"

#include <math.h>

#define TWIGS_FROM    0.3
#define TWIGS_MOST_FT 6.0

static double within(double low, double x, double high)
{
    return x < low ? low : x > high ? high : x;
}

double browse_part(double height, double from_ft, double to_ft)
{
    double bottom = TWIGS_FROM * height;
    if (height <= 0)
        return 0;
    double reached = fmin(height, to_ft) - fmax(bottom, from_ft);
    return within(0, reached / (height - bottom), 1);
}

double browse_pounds(double stems, double mean, double dominant, double twigs,
                     double wanted, double snow_ft, double reach_ft)
{
    double top = browse_height_reached(reach_ft, snow_ft), sum = 0;
    double high = fmax(dominant, mean);
    double low = fmax(2 * mean - high, 0.2 * mean);
    const double heights[] = { low, mean, high };
    for (int i = 0; i < 3; i++)
        sum += browse_part(heights[i], fmax(snow_ft, 0), top) *
               fmin(heights[i], TWIGS_MOST_FT);
    return fmax(stems, 0) * fmax(twigs, 0) * within(0, wanted, 100) / 100 * sum / 3;
}

double browse_deer_days(double pounds, double use, double weight_lb, double daily)
{
    double eaten = weight_lb * daily / 100;
    return eaten > 0 ? fmax(pounds, 0) * within(0, use, 100) / 100 / eaten : 0;
}

double browse_height_reached(double reach_ft, double snow_ft)
{
    return fmax(reach_ft, 0) + fmax(snow_ft, 0);
}

double mast_pounds(const double coefficients[5], double from_in, double to_in,
                   double diameter_in)
{
    if (diameter_in < from_in)
        return 0;
    double d = fmin(diameter_in, to_in), pounds = 0;
    for (int i = 4; i >= 0; i--)
        pounds = pounds * d + coefficients[i];
    return fmax(pounds, 0);
}
