/* Opens a map with GDAL: five readers and no others, on bytes in memory. */
#define _GNU_SOURCE /* newlocale of a mask of all; memmem */

#include "ground/map.h"

#include <cpl_error.h>
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "ground/map_gdal.h"

/* GDAL declares these for C++ only. */
void RegisterOGRGeoJSON(void);
void RegisterOGRGPX(void);
void RegisterOGRLIBKML(void);
void RegisterOGRShape(void);
void RegisterOGRGeoPackage(void);

/* How each is opened. `said` is its name to a reader of messages. */
static const struct {
    const char *end, *driver, *said;
    enum map_format format;
    void (*start)(void);
} kinds[] = {
    { ".geojson", "GeoJSON", "GeoJSON", MAP_GEOJSON, RegisterOGRGeoJSON },
    { ".json", "GeoJSON", "GeoJSON", MAP_GEOJSON, RegisterOGRGeoJSON },
    { ".gpx", "GPX", "GPX", MAP_GPX, RegisterOGRGPX },
    { ".kml", "LIBKML", "KML", MAP_KML, RegisterOGRLIBKML },
    { ".shp", "ESRI Shapefile", "a shapefile", MAP_SHAPEFILE, RegisterOGRShape },
    { ".gpkg", "GPKG", "GeoPackage", MAP_GEOPACKAGE, RegisterOGRGeoPackage },
};
enum { KINDS = sizeof kinds / sizeof kinds[0] };

static size_t kind_of(const char *name)
{
    size_t i = 0;
    while (i < KINDS && !map_ends_in(name, kinds[i].end))
        i++;
    return i;
}

bool map_format_of(const char *name, enum map_format *out, struct fault *f)
{
    size_t i = kind_of(name);
    if (i < KINDS) {
        *out = kinds[i].format;
        return true;
    }
    fault_set(f, "map-kind", SPAN_NONE, "`%s` is not called like a map", name);
    if (map_ends_in(name, ".kmz") || map_ends_in(name, ".zip"))
        fault_hint(f, "unpack it first, and name what was in it");
    else if (map_ends_in(name, ".dbf") || map_ends_in(name, ".shx") || map_ends_in(name, ".prj"))
        fault_hint(f, "of a shapefile name the part that ends in .shp");
    else
        fault_hint(f, "maps end in .geojson, .gpx, .kml, .shp or .gpkg");
    return false;
}

bool map_is_named(const char *name, struct fault *f)
{
    enum map_format format;
    return map_format_of(name, &format, f);
}

const char *map_beside(const char *name, size_t i)
{
    static const char *const shapefile[] = { ".shx", ".dbf", ".prj", ".cpg" };
    if (map_ends_in(name, ".shp"))
        return i < sizeof shapefile / sizeof shapefile[0] ? shapefile[i] : NULL;
    /* What was not yet written back into it. */
    return map_ends_in(name, ".gpkg") && i == 0 ? "-wal" : NULL;
}

/* ---- trouble ---- */

static void CPL_STDCALL note_trouble(CPLErr level, CPLErrorNum number,
                                     const char *message)
{
    struct map_trouble *t = CPLGetErrorHandlerUserData();
    (void)number;
    if (level < CE_Failure || !t || t->seen)
        return;
    t->seen = true;
    snprintf(t->words, sizeof t->words, "%s", message);
}

/* The number that follows `mark` in the library's words; 0 for none. */
static unsigned long number_after(const char *words, const char *mark)
{
    const char *at = strstr(words, mark);
    return at ? strtoul(at + strlen(mark), NULL, 10) : 0;
}

bool map_damaged(struct map_job *job)
{
    if (fault_is_set(job->f))
        return false;
    const char *words = job->trouble.words, *said = kinds[kind_of(job->file)].said;
    unsigned long line = number_after(words, "line "), column = 0;
    unsigned long offset = number_after(words, "at offset ");
    if (line > 0)
        column = number_after(words, "column ");
    if (strstr(words, "emory"))
        return fault_no_memory(job->f);
    if (line > 0)
        fault_set(job->f, "map-damaged", SPAN_NONE,
                  "`%s` cannot be read as %s: it is broken at line %lu, column %lu",
                  job->file, said, line, column + 1);
    else if (offset > 0)
        fault_set(job->f, "map-damaged", SPAN_NONE,
                  "`%s` cannot be read as %s: it is broken at byte %lu", job->file, said,
                  offset + 1);
    else
        fault_set(job->f, "map-damaged", SPAN_NONE, "`%s` cannot be read as %s",
                  job->file, said);
    fault_hint(job->f, "open it in the program that it comes from, and save it again");
    return false;
}

/* ---- reading ---- */

static bool has_ground(OGRLayerH layer, const struct map_job *job)
{
    const char *name = OGR_L_GetName(layer);
    if (job->format == MAP_GPX && strstr(name, "_points"))
        return false; /* the same points once more, without their line */
    return OGR_L_GetGeomType(layer) != wkbNone;
}

static bool read_layers(struct map_job *job, GDALDatasetH data)
{
    int layers = GDALDatasetGetLayerCount(data);
    bool ok = true;
    for (int i = 0; ok && i < layers; i++) {
        OGRLayerH layer = GDALDatasetGetLayer(data, i);
        OGRCoordinateTransformationH turn = NULL;
        if (!layer || !has_ground(layer, job))
            continue;
        ok = map_degrees(job, layer, &turn) && map_layer(job, layer, turn);
        if (turn)
            OCTDestroyCoordinateTransformation(turn);
        if (ok && job->trouble.seen)
            ok = map_damaged(job);
    }
    return ok;
}

static bool check_found(struct map_job *job)
{
    const struct map *map = job->map;
    if (map->count == 0) {
        fault_set(job->f, "map-empty", SPAN_NONE,
                  map->without_shape > 0
                      ? "nothing in the map `%s` says where it is"
                      : "there is nothing on the map `%s`",
                  job->file);
        fault_hint(job->f, "save it with its points, lines and areas");
        return false;
    }
    if (job->ask->name_field && !job->named) {
        fault_set(job->f, "map-field", SPAN_NONE,
                  "nothing on the map `%s` has a field `%s`", job->file,
                  job->ask->name_field);
        if (job->offered[0])
            fault_hint(job->f, "did you mean `%s`?", job->offered);
        return false;
    }
    return map_check_places(job);
}

/* GPX and KML are in degrees of WGS84, and so is GeoJSON that does not say `crs`: then the
 * tables of projections, which take as long to open as a map to read, are out of reach. */
static void choose_tables(const struct map_job *job, const struct map_file *file)
{
    static const char *const nowhere[] = { "/dev/null", NULL };
    bool degrees = job->format == MAP_GPX || job->format == MAP_KML;
    if (job->format == MAP_GEOJSON)
        degrees = memmem(file->data, file->length, "\"crs\"", 5) == NULL;
    OSRSetPROJSearchPaths(degrees ? nowhere : NULL);
}

static bool read_open(struct map_job *job, const struct map_file *files, size_t count)
{
    size_t kind = kind_of(files[0].name);
    const char *const only[] = { kinds[kind].driver, NULL };
    struct map_laid laid = { .count = 0 };
    bool ok = map_lay(job, files, count, kinds[kind].end, &laid);
    if (ok) {
        char path[MAP_PATH];
        map_path(path, kinds[kind].end);
        choose_tables(job, &files[0]);
        GDALDatasetH data =
            GDALOpenEx(path, GDAL_OF_VECTOR | GDAL_OF_READONLY | GDAL_OF_VERBOSE_ERROR,
                       only, NULL, NULL);
        ok = data && !job->trouble.seen ? read_layers(job, data) : map_damaged(job);
        if (data)
            GDALClose(data);
        OSRSetPROJSearchPaths(NULL); /* where they are */
    }
    map_take_away(&laid);
    return ok && check_found(job);
}

static bool start_reader(size_t kind)
{
    if (!GDALGetDriverByName(kinds[kind].driver))
        kinds[kind].start();
    return GDALGetDriverByName(kinds[kind].driver) != NULL;
}

static struct map *map_new(const char *file, bool swapped)
{
    struct map *map = calloc(1, sizeof *map);
    if (!map)
        return NULL;
    map->swapped = swapped;
    map->file = strdup(file);
    if (map->file)
        return map;
    free(map);
    return NULL;
}

struct map *map_read(const struct map_file *files, size_t count,
                     const struct map_ask *ask, struct fault *f)
{
    struct map_job job = { .ask = ask, .file = files[0].name, .f = f };
    if (!map_format_of(files[0].name, &job.format, f) || !map_is_whole(&job, files, count))
        return NULL;
    job.map = map_new(files[0].name, ask->swapped);
    /* Its readers take numbers by the locale, here and there. */
    locale_t plain = newlocale(LC_ALL_MASK, "C", (locale_t)0), before = (locale_t)0;
    if (!job.map || plain == (locale_t)0) {
        map_free(job.map);
        if (plain != (locale_t)0)
            freelocale(plain);
        fault_no_memory(f);
        return NULL;
    }
    before = uselocale(plain);
    CPLPushErrorHandlerEx(note_trouble, &job.trouble);
    bool ok = start_reader(kind_of(job.file));
    if (!ok)
        fault_set(f, "map-kind", SPAN_NONE,
                  "the library of maps on this machine cannot read %s",
                  kinds[kind_of(job.file)].said);
    ok = ok && read_open(&job, files, count);
    CPLPopErrorHandler();
    uselocale(before);
    freelocale(plain);
    if (!ok) {
        map_free(job.map);
        return NULL;
    }
    return job.map;
}

void map_feature_clear(struct map_feature *feature)
{
    free(feature->name);
    free(feature->kind);
    free(feature->layer);
    for (size_t i = 0; i < feature->attribute_count; i++) {
        free(feature->attributes[i].field);
        free(feature->attributes[i].text);
    }
    free(feature->attributes);
    shape_free(&feature->degrees);
}

void map_free(struct map *map)
{
    if (!map)
        return;
    for (size_t i = 0; i < map->count; i++)
        map_feature_clear(&map->features[i]);
    free(map->features);
    free(map->file);
    free(map);
}
