#include "forest/volume.h"

#include <math.h>

double volume_cords_by_diameter(double diameter_in)
{
    static const double table[] = { 0.03, 0.08, 0.15, 0.23, 0.33, 0.45, 0.58, 0.73 };
    if (diameter_in < VOLUME_LEAST_IN)
        return 0;
    double inch = floor(diameter_in + 0.5);
    if (inch > 20)
        return 0.73 * diameter_in * diameter_in / (19.5 * 19.5);
    return table[((int)inch - 5) / 2];
}

static double beers_a(double d)
{
    return d * d * (d + 190) / 100000;
}
static double beers_b(double h)
{
    return (h * (168 - h) / 64 + 32 / h) / 100;
}

double volume_beers_cords(double diameter_in, double height_ft)
{
    return height_ft > 0 ? beers_a(diameter_in) * beers_b(height_ft) : 0;
}

double volume_beers_cubic_feet(double diameter_in, double height_ft, bool with_bark)
{
    return (with_bark ? 92 : 76) * volume_beers_cords(diameter_in, height_ft);
}

double volume_beers_board_feet(double diameter_in, double height_ft)
{
    double c = 475 + 3 * height_ft * height_ft / 128;
    return c * volume_beers_cords(diameter_in, height_ft);
}
