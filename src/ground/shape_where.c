/* Where a point lies to a shape (shape.h). Each look goes over all its points. */
#include <math.h>

#include "ground/shape.h"

/* What is this near to the rim lies on it: coordinates of a property, some 30,000 ft, are
 * exact to a hundred-millionth of a foot. */
#define ON_RIM_FT 1e-7

enum { LEVELS = 16, MOVES_MOST = 100 };
#define LEAST_STEP (1.0 / 4096) /* of the box */

static struct point nearest_on(struct point a, struct point b, struct point p)
{
    double dx = b.x - a.x, dy = b.y - a.y, square = dx * dx + dy * dy;
    if (!(square > 0))
        return a;
    double along = (p.x - a.x) * dx + (p.y - a.y) * dy;
    if (along <= 0)
        return a;
    if (along >= square)
        return b;
    double share = along / square;
    return (struct point){ a.x + share * dx, a.y + share * dy };
}

/* To all points, lines and rims, in or out. */
static double rim_distance(const struct shape *s, struct point p, struct point *nearest)
{
    double least = HUGE_VAL;
    for (size_t i = 0; i < s->part_count; i++) {
        const struct shape_part *part = &s->parts[i];
        const struct point *q = s->points + part->first;
        for (size_t k = 0; k < part->count; k++) {
            bool ends = k + 1 == part->count;
            struct point to = q[k];
            if (s->kind != SHAPE_POINTS && (!ends || s->kind == SHAPE_AREAS))
                to = nearest_on(q[k], q[ends ? 0 : k + 1], p);
            double dx = to.x - p.x, dy = to.y - p.y, square = dx * dx + dy * dy;
            if (square < least) {
                least = square;
                if (nearest)
                    *nearest = to;
            }
        }
    }
    return sqrt(least);
}

static bool on_stretch(struct point a, struct point b, struct point p)
{
    if (p.x < fmin(a.x, b.x) - ON_RIM_FT || p.x > fmax(a.x, b.x) + ON_RIM_FT ||
        p.y < fmin(a.y, b.y) - ON_RIM_FT || p.y > fmax(a.y, b.y) + ON_RIM_FT)
        return false;
    struct point to = nearest_on(a, b, p);
    return hypot(to.x - p.x, to.y - p.y) <= ON_RIM_FT;
}

/* Where the stretch meets the level, counting its lower end but not its upper; NAN. */
static double meets_level(struct point a, struct point b, double level)
{
    if ((a.y > level) == (b.y > level))
        return NAN;
    return a.x + (level - a.y) / (b.y - a.y) * (b.x - a.x);
}

bool shape_has(const struct shape *s, struct point p)
{
    bool in = false;
    for (size_t i = 0; s->kind == SHAPE_AREAS && i < s->part_count; i++) {
        const struct point *q = s->points + s->parts[i].first;
        size_t count = s->parts[i].count;
        for (size_t k = 0, before = count - 1; k < count; before = k++) {
            if (on_stretch(q[before], q[k], p))
                return true;
            if (meets_level(q[before], q[k], p.y) > p.x)
                in = !in;
        }
    }
    return in;
}

double shape_distance(const struct shape *s, struct point p, struct point *nearest)
{
    if (shape_has(s, p)) {
        if (nearest)
            *nearest = p;
        return 0;
    }
    return rim_distance(s, p, nearest);
}

double shape_rim_distance(const struct shape *s, struct point p, struct point *nearest)
{
    return rim_distance(s, p, nearest);
}

/* The next place east of `from` where a rim meets the level, and how many meet there. */
static double next_meeting(const struct shape *s, double level, double from, size_t *many)
{
    double next = HUGE_VAL;
    *many = 0;
    for (size_t i = 0; i < s->part_count; i++) {
        const struct point *q = s->points + s->parts[i].first;
        size_t count = s->parts[i].count;
        for (size_t k = 0, before = count - 1; k < count; before = k++) {
            double x = meets_level(q[before], q[k], level);
            if (!(x > from) || x > next)
                continue;
            *many = x < next ? 1 : *many + 1;
            next = x;
        }
    }
    return next;
}

/* The middle of the widest stretch of a level that lies in the area. */
static bool middle_of_level(const struct shape *s, double level, struct point *out)
{
    double widest = 0, from = -HUGE_VAL;
    bool in = false;
    for (;;) {
        size_t many;
        double next = next_meeting(s, level, from, &many);
        if (many == 0)
            break;
        if (in && next - from > widest) {
            widest = next - from;
            *out = (struct point){ from + widest / 2, level };
        }
        in = in != (many % 2 == 1);
        from = next;
    }
    return widest > 0;
}

struct inmost {
    struct point at;
    double room; /* ft to the rim; below 0: none was found */
};

static void look_at(const struct shape *s, struct point p, struct inmost *best)
{
    if (!shape_has(s, p))
        return;
    double room = rim_distance(s, p, NULL);
    if (room > best->room)
        *best = (struct inmost){ p, room };
}

static struct shape_box box_of_largest(const struct shape *s)
{
    struct shape_box largest = { 0, 0, 0, 0 };
    double most = -1;
    for (size_t i = 0; i < s->part_count; i++) {
        const struct shape_part *part = &s->parts[i];
        struct shape_part whole = { 0, part->count, false };
        struct shape ring = { .kind = SHAPE_AREAS,
                              .points = s->points + part->first,
                              .parts = &whole,
                              .point_count = part->count,
                              .part_count = 1 };
        double area = part->hole ? -1 : shape_area(&ring);
        if (area > most) {
            most = area;
            largest = shape_box(&ring);
        }
    }
    return largest;
}

/* From the best of the middles of some levels, in ever smaller steps to where the rim is
 * farther off. */
struct point shape_inside(const struct shape *s)
{
    struct point center = shape_center(s);
    if (s->kind != SHAPE_AREAS || shape_is_empty(s))
        return center;
    struct inmost best = { center, -1 };
    look_at(s, center, &best);
    struct shape_box box = box_of_largest(s);
    double height = box.north - box.south, wide = fmax(height, box.east - box.west);
    for (int i = 0; i < LEVELS; i++) {
        struct point middle = center;
        if (middle_of_level(s, box.south + height * (i + 0.5) / LEVELS, &middle))
            look_at(s, middle, &best);
    }
    double step = wide / 8;
    for (int moves = 0; moves < MOVES_MOST && step > wide * LEAST_STEP; moves++) {
        struct inmost from = best;
        for (int way = 0; way < 9; way++)
            look_at(s,
                    (struct point){ from.at.x + (way % 3 - 1) * step,
                                    from.at.y + (way / 3 - 1) * step },
                    &best);
        if (!(best.room > from.room))
            step /= 2;
    }
    return best.at;
}
