/* growth.h: trees that have been given room: diameter by years, years to a diameter.
 *
 *     double d = growth_diameter(12, 0.12, 160, 10);      // in, ten years after
 *     double y = growth_years(12, 0.12, 160, 16);         // years to 16 in
 *
 * A tree grows `rate` in/yr as it stood, `gain` percent of that once its crown has room;
 * the answer begins in the second year. Rates: common practice, no source
 * (stdlib/regrowth.lua). */
#ifndef SPINNEY_FOREST_GROWTH_H
#define SPINNEY_FOREST_GROWTH_H

double growth_diameter(double diameter_in, double rate, double gain, double years);
/* 0 when it is there already; GROWTH_LONGEST at most. */
double growth_years(double diameter_in, double rate, double gain, double target_in);
#define GROWTH_LONGEST 200.0
/* Basal area of trees that all grow as the one of mean basal area does. */
double growth_basal_area(double basal_area, double diameter_in, double rate, double gain,
                         double years);

#endif
