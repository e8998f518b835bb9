/* lattice.h: the ground as square cells, for whatever is worked out cell by cell.
 *
 *     struct lattice at = lattice_over(shape_box(&stand), 8, 2);
 *     uint8_t *mask = calloc(lattice_count(&at), 1);
 *     lattice_fill(&at, &stand, mask, 1, f);      // cells whose centre is in the stand
 *     long cell = lattice_cell(&at, p);                // -1 outside
 *
 * Rows go north, cells of a row east. Feet. */
#ifndef SPINNEY_GROUND_LATTICE_H
#define SPINNEY_GROUND_LATTICE_H

#include <math.h>
#include <stdint.h>

#include "ground/shape.h"

struct lattice {
    double west, south, cell;
    long columns, rows;
};

/* Cells of at least that size over the box, with `margin` more cells around. */
struct lattice lattice_over(struct shape_box box, double cell, long margin);
/* Sets the cells whose centre lies in the areas. O(corners x rows they pass + cells). */
bool lattice_fill(const struct lattice *at, const struct shape *areas, uint8_t *mask,
                  uint8_t value, struct fault *f);

static inline size_t lattice_count(const struct lattice *at)
{
    return (size_t)at->columns * (size_t)at->rows;
}

static inline struct point lattice_center(const struct lattice *at, long i)
{
    return (struct point){ at->west + ((double)(i % at->columns) + 0.5) * at->cell,
                           at->south + ((double)(i / at->columns) + 0.5) * at->cell };
}

/* The cell that holds the point, or of the border the one nearest to it. */
static inline long lattice_nearest(const struct lattice *at, struct point p)
{
    double x = (p.x - at->west) / at->cell, y = (p.y - at->south) / at->cell;
    long column = x < 0 ? 0 : x >= (double)at->columns ? at->columns - 1 : (long)x;
    long row = y < 0 ? 0 : y >= (double)at->rows ? at->rows - 1 : (long)y;
    return row * at->columns + column;
}

static inline long lattice_cell(const struct lattice *at, struct point p)
{
    double x = (p.x - at->west) / at->cell, y = (p.y - at->south) / at->cell;
    if (!(x >= 0 && y >= 0 && x < (double)at->columns && y < (double)at->rows))
        return -1;
    return (long)y * at->columns + (long)x;
}

static inline double point_apart(struct point a, struct point b)
{
    return sqrt((a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y));
}

#endif
