#include "forest/stem.h"

#include <math.h>

#define BREAST_FT 4.5
#define TAPER_POWER 0.7
#define HEIGHT_BEND 2.5

double stem_height(double diameter_in, double stout_in, double tree_length_ft)
{
    double r = stout_in > 0 ? fmin(1, diameter_in / stout_in) : 1;
    double part = (1 - exp(-HEIGHT_BEND * r)) / (1 - exp(-HEIGHT_BEND));
    return BREAST_FT + fmax(0, tree_length_ft - BREAST_FT) * part;
}

double stem_inside_at(const struct stem *s, double height_ft)
{
    if (height_ft >= s->height_ft || s->height_ft <= BREAST_FT)
        return 0;
    double part = (s->height_ft - height_ft) / (s->height_ft - BREAST_FT);
    return s->inside_bark * s->diameter_in * pow(part, TAPER_POWER);
}

double stem_height_to(const struct stem *s, double top_in)
{
    double breast = s->inside_bark * s->diameter_in;
    if (s->height_ft <= BREAST_FT || top_in <= 0 || breast <= top_in)
        return 0;
    double part = pow(top_in / breast, 1 / TAPER_POWER);
    return s->height_ft - part * (s->height_ft - BREAST_FT) - STEM_STUMP_FT;
}

/* How far below the tip, as a part of the way down to breast height. */
static double below_tip(const struct stem *s, double height_ft)
{
    return fmax(0, s->height_ft - height_ft) / (s->height_ft - BREAST_FT);
}

/* The integral of the disk pi d^2 / 576 over the height. */
double stem_cubic_feet(const struct stem *s, double from_ft, double to_ft)
{
    if (s->height_ft <= BREAST_FT || to_ft <= from_ft)
        return 0;
    double breast = s->inside_bark * s->diameter_in, power = 2 * TAPER_POWER + 1;
    double part = pow(below_tip(s, from_ft), power) - pow(below_tip(s, to_ft), power);
    return acos(-1) / 576 * breast * breast * (s->height_ft - BREAST_FT) / power * part;
}

double stem_logs(const struct stem *s, double top_in)
{
    return floor(2 * stem_height_to(s, top_in) / STEM_LOG_FT + 1e-9) / 2;
}
