/* session_geos.h: one piece of work with GEOS: its context, shapes in and out, and what
 * went wrong in words. Only the *_geos.c files see it.
 *
 *     struct session g;
 *     if (!session_open(&g, f)) return false;
 *     GEOSGeometry *a = session_take(&g, stand, f);
 *     ... if (!made) session_fault(&g, "cut", f);
 *     bool ok = made && session_give(&g, made, SHAPE_AREAS, out, f);
 *     GEOSGeom_destroy_r(g.handle, a);
 *     session_close(&g);
 *
 * GEOS is C++: its messages go to the session, nothing is thrown across it, and work that
 * takes longer than session_seconds of processor time is given up. */
#ifndef SPINNEY_GROUND_SESSION_GEOS_H
#define SPINNEY_GROUND_SESSION_GEOS_H

#include <geos_c.h>
#include <stdbool.h>

#include "ground/shape.h"

struct fault;

struct session {
    GEOSContextHandle_t handle;
    char words[160]; /* GEOS's own, the last */
};

/* What one piece of work may take; a test makes it short. */
extern double session_seconds;

bool session_open(struct session *g, struct fault *f);
void session_close(struct session *g);
/* NULL with the fault. Holes go to the smallest ring that holds them. */
GEOSGeometry *session_take(struct session *g, const struct shape *s, struct fault *f);
/* Adds what `made` holds of that kind to `out`: rings that wind to the left, holes to the
 * right, in an order that depends on the ground alone. Frees `made`. */
bool session_give(struct session *g, GEOSGeometry *made, enum shape_kind kind,
                  struct shape *out, struct fault *f);
/* Sets what the failed call means; `what` completes "the shapes could not be ...". False. */
bool session_fault(struct session *g, const char *what, struct fault *f);
/* Twice a ring's area, above zero when it winds to the left. */
double session_winding(const struct point *points, size_t count);

#endif
