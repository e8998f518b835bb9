/* What a shape is made of, and its sizes; where a point lies is in shape_where.c. */
#include "ground/shape.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"

void shape_free(struct shape *s)
{
    free(s->points);
    free(s->parts);
    *s = (struct shape){ .kind = s->kind };
}

static bool make_room(void **array, size_t *room, size_t wanted, size_t size)
{
    if (wanted <= *room)
        return true;
    size_t more = wanted > SIZE_MAX / 4 / size ? 0 : wanted + wanted / 2 + 8;
    void *moved = more ? realloc(*array, more * size) : NULL;
    if (!moved)
        return false;
    *array = moved;
    *room = more;
    return true;
}

bool shape_add_part(struct shape *s, const struct point *points, size_t count, bool hole,
                    struct fault *f)
{
    if (s->kind == SHAPE_AREAS && count > 1 && points[0].x == points[count - 1].x &&
        points[0].y == points[count - 1].y)
        count--;
    if (count == 0)
        return true;
    void *all = s->points, *parts = s->parts;
    bool room = count <= SIZE_MAX - s->point_count &&
                make_room(&all, &s->point_room, s->point_count + count, sizeof *points);
    s->points = all;
    room = room && make_room(&parts, &s->part_room, s->part_count + 1, sizeof *s->parts);
    s->parts = parts;
    if (!room)
        return fault_no_memory(f);
    memcpy(s->points + s->point_count, points, count * sizeof *points);
    s->parts[s->part_count++] =
        (struct shape_part){ s->point_count, count, hole && s->kind == SHAPE_AREAS };
    s->point_count += count;
    return true;
}

bool shape_copy(const struct shape *s, struct shape *out, struct fault *f)
{
    *out = (struct shape){ .kind = s->kind };
    for (size_t i = 0; i < s->part_count; i++) {
        const struct shape_part *p = &s->parts[i];
        if (!shape_add_part(out, s->points + p->first, p->count, p->hole, f)) {
            shape_free(out);
            return false;
        }
    }
    return true;
}

bool shape_is_empty(const struct shape *s)
{
    return s->point_count == 0;
}

/* Twice a ring's area, positive counterclockwise, and its moments about its first point:
 * far from the origin the products would lose what the differences keep. */
struct ring_sums {
    double twice_area, x, y;
};

static struct ring_sums ring_sums(const struct point *p, size_t count)
{
    struct ring_sums sums = { 0, 0, 0 };
    for (size_t i = 1; i + 1 < count; i++) {
        double ax = p[i].x - p[0].x, ay = p[i].y - p[0].y;
        double bx = p[i + 1].x - p[0].x, by = p[i + 1].y - p[0].y;
        double cross = ax * by - bx * ay;
        sums.twice_area += cross;
        sums.x += cross * (ax + bx);
        sums.y += cross * (ay + by);
    }
    return sums;
}

double shape_area(const struct shape *s)
{
    double area = 0;
    for (size_t i = 0; s->kind == SHAPE_AREAS && i < s->part_count; i++) {
        const struct shape_part *p = &s->parts[i];
        double ring = fabs(ring_sums(s->points + p->first, p->count).twice_area) / 2;
        area += p->hole ? -ring : ring;
    }
    return area;
}

/* How many stretches a part has: a ring's last goes back to its start. */
static size_t stretches(const struct shape *s, const struct shape_part *p)
{
    if (s->kind == SHAPE_POINTS || p->count < 2)
        return 0;
    return s->kind == SHAPE_AREAS ? p->count : p->count - 1;
}

static double stretch_length(const struct point *p, size_t count, size_t i)
{
    const struct point *a = &p[i], *b = &p[(i + 1) % count];
    return hypot(b->x - a->x, b->y - a->y);
}

double shape_length(const struct shape *s)
{
    double length = 0;
    for (size_t i = 0; i < s->part_count; i++) {
        const struct shape_part *p = &s->parts[i];
        for (size_t k = 0; k < stretches(s, p); k++)
            length += stretch_length(s->points + p->first, p->count, k);
    }
    return length;
}

struct shape_box shape_box(const struct shape *s)
{
    if (shape_is_empty(s))
        return (struct shape_box){ 0, 0, 0, 0 };
    struct shape_box box = { HUGE_VAL, HUGE_VAL, -HUGE_VAL, -HUGE_VAL };
    for (size_t i = 0; i < s->point_count; i++) {
        box.west = fmin(box.west, s->points[i].x);
        box.south = fmin(box.south, s->points[i].y);
        box.east = fmax(box.east, s->points[i].x);
        box.north = fmax(box.north, s->points[i].y);
    }
    return box;
}

static struct point mean_of_points(const struct shape *s)
{
    struct point sum = { 0, 0 };
    for (size_t i = 0; i < s->point_count; i++) {
        sum.x += s->points[i].x;
        sum.y += s->points[i].y;
    }
    double count = s->point_count ? (double)s->point_count : 1;
    return (struct point){ sum.x / count, sum.y / count };
}

static struct point center_of_lines(const struct shape *s)
{
    struct point sum = { 0, 0 };
    double total = 0;
    for (size_t i = 0; i < s->part_count; i++) {
        const struct shape_part *part = &s->parts[i];
        const struct point *p = s->points + part->first;
        for (size_t k = 0; k < stretches(s, part); k++) {
            const struct point *next = &p[(k + 1) % part->count];
            double length = stretch_length(p, part->count, k);
            sum.x += length * (p[k].x + next->x) / 2;
            sum.y += length * (p[k].y + next->y) / 2;
            total += length;
        }
    }
    return total > 0 ? (struct point){ sum.x / total, sum.y / total } : mean_of_points(s);
}

static struct point center_of_areas(const struct shape *s)
{
    struct point base = s->points[0], sum = { 0, 0 };
    double total = 0;
    for (size_t i = 0; i < s->part_count; i++) {
        const struct shape_part *part = &s->parts[i];
        const struct point *p = s->points + part->first;
        struct ring_sums ring = ring_sums(p, part->count);
        double sign = (ring.twice_area < 0) == part->hole ? 1 : -1;
        double twice = sign * ring.twice_area;
        sum.x += sign * ring.x / 3 + twice * (p->x - base.x);
        sum.y += sign * ring.y / 3 + twice * (p->y - base.y);
        total += twice;
    }
    if (!(total > 0))
        return center_of_lines(s);
    return (struct point){ base.x + sum.x / total, base.y + sum.y / total };
}

struct point shape_center(const struct shape *s)
{
    if (shape_is_empty(s))
        return (struct point){ 0, 0 };
    switch (s->kind) {
    case SHAPE_AREAS: return center_of_areas(s);
    case SHAPE_LINES: return center_of_lines(s);
    case SHAPE_POINTS: break;
    }
    return mean_of_points(s);
}

struct point shape_at(const struct shape *s, size_t part, double along)
{
    if (part >= s->part_count)
        return (struct point){ 0, 0 };
    const struct shape_part *of = &s->parts[part];
    const struct point *p = s->points + of->first;
    size_t count = stretches(s, of);
    if (count == 0 || !(along > 0))
        return p[0];
    for (size_t k = 0; k < count; k++) {
        double length = stretch_length(p, of->count, k);
        if (along < length) {
            const struct point *next = &p[(k + 1) % of->count];
            double share = along / length;
            return (struct point){ p[k].x + share * (next->x - p[k].x),
                                   p[k].y + share * (next->y - p[k].y) };
        }
        along -= length;
    }
    return p[count % of->count];
}
