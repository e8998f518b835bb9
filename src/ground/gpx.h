/* gpx.h: a handout as GPX 1.1, for hand-held receivers and phones: flags as waypoints,
 * the way through them as a route, lines and rims of areas as tracks, points as
 * waypoints.
 *
 *     if (!gpx_write(&handout, &out, f)) ...
 *
 * The order of elements is the schema's (GPX 1.1, topografix 2004; from memory).
 * Receivers cut long names: a waypoint's is its number and then its name ("07 opening
 * 3"), so that what is left still tells flags apart. */
#ifndef SPINNEY_GROUND_GPX_H
#define SPINNEY_GROUND_GPX_H

#include "ground/handout.h"

/* Appends the whole text; on failure what was appended is no file. */
bool gpx_write(const struct handout *h, struct buf *out, struct fault *f);

#endif
