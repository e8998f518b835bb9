/* geojson.h: a handout as GeoJSON (RFC 7946): a FeatureCollection of the flags, the way
 * through them and the shapes, each with the properties name, kind, and where they are
 * known note and number.
 *
 *     if (!geojson_write(&handout, &out, f)) ...
 *
 * Longitude before latitude, WGS 84, no `crs`; outer rings counterclockwise, holes
 * clockwise, closed by their first point. What is no line (one point) or no ring (two) is
 * left out. One feature a line of text. */
#ifndef SPINNEY_GROUND_GEOJSON_H
#define SPINNEY_GROUND_GEOJSON_H

#include "ground/handout.h"

/* Appends the whole text; on failure what was appended is no file. */
bool geojson_write(const struct handout *h, struct buf *out, struct fault *f);

#endif
