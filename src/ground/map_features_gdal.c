/* The features of one layer: where they are, what they are called, what they say. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/grow.h"
#include "base/suggest.h"
#include "base/utf8.h"
#include "ground/map_gdal.h"

/* ---- texts ---- */

/* A copy that any paper can show: no control characters, cut to size. NULL without
 * memory. */
static char *plain_text(const char *text)
{
    struct buf out;
    size_t length = strnlen(text, MAP_TEXT_MOST);
    while (text[length] && length > 0 && ((unsigned char)text[length] & 0xC0) == 0x80)
        length--; /* not through the middle of a character */
    buf_init(&out);
    utf8_put_plain(&out, text, length);
    while (out.length > 0 && out.data[out.length - 1] == ' ')
        out.data[--out.length] = '\0';
    return buf_take(&out);
}

static bool add_attribute(struct map_job *job, struct map_feature *feature,
                          OGRFeatureH from, int field)
{
    const char *name = OGR_Fld_GetNameRef(OGR_F_GetFieldDefnRef(from, field));
    struct map_attribute *a = &feature->attributes[feature->attribute_count];
    a->field = plain_text(name);
    a->text = plain_text(OGR_F_GetFieldAsString(from, field));
    if (a->field && a->text) {
        feature->attribute_count++;
        return true;
    }
    free(a->field);
    free(a->text);
    return fault_no_memory(job->f);
}

/* The text of the field so called, in letters of either size; NULL when it says nothing. */
static const char *said_in(const struct map_feature *feature, const char *field)
{
    for (size_t i = 0; field && i < feature->attribute_count; i++)
        if (strcasecmp(feature->attributes[i].field, field) == 0)
            return feature->attributes[i].text[0] ? feature->attributes[i].text : NULL;
    return NULL;
}

static bool keep(char **out, const char *text, struct map_job *job)
{
    *out = text ? strdup(text) : NULL;
    return !text || *out || fault_no_memory(job->f);
}

static bool read_texts(struct map_job *job, struct map_feature *feature, OGRFeatureH from,
                       const char *layer)
{
    const char *name_field = job->ask->name_field ? job->ask->name_field : "name";
    int fields = OGR_F_GetFieldCount(from);
    feature->attributes = calloc((size_t)fields + 1, sizeof *feature->attributes);
    if (!feature->attributes)
        return fault_no_memory(job->f);
    for (int i = 0; i < fields; i++)
        if (OGR_F_IsFieldSetAndNotNull(from, i) &&
            !add_attribute(job, feature, from, i))
            return false;
    const char *kind = job->ask->kind_field
                           ? said_in(feature, job->ask->kind_field)
                           : said_in(feature, "kind");
    if (!kind && !job->ask->kind_field)
        kind = said_in(feature, "type");
    feature->layer = plain_text(layer);
    if (!feature->layer)
        return fault_no_memory(job->f);
    return keep(&feature->name, said_in(feature, name_field), job) &&
           keep(&feature->kind, kind, job);
}

/* ---- places ---- */

static const char *said(const struct map_feature *feature)
{
    return feature->name ? feature->name : "a feature without a name";
}

/* A ring should end where it started; the widest gap is told. */
static void note_gap(struct map_feature *feature, struct point first, struct point last)
{
    const struct point *gap = feature->gap;
    if (hypot(last.x - first.x, last.y - first.y) >
        hypot(gap[1].x - gap[0].x, gap[1].y - gap[0].y)) {
        feature->gap[0] = first;
        feature->gap[1] = last;
    }
}

static bool add_points(struct map_job *job, struct map_feature *feature,
                       OGRGeometryH from, bool hole)
{
    int count = OGR_G_GetPointCount(from);
    if (count <= 0)
        return true;
    job->map->points += (size_t)count;
    if (job->map->points > MAP_POINTS_MOST) {
        fault_set(job->f, "map-many", SPAN_NONE, "the map `%s` has more than %d points",
                  job->file, MAP_POINTS_MOST);
        fault_hint(job->f, "cut the property out of it first");
        return false;
    }
    struct point *points = malloc((size_t)count * sizeof *points);
    if (!points)
        return fault_no_memory(job->f);
    for (int i = 0; i < count; i++) {
        double x = OGR_G_GetX(from, i), y = OGR_G_GetY(from, i);
        points[i] = job->ask->swapped ? (struct point){ y, x } : (struct point){ x, y };
    }
    if (feature->degrees.kind == SHAPE_AREAS)
        note_gap(feature, points[0], points[count - 1]);
    bool ok = shape_add_part(&feature->degrees, points, (size_t)count, hole, job->f);
    free(points);
    return ok;
}

static bool kind_of(OGRwkbGeometryType type, enum shape_kind *out)
{
    switch (type) {
    case wkbPoint:
    case wkbMultiPoint: *out = SHAPE_POINTS; return true;
    case wkbLineString:
    case wkbLinearRing:
    case wkbMultiLineString: *out = SHAPE_LINES; return true;
    case wkbPolygon:
    case wkbTriangle:
    case wkbMultiPolygon: *out = SHAPE_AREAS; return true;
    default: return false;
    }
}

static bool add_polygon(struct map_job *job, struct map_feature *feature,
                        OGRGeometryH from)
{
    int rings = OGR_G_GetGeometryCount(from);
    bool ok = true;
    for (int i = 0; ok && i < rings; i++)
        ok = add_points(job, feature, OGR_G_GetGeometryRef(from, i), i > 0);
    return ok;
}

/* `started`: the kind is settled. */
static bool add_geometry(struct map_job *job, struct map_feature *feature,
                         OGRGeometryH from, bool *started, int depth)
{
    enum shape_kind kind = SHAPE_POINTS;
    OGRwkbGeometryType type = wkbFlatten(OGR_G_GetGeometryType(from));
    bool simple = kind_of(type, &kind);
    if (depth > 8 || (!simple && type != wkbGeometryCollection))
        return fault_set(job->f, "map-shape", SPAN_NONE,
                         "on the map `%s`, %s is of a kind that is no point, line or area",
                         job->file, said(feature));
    if (simple && *started && kind != feature->degrees.kind) {
        fault_set(job->f, "map-shape", SPAN_NONE,
                  "on the map `%s`, %s mixes points, lines and areas", job->file,
                  said(feature));
        fault_hint(job->f, "save them as features of their own");
        return false;
    }
    if (simple) {
        feature->degrees.kind = kind;
        *started = true;
    }
    if (type == wkbPolygon || type == wkbTriangle)
        return add_polygon(job, feature, from);
    if (type == wkbPoint || type == wkbLineString || type == wkbLinearRing)
        return add_points(job, feature, from, false);
    int count = OGR_G_GetGeometryCount(from);
    bool ok = true;
    for (int i = 0; ok && i < count; i++)
        ok = add_geometry(job, feature, OGR_G_GetGeometryRef(from, i), started,
                          depth + 1);
    return ok;
}

static bool read_place(struct map_job *job, struct map_feature *feature,
                       OGRFeatureH from, OGRCoordinateTransformationH turn)
{
    OGRGeometryH as_read = OGR_F_GetGeometryRef(from);
    if (!as_read || OGR_G_IsEmpty(as_read))
        return true;
    if (turn && OGR_G_Transform(as_read, turn) != OGRERR_NONE) {
        fault_set(job->f, "map-datum", SPAN_NONE,
                  "on the map `%s`, %s lies outside of what its coordinates can say",
                  job->file, said(feature));
        fault_hint(job->f, "save the map in degrees of WGS84");
        return false;
    }
    /* Arcs as short straight pieces, half a degree each. */
    OGRGeometryH straight = OGR_G_GetLinearGeometry(as_read, 0.5, NULL);
    bool started = false;
    bool ok = straight ? add_geometry(job, feature, straight, &started, 0)
                       : map_damaged(job);
    OGR_G_DestroyGeometry(straight);
    return ok;
}

/* ---- layers ---- */

/* "LABEL, fid": what has no room any more is left out. */
static void note_field(struct map_job *job, const char *name)
{
    size_t used = strlen(job->fields);
    int size = snprintf(NULL, 0, "%s%s", used > 0 ? ", " : "", name);
    if (size > 0 && used + (size_t)size < sizeof job->fields)
        snprintf(job->fields + used, sizeof job->fields - used, "%s%s",
                 used > 0 ? ", " : "", name);
}

/* Is the field asked for there? Keeps the one called most like it, and all that are. */
static void look_for_field(struct map_job *job, OGRLayerH layer)
{
    const char *wanted = job->ask->name_field;
    OGRFeatureDefnH fields = OGR_L_GetLayerDefn(layer);
    if (!wanted || job->named || !fields)
        return;
    struct suggest s = suggest_for(wanted, strlen(wanted));
    int count = OGR_FD_GetFieldCount(fields);
    for (int i = 0; i < count; i++) {
        const char *name = OGR_Fld_GetNameRef(OGR_FD_GetFieldDefn(fields, i));
        job->named = job->named || strcasecmp(name, wanted) == 0;
        suggest_offer(&s, name);
        note_field(job, name);
    }
    if (s.best && !job->offered[0])
        snprintf(job->offered, sizeof job->offered, "%s", s.best);
}

static struct map_feature *next_feature(struct map_job *job)
{
    struct map *map = job->map;
    if (map->count == MAP_FEATURES_MOST) {
        fault_set(job->f, "map-many", SPAN_NONE, "the map `%s` has more than %d features",
                  job->file, MAP_FEATURES_MOST);
        fault_hint(job->f, "cut the property out of it first");
        return NULL;
    }
    struct map_feature *all =
        grow(map->features, &map->room, map->count, sizeof *map->features);
    if (!all) {
        fault_no_memory(job->f);
        return NULL;
    }
    map->features = all;
    all[map->count] = (struct map_feature){ .name = NULL };
    return &all[map->count++];
}

static bool add_feature(struct map_job *job, OGRFeatureH from, const char *layer,
                        OGRCoordinateTransformationH turn)
{
    struct map_feature *feature = next_feature(job);
    if (!feature || !read_texts(job, feature, from, layer) ||
        !read_place(job, feature, from, turn))
        return false; /* what was read of it is freed with the map */
    if (!shape_is_empty(&feature->degrees))
        return true;
    job->map->count--;
    job->map->without_shape++;
    map_feature_clear(feature);
    return true;
}

bool map_layer(struct map_job *job, OGRLayerH layer, OGRCoordinateTransformationH turn)
{
    const char *name = OGR_L_GetName(layer);
    look_for_field(job, layer);
    OGR_L_ResetReading(layer);
    for (OGRFeatureH from; (from = OGR_L_GetNextFeature(layer)) != NULL;) {
        bool ok = add_feature(job, from, name, turn);
        OGR_F_Destroy(from);
        if (!ok)
            return false;
    }
    return true;
}
