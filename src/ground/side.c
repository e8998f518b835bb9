/* One side of a line. All is turned so that the side asked for is north, and back. */
#include "ground/side.h"

#include <math.h>
#include <stdlib.h>

#include "base/fault.h"
#include "ground/segment.h"
#include "ground/side_inner.h"

/* A line comes back to its start when its ends are nearer than this and it is four times
 * as long. */
#define MEETS_FT 20.0
/* A line that goes this little forward for its length in the box has no way. */
#define LEAST_WAY 0.02

static const char *const along_words[] = { "north and south", "east and west" };
static const char *const side_words[] = { "north", "east", "south", "west" };

void sided_free(struct sided *s)
{
    shape_free(&s->area);
    shape_free(&s->carried);
    s->loops = 0;
}

static struct point turned(struct point p, enum side side, bool back)
{
    switch (side) {
    case SIDE_EAST: return back ? (struct point){ p.y, -p.x } : (struct point){ -p.y, p.x };
    case SIDE_SOUTH: return (struct point){ -p.x, -p.y };
    case SIDE_WEST: return back ? (struct point){ -p.y, p.x } : (struct point){ p.y, -p.x };
    case SIDE_NORTH: break;
    }
    return p;
}

/* A shape with its points turned; it is the caller's to free. */
static bool turned_shape(const struct shape *s, enum side side, struct shape *out,
                         struct fault *f)
{
    if (!shape_copy(s, out, f))
        return false;
    for (size_t i = 0; i < out->point_count; i++)
        out->points[i] = turned(out->points[i], side, false);
    return true;
}

/* ---- the row that parts the ground, from west to east ---- */

/* The northern rim of an area's ring, from its westernmost to its easternmost point. */
static bool north_rim(const struct point *p, size_t count, struct row *out)
{
    size_t west = 0, east = 0;
    double twice = 0;
    for (size_t i = 0; i < count; i++) {
        struct point next = p[i + 1 < count ? i + 1 : 0];
        twice += (p[i].x - p[0].x) * (next.y - p[0].y) -
                 (next.x - p[0].x) * (p[i].y - p[0].y);
        if (p[i].x < p[west].x || (p[i].x == p[west].x && p[i].y > p[west].y))
            west = i;
        if (p[i].x > p[east].x || (p[i].x == p[east].x && p[i].y > p[east].y))
            east = i;
    }
    /* Counterclockwise the rim runs from east over north to west. */
    size_t step = twice > 0 ? count - 1 : 1;
    for (size_t i = west;; i = (i + step) % count) {
        if (!row_add(out, p[i]))
            return false;
        if (i == east)
            return true;
    }
}

/* A point so far back from the row's end, along the row. */
static struct point back_along(const struct row *row, bool from_start, double ft)
{
    size_t n = row->count, i = 0;
    struct point at = row->list[from_start ? 0 : n - 1];
    for (i = 1; i < n; i++) {
        struct point next = row->list[from_start ? i : n - 1 - i];
        double step = point_gap(at, next);
        if (step >= ft)
            return segment_at((struct segment){ at, next }, ft / step);
        ft -= step;
        at = next;
    }
    return at;
}

static bool box_has(const struct shape_box *b, struct point p)
{
    return p.x >= b->west && p.x <= b->east && p.y >= b->south && p.y <= b->north;
}

/* The way in which an end of a line is carried on. */
static struct point way_on(const struct row *row, bool start, const struct shape_box *box)
{
    struct point end = row->list[start ? 0 : row->count - 1];
    struct point from = { (box->west + box->east) / 2, (box->south + box->north) / 2 };
    if (box_has(box, end))
        from = back_along(row, start, SIDE_END_FT);
    struct point way = { end.x - from.x, end.y - from.y };
    if (way.x == 0 && way.y == 0)
        way.x = start ? -1 : 1;
    return way;
}

static bool has_a_side(const struct side_ask *ask, struct crossing c, struct fault *f)
{
    if (fabs(c.east) >= SIDE_SLANT * fabs(c.north) && fabs(c.east) > LEAST_WAY * c.length)
        return true;
    const char *name = ask->name ? ask->name : "the line";
    bool turns = hypot(c.east, c.north) <= LEAST_WAY * c.length;
    bool across = ask->side == SIDE_EAST || ask->side == SIDE_WEST;
    if (turns)
        fault_set(f, "side-along", SPAN_NONE,
                  "%s comes back to where it started, and has no %s side here", name,
                  side_words[ask->side]);
    else
        fault_set(f, "side-along", SPAN_NONE, "%s runs %s here, and has no %s side", name,
                  along_words[across], side_words[ask->side]);
    if (turns)
        fault_hint(f, "draw the part: part = { map = ... }");
    else
        fault_hint(f, across ? "north_of or south_of it" : "east_of or west_of it");
    return false;
}

/* ---- from a row to the ground on its left ---- */

/* Where a way leaves the frame. */
static struct point leaves(struct point p, struct point way, const struct shape_box *b)
{
    double x = way.x > 0 ? (b->east - p.x) / way.x
             : way.x < 0 ? (b->west - p.x) / way.x : HUGE_VAL;
    double y = way.y > 0 ? (b->north - p.y) / way.y
             : way.y < 0 ? (b->south - p.y) / way.y : HUGE_VAL;
    double t = fmin(x, y);
    struct point out = { p.x + t * way.x, p.y + t * way.y };
    if (x <= y)
        out.x = way.x > 0 ? b->east : b->west; /* exactly on the frame */
    else
        out.y = way.y > 0 ? b->north : b->south;
    return out;
}

/* How far along the frame, counterclockwise from its southwestern corner: 0 to 4. */
static double along_frame(struct point p, const struct shape_box *b)
{
    double x = (p.x - b->west) / (b->east - b->west);
    double y = (p.y - b->south) / (b->north - b->south);
    if (p.y <= b->south)
        return x;
    if (p.x >= b->east)
        return 1 + y;
    return p.y >= b->north ? 3 - x : 4 - y;
}

/* Closes the row along the frame, counterclockwise: its left side. */
static bool close_left(struct row *row, const struct shape_box *b)
{
    struct point corners[] = { { b->west, b->south },
                               { b->east, b->south },
                               { b->east, b->north },
                               { b->west, b->north } };
    double from = along_frame(row->list[row->count - 1], b);
    double to = along_frame(row->list[0], b);
    if (to <= from)
        to += 4;
    for (int i = (int)floor(from) + 1; i < to; i++)
        if (!row_add(row, corners[i % 4]))
            return false;
    return true;
}

static void widen(struct shape_box *box, const struct row *row)
{
    for (size_t i = 0; i < row->count; i++) {
        box->west = fmin(box->west, row->list[i].x);
        box->east = fmax(box->east, row->list[i].x);
        box->south = fmin(box->south, row->list[i].y);
        box->north = fmax(box->north, row->list[i].y);
    }
    double by = 1000 + hypot(box->east - box->west, box->north - box->south);
    box->west -= by;
    box->south -= by;
    box->east += by;
    box->north += by;
}

static bool add_turned(struct shape *s, struct point *list, size_t count, enum side side,
                       struct fault *f)
{
    for (size_t i = 0; i < count; i++)
        list[i] = turned(list[i], side, true);
    return shape_add_part(s, list, count, false, f);
}

/* The ways in which the row's two ends are carried on to the frame. */
struct ends {
    struct point start, end;
    bool told; /* a line's own ends */
};

/* The whole of it, of the row (turned) that parts the ground; it is taken. */
static bool make_side(struct row *row, struct ends ways, struct shape_box box,
                      const struct side_ask *ask, struct sided *out, struct fault *f)
{
    struct row path = { NULL, 0, 0 };
    widen(&box, row);
    struct point first = row->list[0], last = row->list[row->count - 1];
    struct point west = leaves(first, ways.start, &box), east = leaves(last, ways.end, &box);
    bool ok = row_add(&path, west);
    for (size_t i = 0; ok && i < row->count; i++)
        ok = row_add(&path, row->list[i]);
    ok = ok && row_add(&path, east) && row_without_loops(&path, &out->loops) &&
         close_left(&path, &box);
    row_free(row);
    if (!ok)
        fault_no_memory(f);
    ok = ok && add_turned(&out->area, path.list, path.count, ask->side, f);
    row_free(&path);
    struct point carried[2][2] = { { first, west }, { last, east } };
    for (int i = 0; ok && ways.told && i < 2; i++)
        ok = add_turned(&out->carried, carried[i], 2, ask->side, f);
    return ok;
}

/* A line that comes back to its start, as the ring it is. */
static bool is_ring(const struct row *row)
{
    double length = 0;
    for (size_t i = 1; i < row->count; i++)
        length += point_gap(row->list[i - 1], row->list[i]);
    double gap = point_gap(row->list[0], row->list[row->count - 1]);
    return row->count > 3 && gap <= MEETS_FT && 4 * gap <= length;
}

/* Of a ring in `row`, its northern rim in place of it. */
static bool take_rim(struct row *row, struct fault *f)
{
    struct row rim = { NULL, 0, 0 };
    bool ok = north_rim(row->list, row->count, &rim);
    row_free(row);
    *row = rim;
    return ok || fault_no_memory(f);
}

static bool line_side(const struct side_ask *ask, const struct shape *of,
                      struct shape_box box, struct row *row, struct ends *ways,
                      struct fault *f)
{
    if (!row_join(of, &box, ask->name, row, f))
        return false;
    if (is_ring(row)) {
        double loops;
        return (row_without_loops(row, &loops) || fault_no_memory(f)) && take_rim(row, f);
    }
    struct crossing c = row_crossing(row->list, row->count, &box);
    if (!(c.length > 0)) {
        struct shape_box all = shape_box(of);
        c = row_crossing(row->list, row->count, &all);
    }
    if (!has_a_side(ask, c, f))
        return false;
    if (c.east < 0)
        row_turn_round(row);
    *ways = (struct ends){ way_on(row, true, &box), way_on(row, false, &box), true };
    return true;
}

static bool one_part(const struct side_ask *ask, const struct shape *of, struct row *row,
                     struct fault *f)
{
    size_t rings = 0, ring = 0;
    for (size_t i = 0; i < of->part_count; i++) {
        if (!of->parts[i].hole) {
            rings++;
            ring = i;
        }
    }
    const struct shape_part *p = &of->parts[ring];
    if (rings != 1 || (of->kind == SHAPE_POINTS && p->count != 1))
        return fault_set(f, "side-many", SPAN_NONE, "%s is several, and has no one side",
                         ask->name ? ask->name : "it");
    bool ok = of->kind == SHAPE_POINTS ? row_add(row, of->points[p->first])
                                       : north_rim(of->points + p->first, p->count, row);
    return ok || fault_no_memory(f);
}

bool side_of(const struct side_ask *ask, struct sided *out, struct fault *f)
{
    *out = (struct sided){ { .kind = SHAPE_AREAS }, { .kind = SHAPE_LINES }, 0 };
    if (shape_is_empty(ask->of) || shape_is_empty(ask->ground))
        return fault_set(f, "side-empty", SPAN_NONE, "%s has no place",
                         ask->name ? ask->name : "it");
    struct shape of = { .kind = ask->of->kind }, ground = { .kind = SHAPE_AREAS };
    struct row row = { NULL, 0, 0 };
    struct ends ways = { { -1, 0 }, { 1, 0 }, false };
    bool ok = turned_shape(ask->of, ask->side, &of, f) &&
              turned_shape(ask->ground, ask->side, &ground, f);
    struct shape_box box = ok ? shape_box(&ground) : (struct shape_box){ 0, 0, 0, 0 };
    if (ok)
        ok = of.kind == SHAPE_LINES ? line_side(ask, &of, box, &row, &ways, f)
                                    : one_part(ask, &of, &row, f);
    if (ok)
        ok = make_side(&row, ways, box, ask, out, f);
    row_free(&row);
    shape_free(&of);
    shape_free(&ground);
    if (!ok)
        sided_free(out);
    return ok;
}
