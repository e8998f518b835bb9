#include "ground/session_geos.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "base/fault.h"

double session_seconds = 20;

/* GEOS's interrupt has no owner of its own before 3.14: one deadline for the process,
 * which works on one thing at a time. The processor's clock takes a system call to ask, and
 * GEOS asks thousands of times: as the process has one thread, it has worked no longer than
 * has passed on the cheap clock, which is asked first. */
static double deadline, soonest;

static double seconds(clockid_t clock)
{
    struct timespec t;
    if (clock_gettime(clock, &t) != 0)
        return 0;
    return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

static void look_at_clock(void)
{
    if (seconds(CLOCK_MONOTONIC) > soonest &&
        seconds(CLOCK_PROCESS_CPUTIME_ID) > deadline)
        GEOS_interruptRequest();
}

static void note_words(const char *message, void *owner)
{
    struct session *g = owner;
    snprintf(g->words, sizeof g->words, "%s", message);
}

bool session_open(struct session *g, struct fault *f)
{
    *g = (struct session){ .handle = GEOS_init_r() };
    if (!g->handle)
        return fault_no_memory(f);
    GEOSContext_setErrorMessageHandler_r(g->handle, note_words, g);
    soonest = seconds(CLOCK_MONOTONIC) + session_seconds;
    deadline = seconds(CLOCK_PROCESS_CPUTIME_ID) + session_seconds;
    GEOS_interruptCancel();
    GEOS_interruptRegisterCallback(look_at_clock);
    return true;
}

void session_close(struct session *g)
{
    GEOS_interruptRegisterCallback(NULL);
    if (g->handle)
        GEOS_finish_r(g->handle);
    g->handle = NULL;
}

bool session_fault(struct session *g, const char *what, struct fault *f)
{
    if (fault_is_set(f))
        return false;
    if (strstr(g->words, "bad_alloc"))
        return fault_no_memory(f);
    if (strstr(g->words, "nterrupt")) {
        fault_set(f, "shape-slow", SPAN_NONE,
                  "the shapes could not be %s within %.0f seconds", what,
                  session_seconds);
        fault_hint(f, "leave points out of the map: one every few feet is enough");
        return false;
    }
    fault_set(f, "shape-failed", SPAN_NONE,
              "the shapes could not be %s: their outlines meet in a way that cannot be "
              "worked out",
              what);
    fault_hint(f, "look for outlines that all but touch, or cross themselves");
    return false;
}

double session_winding(const struct point *points, size_t count)
{
    double sum = 0;
    for (size_t i = 0; i < count; i++) {
        struct point a = points[i], b = points[(i + 1) % count];
        sum += (a.x - points[0].x) * (b.y - points[0].y) -
               (b.x - points[0].x) * (a.y - points[0].y);
    }
    return sum;
}

/* ---- out ---- */

/* GEOS lists the points of a ring from its least one, to the right. */
static void turn(struct point *points, size_t count)
{
    for (size_t i = 1, j = count - 1; i < j; i++, j--) {
        struct point p = points[i];
        points[i] = points[j];
        points[j] = p;
    }
}

static bool add_points(struct session *g, const GEOSGeometry *from, enum shape_kind kind,
                       bool hole, struct shape *out, struct fault *f)
{
    const GEOSCoordSequence *points = GEOSGeom_getCoordSeq_r(g->handle, from);
    unsigned count = 0;
    if (!points || !GEOSCoordSeq_getSize_r(g->handle, points, &count))
        return session_fault(g, "read", f);
    struct point *copy = malloc((count + 1) * sizeof *copy);
    if (!copy)
        return fault_no_memory(f);
    bool ok =
        GEOSCoordSeq_copyToBuffer_r(g->handle, points, (double *)copy, 0, 0) != 0;
    if (!ok) {
        session_fault(g, "read", f);
    } else if (kind == SHAPE_AREAS && count > 3) {
        count--;
        if ((session_winding(copy, count) > 0) == hole)
            turn(copy, count);
        ok = shape_add_part(out, copy, count, hole, f);
    } else if (kind != SHAPE_AREAS && count > 0) {
        ok = shape_add_part(out, copy, count, false, f);
    }
    free(copy);
    return ok;
}

static bool add_polygon(struct session *g, const GEOSGeometry *from, struct shape *out,
                        struct fault *f)
{
    const GEOSGeometry *shell = GEOSGetExteriorRing_r(g->handle, from);
    int holes = GEOSGetNumInteriorRings_r(g->handle, from);
    if (!shell || holes < 0)
        return session_fault(g, "read", f);
    if (!add_points(g, shell, SHAPE_AREAS, false, out, f))
        return false;
    for (int i = 0; i < holes; i++) {
        const GEOSGeometry *hole = GEOSGetInteriorRingN_r(g->handle, from, i);
        if (!hole)
            return session_fault(g, "read", f);
        if (!add_points(g, hole, SHAPE_AREAS, true, out, f))
            return false;
    }
    return true;
}

/* Collections are as deep as their maker made them: GEOS's own results two or three. */
static bool add(struct session *g, const GEOSGeometry *from, enum shape_kind kind,
                struct shape *out, int depth, struct fault *f)
{
    char empty = GEOSisEmpty_r(g->handle, from);
    int type = GEOSGeomTypeId_r(g->handle, from);
    if (empty == 2 || type < 0 || depth > 8)
        return session_fault(g, "read", f);
    if (empty)
        return true;
    switch (type) {
    case GEOS_POINT:
        return kind != SHAPE_POINTS || add_points(g, from, kind, false, out, f);
    case GEOS_LINESTRING:
    case GEOS_LINEARRING:
        return kind != SHAPE_LINES || add_points(g, from, kind, false, out, f);
    case GEOS_POLYGON: return kind != SHAPE_AREAS || add_polygon(g, from, out, f);
    default: break;
    }
    int count = GEOSGetNumGeometries_r(g->handle, from);
    if (count < 0)
        return session_fault(g, "read", f);
    for (int i = 0; i < count; i++) {
        const GEOSGeometry *part = GEOSGetGeometryN_r(g->handle, from, i);
        if (!part)
            return session_fault(g, "read", f);
        if (!add(g, part, kind, out, depth + 1, f))
            return false;
    }
    return true;
}

bool session_give(struct session *g, GEOSGeometry *made, enum shape_kind kind,
                  struct shape *out, struct fault *f)
{
    bool ok = GEOSNormalize_r(g->handle, made) == 0 || session_fault(g, "read", f);
    ok = ok && add(g, made, kind, out, 0, f);
    GEOSGeom_destroy_r(g->handle, made);
    return ok;
}
