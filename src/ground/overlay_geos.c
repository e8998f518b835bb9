#include "ground/overlay.h"

#include <math.h>

#include "base/fault.h"
#include "ground/session_geos.h"

enum { ARC_PIECES = 90 };

/* Closes the session; an empty `out` unless all went well. */
static bool end(struct session *g, bool ok, struct shape *out)
{
    session_close(g);
    if (!ok)
        shape_free(out);
    return ok;
}

bool overlay_buffer(const struct shape *s, double by, enum overlay_ends ends,
                    struct shape *out, struct fault *f)
{
    struct session g;
    *out = (struct shape){ .kind = SHAPE_AREAS };
    if (!isfinite(by))
        return fault_set(f, "shape-kind", SPAN_NONE, "a buffer's width must be a number");
    if (by < 0 && s->kind != SHAPE_AREAS)
        return fault_set(f, "shape-kind", SPAN_NONE,
                         "only an area can be taken in from its rim");
    if (!session_open(&g, f))
        return false;
    int cap = ends == OVERLAY_FLAT && s->kind == SHAPE_LINES ? GEOSBUF_CAP_FLAT
                                                             : GEOSBUF_CAP_ROUND;
    GEOSGeometry *from = session_take(&g, s, f);
    GEOSGeometry *made = from ? GEOSBufferWithStyle_r(g.handle, from, by, ARC_PIECES, cap,
                                                      GEOSBUF_JOIN_ROUND, 5)
                              : NULL;
    bool ok = made ? session_give(&g, made, SHAPE_AREAS, out, f)
                   : session_fault(&g, "widened", f);
    GEOSGeom_destroy_r(g.handle, from);
    return end(&g, ok, out);
}

bool overlay_union(const struct shape *const *list, size_t count, struct shape *out,
                   struct fault *f)
{
    struct session g;
    struct shape all = { .kind = count > 0 ? list[0]->kind : SHAPE_AREAS };
    *out = (struct shape){ .kind = all.kind };
    if (!session_open(&g, f))
        return false;
    GEOSGeometry *made = NULL;
    bool ok = true;
    for (size_t i = 0; ok && i < count; i++) {
        if (list[i]->kind != all.kind) {
            ok = fault_set(f, "shape-kind", SPAN_NONE,
                           "shapes of one kind only can be joined: points, lines or "
                           "areas");
            break;
        }
        GEOSGeometry *next = session_take(&g, list[i], f);
        GEOSGeometry *both = next && made ? GEOSUnion_r(g.handle, made, next)
                             : next       ? GEOSUnaryUnion_r(g.handle, next)
                                          : NULL;
        GEOSGeom_destroy_r(g.handle, made);
        GEOSGeom_destroy_r(g.handle, next);
        made = both;
        ok = made || session_fault(&g, "joined", f);
    }
    if (ok && made)
        ok = session_give(&g, made, all.kind, out, f);
    else
        GEOSGeom_destroy_r(g.handle, made);
    return end(&g, ok, out);
}

typedef GEOSGeometry *operation(GEOSContextHandle_t, const GEOSGeometry *,
                                const GEOSGeometry *);

static bool of_two(const struct shape *a, const struct shape *b, operation *run,
                   enum shape_kind kind, const char *what, struct shape *out,
                   struct fault *f)
{
    struct session g;
    *out = (struct shape){ .kind = kind };
    if (!session_open(&g, f))
        return false;
    GEOSGeometry *left = session_take(&g, a, f);
    GEOSGeometry *right = left ? session_take(&g, b, f) : NULL;
    GEOSGeometry *made = right ? run(g.handle, left, right) : NULL;
    bool ok = made ? session_give(&g, made, kind, out, f) : session_fault(&g, what, f);
    GEOSGeom_destroy_r(g.handle, left);
    GEOSGeom_destroy_r(g.handle, right);
    return end(&g, ok, out);
}

bool overlay_intersection(const struct shape *a, const struct shape *b, struct shape *out,
                          struct fault *f)
{
    enum shape_kind kind = a->kind < b->kind ? a->kind : b->kind;
    return of_two(a, b, GEOSIntersection_r, kind, "laid over one another", out, f);
}

bool overlay_difference(const struct shape *a, const struct shape *b, struct shape *out,
                        struct fault *f)
{
    return of_two(a, b, GEOSDifference_r, a->kind, "taken from one another", out, f);
}
