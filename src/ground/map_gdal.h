/* map_gdal.h: what the parts of map.h have in common. Not for others. */
#ifndef SPINNEY_GROUND_MAP_GDAL_H
#define SPINNEY_GROUND_MAP_GDAL_H

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
    char fields[240]; /* all of them, as far as there is room, in words */
    struct fault *f;
};

/* Copies of the files, since the library may write to what it is given. */
enum { MAP_FILES_MOST = 8, MAP_PATH = 64 };
struct map_laid {
    void *copies[MAP_FILES_MOST];
    size_t count;
};

bool map_ends_in(const char *name, const char *end);
/* Is there all that goes with it? */
bool map_is_whole(struct map_job *job, const struct map_file *files, size_t count);
/* Lays the files where map_path says; the map itself ends in `main_end` there. */
bool map_lay(struct map_job *job, const struct map_file *files, size_t count,
             const char *main_end, struct map_laid *laid);
void map_path(char out[MAP_PATH], const char *end);
void map_take_away(struct map_laid *laid);

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
