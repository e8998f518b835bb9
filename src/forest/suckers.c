#include "forest/suckers.h"

#include <math.h>

#define SITE_USUAL     70.0
#define BITTEN_SEASONS 4.0 /* then the tops are out of reach */
#define THINNING_POWER 1.29

const struct sucker_factors sucker_usual = {
    .full = 20000,
    .season = 100,
    .room = 75000,
    .bitten = 0,
    .pace = 100,
    .shade_slows = 15,
    .browse_slows = 0,
    .traffic_slows = 0,
    .mean_part = 48,
};

static double within(double low, double x, double high)
{
    return x < low ? low : x > high ? high : x;
}

/* Two thirds of the ground at 20 ft2/ac, nearly all at 50: common practice, no source. */
double suckers_rooted(double aspen)
{
    return aspen > 0 ? 1 - exp(-aspen / 18) : 0;
}

/* Young stands have more roots an acre (37,000 suckers after a stand of 18 years: Benson
 * and Einspahr 1972); past 55 years vigor falls, by half at 90, and a sick clone has half
 * (both from memory). */
double suckers_vigor(double age, double sick)
{
    double vigor = 1;
    if (age < 40)
        vigor = 1 + 0.3 * within(0, (40 - age) / 20, 1);
    else if (age > 55)
        vigor = 1 - 0.5 * within(0, (age - 55) / 35, 1);
    return vigor * (1 - 0.5 * within(0, sick, 1));
}

double suckers_in_shade(double residual)
{
    return exp(-log(1.62) / 54 * fmax(residual, 0));
}

double suckers_on_ground(double rutted, double passes)
{
    /* 31 percent of the ground is driven on (Zenner and others 2007). */
    double rooted = 1 - 0.45 / 0.38 * within(0, rutted, 1);
    return fmax(rooted, 0) * (1 - 0.31 * (1.0 / 3) * within(0, passes / 10, 2));
}

double suckers_seasons(double year, double season_left)
{
    return fmax(year - 1, 0) + within(0, season_left, 1) * within(0, year, 1);
}

double suckers_curve(double seasons)
{
    return pow(1 - exp(-0.0447 * seasons), 0.8);
}

double suckers_first(const struct sucker_site *site, const struct sucker_factors *x)
{
    return x->full * suckers_rooted(site->aspen) * suckers_vigor(site->age, site->sick) *
           suckers_in_shade(site->residual) *
           suckers_on_ground(site->rutted, site->passes) * x->season / 100;
}

double suckers_stems(double first, double room, double bitten, double site_index,
                     double year)
{
    if (first <= 0 || year <= 0)
        return 0;
    double alive =
        first * pow(1 - within(0, bitten, 100) / 100, within(0, year, BITTEN_SEASONS));
    double since = (year - 1) * fmax(site_index, 1) / SITE_USUAL;
    if (since <= 0 || room <= 0)
        return alive;
    return alive / (1 + alive / (room * pow(since, -THINNING_POWER)));
}

double suckers_dominant_at(const struct sucker_site *site, const struct sucker_factors *x,
                           double curve)
{
    double residual = fmax(site->residual, 0);
    double free_height = 0.931 * fmax(site->site_index, 0) * curve * x->pace / 100;
    double shaded = within(0, x->shade_slows, 100) / 100 * residual / (residual + 15);
    return free_height * (1 - shaded) * (1 - within(0, x->browse_slows, 100) / 100) *
           (1 - within(0, x->traffic_slows, 100) / 100);
}

double suckers_dominant(const struct sucker_site *site, const struct sucker_factors *x,
                        double year)
{
    double seasons = suckers_seasons(year, site->season_left);
    return suckers_dominant_at(site, x, suckers_curve(seasons));
}

double suckers_mean_of(double dominant, double mean_part, double year)
{
    return dominant * within(0, mean_part + 1.5 * fmax(year - 1, 0), 90) / 100;
}

void suckers_grow(const struct sucker_site *site, const struct sucker_factors *x,
                  size_t years, struct sucker_year *out)
{
    double first = suckers_first(site, x);
    for (size_t i = 0; i < years; i++) {
        double year = (double)(i + 1);
        double top = suckers_dominant(site, x, year);
        out[i] = (struct sucker_year){ suckers_stems(first, x->room, x->bitten,
                                                     site->site_index, year),
                                       suckers_mean_of(top, x->mean_part, year), top };
    }
}

double suckers_basal_area(double stems, double mean_height)
{
    double diameter = 0.12 * fmax(mean_height - 4.5, 0);
    return fmax(stems, 0) * 0.005454154 * diameter * diameter;
}
