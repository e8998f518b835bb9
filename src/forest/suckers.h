/* suckers.h: aspen after a cut: how many suckers an acre and how high, by growing seasons
 * since the cut. Stems and square feet an acre, feet, years, percents.
 *
 *     struct sucker_year years[15];
 *     suckers_grow(&site, &sucker_usual, 15, years);      // plain numbers, one call
 *     years[0].stems, years[1].dominant                   // first and second season
 *
 * The model is our own, made to pass through what is published (each point is a test):
 * - First season: a full stand's suckers, times how much of the ground living aspen roots
 *   fill, times vigor (age, sickness), less what shade, ruts and wheels cost.
 *   Shade: a clearcut has 1.62 times the suckers of one with 54 ft2/ac left (Palik and
 *   others 2003, North. J. Appl. For. 20:79-84); between and beyond, an exponential.
 *   Ruts: 38 percent of a clearcut rutted, 45 percent of it without suckers (Stone 2002,
 *   North. J. Appl. For. 19:115-121). Wheels: a third less after 10 passes (Zenner and
 *   others 2007, North. J. Appl. For. 24(3)).
 * - Self-thinning: N(t) = N(1) / (1 + N(1) / room(t)); the room for stems falls as they
 *   grow, with the power 1.29 of the seasons since the first, so that the planning line
 *   of Perala 1977 and 1990 (from memory) is met in years 5, 10 and 20. A poor site thins
 *   later, as its stems are smaller.
 * - Dominant height: 0.931 S (1 - exp(-0.0447 a))^0.8 over the age a in full growing
 *   seasons, S the site index of aspen: fitted here to the same planning line at S 68.
 *   Good for 1 to 20 years. A first season cut short counts as what is left of it.
 *   Overstory slows by L R / (R + 15): L between next to nothing (Palik 2003) and 0.85
 *   (Perala 1977, from memory). Summer wheels: 19 percent (Mundell and others 2008).
 * - Mean height: a part of the dominant height, rising 1.5 points a year: 2.6 ft in the
 *   first season (Benson and Einspahr 1972), 71 in in the third (Palik 2003). */
#ifndef SPINNEY_FOREST_SUCKERS_H
#define SPINNEY_FOREST_SUCKERS_H

#include <stddef.h>

/* What is known of the place and the cut. */
struct sucker_site {
    double aspen;       /* ft2/ac of living aspen before the cut */
    double age;         /* years of the parents */
    double sick;        /* 0 to 1: share of the parents with conks or dead tops */
    double residual;    /* ft2/ac of trees left over the suckers */
    double rutted;      /* 0 to 1: share of the ground */
    double passes;      /* of a machine over the trafficked ground */
    double season_left; /* 0 to 1: share of the first season left after the cut; a
                           dormant cut leaves all of it */
    double site_index;  /* ft at 50 years */
};

/* What is doubted: see stdlib/regrowth.lua for ranges and sources. */
struct sucker_factors {
    double full;        /* stems/ac in the first season of a full, healthy, dormant cut */
    double season;      /* percent of that for a cut while leaves are out, 100 dormant */
    double room;        /* stems/ac a season after the first, at site index 70 */
    double bitten;      /* percent of stems lost to deer in each of the first 4 seasons */
    double pace;        /* percent of the usual height growth */
    double shade_slows; /* percent of height lost under a heavy overstory */
    double browse_slows;  /* percent of height lost to deer */
    double traffic_slows; /* percent of height lost to wheels in summer */
    double mean_part;     /* mean height as a percent of dominant, first season */
};
/* The likely values: no deer, no wheels. */
extern const struct sucker_factors sucker_usual;

struct sucker_year {
    double stems, mean, dominant;
};

/* The parts, 0 to 1 or a little over. */
double suckers_rooted(double aspen);
double suckers_vigor(double age, double sick);
double suckers_in_shade(double residual);
double suckers_on_ground(double rutted, double passes);
/* Seasons grown at the end of the growing season `year` (1 is the first). */
double suckers_seasons(double year, double season_left);

double suckers_first(const struct sucker_site *site, const struct sucker_factors *x);
double suckers_stems(double first, double room, double bitten, double site_index,
                     double year);
double suckers_dominant(const struct sucker_site *site, const struct sucker_factors *x,
                        double year);
/* The same from the part of its height curve that the seasons make: it is the same for all
 * draws of a year. */
double suckers_curve(double seasons);
double suckers_dominant_at(const struct sucker_site *site, const struct sucker_factors *x,
                           double curve);
double suckers_mean_of(double dominant, double mean_part, double year);
/* Years 1 to `years` into out[0] on. */
void suckers_grow(const struct sucker_site *site, const struct sucker_factors *x,
                  size_t years, struct sucker_year *out);

/* ft2/ac of stems at breast height: 0.12 in of diameter for each foot of height above it
 * (common practice, no source). */
double suckers_basal_area(double stems, double mean_height);

#endif
