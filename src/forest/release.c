#include "forest/release.h"

#include <stdlib.h>

#include "base/fault.h"

static const double FT2_IN_ACRE = 43560;
/* Thinner than this part of a crop tree: under its crown. Common practice, no source. */
static const double UNDER = 0.5;

double release_crown_width(const struct release *r, const struct species *species,
                           double diameter_in)
{
    double start = species->traits[SPECIES_CROWN_START];
    double slope = species->traits[SPECIES_CROWN_SLOPE];
    /* A line is known as a whole or not at all. */
    if (isnan(start) || isnan(slope))
        return r->crown_start + r->crown_slope * diameter_in;
    return start + slope * diameter_in;
}

struct wood {
    const struct stock *rest, *crop, *aside;
    const struct inventory *inv;
    const struct release *r;
    double *radius, *gone; /* by cell: crown radius in ft, share felled; one block */
};

static double circle(double radius)
{
    return acos(-1.0) * radius * radius;
}

static double standing(const struct wood *w, size_t i)
{
    return stock_cell_trees(w->rest, i) + stock_cell_trees(w->aside, i);
}

/* Crowns as they have room: shrunk alike until they cover the ground once. */
static void set_radii(struct wood *w, const struct species_table *species)
{
    double covered = 0;
    for (size_t i = 0; i < w->inv->cell_count; i++) {
        const struct inventory_cell *cell = &w->inv->cells[i];
        double width = release_crown_width(w->r, species_at(species, cell->species),
                                           cell->diameter_in);
        w->radius[i] = fmax(width / 2, 0);
        covered += standing(w, i) * circle(w->radius[i]);
    }
    if (covered <= FT2_IN_ACRE)
        return;
    for (size_t i = 0; i < w->inv->cell_count; i++)
        w->radius[i] *= sqrt(FT2_IN_ACRE / covered);
}

/* The part of an acre in which a stem of cell i is near enough to a crop tree of cell k. */
static double near_part(const struct wood *w, size_t i, size_t k)
{
    if (w->inv->cells[i].diameter_in < UNDER * w->inv->cells[k].diameter_in)
        return 0;
    return circle(w->radius[i] + w->radius[k] + w->r->gap_ft) / FT2_IN_ACRE;
}

/* Of evenly spaced trees in the circle around a crop tree of cell k one is itself. */
static double but_itself(const struct wood *w, size_t k)
{
    double trees = 0;
    for (size_t i = 0; i < w->inv->cell_count; i++)
        trees += standing(w, i) * near_part(w, i, k);
    return trees > 1 ? 1 - 1 / trees : 0;
}

/* Adds up, for each cell that may be felled, what the crop trees of cell k ask of it:
 * `gone` holds circles in acres for each acre, `even` the same of evenly spaced trees. */
static void add_crop(struct wood *w, size_t k, double *even)
{
    double crop = stock_cell_trees(w->crop, k);
    if (crop <= 0)
        return;
    double sides = w->r->sides / 4, others = but_itself(w, k);
    for (size_t i = 0; i < w->inv->cell_count; i++) {
        const struct inventory_cell *cell = &w->inv->cells[i];
        if (!thin_has(w->r->rule, cell->species, cell->diameter_in))
            continue;
        double ground = crop * near_part(w, i, k) * sides;
        w->gone[i] += ground;
        even[i] += ground * others;
    }
}

struct stock *release_take(struct stock *rest, const struct stock *crop,
                           const struct stock *aside, const struct release *r,
                           const struct species_table *species, struct fault *f)
{
    struct wood w = { .rest = rest, .crop = crop, .aside = aside, .r = r };
    w.inv = stock_inventory(rest);
    size_t cells = w.inv->cell_count;
    w.radius = calloc(3 * cells + 1, sizeof *w.radius);
    struct stock *taken = w.radius ? stock_none(rest, f) : NULL;
    if (!taken) {
        free(w.radius);
        (void)fault_no_memory(f);
        return NULL;
    }
    w.gone = w.radius + cells;
    double *even = w.gone + cells;
    set_radii(&w, species);
    for (size_t k = 0; k < cells; k++)
        add_crop(&w, k, even);
    for (size_t i = 0; i < cells; i++) {
        double random = 1 - exp(-w.gone[i]), spaced = fmin(even[i], 1);
        stock_move_share(rest, taken, i, random + r->evenness * (spaced - random));
    }
    free(w.radius);
    return taken;
}
