#include "forest/volume.h"

#include <stdlib.h>

#include "base/buf.h"
#include "base/fault.h"
#include "forest/figure.h"
#include "forest/species.h"

double volume_cords_by_diameter(double diameter_in)
{
    static const double table[] = { 0.03, 0.08, 0.15, 0.23, 0.33, 0.45, 0.58, 0.73 };
    if (diameter_in < VOLUME_LEAST_IN)
        return 0;
    double inch = floor(diameter_in + 0.5);
    if (inch > 20)
        return 0.73 * diameter_in * diameter_in / (19.5 * 19.5);
    return table[((int)inch - 5) / 2];
}

static double beers_a(double d)
{
    return d * d * (d + 190) / 100000;
}
static double beers_b(double h)
{
    return (h * (168 - h) / 64 + 32 / h) / 100;
}

double volume_beers_cords(double diameter_in, double height_ft)
{
    return height_ft > 0 ? beers_a(diameter_in) * beers_b(height_ft) : 0;
}

double volume_beers_cubic_feet(double diameter_in, double height_ft, bool with_bark)
{
    return (with_bark ? 92 : 76) * volume_beers_cords(diameter_in, height_ft);
}

double volume_beers_board_feet(double diameter_in, double height_ft)
{
    double c = 475 + 3 * height_ft * height_ft / 128;
    return c * volume_beers_cords(diameter_in, height_ft);
}

static double tree_cords(double diameter_in, double height_ft)
{
    if (diameter_in < VOLUME_LEAST_IN)
        return 0;
    return height_ft > 0 ? volume_beers_cords(diameter_in, height_ft)
                         : volume_cords_by_diameter(diameter_in);
}

/* The picked trees that a logger would take away as wood. */
static struct stock_pick wood(const struct stock_pick *pick,
                              const struct species_table *t)
{
    struct stock_pick p = *pick;
    p.from_in = fmax(p.from_in, VOLUME_LEAST_IN);
    for (size_t i = 0; i < species_count(t); i++)
        if (species_at(t, i)->flags & SPECIES_SHRUB)
            species_set_put(&p.species, i, false);
    return p;
}

/* Likely cords and tons per acre. */
struct load {
    double cords, tons;
    const struct species *most; /* of which there are the most cords */
};

static struct load load_of(const struct stock *s, const struct stock_pick *pick,
                           const struct species_table *t, double height_ft)
{
    const struct inventory *inv = stock_inventory(s);
    struct load all = { 0 };
    double cords = 0, most = 0;
    size_t last = SPECIES_MOST; /* cells lie by species */
    for (size_t i = 0; i < inv->cell_count; i++) {
        const struct inventory_cell *cell = &inv->cells[i];
        const struct species *kind = species_at(t, cell->species);
        if (!kind || !stock_pick_has(pick, cell->species, cell->diameter_in))
            continue;
        if (cell->species != last)
            cords = 0;
        last = cell->species;
        double one = stock_cell_trees(s, i) * tree_cords(cell->diameter_in, height_ft);
        cords += one;
        all.cords += one;
        all.tons += one * (kind->tons_per_cord > 0 ? kind->tons_per_cord
                                                   : VOLUME_TONS_PER_CORD_USUAL);
        if (cords <= most)
            continue;
        most = cords;
        all.most = kind;
    }
    return all;
}

double volume_cords_of(const struct stock *s, const struct stock_pick *pick,
                       const struct species_table *t, double height_ft)
{
    struct stock_pick p = wood(pick, t);
    return load_of(s, &p, t, height_ft).cords;
}

/* a times so much of `unit`, said in `say`; QTY_NONE with the fault set. */
static struct qty times(struct graph *g, struct qty a, double value, const char *unit,
                        size_t unit_length, const char *say, size_t say_length,
                        struct origin from, struct fault *f)
{
    struct unit_id in, out;
    if (!units_find(graph_units(g), unit, unit_length, &in, f) ||
        !units_find(graph_units(g), say, say_length, &out, f))
        return QTY_NONE;
    struct qty by = graph_leaf(g, value, in, from, f);
    struct qty product = graph_multiply(g, a, by, f);
    struct qty said = graph_say_in(g, product, out, f);
    if (qty_is(by))
        graph_release(g, by);
    if (qty_is(product))
        graph_release(g, product);
    return said;
}

bool volume_cords_estimate(const struct stock *s, const struct stock_pick *pick,
                           const struct species_table *t, double height_ft,
                           struct estimate *out, struct fault *f)
{
    const struct inventory *inv = stock_inventory(s);
    struct stock_pick p = wood(pick, t);
    double *each = calloc(inv->cell_count + 1, sizeof *each);
    if (!each)
        return fault_no_memory(f);
    for (size_t i = 0; i < inv->cell_count; i++)
        each[i] = tree_cords(inv->cells[i].diameter_in, height_ft);
    bool good = estimate_weighted(s, &p, each, out, f);
    free(each);
    return good;
}

struct qty volume_cords(struct graph *g, const struct stock *s,
                        const struct stock_pick *pick, const struct species_table *t,
                        double height_ft, const char *what, struct fault *f)
{
    struct estimate e;
    if (!volume_cords_estimate(s, pick, t, height_ft, &e, f))
        return QTY_NONE;
    return figure_leaf(g, s, &e, "cord/ac", what,
                       height_ft > 0
                           ? "Beers 1964, Purdue Res. Bull. 787, by diameter and height"
                           : "cords by diameter: university extension table",
                       f);
}

struct qty volume_tons(struct graph *g, struct qty cords, const struct stock *s,
                       const struct stock_pick *pick, const struct species_table *t,
                       double height_ft, struct fault *f)
{
    struct stock_pick p = wood(pick, t);
    struct load load = load_of(s, &p, t, height_ft);
    double each = load.cords > 0 ? load.tons / load.cords : VOLUME_TONS_PER_CORD_USUAL;
    struct buf words;
    buf_init(&words);
    buf_puts(&words, "green weight of a cord of that mix");
    if (load.most) {
        buf_printf(&words, ", mostly %s: ", load.most->name);
        buf_puts(&words, load.most->tons_per_cord > 0 ? load.most->tons_source
                                                      : "common practice, no source");
    }
    struct qty q = QTY_NONE;
    if (words.failed)
        (void)fault_no_memory(f);
    else
        q = times(g, cords, each, "ton/cord", 8, "ton/ac", 6,
                  (struct origin){ SPAN_NONE, words.data }, f);
    buf_clear(&words);
    return q;
}
