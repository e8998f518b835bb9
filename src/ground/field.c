#include "ground/field.h"

#include <stdlib.h>

#include "base/fault.h"
#include "base/grow.h"

void field_clear(struct field *a)
{
    free(a->walls);
    free(a->nearest);
    free(a->room);
    free(a->second);
    free(a->behind);
    *a = (struct field){ 0 };
}

bool field_wall(struct field *a, struct point from, struct point to, double off,
                struct fault *f)
{
    struct wall *walls = grow(a->walls, &a->wall_space, a->wall_count, sizeof *walls);
    if (!walls)
        return fault_no_memory(f);
    a->walls = walls;
    double dx = to.x - from.x, dy = to.y - from.y, square = dx * dx + dy * dy;
    walls[a->wall_count++] = (struct wall){ from, to, off, square > 0 ? 1 / square : 0 };
    return true;
}

bool field_walls(struct field *a, const struct shape *s, double off, struct fault *f)
{
    for (size_t k = 0; k < s->part_count; k++) {
        const struct point *p = s->points + s->parts[k].first;
        size_t count = s->parts[k].count;
        size_t stretches = s->kind == SHAPE_AREAS || count < 2 ? count : count - 1;
        for (size_t i = 0; i < stretches; i++) {
            struct point next = s->kind == SHAPE_POINTS ? p[i] : p[(i + 1) % count];
            if (!field_wall(a, p[i], next, off, f))
                return false;
        }
    }
    return true;
}

static inline void offer(struct field *a, long cell, struct point center, int32_t wall)
{
    if (wall < 0 || wall == a->nearest[cell] || (a->second && wall == a->second[cell]))
        return;
    float d = (float)wall_distance(&a->walls[wall], center);
    if (a->nearest[cell] < 0 || d < a->room[cell]) {
        if (a->second) {
            a->second[cell] = a->nearest[cell];
            a->behind[cell] = a->room[cell];
        }
        a->nearest[cell] = wall;
        a->room[cell] = d;
    } else if (a->second && (a->second[cell] < 0 || d < a->behind[cell])) {
        a->second[cell] = wall;
        a->behind[cell] = d;
    }
}

/* What one cell knows is offered to another. */
static inline void pass_on(struct field *a, long from, long to, struct point center)
{
    offer(a, to, center, a->nearest[from]);
    if (a->second)
        offer(a, to, center, a->second[from]);
}

/* The cells that a wall passes, and their neighbours. */
static void seed(struct field *a, int32_t wall)
{
    const struct wall *w = &a->walls[wall];
    double length = point_apart(w->a, w->b);
    long steps = (long)ceil(2 * length / a->at.cell);
    long last = -1;
    for (long i = 0; i <= steps; i++) {
        double t = steps > 0 ? (double)i / (double)steps : 0;
        struct point p = { w->a.x + t * (w->b.x - w->a.x),
                           w->a.y + t * (w->b.y - w->a.y) };
        long cell = lattice_nearest(&a->at, p);
        if (cell == last)
            continue;
        last = cell;
        long column = cell % a->at.columns, row = cell / a->at.columns;
        for (long y = row - 1; y <= row + 1; y++)
            for (long x = column - 1; x <= column + 1; x++)
                if (x >= 0 && y >= 0 && x < a->at.columns && y < a->at.rows)
                    offer(a, y * a->at.columns + x,
                          lattice_center(&a->at, y * a->at.columns + x), wall);
    }
}

/* A cell while it is offered walls: what it has, and what it refused last. */
struct taker {
    struct point center;
    int32_t nearest, refused;
    float room;
};

/* offer() without a second wall. */
static inline void take(const struct wall *walls, struct taker *t, int32_t wall)
{
    if (wall < 0 || wall == t->nearest || wall == t->refused)
        return;
    float d = (float)wall_distance(&walls[wall], t->center);
    if (t->nearest < 0 || d < t->room) {
        t->nearest = wall;
        t->room = d;
    } else {
        t->refused = wall;
    }
}

/* sweep_row() without second walls, where most of the time goes. */
static void sweep_row_once(struct field *a, long row, long back)
{
    long columns = a->at.columns, first = row * columns;
    bool has = row + back >= 0 && row + back < a->at.rows;
    int32_t *own = a->nearest + first;
    const int32_t *before = has ? own + back * columns : own;
    float *room = a->room + first;
    struct taker t = { .center = lattice_center(&a->at, first), .nearest = -1 };
    double west = t.center.x;
    for (long x = 0; x < columns; x++) {
        int32_t left = t.nearest;
        t.center.x = west + (double)x * a->at.cell;
        t.nearest = own[x];
        t.room = room[x];
        t.refused = -1;
        if (has) {
            take(a->walls, &t, x > 0 ? before[x - 1] : -1);
            take(a->walls, &t, before[x]);
            take(a->walls, &t, x + 1 < columns ? before[x + 1] : -1);
        }
        take(a->walls, &t, left);
        own[x] = t.nearest;
        room[x] = t.room;
    }
    for (long x = columns - 1; x-- > 0;) {
        int32_t right = t.nearest;
        t.center.x = west + (double)x * a->at.cell;
        t.nearest = own[x];
        t.room = room[x];
        t.refused = -1;
        take(a->walls, &t, right);
        own[x] = t.nearest;
        room[x] = t.room;
    }
}

/* One row takes from the row before it (`back` cells away), then along itself. */
static void sweep_row(struct field *a, long row, long back)
{
    if (!a->second) {
        sweep_row_once(a, row, back);
        return;
    }
    long columns = a->at.columns, first = row * columns, before = first + back * columns;
    bool has = row + back >= 0 && row + back < a->at.rows;
    struct point c = lattice_center(&a->at, first);
    double west = c.x;
    for (long x = 0; x < columns; x++) {
        c.x = west + (double)x * a->at.cell;
        for (long d = -1; has && d <= 1; d++)
            if (x + d >= 0 && x + d < columns)
                pass_on(a, before + x + d, first + x, c);
        if (x > 0)
            pass_on(a, first + x - 1, first + x, c);
    }
    for (long x = columns - 1; x-- > 0;) {
        c.x = west + (double)x * a->at.cell;
        pass_on(a, first + x + 1, first + x, c);
    }
}

bool field_make(struct field *a, struct lattice at, struct fault *f)
{
    size_t count = lattice_count(&at);
    free(a->nearest);
    free(a->room);
    free(a->second);
    free(a->behind);
    a->second = a->twice ? malloc(count * sizeof *a->second) : NULL;
    a->behind = a->twice ? malloc(count * sizeof *a->behind) : NULL;
    a->at = at;
    a->nearest = malloc(count * sizeof *a->nearest);
    a->room = malloc(count * sizeof *a->room);
    if (!a->nearest || !a->room || (a->twice && (!a->second || !a->behind)))
        return fault_no_memory(f);
    for (size_t i = 0; i < count; i++) {
        a->nearest[i] = -1;
        a->room[i] = (float)HUGE_VAL;
        if (a->second)
            a->second[i] = -1;
    }
    for (size_t i = 0; i < a->wall_count; i++)
        seed(a, (int32_t)i);
    for (long row = 0; row < at.rows; row++)
        sweep_row(a, row, -1);
    for (long row = at.rows; row-- > 0;)
        sweep_row(a, row, 1);
    return true;
}

long field_wall_at(const struct field *a, struct point p)
{
    long cell = lattice_nearest(&a->at, p), found = -1;
    long column = cell % a->at.columns, row = cell / a->at.columns;
    double least = HUGE_VAL;
    int32_t last = -1;
    for (long y = row - 1; y <= row + 1; y++) {
        for (long x = column - 1; x <= column + 1; x++) {
            if (x < 0 || y < 0 || x >= a->at.columns || y >= a->at.rows)
                continue;
            int32_t wall = a->nearest[y * a->at.columns + x];
            if (wall < 0 || wall == last)
                continue;
            last = wall;
            double d = wall_distance(&a->walls[wall], p);
            if (d < least) {
                least = d;
                found = wall;
            }
        }
    }
    return found;
}

double field_room(const struct field *a, struct point p)
{
    long wall = field_wall_at(a, p);
    return wall < 0 ? HUGE_VAL : wall_distance(&a->walls[wall], p);
}

double field_sure(const struct field *a, struct point p)
{
    double least = HUGE_VAL;
    for (size_t i = 0; i < a->wall_count; i++) {
        double d = wall_distance(&a->walls[i], p);
        least = d < least ? d : least;
    }
    return least;
}
