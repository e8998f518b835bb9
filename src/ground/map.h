/* map.h: maps as a county office or a phone hands them over: GeoJSON, GPX (waypoints,
 * routes, tracks), KML, Shapefile, GeoPackage. Read from bytes that the caller has found
 * and opened: no name of a script's ever reaches the library.
 *
 *     struct map_file file = { "farm.geojson", text.data, text.length };
 *     struct map *map = map_read(&file, 1, &(struct map_ask){ 0 }, f);
 *     struct frame *frame = frame_new(map_middle(map), f);
 *     struct shape stand;
 *     struct clean_done done = { 0 };
 *     map_shape(map, 0, frame, &ask, &stand, &done, f);
 *     map_free(map);
 *
 * Positions are kept in degrees as they were read. Projected coordinates (State Plane,
 * UTM) are turned back to degrees by their own projection; their datum must be one that
 * agrees with GPS within a few feet (WGS84, NAD83 and their kin): no other is guessed at.
 * Everything that a feature says of itself is kept as text.
 * Cost: linear in the bytes.
 * Faults: map-kind, map-beside, map-damaged, map-empty, map-datum, map-place, map-field,
 * map-shape, map-many; map_shape: map-far and those of clean.h. */
#ifndef SPINNEY_GROUND_MAP_H
#define SPINNEY_GROUND_MAP_H

#include <stdbool.h>
#include <stddef.h>

#include "ground/clean.h"
#include "ground/frame.h"
#include "ground/shape.h"

enum {
    MAP_BYTES_MOST = 32 << 20, /* of one file */
    MAP_FEATURES_MOST = 20000,
    MAP_POINTS_MOST = 500000,
    MAP_TEXT_MOST = 1000 /* bytes of one attribute; the rest is cut off */
};

struct map_file {
    const char *name;
    const char *data;
    size_t length;
};

struct map_ask {
    const char *name_field; /* NULL: "name", however its letters are written */
    const char *kind_field; /* NULL: "kind", else "type" */
    bool swapped;           /* latitude stands first */
};

struct map_attribute {
    char *field, *text;
};

struct map_feature {
    char *name, *kind; /* NULL when it has none */
    char *layer;
    struct shape degrees; /* x longitude, y latitude */
    struct point gap[2];  /* the ends of a ring that was not closed; alike for none */
    struct map_attribute *attributes;
    size_t attribute_count;
};

struct map {
    char *file;
    bool swapped;
    struct map_feature *features;
    size_t count, room, points;
    size_t without_shape; /* features that are nowhere, left out */
    char datum[80];       /* what its coordinates were turned from; "" for degrees */
    char system[80]; /* the name of its coordinates, of degrees too; "" when unsaid */
    bool unsaid;     /* it does not say what they are: taken as degrees of WGS84 */
};

/* Is it a map, by the end of its name? False with the fault. */
bool map_is_named(const char *name, struct fault *f);
/* The i-th end of a name (".shx") that goes with this file, read when it is there; NULL
 * after the last. */
const char *map_beside(const char *name, size_t i);
/* The first file is the map; the others go with it, named as map_beside says. */
struct map *map_read(const struct map_file *files, size_t count,
                     const struct map_ask *ask, struct fault *f);
void map_free(struct map *map);
/* The middle of the box round all features. */
struct position map_middle(const struct map *map);

/* The feature in the property's frame, mended; `as_area` closes a line to an area. `out`
 * is the caller's to free, empty on failure; `done` starts as zero. */
bool map_shape(const struct map *map, size_t index, const struct frame *frame,
               const struct clean_ask *ask, bool as_area, struct shape *out,
               struct clean_done *done, struct fault *f);

#endif
