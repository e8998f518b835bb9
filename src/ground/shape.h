/* shape.h: a place on the ground: points, lines or areas in the property's own frame, feet
 * east (x) and north (y) of its origin (frame.h).
 *
 *     struct shape stand = { .kind = SHAPE_AREAS };
 *     if (!shape_add_part(&stand, corners, 5, false, f)) ...
 *     shape_area(&stand) / 43560;                     // acres
 *     shape_free(&stand);
 *
 * An area's parts are rings, not closed by a repeated point; a hole belongs to the ring that
 * holds it. Rings of a shape do not cross themselves or one another: clean.h sees to that
 * for whatever comes from outside. Plain arithmetic: what needs more (buffers, overlaps,
 * repair) is in overlay.h and clean.h. */
#ifndef SPINNEY_GROUND_SHAPE_H
#define SPINNEY_GROUND_SHAPE_H

#include <stdbool.h>
#include <stddef.h>

struct fault;

struct point {
    double x, y; /* ft */
};

enum shape_kind { SHAPE_POINTS, SHAPE_LINES, SHAPE_AREAS };

struct shape_part {
    size_t first, count; /* its points */
    bool hole;           /* areas only */
};

/* All zero but for its kind: an empty shape. */
struct shape {
    enum shape_kind kind;
    struct point *points;
    struct shape_part *parts;
    size_t point_count, part_count;
    size_t point_room, part_room;
};

struct shape_box {
    double west, south, east, north;
};

void shape_free(struct shape *s); /* leaves it empty */
/* False when out of memory; then nothing is added. The point that closes a ring may be
 * there and is left out; a part without points is none. */
bool shape_add_part(struct shape *s, const struct point *points, size_t count, bool hole,
                    struct fault *f);
bool shape_copy(const struct shape *s, struct shape *out, struct fault *f);
bool shape_is_empty(const struct shape *s);

double shape_area(const struct shape *s);   /* ft2; 0 for points and lines */
double shape_length(const struct shape *s); /* ft: of lines, and the rim of areas */
struct shape_box shape_box(const struct shape *s);
/* The centre of gravity; of an area it may lie outside (a crescent): see shape_inside. */
struct point shape_center(const struct shape *s);
/* A point well inside an area, as far from its rim as a coarse search finds. */
struct point shape_inside(const struct shape *s);

/* Is the point in the area (its rim counts as in)? Always false of points and lines. */
bool shape_has(const struct shape *s, struct point p);
/* From the point to the nearest of the shape, ft: of an area, to its rim, 0 inside.
 * `nearest` (NULL or) where that is; HUGE_VAL for an empty shape. */
double shape_distance(const struct shape *s, struct point p, struct point *nearest);
/* To the nearest of the lines or of the rim, also from inside. */
double shape_rim_distance(const struct shape *s, struct point p, struct point *nearest);
/* The point `along` ft from the start of a line's part (or a ring); its ends outside.
 * (0, 0) where there is no such part. */
struct point shape_at(const struct shape *s, size_t part, double along);

#endif
