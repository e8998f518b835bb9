#include "ground/lattice.h"

#include <stdlib.h>

#include "base/fault.h"

struct lattice lattice_over(struct shape_box box, double cell, long margin)
{
    struct lattice at = { .cell = cell };
    at.columns = (long)ceil((box.east - box.west) / cell) + 2 * margin;
    at.rows = (long)ceil((box.north - box.south) / cell) + 2 * margin;
    at.columns = at.columns < 1 ? 1 : at.columns;
    at.rows = at.rows < 1 ? 1 : at.rows;
    at.west = box.west - (double)margin * cell;
    at.south = box.south - (double)margin * cell;
    return at;
}

/* Where a ring crosses the middle of a row: turns over the cells east of it. */
static void cross(const struct lattice *at, struct point a, struct point b,
                  uint8_t *turns)
{
    if (a.y > b.y) {
        struct point t = a;
        a = b;
        b = t;
    }
    long low = (long)ceil((a.y - at->south) / at->cell - 0.5);
    low = low < 0 ? 0 : low;
    for (long row = low; row < at->rows; row++) {
        double y = at->south + ((double)row + 0.5) * at->cell;
        if (y >= b.y)
            return;
        if (y < a.y)
            continue;
        double x = a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y);
        double column = ceil((x - at->west) / at->cell - 0.5);
        if (column < (double)at->columns)
            turns[row * at->columns + (long)fmax(column, 0)] ^= 1;
    }
}

bool lattice_fill(const struct lattice *at, const struct shape *areas, uint8_t *mask,
                  uint8_t value, struct fault *f)
{
    uint8_t *turns = calloc(lattice_count(at), 1);
    if (!turns)
        return fault_no_memory(f);
    for (size_t k = 0; k < areas->part_count; k++) {
        const struct point *p = areas->points + areas->parts[k].first;
        size_t count = areas->parts[k].count;
        for (size_t i = 0; i < count; i++)
            cross(at, p[i], p[(i + 1) % count], turns);
    }
    for (long row = 0; row < at->rows; row++) {
        uint8_t in = 0;
        for (long i = row * at->columns; i < (row + 1) * at->columns; i++) {
            in ^= turns[i];
            if (in)
                mask[i] = value;
        }
    }
    free(turns);
    return true;
}
