/* traverse.h: a line run by bearing and length, as compass and pace or a deed give it:
 * its points, how far it misses, the compass adjustment, and the area inside.
 *
 *     struct traverse_call calls[] = { { 42, 130, false }, ... };
 *     struct traverse_ask ask = { .calls = calls, .count = 4, .end = TRAVERSE_CLOSED };
 *     struct traverse t;
 *     if (traverse_run(&ask, &t, f)) ... t.miss_ft, t.one_in, t.area_ft2 / 43560
 *     traverse_free(&t);
 *
 * Lengths are level feet: what was taped or paced along a slope is longer than that
 * (by 2 percent on a slope of 20 percent): level it before.
 *
 * A closed traverse should come back to where it began, a tied one should end at a known
 * point; by how much it does not is the misclosure, and the whole length over it the N of
 * "1 in N". The compass (Bowditch) adjustment gives each call its share of the miss by
 * its length: suited to work whose angles and lengths are about equally good, as with
 * hand compass and pace. Area by coordinates. Formulas from memory of surveying
 * textbooks; checked against the worked example of Ghilani and Wolf, Elementary Surveying
 * (traverse of five courses, chapters 10 and 12; its numbers from memory).
 *
 * Kept for compass and pace: 1 in 50 or better is good enough to lay out a cut, worse
 * than 1 in 10 is a slip and no traverse. Common practice, no source. Never a survey: a
 * line with a neighbor is run by a licensed surveyor.
 *
 * A miss that one slip would explain is told: a call walked the other way round, east
 * taken for west, north for south, or a call said twice. */
#ifndef SPINNEY_GROUND_TRAVERSE_H
#define SPINNEY_GROUND_TRAVERSE_H

#include <stdbool.h>
#include <stddef.h>

#include "ground/shape.h"

struct fault;

enum { TRAVERSE_CALLS_MOST = 1000 };
#define TRAVERSE_LENGTH_MOST_FT 100000.0
#define TRAVERSE_GOOD_ONE_IN    50.0
#define TRAVERSE_WORST_ONE_IN   10.0

struct traverse_call {
    double azimuth;   /* degrees, as it was read */
    double length_ft; /* above 0 */
    bool magnetic;    /* the declination is still to be applied */
};

enum traverse_end {
    TRAVERSE_OPEN,   /* ends where it ends: nothing to check it by */
    TRAVERSE_CLOSED, /* the last call comes back to the start */
    TRAVERSE_BACK,   /* the last side, back to the start, was not measured: no check */
    TRAVERSE_TIED    /* the last call comes to the known point `to` */
};

struct traverse_ask {
    struct point from, to;
    const struct traverse_call *calls;
    size_t count;
    enum traverse_end end;
    double declination; /* degrees, east positive (bearing.h) */
};

enum traverse_slip {
    SLIP_NONE,
    SLIP_BACKWARD, /* walked from its end to its start */
    SLIP_EAST_WEST,
    SLIP_NORTH_SOUTH,
    SLIP_TWICE
};

struct traverse {
    struct point *points;   /* `count`: the start and the end of each call, adjusted */
    struct point *measured; /* the same before that */
    size_t count;           /* calls + 1; the last is the start again when closed */
    double length_ft;       /* of the calls */
    double miss_east, miss_north, miss_ft; /* measured end less where it should be */
    double miss_azimuth;                   /* the way of the miss */
    double one_in;   /* length over miss: HUGE_VAL for none, NAN without a check */
    double area_ft2; /* adjusted; closed and back: else 0 */
    enum traverse_slip slip; /* that would explain most of a miss worse than good */
    size_t slip_call;
};

/* All is freed, and `out` empty, on failure. Fault ids: traverse-empty, traverse-length
 * (with the number of the call), traverse-many, traverse-flat (an area of three points or
 * more is wanted). */
bool traverse_run(const struct traverse_ask *ask, struct traverse *out, struct fault *f);
void traverse_free(struct traverse *t);
/* Whether the sides of a closed or led-back traverse touch where they should not: an area
 * has no such rim. The two calls, the earlier first; the side back to the start counts as
 * one more. Adjusted points; every pair of sides is looked at. */
bool traverse_crossing(const struct traverse *t, enum traverse_end end, size_t *first,
                       size_t *second);
/* The azimuth that was meant: of a call said twice, the same. */
double traverse_mended(double azimuth, enum traverse_slip slip);
/* The ring of a closed or led-back traverse as an area, else its line. */
bool traverse_shape(const struct traverse *t, enum traverse_end end, struct shape *out,
                    struct fault *f);

#endif
