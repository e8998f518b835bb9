/* Shapes as GEOS takes them. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "ground/session_geos.h"

/* A closed sequence repeats its first point. NULL when it failed. */
static GEOSCoordSequence *sequence(struct session *g, const struct point *points,
                                   size_t count, bool closed)
{
    size_t all = count + closed;
    struct point *copy = malloc((all + 1) * sizeof *copy);
    if (!copy)
        return NULL;
    memcpy(copy, points, count * sizeof *copy);
    if (closed)
        copy[count] = points[0];
    GEOSCoordSequence *made = GEOSCoordSeq_copyFromBuffer_r(
        g->handle, (const double *)copy, (unsigned)all, 0, 0);
    free(copy);
    return made;
}

static GEOSGeometry *ring(struct session *g, const struct shape *s, size_t part)
{
    const struct shape_part *p = &s->parts[part];
    GEOSCoordSequence *points = sequence(g, s->points + p->first, p->count, true);
    return points ? GEOSGeom_createLinearRing_r(g->handle, points) : NULL;
}

static bool ring_has(const struct point *r, size_t count, struct point p)
{
    bool in = false;
    for (size_t i = 0, j = count - 1; i < count; j = i++)
        if ((r[i].y > p.y) != (r[j].y > p.y) &&
            p.x < (r[j].x - r[i].x) * (p.y - r[i].y) / (r[j].y - r[i].y) + r[i].x)
            in = !in;
    return in;
}

/* The ring that a hole lies in: of those that hold half of its points, the smallest. */
static size_t ring_of_hole(const struct shape *s, size_t hole)
{
    const struct shape_part *h = &s->parts[hole];
    size_t best = s->part_count;
    double least = HUGE_VAL;
    for (size_t i = 0; i < s->part_count; i++) {
        const struct shape_part *p = &s->parts[i];
        if (p->hole)
            continue;
        double size = fabs(session_winding(s->points + p->first, p->count));
        size_t within = 0;
        for (size_t k = 0; k < h->count && size < least; k++)
            within +=
                ring_has(s->points + p->first, p->count, s->points[h->first + k]);
        if (within * 2 >= h->count && size < least) {
            best = i;
            least = size;
        }
    }
    return best;
}

static void destroy_all(struct session *g, GEOSGeometry **list, size_t count)
{
    for (size_t i = 0; i < count; i++)
        GEOSGeom_destroy_r(g->handle, list[i]);
}

/* The polygon of one ring and of the holes whose `holder` it is. */
static GEOSGeometry *polygon(struct session *g, const struct shape *s, size_t part,
                             const size_t *holder, GEOSGeometry **holes)
{
    size_t count = 0;
    GEOSGeometry *shell = ring(g, s, part);
    bool ok = shell != NULL;
    for (size_t i = 0; ok && i < s->part_count; i++) {
        if (!s->parts[i].hole || holder[i] != part)
            continue;
        holes[count] = ring(g, s, i);
        ok = holes[count] != NULL;
        count += ok;
    }
    if (ok) /* which takes the rings, also when it fails */
        return GEOSGeom_createPolygon_r(g->handle, shell, holes, (unsigned)count);
    GEOSGeom_destroy_r(g->handle, shell);
    destroy_all(g, holes, count);
    return NULL;
}

static GEOSGeometry *line(struct session *g, const struct shape *s, size_t part)
{
    const struct shape_part *p = &s->parts[part];
    GEOSCoordSequence *points = sequence(g, s->points + p->first, p->count, false);
    return points ? GEOSGeom_createLineString_r(g->handle, points) : NULL;
}

static GEOSGeometry *dot(struct session *g, struct point p)
{
    return GEOSGeom_createPointFromXY_r(g->handle, p.x, p.y);
}

/* Each part as a geometry of its own; how many, or -1. */
static long pieces(struct session *g, const struct shape *s, GEOSGeometry **list,
                   GEOSGeometry **holes, const size_t *holder)
{
    size_t count = 0, all = s->kind == SHAPE_POINTS ? s->point_count : s->part_count;
    for (size_t i = 0; i < all; i++) {
        size_t least = s->kind == SHAPE_AREAS ? 3 : 2;
        if (s->kind != SHAPE_POINTS && (s->parts[i].hole || s->parts[i].count < least))
            continue;
        switch (s->kind) {
        case SHAPE_POINTS: list[count] = dot(g, s->points[i]); break;
        case SHAPE_LINES: list[count] = line(g, s, i); break;
        case SHAPE_AREAS: list[count] = polygon(g, s, i, holder, holes); break;
        }
        if (!list[count]) {
            destroy_all(g, list, count);
            return -1;
        }
        count++;
    }
    return (long)count;
}

/* GEOS stumbles over what is no number, and leaves memory behind. */
static bool all_somewhere(const struct shape *s, struct fault *f)
{
    for (size_t i = 0; i < s->point_count; i++)
        if (!isfinite(s->points[i].x) || !isfinite(s->points[i].y))
            return fault_set(f, "shape-broken", SPAN_NONE,
                             "a shape has a point that lies nowhere");
    return true;
}

GEOSGeometry *session_take(struct session *g, const struct shape *s, struct fault *f)
{
    static const int types[] = { GEOS_MULTIPOINT, GEOS_MULTILINESTRING,
                                 GEOS_MULTIPOLYGON };
    size_t room = s->part_count + s->point_count + 1;
    GEOSGeometry *made = NULL;
    if (!all_somewhere(s, f))
        return NULL;
    GEOSGeometry **list = malloc(room * sizeof(GEOSGeometry *));
    GEOSGeometry **holes = malloc(room * sizeof(GEOSGeometry *));
    size_t *holder = malloc(room * sizeof *holder);
    if (!list || !holes || !holder) {
        fault_no_memory(f);
        goto done;
    }
    for (size_t i = 0; i < s->part_count; i++)
        holder[i] = s->parts[i].hole && s->parts[i].count >= 3 ? ring_of_hole(s, i)
                                                               : s->part_count;
    long count = pieces(g, s, list, holes, holder);
    if (count >= 0) /* takes the pieces, also when it fails */
        made =
            GEOSGeom_createCollection_r(g->handle, types[s->kind], list, (unsigned)count);
    if (!made)
        session_fault(g, "taken up", f);
done:
    free(list);
    free(holes);
    free(holder);
    return made;
}
