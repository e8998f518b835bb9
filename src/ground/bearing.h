/* bearing.h: directions on the ground, as a compass, a deed and a plan say them.
 *
 *     double azimuth = bearing_between(corner, post);           // 42.5
 *     bearing_quadrant(&out, azimuth, BEARING_TO_MINUTES);      // N 42°30' E
 *     double compass = bearing_magnetic(azimuth, -3.5);         // what the needle says
 *
 * An azimuth is in degrees clockwise from north, 0 or more and less than 360. North is
 * the frame's: true north at the property's center (frame.h); meridians draw together, so
 * that 2.5 miles east or west of it true north is off by 2.5 / 3,960 rad times the
 * tangent of the latitude, 0.04 deg at 47 N (arithmetic on the sphere), far less than a
 * hand compass shows.
 *
 * Declination is positive to the east: the needle points that far east of true north, and
 * true = magnetic + declination. It changes with the place and the year: whoever gives it
 * says where it is from. */
#ifndef SPINNEY_GROUND_BEARING_H
#define SPINNEY_GROUND_BEARING_H

#include "ground/shape.h"

struct buf;

/* Any angle as an azimuth; NAN for one that is not finite. */
double bearing_normal(double degrees);
/* From the first point to the second; 0 when they are the same. */
double bearing_between(struct point from, struct point to);
struct point bearing_walk(struct point from, double azimuth, double length_ft);

double bearing_magnetic(double azimuth, double declination);
double bearing_true(double magnetic, double declination);

/* Degrees, minutes and seconds as one number of degrees; each may have a fraction. */
double bearing_degrees(double degrees, double minutes, double seconds);
/* "N 42 E": from 'N' or 'S', an angle of 0 to 90 to 'E' or 'W'. */
double bearing_of_quadrant(char from, double angle, char to);

/* How fine it is written; rounded to the nearest, so never 59.99 minutes. */
enum bearing_step { BEARING_TO_DEGREES, BEARING_TO_MINUTES, BEARING_TO_SECONDS };
/* "N 42°30' E"; the four winds are "due north" and so on. */
void bearing_quadrant(struct buf *out, double azimuth, enum bearing_step step);
/* "042°30'": three digits of degrees, as they are said to a compass. */
void bearing_azimuth(struct buf *out, double azimuth, enum bearing_step step);

#endif
