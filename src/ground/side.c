/* One side of a line. All is turned so that the side asked for is north, or of a line
 * north or south, and back. */
#include "ground/side.h"

#include <math.h>
#include <stdlib.h>

#include "base/fault.h"
#include "ground/segment.h"
#include "ground/side_inner.h"

/* A line that goes this little forward for its length in the box has no way. */
#define LEAST_WAY 0.1

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
    case SIDE_EAST:
        return back ? (struct point){ p.y, -p.x } : (struct point){ -p.y, p.x };
    case SIDE_SOUTH: return (struct point){ -p.x, -p.y };
    case SIDE_WEST:
        return back ? (struct point){ -p.y, p.x } : (struct point){ p.y, -p.x };
    case SIDE_NORTH: break;
    }
    return p;
}

/* ---- the row that parts the ground, from west to east ---- */

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

/* What parts the ground, as it is turned: the row from west to east, the ways in which
 * its two ends are carried on, and whether what is asked for lies to its south. */
struct parting {
    struct row row;
    enum side turn;
    struct point start, end;
    bool is_line, is_south;
};

static bool make_side(const struct parting *p, struct shape_box box, struct sided *out,
                      struct fault *f)
{
    struct row path = { NULL, 0, 0 };
    const struct row *row = &p->row;
    widen(&box, row);
    struct point first = row->list[0], last = row->list[row->count - 1];
    struct point west = leaves(first, p->start, &box), east = leaves(last, p->end, &box);
    bool ok = row_add(&path, west);
    for (size_t i = 0; ok && i < row->count; i++)
        ok = row_add(&path, row->list[i]);
    ok = ok && row_add(&path, east) && row_without_loops(&path, &out->loops);
    if (ok && p->is_south)
        row_turn_round(&path);
    if (!ok || !close_left(&path, &box))
        ok = fault_no_memory(f);
    ok = ok && add_turned(&out->area, path.list, path.count, p->turn, f);
    row_free(&path);
    struct point carried[2][2] = { { first, west }, { last, east } };
    for (int i = 0; ok && p->is_line && i < 2; i++)
        ok = add_turned(&out->carried, carried[i], 2, p->turn, f);
    return ok;
}

/* The one point, or the ring of the one area. */
static bool only_part(const struct side_ask *ask, struct row *row, struct fault *f)
{
    const struct shape *of = ask->of;
    size_t rings = 0, ring = 0;
    for (size_t i = 0; i < of->part_count; i++) {
        if (!of->parts[i].hole) {
            rings++;
            ring = i;
        }
    }
    if (rings != 1 || (of->kind == SHAPE_POINTS && of->parts[ring].count != 1))
        return fault_set(f, "side-many", SPAN_NONE, "%s is several, and has no one side",
                         ask->name ? ask->name : "it");
    for (size_t i = 0; i < of->parts[ring].count; i++)
        if (!row_add(row, of->points[of->parts[ring].first + i]))
            return fault_no_memory(f);
    return true;
}

static struct shape_box box_of(const struct shape *ground, enum side turn)
{
    struct shape_box b = shape_box(ground);
    struct point p = turned((struct point){ b.west, b.south }, turn, false);
    struct point q = turned((struct point){ b.east, b.north }, turn, false);
    return (struct shape_box){ fmin(p.x, q.x), fmin(p.y, q.y), fmax(p.x, q.x),
                               fmax(p.y, q.y) };
}

/* Which way a line runs over the box; over all of it when it never comes there. */
static struct crossing way_over(const struct row *row, const struct shape_box *box)
{
    struct crossing c = row_crossing(row->list, row->count, box);
    if (c.length > 0)
        return c;
    struct point first = row->list[0], last = row->list[row->count - 1];
    c = (struct crossing){ last.x - first.x, last.y - first.y, 0 };
    for (size_t i = 1; i < row->count; i++)
        c.length += point_gap(row->list[i - 1], row->list[i]);
    return c;
}

static bool set_line(const struct side_ask *ask, struct parting *p, struct fault *f)
{
    struct shape_box box = box_of(ask->ground, p->turn);
    struct crossing c = way_over(&p->row, &box);
    if (!has_a_side(ask, c, f))
        return false;
    if (c.east < 0)
        row_turn_round(&p->row);
    p->start = way_on(&p->row, true, &box);
    p->end = way_on(&p->row, false, &box);
    return true;
}

/* Fills the row, unturned, and tells how all must be turned for it. Both sides of a line
 * are those of one way along it, so that they meet where loops are cut out. */
static bool set_row(const struct side_ask *ask, struct parting *p, struct fault *f)
{
    struct shape_box box = shape_box(ask->ground);
    if (ask->of->kind != SHAPE_LINES)
        return only_part(ask, &p->row, f);
    if (!row_join(ask->of, &box, ask->name, &p->row, f))
        return false;
    if (row_is_ring(&p->row))
        return true;
    p->is_line = true;
    p->is_south = ask->side == SIDE_SOUTH || ask->side == SIDE_WEST;
    if (p->is_south)
        p->turn = ask->side == SIDE_SOUTH ? SIDE_NORTH : SIDE_EAST;
    return true;
}

bool side_of(const struct side_ask *ask, struct sided *out, struct fault *f)
{
    *out = (struct sided){ { .kind = SHAPE_AREAS }, { .kind = SHAPE_LINES }, 0 };
    if (shape_is_empty(ask->of) || shape_is_empty(ask->ground))
        return fault_set(f, "side-empty", SPAN_NONE, "%s has no place",
                         ask->name ? ask->name : "it");
    struct parting p = { .turn = ask->side, .start = { -1, 0 }, .end = { 1, 0 } };
    bool ok = set_row(ask, &p, f);
    for (size_t i = 0; ok && i < p.row.count; i++)
        p.row.list[i] = turned(p.row.list[i], p.turn, false);
    if (ok)
        ok = p.is_line ? set_line(ask, &p, f)
                       : row_take_rim(&p.row) || fault_no_memory(f);
    ok = ok && make_side(&p, box_of(ask->ground, p.turn), out, f);
    row_free(&p.row);
    if (!ok)
        sided_free(out);
    return ok;
}
