/* release.h: trees that have been given room: diameter by years, years to a diameter.
 *
 *     double d = release_diameter(12, 0.12, 160, 10);      // in, ten years after
 *     double y = release_years(12, 0.12, 160, 16);         // years to 16 in
 *
 * A tree grows `rate` in/yr as it stood, `gain` percent of that once its crown has room;
 * the answer begins in the second year. Rates: common practice, no source
 * (stdlib/regrowth.lua). */
#ifndef SPINNEY_FOREST_RELEASE_H
#define SPINNEY_FOREST_RELEASE_H

double release_diameter(double diameter_in, double rate, double gain, double years);
/* 0 when it is there already; RELEASE_LONGEST at most. */
double release_years(double diameter_in, double rate, double gain, double target_in);
#define RELEASE_LONGEST 200.0
/* Basal area of trees that all grow as the one of mean basal area does. */
double release_basal_area(double basal_area, double diameter_in, double rate, double gain,
                          double years);

#endif
