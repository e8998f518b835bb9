/* map_inner.h: what the parts of map.h have in common. Not for others. */
#ifndef SPINNEY_GROUND_MAP_INNER_H
#define SPINNEY_GROUND_MAP_INNER_H

#include <gdal.h>
#include <ogr_api.h>
#include <ogr_srs_api.h>

#include "ground/map.h"

enum map_format { MAP_GEOJSON, MAP_GPX, MAP_KML, MAP_SHAPEFILE, MAP_GEOPACKAGE };

/* The first thing that the library complained of while one map was read. */
struct map_trouble {
    bool seen;
    char words[240];
};

/* One map being read. */
struct map_job {
    struct map *map;
    const struct map_ask *ask;
    enum map_format format;
    const char *file; /* its name */
    struct map_trouble trouble;
    bool named; /* `ask->name_field` was seen */
    char offered[80]; /* the field that is called most like it */
    struct fault *f;
};

bool map_format_of(const char *name, enum map_format *out, struct fault *f);
/* The library's trouble in our words. False. */
bool map_damaged(struct map_job *job);
/* What turns a layer's coordinates into degrees; NULL in `out` when they are. */
bool map_degrees(struct map_job *job, OGRLayerH layer,
                 OGRCoordinateTransformationH *out);
/* Every feature of a layer; `turn` may be NULL. */
bool map_layer(struct map_job *job, OGRLayerH layer, OGRCoordinateTransformationH turn);
void map_feature_clear(struct map_feature *feature);
/* Are all positions where woods grow? */
bool map_check_places(struct map_job *job);

#endif
