/* handout.h: what is handed out to phones and map programs: flags in walking order, and
 * named shapes. Written by gpx.h, kml.h and geojson.h.
 *
 *     struct handout h = { .title = "Quill Creek", .lonlat = frame_lonlat,
 *                          .flags = flags, .flag_count = 12, .shapes = ... };
 *     if (!gpx_write(&h, &out, f)) ...
 *
 * Places become longitude and latitude (WGS 84, degrees) by a function of the caller's.
 * They are written with seven decimals, about half an inch. The same handout gives the
 * same bytes: no clock, no names of programs' versions. Texts are UTF-8; bytes that are
 * none and characters that steer become question marks, line breaks in names blanks. */
#ifndef SPINNEY_GROUND_HANDOUT_H
#define SPINNEY_GROUND_HANDOUT_H

#include <stdbool.h>
#include <stddef.h>

#include "ground/shape.h"

struct buf;
struct fault;

/* False when the place has none. */
typedef bool handout_lonlat(void *owner, struct point at, double *lon, double *lat);

/* Texts are borrowed; NULL for none, but for names. */
struct handout_flag {
    const char *name;
    const char *kind; /* "opening": a word */
    const char *note; /* "N 42°30' E (compass 046), 130 ft, 52 paces from flag 3" */
    struct point at;
};

struct handout_shape {
    const char *name, *kind, *note;
    const struct shape *shape;
};

struct handout {
    const char *title;
    const char *route; /* name of the way through the flags in order; NULL: none */
    const struct handout_flag *flags; /* in walking order: numbered from 1 */
    size_t flag_count;
    const struct handout_shape *shapes; /* empty ones are left out */
    size_t shape_count;
    handout_lonlat *lonlat;
    void *owner;
};

/* For the writers. The place, checked to be on the globe; fault handout-place. */
bool handout_place(const struct handout *h, struct point at, double *lon, double *lat,
                   struct fault *f);
void handout_degrees(struct buf *out, double degrees);
/* A text inside XML, in an element or an attribute; inside the quotes of JSON. */
void handout_xml(struct buf *out, const char *text);
void handout_json(struct buf *out, const char *text);

/* Is the part one to write: a line of two points, a ring of three, a hole that lies in a
 * ring? How many there are, holes not counted. */
bool handout_has_part(const struct shape *s, size_t part);
size_t handout_parts(const struct shape *s);
/* The ring that holds a hole: the smallest one; part_count when none does. */
size_t handout_holder(const struct shape *s, size_t hole);

/* A part's points as they are written: rings counterclockwise, holes clockwise. */
struct handout_line {
    const struct point *points;
    size_t count; /* with the first again at the end of a ring */
    size_t apart; /* different ones */
    bool turned;
};
struct handout_line handout_line(const struct shape *s, size_t part);
struct point handout_line_at(const struct handout_line *l, size_t index);

#endif
