/* Opens a map with GDAL: five readers and no others, on bytes in memory. */
#define _GNU_SOURCE /* newlocale of a mask of all */

#include "ground/map.h"

#include <cpl_error.h>
#include <cpl_vsi.h>
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "base/fault.h"
#include "base/suggest.h"
#include "ground/map_inner.h"

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

static const char FOLDER[] = "/vsimem/spinney";

static bool ends_in(const char *name, const char *end)
{
    size_t a = strlen(name), b = strlen(end);
    return a > b && strcasecmp(name + a - b, end) == 0;
}

static size_t kind_of(const char *name)
{
    size_t i = 0;
    while (i < KINDS && !ends_in(name, kinds[i].end))
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
    if (ends_in(name, ".kmz") || ends_in(name, ".zip"))
        fault_hint(f, "unpack it first, and name what was in it");
    else if (ends_in(name, ".dbf") || ends_in(name, ".shx") || ends_in(name, ".prj"))
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
    if (ends_in(name, ".shp"))
        return i < sizeof shapefile / sizeof shapefile[0] ? shapefile[i] : NULL;
    /* What was not yet written back into it. */
    return ends_in(name, ".gpkg") && i == 0 ? "-wal" : NULL;
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

/* ---- files in memory ---- */

static void path_of(char out[64], const char *end)
{
    snprintf(out, 64, "%s/map%s", FOLDER, end);
}

static bool lay(const struct map_file *file, const char *end, void *data)
{
    char path[64];
    path_of(path, end);
    VSILFILE *open =
        VSIFileFromMemBuffer(path, data, (vsi_l_offset)file->length, FALSE);
    return open && VSIFCloseL(open) == 0;
}

/* The library may write to what it is given, so it gets copies. */
struct laid {
    void *copies[8];
    size_t count;
};

static void take_away(struct laid *laid)
{
    VSIRmdirRecursive(FOLDER);
    for (size_t i = 0; i < laid->count; i++)
        free(laid->copies[i]);
}

/* A database that was left in its two-file way of writing says so in its head; whole as
 * it is (nothing waits in the other file) it is read as a plain one. SQLite's file format,
 * section 1.3, bytes 18 and 19 (from memory). */
static void make_plain(unsigned char *data, size_t length)
{
    if (length > 100 && data[18] == 2 && data[19] == 2)
        data[18] = data[19] = 1;
}

static bool lay_all(struct map_job *job, const struct map_file *files, size_t count,
                    struct laid *laid)
{
    for (size_t i = 0; i < count && laid->count < 8; i++) {
        const char *end = strrchr(files[i].name, '.');
        if (job->format == MAP_GEOPACKAGE && i > 0) {
            if (files[i].length == 0)
                continue;
            fault_set(job->f, "map-beside", SPAN_NONE,
                      "`%s` is not wholly written: a part of it waits in `%s`",
                      files[0].name, files[i].name);
            fault_hint(job->f, "close the program that has it open");
            return false;
        }
        unsigned char *copy = malloc(files[i].length + 1);
        if (!copy)
            return fault_no_memory(job->f);
        laid->copies[laid->count++] = copy;
        memcpy(copy, files[i].data, files[i].length);
        if (job->format == MAP_GEOPACKAGE)
            make_plain(copy, files[i].length);
        char lower[8] = "";
        for (size_t k = 0; end && end[k] && k + 1 < sizeof lower; k++)
            lower[k] = (char)(end[k] >= 'A' && end[k] <= 'Z' ? end[k] + 32 : end[k]);
        if (i == 0)
            end = kinds[kind_of(files[0].name)].end;
        else
            end = lower;
        if (!lay(&files[i], end, copy))
            return fault_no_memory(job->f);
    }
    return true;
}

static bool has_beside(const struct map_file *files, size_t count, const char *end)
{
    for (size_t i = 1; i < count; i++)
        if (ends_in(files[i].name, end))
            return true;
    return false;
}

static bool is_whole(struct map_job *job, const struct map_file *files, size_t count)
{
    const char *missing = NULL;
    if (files[0].length == 0)
        return fault_set(job->f, "map-empty", SPAN_NONE, "the map `%s` is an empty file",
                         files[0].name);
    if (job->format != MAP_SHAPEFILE)
        return true;
    if (!has_beside(files, count, ".shx"))
        missing = ".shx";
    else if (!has_beside(files, count, ".dbf"))
        missing = ".dbf";
    if (!missing)
        return true;
    fault_set(job->f, "map-beside", SPAN_NONE,
              "a shapefile is several files: the one that ends in %s is missing beside "
              "`%s`",
              missing, files[0].name);
    fault_hint(job->f, "copy all files of that name: .shp, .shx, .dbf and .prj");
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

static bool read_open(struct map_job *job, const struct map_file *files, size_t count)
{
    size_t kind = kind_of(files[0].name);
    const char *const only[] = { kinds[kind].driver, NULL };
    struct laid laid = { .count = 0 };
    bool ok = lay_all(job, files, count, &laid);
    if (ok) {
        char path[64];
        path_of(path, kinds[kind].end);
        GDALDatasetH data =
            GDALOpenEx(path, GDAL_OF_VECTOR | GDAL_OF_READONLY | GDAL_OF_VERBOSE_ERROR,
                       only, NULL, NULL);
        ok = data && !job->trouble.seen ? read_layers(job, data) : map_damaged(job);
        if (data)
            GDALClose(data);
    }
    take_away(&laid);
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
    if (!map_format_of(files[0].name, &job.format, f) || !is_whole(&job, files, count))
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
