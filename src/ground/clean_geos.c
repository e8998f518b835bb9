#include "ground/clean.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "ground/clean_inner.h"
#include "ground/crossings.h"
#include "ground/session_geos.h"

enum { CROSSINGS_MOST = 10000 };
static const double MOST_MOVED = 0.02;
static const double SLIVER_SHARE = 1e-4, SLIVER_WIDTH = 0.5; /* ft */

struct clean_ask clean_ask_plain(const char *name)
{
    return (struct clean_ask){ .name = name, .most_moved = MOST_MOVED };
}

static size_t least_points(enum shape_kind kind)
{
    switch (kind) {
    case SHAPE_POINTS: return 1;
    case SHAPE_LINES: return 2;
    case SHAPE_AREAS: return 3;
    }
    return 1;
}

static bool tidy(const struct shape *s, struct shape *out, struct clean_done *done,
                 struct fault *f)
{
    struct point *copy = malloc((s->point_count + 1) * sizeof *copy);
    if (!copy)
        return fault_no_memory(f);
    bool ok = true;
    for (size_t i = 0; ok && i < s->part_count; i++) {
        const struct shape_part *p = &s->parts[i];
        size_t count = p->count;
        memcpy(copy, s->points + p->first, count * sizeof *copy);
        for (size_t k = 0; ok && k < count; k++)
            if (!(isfinite(copy[k].x) && isfinite(copy[k].y)))
                ok = fault_set(f, "shape-broken", SPAN_NONE,
                               "a shape has a point that lies nowhere");
        if (ok && s->kind != SHAPE_POINTS)
            count = tidy_points(copy, count, s->kind == SHAPE_AREAS, &done->tidied);
        if (ok && count >= least_points(s->kind))
            ok = shape_add_part(out, copy, count, p->hole, f);
    }
    free(copy);
    return ok;
}

/* Is it sound as it is? `at` is where not. */
static bool look(struct session *g, const GEOSGeometry *geometry, bool *sound,
                 struct point *at, struct fault *f)
{
    GEOSGeometry *where = NULL;
    char answer = GEOSisValidDetail_r(g->handle, geometry, 0, NULL, &where);
    bool ok = answer != 2 || session_fault(g, "looked over", f);
    *sound = answer == 1;
    if (ok && !*sound && where &&
        (!GEOSGeomGetX_r(g->handle, where, &at->x) ||
         !GEOSGeomGetY_r(g->handle, where, &at->y)))
        *at = (struct point){ 0, 0 };
    GEOSGeom_destroy_r(g->handle, where);
    return ok;
}

static GEOSGeometry *mend(struct session *g, const GEOSGeometry *geometry)
{
    GEOSMakeValidParams *how = GEOSMakeValidParams_create_r(g->handle);
    if (!how)
        return NULL;
    GEOSGeometry *made = NULL;
    if (GEOSMakeValidParams_setMethod_r(g->handle, how, GEOS_MAKE_VALID_STRUCTURE) &&
        GEOSMakeValidParams_setKeepCollapsed_r(g->handle, how, 0))
        made = GEOSMakeValidWithParams_r(g->handle, geometry, how);
    GEOSMakeValidParams_destroy_r(g->handle, how);
    return made;
}

/* No outline of ground, and more than can be mended in any time. */
static bool refuse_scribble(const struct shape *s, const struct clean_ask *ask,
                            struct fault *f)
{
    bool scribble;
    if (!crossings_exceed(s, CROSSINGS_MOST, &scribble, f))
        return false;
    if (!scribble)
        return true;
    fault_set(f, "shape-broken", SPAN_NONE,
              "the outline of `%s` has %zu corners and crosses itself more than %d times",
              ask->name, s->point_count, CROSSINGS_MOST);
    fault_hint(f, "draw it anew: an outline goes round its ground once");
    return false;
}

/* Sound or mended, it comes back with each ring before its own holes. */
static bool undo_crossings(struct shape *s, const struct clean_ask *ask,
                           struct clean_done *done, struct point *at, struct fault *f)
{
    struct session g;
    struct shape out = { .kind = SHAPE_AREAS };
    bool sound = true;
    if (!session_open(&g, f))
        return false;
    GEOSGeometry *made = session_take(&g, s, f);
    bool ok = made && look(&g, made, &sound, at, f);
    if (ok && !sound) {
        GEOSGeometry *broken = made;
        done->crossed = true;
        made = NULL;
        ok = refuse_scribble(s, ask, f);
        if (ok) {
            made = mend(&g, broken);
            ok = made || session_fault(&g, "mended", f);
        }
        GEOSGeom_destroy_r(g.handle, broken);
    }
    if (ok)
        ok = session_give(&g, made, SHAPE_AREAS, &out, f);
    else
        GEOSGeom_destroy_r(g.handle, made);
    session_close(&g);
    if (!ok) {
        shape_free(&out);
        return false;
    }
    shape_free(s);
    *s = out;
    return true;
}

static double part_area(const struct shape *s, size_t part)
{
    struct shape one = *s;
    struct shape_part only = s->parts[part];
    only.hole = false;
    one.parts = &only;
    one.part_count = 1;
    return shape_area(&one);
}

static double part_rim(const struct shape *s, size_t part)
{
    struct shape one = *s;
    struct shape_part only = s->parts[part];
    one.parts = &only;
    one.part_count = 1;
    return shape_length(&one);
}

/* Its rings are followed by their own holes. */
static bool drop_slivers(struct shape *s, struct clean_done *done, struct fault *f)
{
    struct shape out = { .kind = SHAPE_AREAS };
    double whole = shape_area(s);
    bool ok = true, skipped = false;
    for (size_t i = 0; ok && i < s->part_count; i++) {
        const struct shape_part *p = &s->parts[i];
        double area = part_area(s, i), rim = part_rim(s, i);
        bool sliver = area < SLIVER_SHARE * whole || 2 * area < SLIVER_WIDTH * rim;
        bool follows = p->hole && skipped; /* its ring has gone */
        done->slivers += sliver && !follows;
        if (!p->hole)
            skipped = sliver;
        if (!sliver && !follows)
            ok = shape_add_part(&out, s->points + p->first, p->count, p->hole, f);
    }
    if (!ok) {
        shape_free(&out);
        return false;
    }
    shape_free(s);
    *s = out;
    return true;
}

/* The area as its coordinates tell it, ring by ring: overlaps twice. */
static double drawn_area(const struct shape *s)
{
    double total = 0;
    for (size_t i = 0; i < s->part_count; i++)
        total += part_area(s, i) * (s->parts[i].hole ? -1 : 1);
    return fabs(total);
}

static bool mend_area(struct shape *s, const struct clean_ask *ask,
                      struct clean_done *done, struct fault *f)
{
    struct point at = { 0, 0 };
    double before = drawn_area(s);
    if (!undo_crossings(s, ask, done, &at, f) || !drop_slivers(s, done, f))
        return false;
    double after = shape_area(s);
    if (after <= 0) {
        fault_set(f, "shape-empty", SPAN_NONE, "the outline of `%s` holds no ground",
                  ask->name);
        fault_hint(f, "an area wants three corners that do not lie in a line");
        return false;
    }
    done->moved = done->tidied.spike_area + fabs(after - before);
    done->share = done->moved / after;
    return done->share <= ask->most_moved || clean_refuse(ask, done, at, after, f);
}

bool clean_shape(struct shape *s, const struct clean_ask *ask, struct clean_done *done,
                 struct fault *f)
{
    struct shape out = { .kind = s->kind };
    bool ok = tidy(s, &out, done, f);
    if (ok && shape_is_empty(&out)) {
        ok = fault_set(f, "shape-empty", SPAN_NONE, "`%s` has too few points for %s",
                       ask->name,
                       s->kind == SHAPE_AREAS   ? "an area"
                       : s->kind == SHAPE_LINES ? "a line"
                                                : "a place");
    }
    if (ok && s->kind == SHAPE_AREAS)
        ok = mend_area(&out, ask, done, f);
    ok = ok && clean_say(done, s->kind, f);
    if (!ok) {
        shape_free(&out);
        return false;
    }
    shape_free(s);
    *s = out;
    return true;
}
