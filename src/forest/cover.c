#include "forest/cover.h"

#include <math.h>

#define ACRE_FT2 43560.0

static double within(double low, double x, double high)
{
    return x < low ? low : x > high ? high : x;
}

double light_under_basal_area(double basal_area, double loss)
{
    return 100 * exp(-loss * fmax(basal_area, 0));
}

double light_under_crowns(double crown_cover)
{
    return 100 - 0.95 * within(0, crown_cover, 100);
}

/* Integral from 0 to z of the share of stems higher than that, heights spread evenly from
 * `low` to `high`. */
static double filled(double z, double low, double high)
{
    if (z <= low)
        return z;
    double top = fmin(z, high), span = high - low;
    if (span <= 0)
        return low;
    return low + (top - low) * (high - (top + low) / 2) / span;
}

double cover_screen(double stems, double mean, double dominant, double width,
                    double from_ft, double to_ft)
{
    double high = fmax(dominant, 0), low = within(0, 2 * mean - dominant, high);
    double band = to_ft - from_ft;
    if (stems <= 0 || width <= 0 || band <= 0)
        return 0;
    double part = (filled(to_ft, low, high) - filled(from_ft, low, high)) / band;
    double grown = within(0, mean / COVER_GROWN, 1);
    return stems * width * grown * grown * within(0, part, 1);
}

double cover_hidden(double screen, double distance_ft)
{
    return 100 * (1 - exp(-fmax(screen, 0) * fmax(distance_ft, 0) / ACRE_FT2));
}

double cover_hides_within(double screen, double percent)
{
    double need = -log(1 - within(0, percent, 99.9) / 100) * ACRE_FT2;
    return screen * COVER_FARTHEST <= need ? COVER_FARTHEST : need / screen;
}
