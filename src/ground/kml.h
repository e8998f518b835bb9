/* kml.h: a handout as KML 2.2, for map programs: a folder of flags and one of shapes.
 *
 *     if (!kml_write(&handout, &out, f)) ...
 *
 * Names and coordinates only: colors are left to whoever looks at it. Rings run
 * counterclockwise, holes clockwise, closed by their first point. Order of elements as in
 * OGC 07-147r2 (from memory). */
#ifndef SPINNEY_GROUND_KML_H
#define SPINNEY_GROUND_KML_H

#include "ground/handout.h"

/* Appends the whole text; on failure what was appended is no file. */
bool kml_write(const struct handout *h, struct buf *out, struct fault *f);

#endif
