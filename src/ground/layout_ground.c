#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "ground/layout_inner.h"

enum { CELLS = 9000, CELLS_MOST = 6000000 };

void layout_survey_free(struct layout_ground *g)
{
    free(g->cover);
    free(g->reached);
    free(g->free);
    field_clear(&g->room);
    field_clear(&g->gates);
    free(g->gate_of);
    free(g->exit_of);
    free(g->number_of);
    *g = (struct layout_ground){ 0 };
}

static struct lattice cells_of(const struct layout_ask *ask)
{
    double cell = sqrt(shape_area(ask->cover) / CELLS);
    cell = cell < 4 ? 4 : cell > 10 ? 10 : cell;
    struct shape_box box = shape_box(ask->cover);
    double all = (box.east - box.west) * (box.north - box.south);
    cell = fmax(cell, sqrt(all / CELLS_MOST));
    return lattice_over(box, cell, 2);
}

static bool walls_of(struct layout_ground *g, struct fault *f)
{
    const struct layout_ask *ask = g->ask;
    bool good = field_walls(&g->room, ask->cover, 0, f);
    for (size_t i = 0; good && i < ask->keep_out_count; i++)
        good = field_walls(&g->room, ask->keep_outs[i], 0, f);
    for (size_t i = 0; good && i < ask->tree_count; i++)
        good = field_wall(&g->room, ask->trees[i].at, ask->trees[i].at,
                          ask->trees[i].radius, f);
    for (size_t i = 0; good && i < ask->shun_count; i++)
        good = field_walls(&g->room, ask->shuns[i].line, ask->shuns[i].least, f);
    return good;
}

/* Is there ground for a trail so close to the point? */
static bool faces(const struct layout_ground *g, struct point p, double within)
{
    const struct lattice *at = &g->room.at;
    struct point low = { p.x - within, p.y - within },
                 high = { p.x + within, p.y + within };
    long first = lattice_nearest(at, low), last = lattice_nearest(at, high);
    for (long row = first / at->columns; row <= last / at->columns; row++) {
        for (long x = first % at->columns; x <= last % at->columns; x++) {
            long i = row * at->columns + x;
            if (g->free[i] && point_apart(lattice_center(at, i), p) <= within)
                return true;
        }
    }
    return false;
}

static double exit_within(const struct layout_ground *g, size_t exit)
{
    return g->ask->exits[exit].within + g->ask->trail_width / 2 + 1.5 * g->room.at.cell;
}

static bool new_gate(struct layout_ground *g, size_t exit, size_t number, struct fault *f)
{
    size_t count = g->gate_count + 1;
    size_t *exits = realloc(g->exit_of, count * sizeof *exits);
    g->exit_of = exits ? exits : g->exit_of;
    size_t *numbers = realloc(g->number_of, count * sizeof *numbers);
    g->number_of = numbers ? numbers : g->number_of;
    if (!exits || !numbers)
        return fault_no_memory(f);
    exits[g->gate_count] = exit;
    numbers[g->gate_count] = number;
    g->gate_count = count;
    return true;
}

static bool add_stretch(struct layout_ground *g, struct point a, struct point b,
                        struct fault *f)
{
    if (!field_wall(&g->gates, a, b, 0, f))
        return false;
    int *of = realloc(g->gate_of, g->gates.wall_count * sizeof *of);
    if (!of)
        return fault_no_memory(f);
    g->gate_of = of;
    of[g->gates.wall_count - 1] = (int)g->gate_count - 1;
    return true;
}

/* Is the point so far from the exit's other gates up to now? `own`: the gate it would be
 * of, if there is one. */
static bool is_apart(const struct layout_ground *g, size_t exit, struct point p,
                     double apart, int own)
{
    for (size_t i = 0; i < g->gates.wall_count; i++)
        if (g->exit_of[g->gate_of[i]] == exit && g->gate_of[i] != own &&
            wall_distance(&g->gates.walls[i], p) < apart)
            return false;
    return true;
}

/* How long a gate may be, so that there are as many as are useful: with a quarter of the
 * distance between them for each, but no fewer than the ways out need. */
static double longest_gate(const struct layout_ground *g, double length, double apart)
{
    if (apart <= 0)
        return HUGE_VAL;
    double most = floor(length / apart) + 1;
    double count = floor((length + apart) / (1.25 * apart));
    count = fmin(most, fmax(count, (double)g->ask->ways_out));
    return fmax(0, length - (count - 1) * apart) / fmax(count, 1);
}

/* Along one line: what of it faces the cover is a gate; with `apart`, pieces of that. */
static bool gates_along(struct layout_ground *g, size_t exit, const struct trace *line,
                        size_t *number, struct fault *f)
{
    double apart = g->ask->exits[exit].apart, within = exit_within(g, exit), gone = 0;
    double longest = longest_gate(g, trace_length(line), apart);
    bool in = false, faced = false;
    for (size_t i = 0; i < line->count; i++) {
        struct point p = line->points[i], before = line->points[i > 0 ? i - 1 : 0];
        bool facing = faces(g, p, within);
        gone += point_apart(before, p);
        if (in && (!facing || gone > longest ||
                   !is_apart(g, exit, p, apart, (int)g->gate_count - 1)))
            in = apart <= 0; /* one exit stays one, broken or not */
        if (facing && in) {
            if (!add_stretch(g, faced ? before : p, p, f))
                return false;
        } else if (facing && (apart <= 0 || is_apart(g, exit, p, apart, -1))) {
            bool had = apart <= 0 && *number > 0;
            if ((!had && !new_gate(g, exit, (*number)++, f)) || !add_stretch(g, p, p, f))
                return false;
            in = true;
            gone = 0;
        }
        faced = facing;
    }
    return true;
}

/* The shape's part with points no farther apart than a cell. */
static bool walk_exit(const struct layout_ground *g, const struct shape *s, size_t part,
                      struct trace *line, struct fault *f)
{
    const struct point *p = s->points + s->parts[part].first;
    size_t count = s->parts[part].count;
    bool closed = s->kind == SHAPE_AREAS;
    for (size_t i = 0; i + (closed ? 0 : 1) < count; i++) {
        struct point a = p[i], b = p[(i + 1) % count];
        long steps = (long)ceil(point_apart(a, b) / g->room.at.cell) + 1;
        for (long j = 0; j < steps; j++) {
            double t = (double)j / (double)steps;
            struct point q = { a.x + t * (b.x - a.x), a.y + t * (b.y - a.y) };
            if (!trace_add(line, q, f))
                return false;
        }
    }
    return count == 0 || trace_add(line, p[closed ? 0 : count - 1], f);
}

static bool find_gates(struct layout_ground *g, struct fault *f)
{
    bool good = true;
    for (size_t e = 0; good && e < g->ask->exit_count; e++) {
        const struct shape *s = g->ask->exits[e].line;
        size_t number = 0;
        for (size_t k = 0; good && k < s->part_count; k++) {
            struct trace line = { 0 };
            good = walk_exit(g, s, k, &line, f) && gates_along(g, e, &line, &number, f);
            free(line.points);
        }
    }
    return good && field_make(&g->gates, g->room.at, f);
}

/* The cells of cover that trails are to come near to. */
static bool find_reached(struct layout_ground *g, const struct lattice *at, size_t count,
                         struct fault *f)
{
    const struct shape *only = g->ask->reached;
    if (!only) {
        memcpy(g->reached, g->cover, count);
        return true;
    }
    if (!lattice_fill(at, only, g->reached, 1, f))
        return false;
    for (size_t i = 0; i < count; i++)
        g->reached[i] = g->reached[i] && g->cover[i];
    return true;
}

bool layout_survey(struct layout_ground *g, const struct layout_ask *ask, struct fault *f)
{
    struct lattice at = cells_of(ask);
    size_t count = lattice_count(&at);
    g->ask = ask;
    g->room.twice = true;
    g->clear = fmax(2.5 * ask->trail_width, 12);
    g->cover = calloc(count, 1);
    g->reached = calloc(count, 1);
    g->free = calloc(count, 1);
    bool good = (g->cover && g->reached && g->free) || fault_no_memory(f);
    good = good && lattice_fill(&at, ask->cover, g->cover, 1, f);
    for (size_t i = 0; good && i < ask->keep_out_count; i++)
        good = lattice_fill(&at, ask->keep_outs[i], g->cover, 0, f);
    good = good && find_reached(g, &at, count, f) && walls_of(g, f) &&
           field_make(&g->room, at, f);
    if (good)
        router_free_cells(&g->room, g->cover, ask->trail_width / 2, g->free);
    for (size_t i = 0; good && i < count; i++)
        g->area += g->cover[i] ? at.cell * at.cell : 0;
    return good && find_gates(g, f);
}
