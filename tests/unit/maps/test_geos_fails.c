/* Every call of GEOS that may fail is made to fail, one after another: each gives a fault
 * in words, an empty shape, and nothing is left behind (the sanitizers look). */
#define _GNU_SOURCE /* RTLD_NEXT */
#include <dlfcn.h>
#include <geos_c.h>

#include "ground.h"
#include "ground/clean.h"
#include "ground/overlay.h"
#include "ground/session_geos.h"

static size_t fail_after = SIZE_MAX;
static bool failed;
static GEOSMessageHandler_r told_to;
static void *told_with;
static const char *words;

/* Is it this call's turn? Says the words that the library would have said. */
static bool fails(void)
{
    if (fail_after == SIZE_MAX || fail_after-- > 0)
        return false;
    fail_after = SIZE_MAX;
    failed = true;
    if (told_to)
        told_to(words, told_with);
    return true;
}

/* POSIX gives a function as a pointer to data. */
#define NEXT(name)                                                                        \
    static union {                                                                        \
        void *found;                                                                      \
        __typeof__(&name) call;                                                           \
    } next;                                                                               \
    if (!next.found)                                                                      \
    next.found = dlsym(RTLD_NEXT, #name)

#define STAND_IN(type, name, wrong, given, passed)                                        \
    type name given                                                                       \
    {                                                                                     \
        NEXT(name);                                                                       \
        return fails() ? (wrong) : next.call passed;                                      \
    }

typedef GEOSContextHandle_t H;
typedef const GEOSGeometry G;

GEOSMessageHandler_r GEOSContext_setErrorMessageHandler_r(H h, GEOSMessageHandler_r to,
                                                          void *with)
{
    NEXT(GEOSContext_setErrorMessageHandler_r);
    told_to = to;
    told_with = with;
    return next.call(h, to, with);
}

STAND_IN(H, GEOS_init_r, NULL, (void), ())
STAND_IN(GEOSCoordSequence *, GEOSCoordSeq_copyFromBuffer_r, NULL,
         (H h, const double *b, unsigned n, int z, int m), (h, b, n, z, m))
STAND_IN(int, GEOSCoordSeq_copyToBuffer_r, 0,
         (H h, const GEOSCoordSequence *s, double *b, int z, int m), (h, s, b, z, m))
STAND_IN(int, GEOSCoordSeq_getSize_r, 0, (H h, const GEOSCoordSequence *s, unsigned *n),
         (h, s, n))
STAND_IN(const GEOSCoordSequence *, GEOSGeom_getCoordSeq_r, NULL, (H h, G *g), (h, g))
STAND_IN(GEOSGeometry *, GEOSGeom_createPointFromXY_r, NULL, (H h, double x, double y),
         (h, x, y))
STAND_IN(G *, GEOSGetExteriorRing_r, NULL, (H h, G *g), (h, g))
STAND_IN(int, GEOSGetNumInteriorRings_r, -1, (H h, G *g), (h, g))
STAND_IN(G *, GEOSGetInteriorRingN_r, NULL, (H h, G *g, int n), (h, g, n))
STAND_IN(char, GEOSisEmpty_r, 2, (H h, G *g), (h, g))
STAND_IN(int, GEOSGeomTypeId_r, -1, (H h, G *g), (h, g))
STAND_IN(int, GEOSGetNumGeometries_r, -1, (H h, G *g), (h, g))
STAND_IN(G *, GEOSGetGeometryN_r, NULL, (H h, G *g, int n), (h, g, n))
STAND_IN(int, GEOSNormalize_r, -1, (H h, GEOSGeometry *g), (h, g))
STAND_IN(GEOSGeometry *, GEOSBufferWithStyle_r, NULL,
         (H h, G *g, double w, int q, int c, int j, double m), (h, g, w, q, c, j, m))
STAND_IN(GEOSGeometry *, GEOSUnion_r, NULL, (H h, G *a, G *b), (h, a, b))
STAND_IN(GEOSGeometry *, GEOSUnaryUnion_r, NULL, (H h, G *a), (h, a))
STAND_IN(GEOSGeometry *, GEOSIntersection_r, NULL, (H h, G *a, G *b), (h, a, b))
STAND_IN(GEOSGeometry *, GEOSDifference_r, NULL, (H h, G *a, G *b), (h, a, b))
STAND_IN(GEOSMakeValidParams *, GEOSMakeValidParams_create_r, NULL, (H h), (h))
STAND_IN(int, GEOSMakeValidParams_setMethod_r, 0,
         (H h, GEOSMakeValidParams *p, enum GEOSMakeValidMethods m), (h, p, m))
STAND_IN(int, GEOSMakeValidParams_setKeepCollapsed_r, 0,
         (H h, GEOSMakeValidParams *p, int k), (h, p, k))
STAND_IN(GEOSGeometry *, GEOSMakeValidWithParams_r, NULL,
         (H h, G *g, const GEOSMakeValidParams *p), (h, g, p))
STAND_IN(int, GEOSGeomGetX_r, 0, (H h, G *g, double *x), (h, g, x))
STAND_IN(int, GEOSGeomGetY_r, 0, (H h, G *g, double *y), (h, g, y))
STAND_IN(char, GEOSisValidDetail_r, 2, (H h, G *g, int n, char **why, GEOSGeometry **at),
         (h, g, n, why, at))

/* What takes its arguments over takes them also when it fails. */
GEOSGeometry *GEOSGeom_createLinearRing_r(H h, GEOSCoordSequence *s)
{
    NEXT(GEOSGeom_createLinearRing_r);
    if (!fails())
        return next.call(h, s);
    GEOSCoordSeq_destroy_r(h, s);
    return NULL;
}

GEOSGeometry *GEOSGeom_createLineString_r(H h, GEOSCoordSequence *s)
{
    NEXT(GEOSGeom_createLineString_r);
    if (!fails())
        return next.call(h, s);
    GEOSCoordSeq_destroy_r(h, s);
    return NULL;
}

GEOSGeometry *GEOSGeom_createPolygon_r(H h, GEOSGeometry *shell, GEOSGeometry **holes,
                                       unsigned count)
{
    NEXT(GEOSGeom_createPolygon_r);
    if (!fails())
        return next.call(h, shell, holes, count);
    GEOSGeom_destroy_r(h, shell);
    for (unsigned i = 0; i < count; i++)
        GEOSGeom_destroy_r(h, holes[i]);
    return NULL;
}

GEOSGeometry *GEOSGeom_createCollection_r(H h, int type, GEOSGeometry **list,
                                          unsigned count)
{
    NEXT(GEOSGeom_createCollection_r);
    if (!fails())
        return next.call(h, type, list, count);
    for (unsigned i = 0; i < count; i++)
        GEOSGeom_destroy_r(h, list[i]);
    return NULL;
}

/* ---- each use ---- */

static struct shape stand(void)
{
    struct shape s = rectangle(0, 0, 1000, 1000);
    PART(&s, true, 400, 400, 600, 400, 600, 600, 400, 600);
    PART(&s, false, 2000, 0, 2100, 0, 2100, 100);
    return s;
}

static bool do_buffer(struct shape *out, struct fault *f)
{
    struct shape s = stand();
    bool ok = overlay_buffer(&s, 20, OVERLAY_ROUND, out, f);
    shape_free(&s);
    return ok;
}

static bool do_points(struct shape *out, struct fault *f)
{
    struct shape s = { .kind = SHAPE_POINTS };
    PART(&s, false, 1, 2, 300, 4);
    bool ok = overlay_buffer(&s, 20, OVERLAY_FLAT, out, f);
    shape_free(&s);
    return ok;
}

static bool do_union(struct shape *out, struct fault *f)
{
    struct shape a = stand(), b = rectangle(900, 900, 300, 300);
    const struct shape *list[] = { &a, &b };
    bool ok = overlay_union(list, 2, out, f);
    shape_free(&a);
    shape_free(&b);
    return ok;
}

static bool do_intersection(struct shape *out, struct fault *f)
{
    struct shape a = stand(), b = path(-10, 300, 1200, 800);
    bool ok = overlay_intersection(&a, &b, out, f);
    shape_free(&a);
    shape_free(&b);
    return ok;
}

static bool do_difference(struct shape *out, struct fault *f)
{
    struct shape a = stand(), b = rectangle(900, 900, 300, 300);
    bool ok = overlay_difference(&a, &b, out, f);
    shape_free(&a);
    shape_free(&b);
    return ok;
}

static bool do_clean(struct shape *out, struct fault *f)
{
    struct clean_ask ask = clean_ask_plain("it");
    struct clean_done done = { 0 };
    struct shape s = area();
    PART(&s, false, 0, 0, 660, 660, 660, 0, 0, 660);
    ask.most_moved = 2;
    bool ok = clean_shape(&s, &ask, &done, f);
    if (ok)
        *out = s;
    else
        shape_free(&s);
    return ok;
}

static const struct {
    const char *name;
    bool (*run)(struct shape *, struct fault *);
    size_t calls; /* at least so many may fail */
} uses[] = {
    { "buffer", do_buffer, 20 },       { "points", do_points, 5 },
    { "union", do_union, 20 },         { "intersection", do_intersection, 15 },
    { "difference", do_difference, 20 }, { "clean", do_clean, 15 },
};

/* The words said, and the fault they should become. GEOS_init_r says none. */
static void sweep(const char *said, const char *id, const char *other)
{
    words = said;
    for (size_t i = 0; i < sizeof uses / sizeof uses[0]; i++) {
        size_t n = 0;
        for (;; n++) {
            struct shape out = area();
            struct fault f = { 0 };
            told_to = NULL;
            failed = false;
            fail_after = n;
            bool ok = uses[i].run(&out, &f);
            fail_after = SIZE_MAX;
            if (!failed) {
                assert_true(ok);
                shape_free(&out);
                break;
            }
            /* Where it crosses is only for the message: it can be done without. */
            if (!ok) {
                if (!f.id || (strcmp(f.id, id) != 0 && strcmp(f.id, other) != 0))
                    fail_msg("%s, call %zu: %s", uses[i].name, n, f.id ? f.id : "none");
                assert_true(shape_is_empty(&out));
            }
            assert_true(ok || f.message[0]);
            shape_free(&out);
        }
        print_message("%s: %zu calls failed in turn\n", uses[i].name, n);
        assert_true(n >= uses[i].calls);
    }
}

static void a_failed_call_is_told_in_words(void **state)
{
    (void)state;
    sweep("TopologyException: side location conflict at 1 2", "shape-failed", "memory");
}

static void without_memory_it_says_so(void **state)
{
    (void)state;
    sweep("std::bad_alloc", "memory", "memory");
}

static void a_shape_that_is_nowhere_is_told(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct shape bad = rectangle(0, 0, (double)NAN, 10), good = rectangle(0, 0, 5, 5), out;
    const struct shape *list[] = { &good, &bad };
    assert_false(overlay_intersection(&bad, &good, &out, &f));
    assert_true(told(&f, "shape-broken", "lies nowhere", ""));
    fault_clear(&f);
    assert_false(overlay_union(list, 2, &out, &f));
    assert_true(told(&f, "shape-broken", "lies nowhere", ""));
    assert_true(shape_is_empty(&out));
    shape_free(&bad);
    shape_free(&good);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_failed_call_is_told_in_words),
        cmocka_unit_test(without_memory_it_says_so),
        cmocka_unit_test(a_shape_that_is_nowhere_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
