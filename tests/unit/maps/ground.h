/* ground.h: small shapes and maps for the tests of the maps module. */
#ifndef SPINNEY_TESTS_MAPS_GROUND_H
#define SPINNEY_TESTS_MAPS_GROUND_H

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "ground/map.h"
#include "ground/shape.h"
#include "../unit.h"

/* Adds the corners x1, y1, x2, y2, ... of one part. */
static inline void part(struct shape *s, bool hole, const double *xy, size_t count)
{
    struct fault f = { 0 };
    struct point points[64];
    if (count > 64)
        abort();
    for (size_t i = 0; i < count; i++)
        points[i] = (struct point){ xy[2 * i], xy[2 * i + 1] };
    if (!shape_add_part(s, points, count, hole, &f))
        abort();
}

#define PART(s, hole, ...)                                                                \
    part((s), (hole), (const double[]){ __VA_ARGS__ },                                    \
         sizeof((const double[]){ __VA_ARGS__ }) / sizeof(double) / 2)

static inline struct shape area(void)
{
    return (struct shape){ .kind = SHAPE_AREAS };
}

static inline struct shape rectangle(double west, double south, double wide, double high)
{
    struct shape s = area();
    PART(&s, false, west, south, west + wide, south, west + wide, south + high, west,
         south + high);
    return s;
}

static inline struct shape path(double x1, double y1, double x2, double y2)
{
    struct shape s = { .kind = SHAPE_LINES };
    PART(&s, false, x1, y1, x2, y2);
    return s;
}

static inline struct map *read_text(const char *name, const char *text,
                                    struct map_ask ask, struct fault *f)
{
    struct map_file file = { name, text, strlen(text) };
    return map_read(&file, 1, &ask, f);
}

/* Refused with that id and words; says what came instead. */
static inline bool told(const struct fault *f, const char *id, const char *words,
                        const char *hint)
{
    bool ok = f->id && strcmp(f->id, id) == 0 && strstr(f->message, words) &&
              strstr(f->hint, hint);
    if (!ok)
        fprintf(stderr, "fault: %s: %s\n  hint: %s\n", f->id ? f->id : "none", f->message,
                f->hint);
    return ok;
}

#endif
