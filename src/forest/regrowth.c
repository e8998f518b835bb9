#include "forest/regrowth.h"

#include <string.h>

#include "forest/browse.h"
#include "forest/cover.h"
#include "forest/growth.h"
#include "forest/sprouts.h"
#include "forest/suckers.h"

/* ---- suckers ---- */

static double first_suckers(const double *x, const double *with)
{
    struct sucker_site site = {
        .aspen = x[1], .age = x[2], .residual = x[3], .sick = with[0]
    };
    struct sucker_factors factors = { .full = x[0], .season = x[4] };
    return suckers_first(&site, &factors) * x[5] / 100;
}

static double suckers_in_year(const double *x, const double *with)
{
    return suckers_stems(x[0], x[1], x[2], x[3], with[0]);
}

static double sucker_curve(const double *with)
{
    return suckers_curve(suckers_seasons(with[0], with[1]));
}

static double sucker_height(const double *x, const double *with)
{
    struct sucker_site site = { .site_index = x[0], .residual = x[2] };
    struct sucker_factors factors = {
        .pace = x[1], .shade_slows = x[3], .browse_slows = x[4], .traffic_slows = x[5]
    };
    return suckers_dominant_at(&site, &factors, with[2]);
}

static double mean_height(const double *x, const double *with)
{
    return suckers_mean_of(x[0], x[1], with[0]);
}

static double regrowth_basal_area(const double *x, const double *with)
{
    (void)with;
    return suckers_basal_area(x[0], x[1]);
}

/* ---- sprouts, shrubs, planted stock ---- */

static double sprout_stems(const double *x, const double *with)
{
    return sprouts_stems(x[0], x[1], x[2], x[3], with[0]);
}

static double sprout_curve(const double *with)
{
    return sprouts_curve(with[0]);
}

static double sprout_height(const double *x, const double *with)
{
    return sprouts_height_at(x[0], with[1], x[1], x[2], x[3]);
}

static double shrub_stems(const double *x, const double *with)
{
    return shrubs_stems(x[0], with[1], with[2], with[0]);
}

static double shrub_height(const double *x, const double *with)
{
    return shrubs_height(x[0], x[1], with[0]);
}

static double stock_height(const double *x, const double *with)
{
    return planted_height(x[0], x[1], x[2], with[1], x[3], with[0]);
}

/* ---- cover and light ---- */

static double light(const double *x, const double *with)
{
    return light_under_basal_area(x[0], with[0]);
}

static double screen(const double *x, const double *with)
{
    return cover_screen(x[0], x[1], x[2], x[3], with[0], with[1]);
}

/* Trunks stand through every band. */
static double trunk_screen(const double *x, const double *with)
{
    (void)with;
    return x[0] * x[1] / 12;
}

static double hidden(const double *x, const double *with)
{
    (void)with;
    return cover_hidden(x[0], x[1]);
}

static double hides_within(const double *x, const double *with)
{
    (void)with;
    return cover_hides_within(x[0], x[1]);
}

/* ---- browse ---- */

static double browse(const double *x, const double *with)
{
    (void)with;
    return browse_pounds(x[0], x[1], x[2], x[3], x[4], x[5], x[6]);
}

static double deer_days(const double *x, const double *with)
{
    (void)with;
    return browse_deer_days(x[0], x[1], x[2], x[3]);
}

static double reached(const double *x, const double *with)
{
    (void)with;
    return browse_height_reached(x[0], x[1]);
}

static double acorns(const double *x, const double *with)
{
    return mast_pounds(with, with[5], with[6], x[0]) * x[1] / 100 * x[2] / 100;
}

/* ---- release ---- */

static double grown_diameter(const double *x, const double *with)
{
    (void)with;
    return growth_diameter(x[0], x[1], x[2], x[3]);
}

static double years_to(const double *x, const double *with)
{
    (void)with;
    return growth_years(x[0], x[1], x[2], x[3]);
}

static double grown_basal_area(const double *x, const double *with)
{
    return growth_basal_area(x[0], x[1], x[2], x[3], with[0]);
}

static const struct regrowth_formula formulas[] = {
    { { "suckers of the first season", first_suckers },
      "stems/ac",
      { { "suckers of a full stand", "stems/ac" },
        { "living aspen", "ft2/ac" },
        { "age of the parents", "yr" },
        { "trees left over them", "ft2/ac" },
        { "season of the cut", "percent" },
        { "ground not rutted", "percent" } },
      6,
      1 },
    { { "suckers in a year", suckers_in_year },
      "stems/ac",
      { { "suckers of the first season", "stems/ac" },
        { "room for stems", "stems/ac" },
        { "bitten off a season", "percent" },
        { "site index", "ft" } },
      4,
      1 },
    { { "dominant height of suckers", sucker_height },
      "ft",
      { { "site index", "ft" },
        { "pace of growth", "percent" },
        { "trees left over them", "ft2/ac" },
        { "most that shade slows", "percent" },
        { "slowed by deer", "percent" },
        { "slowed by wheels", "percent" } },
      6,
      2 },
    { { "mean height of suckers", mean_height },
      "ft",
      { { "dominant height", "ft" }, { "mean part of it", "percent" } },
      2,
      1 },
    { { "basal area of young stems", regrowth_basal_area },
      "ft2/ac",
      { { "stems", "stems/ac" }, { "mean height", "ft" } },
      2,
      0 },
    { { "sprouts from stumps", sprout_stems },
      "stems/ac",
      { { "stumps", "trees/ac" },
        { "stumps that sprout", "percent" },
        { "sprouts a clump at first", "stems/tree" },
        { "sprouts a clump that stay", "stems/tree" } },
      4,
      1 },
    { { "height of sprouts", sprout_height },
      "ft",
      { { "height after one season", "ft" },
        { "slowed by deer", "percent" },
        { "most that shade slows", "percent" },
        { "trees left over them", "ft2/ac" } },
      4,
      1 },
    { { "shrub stems", shrub_stems },
      "stems/ac",
      { { "stems at first", "stems/ac" } },
      1,
      3 },
    { { "height of shrubs", shrub_height },
      "ft",
      { { "full height", "ft" }, { "of what is missing, a year", "percent" } },
      2,
      1 },
    { { "height of planted stock", stock_height },
      "ft",
      { { "height when planted", "ft" },
        { "growth while it roots, a year", "ft" },
        { "growth after that, a year", "ft" },
        { "most", "ft" } },
      4,
      2 },
    { { "light on the ground", light }, "percent", { { "basal area", "ft2/ac" } }, 1, 1 },
    { { "screen of stems", screen },
      "ft/ac",
      { { "stems", "stems/ac" },
        { "mean height", "ft" },
        { "dominant height", "ft" },
        { "width that a stem shows", "ft" } },
      4,
      2 },
    { { "screen of trunks", trunk_screen },
      "ft/ac",
      { { "trees", "trees/ac" }, { "diameter", "in" } },
      2,
      0 },
    { { "hidden at a distance", hidden },
      "percent",
      { { "screen", "ft/ac" }, { "distance", "ft" } },
      2,
      0 },
    { { "distance that hides", hides_within },
      "ft",
      { { "screen", "ft/ac" }, { "hidden", "percent" } },
      2,
      0 },
    { { "browse within reach", browse },
      "lb/ac",
      { { "stems", "stems/ac" },
        { "mean height", "ft" },
        { "dominant height", "ft" },
        { "twigs on a foot of stem", "lb/stem" },
        { "of kinds that deer eat", "percent" },
        { "snow", "ft" },
        { "reach", "ft" } },
      7,
      0 },
    { { "deer-days", deer_days },
      "d/ac",
      { { "browse", "lb/ac" },
        { "what plants stand to lose", "percent" },
        { "weight of a deer", "lb" },
        { "food a day, of its weight", "percent" } },
      4,
      0 },
    { { "height reached", reached },
      "ft",
      { { "reach", "ft" }, { "snow", "ft" } },
      2,
      0 },
    { { "nuts of a tree", acorns },
      "lb/tree",
      { { "diameter", "in" }, { "crown", "percent" }, { "year", "percent" } },
      3,
      7 },
    { { "diameter after some years", grown_diameter },
      "in",
      { { "diameter now", "in" },
        { "growth a year", "in" },
        { "growth with room, of that", "percent" },
        { "years", "yr" } },
      4,
      0 },
    { { "years to a diameter", years_to },
      "yr",
      { { "diameter now", "in" },
        { "growth a year", "in" },
        { "growth with room, of that", "percent" },
        { "diameter wanted", "in" } },
      4,
      0 },
    { { "basal area after some years", grown_basal_area },
      "ft2/ac",
      { { "basal area", "ft2/ac" },
        { "mean diameter", "in" },
        { "growth a year", "in" },
        { "growth with room, of that", "percent" } },
      4,
      1 },
};

size_t regrowth_prepare(const struct regrowth_formula *r, double with[FORMULA_WITH_MOST])
{
    size_t count = r->with_count;
    if (r->of.value == sucker_height)
        with[count++] = sucker_curve(with);
    else if (r->of.value == sprout_height)
        with[count++] = sprout_curve(with);
    return count;
}

const struct regrowth_formula *regrowth_formula_at(size_t i)
{
    return i < sizeof formulas / sizeof formulas[0] ? &formulas[i] : NULL;
}

const struct regrowth_formula *regrowth_formula_find(const char *name)
{
    const struct regrowth_formula *r;
    for (size_t i = 0; (r = regrowth_formula_at(i)) != NULL; i++)
        if (strcmp(r->of.name, name) == 0)
            return r;
    return NULL;
}
