/* forest_years.h: what grows on a made-up stand in 15 years after a cut, as plain
 * numbers: suckers, sprouts, shrubs, cover, light, browse, mast, growth of what is left.
 *
 *     struct years_site site = { species, taken, left, 40 };
 *     sum += years_grow(&site);
 */
#ifndef SPINNEY_BENCH_FOREST_YEARS_H
#define SPINNEY_BENCH_FOREST_YEARS_H

#include <math.h>

#include "forest/browse.h"
#include "forest/cover.h"
#include "forest/estimate.h"
#include "forest/growth.h"
#include "forest/species.h"
#include "forest/sprouts.h"
#include "forest/stock.h"
#include "forest/suckers.h"

enum { YEARS = 15 };

struct years_site {
    const struct species_table *species;
    const struct stock *taken, *left;
    double aspen; /* ft2/ac before the cut */
};

/* Stumps that sprout, an acre. */
static inline double years_sprouting(const struct years_site *s)
{
    const struct inventory *inv = stock_inventory(s->left);
    double sum = 0;
    for (size_t i = 0; i < inv->cell_count; i++) {
        const struct inventory_cell *cell = &inv->cells[i];
        const struct species *kind = species_at(s->species, cell->species);
        const double *t = kind->traits;
        if (!(kind->flags & SPECIES_SPROUTS) || isnan(t[SPECIES_SPROUT_FROM]))
            continue;
        sum += stock_cell_trees(s->taken, i) / 100 *
               sprouts_odds(t[SPECIES_SPROUT_FROM], t[SPECIES_SPROUT_SHARE_FROM],
                            t[SPECIES_SPROUT_TO], t[SPECIES_SPROUT_SHARE_TO],
                            cell->diameter_in);
    }
    return sum;
}

/* Pounds of nuts an acre from the trees left, grown by so many years. */
static inline double years_mast(const struct years_site *s, double years)
{
    const struct inventory *inv = stock_inventory(s->left);
    double sum = 0;
    for (size_t i = 0; i < inv->cell_count; i++) {
        const struct inventory_cell *cell = &inv->cells[i];
        const struct species *kind = species_at(s->species, cell->species);
        if (!(kind->flags & SPECIES_MAST) || isnan(kind->traits[SPECIES_MAST_0]))
            continue;
        double diameter = growth_diameter(cell->diameter_in, 0.12, 160, years);
        sum += stock_cell_trees(s->left, i) *
               mast_pounds(&kind->traits[SPECIES_MAST_0], kind->traits[SPECIES_MAST_FROM],
                           kind->traits[SPECIES_MAST_TO], diameter);
    }
    return sum;
}

/* The sum of all its figures over YEARS. */
static inline double years_grow(const struct years_site *s)
{
    struct stock_pick all = stock_pick_all();
    double residual = stock_basal_area(s->left, &all);
    double thick = estimate_quadratic_mean(residual, stock_trees(s->left, &all));
    struct sucker_site site = { .aspen = s->aspen,
                                .age = 45,
                                .residual = residual,
                                .season_left = 1,
                                .site_index = 70 };
    struct sucker_year years[YEARS];
    suckers_grow(&site, &sucker_usual, YEARS, years);
    double stumps = years_sprouting(s), sum = 0;
    for (int i = 0; i < YEARS; i++) {
        double year = i + 1;
        double clumps = sprouts_stems(stumps, 100, 15, 4, year);
        double top = sprouts_height(3.5, year, 8, 45, residual);
        double shrubs = shrubs_stems(3000, 5, 10, year);
        double high = shrubs_height(8, 25, year);
        double over = growth_basal_area(residual, thick, 0.12, 160, year);
        struct sucker_year y = years[i];
        double screen = 0, browse = 0;
        for (double to = 3; to <= 6; to += 3)
            screen += cover_screen(y.stems, y.mean, y.dominant, 0.15, 0, to) +
                      cover_screen(clumps, 0.7 * top, top, 0.15, 0, to) +
                      cover_screen(shrubs, 0.75 * high, high, 0.2, 0, to);
        browse += browse_pounds(y.stems, y.mean, y.dominant, 0.008, 80, 0, 5) +
                  browse_pounds(clumps, 0.7 * top, top, 0.008, 80, 0, 5) +
                  browse_pounds(shrubs, 0.75 * high, high, 0.008, 70, 0, 5);
        sum += cover_hidden(screen, 50) + cover_hides_within(screen, 90) +
               browse_deer_days(browse, 50, 150, 7) +
               light_under_basal_area(over, 0.025) + years_mast(s, year) +
               suckers_basal_area(y.stems, y.mean);
    }
    return sum;
}

#endif
