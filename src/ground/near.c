#include "ground/near.h"

#include <math.h>
#include <stdlib.h>

#include "base/fault.h"

enum { CELLS_MOST = 1 << 20 };

struct range {
    long column, row, last_column, last_row;
};

static long cell_of(double x, double start, double size, long count)
{
    double at = floor((x - start) / size);
    return at < 0 ? 0 : at >= (double)count ? count - 1 : (long)at;
}

static struct range range_of(const struct near *n, struct shape_box box)
{
    return (struct range){ cell_of(box.west, n->west, n->size, n->columns),
                           cell_of(box.south, n->south, n->size, n->rows),
                           cell_of(box.east, n->west, n->size, n->columns),
                           cell_of(box.north, n->south, n->size, n->rows) };
}

static struct shape_box box_of(struct segment s)
{
    return (struct shape_box){ fmin(s.a.x, s.b.x), fmin(s.a.y, s.b.y), fmax(s.a.x, s.b.x),
                               fmax(s.a.y, s.b.y) };
}

/* Cells about as wide as a piece is long, and about as many as there are pieces. */
static void choose_cells(struct near *n)
{
    struct shape_box all =
        n->count ? box_of(n->pieces[0]) : (struct shape_box){ 0, 0, 0, 0 };
    double length = 0;
    for (size_t i = 0; i < n->count; i++) {
        struct shape_box b = box_of(n->pieces[i]);
        all = (struct shape_box){ fmin(all.west, b.west), fmin(all.south, b.south),
                                  fmax(all.east, b.east), fmax(all.north, b.north) };
        length += segment_length(n->pieces[i]);
    }
    double wide = all.east - all.west, high = all.north - all.south;
    double count = (double)n->count + 1;
    double size = fmax(sqrt(wide * high / count), length / count);
    size = fmax(size, fmax(wide, high) / count);
    size = fmax(size, fmax(wide, high) / sqrt((double)CELLS_MOST / 2));
    n->size = size > 0 ? size : 1;
    n->west = all.west;
    n->south = all.south;
    n->columns = (long)floor(wide / n->size) + 1;
    n->rows = (long)floor(high / n->size) + 1;
}

/* Counts first, then fills from the back, so that each cell holds them in order. */
static void sort_into_cells(struct near *n, bool fill)
{
    for (size_t i = n->count; i-- > 0;) {
        struct range r = range_of(n, box_of(n->pieces[i]));
        for (long row = r.row; row <= r.last_row; row++)
            for (long column = r.column; column <= r.last_column; column++) {
                size_t *start = &n->starts[row * n->columns + column];
                if (fill)
                    n->held[--*start] = i;
                else
                    ++*start;
            }
    }
}

bool near_build(struct near *n, const struct segment *pieces, size_t count,
                struct fault *f)
{
    *n = (struct near){ .pieces = pieces, .count = count };
    choose_cells(n);
    size_t cells = (size_t)(n->columns * n->rows), total = 0;
    n->starts = calloc(cells + 1, sizeof *n->starts);
    if (!n->starts)
        return fault_no_memory(f);
    sort_into_cells(n, false);
    for (size_t i = 0; i <= cells; i++) {
        total += n->starts[i];
        n->starts[i] = total;
    }
    n->held = malloc((total + 1) * sizeof *n->held);
    if (!n->held) {
        near_free(n);
        return fault_no_memory(f);
    }
    sort_into_cells(n, true);
    return true;
}

void near_free(struct near *n)
{
    free(n->starts);
    free(n->held);
    *n = (struct near){ .pieces = NULL };
}

static void look_in_cell(const struct near *n, long column, long row, struct point p,
                         double *best, size_t *which)
{
    if (column < 0 || row < 0 || column >= n->columns || row >= n->rows)
        return;
    size_t cell = (size_t)(row * n->columns + column);
    for (size_t i = n->starts[cell]; i < n->starts[cell + 1]; i++) {
        size_t piece = n->held[i];
        double d = segment_distance(n->pieces[piece], p, NULL);
        if (d < *best || (d == *best && piece < *which)) {
            *best = d;
            *which = piece;
        }
    }
}

double near_distance(const struct near *n, struct point p, size_t *which)
{
    double best = HUGE_VAL;
    size_t found = 0;
    long column = cell_of(p.x, n->west, n->size, n->columns);
    long row = cell_of(p.y, n->south, n->size, n->rows);
    long rings = n->columns > n->rows ? n->columns : n->rows;
    /* Ring after ring of cells; what lies in ring k is k - 1 cells away at least. */
    for (long k = 0; k <= rings && n->count > 0; k++) {
        if (best < (double)(k - 1) * n->size)
            break;
        for (long x = column - k; x <= column + k; x++) {
            bool side = x == column - k || x == column + k;
            for (long y = row - k; y <= row + k; y += side || k == 0 ? 1 : 2 * k)
                look_in_cell(n, x, y, p, &best, &found);
        }
    }
    if (which)
        *which = found;
    return best;
}

bool near_each(const struct near *n, struct shape_box box,
               bool (*see)(void *closure, size_t piece), void *closure)
{
    if (n->count == 0)
        return true;
    struct range r = range_of(n, box);
    for (long row = r.row; row <= r.last_row; row++)
        for (long column = r.column; column <= r.last_column; column++) {
            size_t cell = (size_t)(row * n->columns + column);
            for (size_t i = n->starts[cell]; i < n->starts[cell + 1]; i++) {
                struct shape_box b = box_of(n->pieces[n->held[i]]);
                struct range own = range_of(n, b);
                /* A piece lies in many cells: only the first that both have counts. */
                bool first = column == (own.column > r.column ? own.column : r.column) &&
                             row == (own.row > r.row ? own.row : r.row);
                if (first && b.west <= box.east && b.east >= box.west &&
                    b.south <= box.north && b.north >= box.south &&
                    !see(closure, n->held[i]))
                    return false;
            }
        }
    return true;
}
