/* cover.h: light on the ground, and how well stems hide a deer.
 *
 *     double s = cover_screen(12000, 4, 8, 0.15, 0, 3);   // ft of screen an acre, 0-3 ft
 *     cover_hidden(s, 50);                                // percent hidden at 50 ft
 *     cover_hides_within(s, 90);                          // ft
 *
 * A line of sight of d feet crosses stems that show w feet of width each, N an acre,
 * strewn at random: the part of it that is hidden is 1 - exp(-N w d / 43560). Geometry;
 * how wide a stem shows with and without leaves is common practice, no source. A stem shows
 * its whole width from COVER_GROWN ft on; before that, thinner and with fewer twigs, as the
 * square of its height (common practice, no source). Heights are spread evenly from
 * 2 mean - dominant up to dominant. */
#ifndef SPINNEY_FOREST_COVER_H
#define SPINNEY_FOREST_COVER_H

/* Percent of full light under trees of a basal area (ft2/ac): exp(-loss x basal area),
 * `loss` about 0.025 under hardwoods (common practice, no source). */
double light_under_basal_area(double basal_area, double loss);
/* Percent of full light under crowns that cover a percent of the ground: a twentieth
 * comes through a crown (common practice, no source). */
double light_under_crowns(double crown_cover);

#define COVER_GROWN 6.0
/* Feet of stem width an acre in a band of height above the ground; `width` is that of stems
 * of COVER_GROWN ft. */
double cover_screen(double stems, double mean, double dominant, double width,
                    double from_ft, double to_ft);
double cover_hidden(double screen, double distance_ft); /* percent */
/* The distance at which so many percent are hidden; at most COVER_FARTHEST. */
double cover_hides_within(double screen, double percent);
#define COVER_FARTHEST 1000.0

#endif
