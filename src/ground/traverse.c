#include "ground/traverse.h"

#include <math.h>
#include <stdlib.h>

#include "base/fault.h"
#include "ground/bearing.h"
#include "ground/segment.h"

/* What a slip must leave of a miss, at most, to be its likely reason. */
#define SLIP_LEAVES 0.2

void traverse_free(struct traverse *t)
{
    free(t->points);
    free(t->measured);
    *t = (struct traverse){ .points = NULL };
}

static bool is_ring(enum traverse_end end)
{
    return end == TRAVERSE_CLOSED || end == TRAVERSE_BACK;
}

static bool check_calls(const struct traverse_ask *ask, struct fault *f)
{
    if (ask->count == 0)
        return fault_set(f, "traverse-empty", SPAN_NONE, "a traverse needs a call");
    if (ask->count > TRAVERSE_CALLS_MOST)
        return fault_set(f, "traverse-many", SPAN_NONE,
                         "a traverse has at most %d calls; this one has %zu",
                         (int)TRAVERSE_CALLS_MOST, ask->count);
    size_t least = ask->end == TRAVERSE_CLOSED ? 3 : ask->end == TRAVERSE_BACK ? 2 : 1;
    if (ask->count < least) {
        fault_set(f, "traverse-flat", SPAN_NONE, "%zu call%s cannot go round an area",
                  ask->count, ask->count == 1 ? "" : "s");
        fault_hint(f, "three calls at least that come back to the start");
        return false;
    }
    for (size_t i = 0; i < ask->count; i++) {
        double length = ask->calls[i].length_ft;
        if (!(length > 0) || length > TRAVERSE_LENGTH_MOST_FT ||
            !isfinite(ask->calls[i].azimuth))
            return fault_set(f, "traverse-length", SPAN_NONE,
                             "call %zu has no length between 0 and %d ft", i + 1,
                             (int)TRAVERSE_LENGTH_MOST_FT);
    }
    return true;
}

static struct point way_at(const struct traverse_ask *ask, size_t i, double azimuth)
{
    const struct traverse_call *c = &ask->calls[i];
    if (c->magnetic)
        azimuth = bearing_true(azimuth, ask->declination);
    return bearing_walk((struct point){ 0, 0 }, azimuth, c->length_ft);
}

static struct point way_of(const struct traverse_ask *ask, size_t i)
{
    return way_at(ask, i, ask->calls[i].azimuth);
}

static void measure(const struct traverse_ask *ask, struct traverse *t)
{
    t->measured[0] = ask->from;
    for (size_t i = 0; i < ask->count; i++) {
        struct point way = way_of(ask, i);
        t->measured[i + 1] =
            (struct point){ t->measured[i].x + way.x, t->measured[i].y + way.y };
        t->length_ft += ask->calls[i].length_ft;
    }
}

/* How far the end is from where it should be; nothing when that is not known. */
static void find_miss(const struct traverse_ask *ask, struct traverse *t)
{
    t->one_in = NAN;
    if (ask->end != TRAVERSE_CLOSED && ask->end != TRAVERSE_TIED)
        return;
    struct point wanted = ask->end == TRAVERSE_TIED ? ask->to : ask->from;
    struct point end = t->measured[ask->count];
    t->miss_east = end.x - wanted.x;
    t->miss_north = end.y - wanted.y;
    t->miss_ft = hypot(t->miss_east, t->miss_north);
    t->miss_azimuth = bearing_between(wanted, end);
    /* Rounding of the sums is no miss. */
    t->one_in = t->miss_ft <= 1e-12 * t->length_ft ? HUGE_VAL : t->length_ft / t->miss_ft;
}

/* The compass adjustment: each call's share of the miss goes by its length. */
static void adjust(const struct traverse_ask *ask, struct traverse *t)
{
    double gone = 0;
    t->points[0] = ask->from;
    for (size_t i = 0; i < ask->count; i++) {
        gone += ask->calls[i].length_ft;
        double share = gone / t->length_ft;
        t->points[i + 1] = (struct point){ t->measured[i + 1].x - share * t->miss_east,
                                           t->measured[i + 1].y - share * t->miss_north };
    }
    /* Exactly where it should be, whatever the sums lost. */
    if (ask->end == TRAVERSE_CLOSED)
        t->points[ask->count] = ask->from;
    if (ask->end == TRAVERSE_TIED)
        t->points[ask->count] = ask->to;
}

double traverse_mended(double azimuth, enum traverse_slip slip)
{
    switch (slip) {
    case SLIP_BACKWARD: return bearing_normal(azimuth + 180);
    case SLIP_EAST_WEST: return bearing_normal(-azimuth);
    case SLIP_NORTH_SOUTH: return bearing_normal(180 - azimuth);
    case SLIP_TWICE:
    case SLIP_NONE: break;
    }
    return bearing_normal(azimuth);
}

/* How far the end would miss had this slip not been made. */
static double miss_without(const struct traverse_ask *ask, const struct traverse *t,
                           size_t i, enum traverse_slip slip)
{
    struct point way = way_of(ask, i), meant = { 0, 0 };
    if (slip != SLIP_TWICE)
        meant = way_at(ask, i, traverse_mended(ask->calls[i].azimuth, slip));
    return hypot(t->miss_east + meant.x - way.x, t->miss_north + meant.y - way.y);
}

/* Only a call after one that is the same can be said twice. */
static bool fits(const struct traverse_ask *ask, size_t i, enum traverse_slip slip)
{
    if (slip != SLIP_TWICE)
        return true;
    return i > 0 && ask->calls[i].azimuth == ask->calls[i - 1].azimuth &&
           ask->calls[i].length_ft == ask->calls[i - 1].length_ft;
}

static void find_slip(const struct traverse_ask *ask, struct traverse *t)
{
    if (!(t->one_in < TRAVERSE_GOOD_ONE_IN))
        return;
    double least = fmin(SLIP_LEAVES * t->miss_ft, t->length_ft / TRAVERSE_GOOD_ONE_IN);
    for (size_t i = 0; i < ask->count; i++) {
        for (int s = SLIP_BACKWARD; s <= SLIP_TWICE; s++) {
            enum traverse_slip slip = (enum traverse_slip)s;
            double left = miss_without(ask, t, i, slip);
            /* A hair, so that of two alike the first is taken on every machine. */
            if (left < least - 1e-9 * t->length_ft && fits(ask, i, slip)) {
                least = left;
                t->slip = slip;
                t->slip_call = i;
            }
        }
    }
}

bool traverse_run(const struct traverse_ask *ask, struct traverse *out, struct fault *f)
{
    *out = (struct traverse){ .points = NULL };
    if (!check_calls(ask, f))
        return false;
    out->count = ask->count + 1;
    out->points = calloc(out->count, sizeof *out->points);
    out->measured = calloc(out->count, sizeof *out->measured);
    struct shape ring = { .kind = SHAPE_AREAS };
    bool made = out->points && out->measured;
    if (made) {
        measure(ask, out);
        find_miss(ask, out);
        adjust(ask, out);
        find_slip(ask, out);
        if (is_ring(ask->end)) {
            made = traverse_shape(out, ask->end, &ring, f);
            out->area_ft2 = shape_area(&ring);
            shape_free(&ring);
        }
    }
    if (made)
        return true;
    traverse_free(out);
    return fault_no_memory(f);
}

bool traverse_shape(const struct traverse *t, enum traverse_end end, struct shape *out,
                    struct fault *f)
{
    *out = (struct shape){ .kind = is_ring(end) ? SHAPE_AREAS : SHAPE_LINES };
    return shape_add_part(out, t->points, t->count, false, f);
}

/* Sides nearer than this touch, ft. */
#define TOUCHES 1e-6

static struct segment side_of(const struct traverse *t, size_t sides, size_t i)
{
    /* Of a closed one the last point is the first again. */
    return (struct segment){ t->points[i], t->points[i + 1 < sides ? i + 1 : 0] };
}

/* One side and the next lie on each other where the second turns straight back. */
static bool turns_back(struct segment a, struct segment b)
{
    double ax = a.b.x - a.a.x, ay = a.b.y - a.a.y;
    double bx = b.b.x - b.a.x, by = b.b.y - b.a.y;
    double shorter = fmin(segment_length(a), segment_length(b));
    return ax * bx + ay * by < 0 &&
           fabs(ax * by - ay * bx) <= TOUCHES * fmax(hypot(ax, ay), hypot(bx, by)) &&
           shorter > TOUCHES;
}

bool traverse_crossing(const struct traverse *t, enum traverse_end end, size_t *first,
                       size_t *second)
{
    size_t sides = end == TRAVERSE_CLOSED ? t->count - 1 : t->count;
    if (!is_ring(end) || sides < 3)
        return false;
    for (size_t j = 1; j < sides; j++) {
        struct segment b = side_of(t, sides, j);
        for (size_t i = 0; i < j; i++) {
            struct segment a = side_of(t, sides, i);
            bool next = i + 1 == j, wraps = i == 0 && j == sides - 1;
            bool touch = next    ? turns_back(a, b)
                         : wraps ? turns_back(b, a)
                                 : segment_gap(a, b, NULL) <= TOUCHES;
            if (touch) {
                *first = i;
                *second = j;
                return true;
            }
        }
    }
    return false;
}
