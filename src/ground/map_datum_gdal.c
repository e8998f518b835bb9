/* What a map's coordinates mean: which datum, which projection, and whether they lie
 * where they can. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/num.h"
#include "ground/map_gdal.h"

/* ---- datum ---- */

/* Letters and digits only, small: "D_North_American_1983" is "dnorthamerican1983". */
static void plain_name(const char *name, char *out, size_t size)
{
    size_t length = 0;
    for (; *name && length + 1 < size; name++) {
        char c = *name;
        if (c >= 'A' && c <= 'Z')
            c = (char)(c + 32);
        if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'))
            out[length++] = c;
    }
    out[length] = '\0';
}

/* Datums that agree with GPS within a few feet (common practice, no source). */
static bool agrees_with_gps(const char *datum)
{
    static const char *const parts[] = { "wgs1984", "wgs84",       "worldgeodeticsystem1984",
                                         "americandatum1983",
                                         "american1983", "nad83",
                                         "itrf", "internationalterrestrial",
                                         "canadianspatialreference" };
    char name[120];
    plain_name(datum, name, sizeof name);
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        if (strstr(name, parts[i]))
            return true;
    return false;
}

static bool wrong_datum(struct map_job *job, const char *name)
{
    char datum[80]; /* as people write it: "North American Datum 1927" */
    snprintf(datum, sizeof datum, "%s", name);
    for (char *c = datum; *c; c++)
        if (*c == '_')
            *c = ' ';
    fault_set(job->f, "map-datum", SPAN_NONE,
              "the map `%s` has the datum %s, which lies up to several hundred feet "
              "from GPS",
              job->file, datum);
    fault_hint(job->f, "save it in degrees of WGS84, or in NAD83");
    return false;
}

static OGRCoordinateTransformationH to_degrees(OGRSpatialReferenceH from)
{
    /* Its own degrees: no datum is changed, so no tables of shifts are looked for. */
    OGRSpatialReferenceH degrees = OSRCloneGeogCS(from);
    if (!degrees)
        return NULL;
    OSRSetAxisMappingStrategy(degrees, OAMS_TRADITIONAL_GIS_ORDER);
    OGRCoordinateTransformationH turn = OCTNewCoordinateTransformation(from, degrees);
    OSRRelease(degrees);
    return turn;
}

bool map_degrees(struct map_job *job, OGRLayerH layer, OGRCoordinateTransformationH *out)
{
    OGRSpatialReferenceH system = OGR_L_GetSpatialRef(layer);
    *out = NULL;
    if (!system) {
        job->map->unsaid = true;
        return true; /* degrees, or map_check_places will see */
    }
    const char *datum = OSRGetAttrValue(system, "DATUM", 0);
    if (!datum || !agrees_with_gps(datum))
        return wrong_datum(job, datum ? datum : "of a place of its own");
    char *unit = NULL;
    if (fabs(OSRGetPrimeMeridian(system, NULL)) > 1e-9 ||
        fabs(OSRGetAngularUnits(system, &unit) - 0.017453292519943295) > 1e-9)
        return wrong_datum(job, "of a meridian or unit of its own");
    const char *name = OSRGetName(system);
    snprintf(job->map->system, sizeof job->map->system, "%s", name ? name : datum);
    if (!OSRIsProjected(system))
        return true; /* GDAL hands these over with longitude first */
    snprintf(job->map->datum, sizeof job->map->datum, "%s", job->map->system);
    *out = to_degrees(system);
    if (*out)
        return true;
    fault_set(job->f, "map-datum", SPAN_NONE,
              "the map `%s` is drawn in a projection that cannot be turned into degrees",
              job->file);
    fault_hint(job->f, "save it in degrees of WGS84");
    return false;
}

/* ---- places ---- */

/* Beyond these no wood grows. */
static bool can_be(struct point p)
{
    return fabs(p.x) <= 180 && p.y >= -57 && p.y <= 84;
}

static void put_pair(struct buf *out, struct point p)
{
    buf_puts(out, p.x < 0 ? "-" : "");
    num_data(out, fabs(p.x));
    buf_puts(out, p.y < 0 ? ", -" : ", ");
    num_data(out, fabs(p.y));
}

static bool wrong_place(struct map_job *job, struct point p, const char *name)
{
    struct buf pair;
    buf_init(&pair);
    put_pair(&pair, p);
    if (!isfinite(p.x) || !isfinite(p.y)) {
        fault_set(job->f, "map-place", SPAN_NONE,
                  "on the map `%s`, %s has a point that lies nowhere", job->file, name);
    } else if (fabs(p.x) > 180 || fabs(p.y) > 180) {
        fault_set(job->f, "map-datum", SPAN_NONE,
                  "numbers like %s in the map `%s` are no degrees, and it does not say "
                  "what they are",
                  pair.data, job->file);
        fault_hint(job->f, job->format == MAP_SHAPEFILE
                               ? "copy the file that ends in .prj too, or save the map in "
                                 "degrees of WGS84"
                               : "save the map in degrees of WGS84");
    } else if (can_be((struct point){ p.y, p.x })) {
        fault_set(job->f, "map-place", SPAN_NONE,
                  "on the map `%s`, %s lies at longitude, latitude %s, where no wood grows",
                  job->file, name, pair.data);
        fault_hint(job->f, "the two look swapped: longitude comes first; "
                           "{ file = \"%s\", swapped = true } turns them round",
                   job->file);
    } else {
        fault_set(job->f, "map-place", SPAN_NONE,
                  "on the map `%s`, %s lies at longitude, latitude %s, where no wood grows",
                  job->file, name, pair.data);
    }
    buf_clear(&pair);
    return false;
}

bool map_check_places(struct map_job *job)
{
    const struct map *map = job->map;
    for (size_t i = 0; i < map->count; i++) {
        const struct map_feature *feature = &map->features[i];
        for (size_t k = 0; k < feature->degrees.point_count; k++)
            if (!can_be(feature->degrees.points[k]))
                return wrong_place(job, feature->degrees.points[k],
                                   feature->name ? feature->name
                                                 : "a feature without a name");
    }
    return true;
}
