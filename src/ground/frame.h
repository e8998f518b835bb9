/* frame.h: the property's own frame: feet east and north of a point in its middle.
 *
 *     struct frame *frame = frame_new((struct position){ -87.5, 47.6 }, f);
 *     struct point p = frame_point(frame, (struct position){ -87.49, 47.61 });
 *     struct position back = frame_place(frame, p);
 *     frame_area(frame, &stand);                   // ft2 on the ellipsoid, as a check
 *     frame_free(frame);
 *
 * The projection is Lambert's azimuthal equal-area on the WGS84 ellipsoid (Snyder, "Map
 * Projections: A Working Manual", USGS Professional Paper 1395, 1987, pages 187-190; from
 * memory), so areas are true everywhere and lengths within r^2 / (4 R^2) of true at r from
 * the middle: 1 part in 10 million at 2.5 miles. A foot is the international one, 0.3048 m
 * (the survey foot is longer by 2 parts in a million). Lengths are those at the height of
 * the ellipsoid: at 1,500 ft above the sea the ground is longer by 7 parts in 100,000.
 *
 * WGS84 and NAD83 are taken as one: they differ by a yard or two, less than a phone errs. */
#ifndef SPINNEY_GROUND_FRAME_H
#define SPINNEY_GROUND_FRAME_H

#include <stdbool.h>

#include "ground/shape.h"

struct fault;
struct frame;

struct position {
    double lon, lat; /* degrees, east and north above 0 */
};

/* A point further from the middle than this is not of the property. */
#define FRAME_REACH_FT (60 * 5280.0)

/* The middle must be between 80 S and 84 N: no wood grows beyond. Faults: frame-place. */
struct frame *frame_new(struct position middle, struct fault *f);
void frame_free(struct frame *frame);
struct position frame_middle(const struct frame *frame);

/* Not finite for a place on the other side of the earth. There and back is the same within
 * a hundredth of a foot: PROJ's way back is a series. */
struct point frame_point(const struct frame *frame, struct position at);
struct position frame_place(const struct frame *frame, struct point at);

/* On the ellipsoid, along its shortest lines (Karney, "Algorithms for geodesics", Journal
 * of Geodesy 87, 2013, as PROJ has it): what the frame's own shape_area and shape_length
 * are checked against. */
double frame_area(const struct frame *frame, const struct shape *s);   /* ft2 */
double frame_length(const struct frame *frame, const struct shape *s); /* ft */

#endif
