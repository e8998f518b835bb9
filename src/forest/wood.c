#include "forest/wood.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "forest/figure.h"
#include "forest/species.h"
#include "forest/stem.h"
#include "forest/tree_volume.h"
#include "forest/volume.h"
#include "forest/wood_tree.h"

struct wood_ask wood_usual(void)
{
    return (struct wood_ask){
        .rule = LOG_INTERNATIONAL,
        .form_class = TREE_FORM_CLASS,
        .pulp_from_in = VOLUME_LEAST_IN,
        .pulp_top_in = 4,
        .pulp_top_part = 0.5,
        .bolt_ft = 100.0 / 12,
        .hardwood = { 11, 9 },
        .softwood = { 9, 7 },
        .solid_ft3 = 79,
    };
}

struct species_set wood_softwoods(const struct species_table *t)
{
    struct species_set set;
    struct fault f = { .id = NULL };
    if (!species_select(t, "conifer", 7, &set, &f))
        set = (struct species_set){ { 0 } };
    for (size_t i = 0; i < species_count(t); i++)
        if (species_at(t, i)->flags & SPECIES_EVERGREEN)
            species_set_put(&set, i, true);
    return set;
}

bool wood_stout(const struct stock *s, double *out, struct fault *f)
{
    (void)f; /* worked out when the inventory was made */
    *out = stock_inventory(s)->stout_in;
    return true;
}

bool wood_each(const struct stock *s, const struct species_table *t,
               const struct wood_ask *ask, double *each, struct fault *f)
{
    const struct inventory *inv = stock_inventory(s);
    struct species_set soft = wood_softwoods(t);
    double stout;
    if (!wood_stout(s, &stout, f))
        return false;
    for (size_t i = 0; i < inv->cell_count; i++) {
        const struct inventory_cell *cell = &inv->cells[i];
        const struct species *kind = species_at(t, cell->species);
        each[i] = 0;
        if (!kind || kind->flags & SPECIES_SHRUB)
            continue;
        struct stem stem =
            wood_stem(kind, cell->diameter_in, stout, ask->tree_length_ft);
        each[i] = wood_tree(kind, &stem, ask,
                            species_set_has(&soft, cell->species) ? &ask->softwood
                                                                  : &ask->hardwood);
    }
    return true;
}

static const char *unit_of(enum wood_as as)
{
    static const char *const units[WOOD_ASKS] = { [WOOD_CORDS] = "cord/ac",
                                                  [WOOD_CUBIC_FEET] = "ft3/ac",
                                                  [WOOD_BOARD_FEET] = "board ft/ac",
                                                  [WOOD_TONS] = "ton/ac" };
    return units[as];
}

/* The equation or table, in words for `why`. */
static void put_source(struct buf *out, const struct wood_ask *ask, bool softwoods)
{
    static const char *const boards[LOG_RULES] = {
        [LOG_INTERNATIONAL] = "International 1/4-inch rule, " TREE_GIRARD_SOURCE,
        [LOG_SCRIBNER] = "Scribner rule, " TREE_GIRARD_SOURCE,
        [LOG_DOYLE] = "Doyle rule, " TREE_GIRARD_SOURCE,
        [LOG_SCRIBNER_C] = "Scribner Decimal C table, stems cut into 16-ft logs",
        [LOG_INTERNATIONAL_EIGHTH] =
            "International 1/8-inch rule, stems cut into 16-ft logs",
    };
    if (ask->as == WOOD_BOARD_FEET) {
        buf_puts(out, boards[ask->rule]);
        return;
    }
    if (!ask->heights_told) {
        buf_puts(out, "cords by diameter: university extension table");
        return;
    }
    buf_puts(out, "Beers 1964, Purdue Res. Bull. 787, by diameter and height");
    if (softwoods)
        buf_puts(out, ", for conifers too");
    if (ask->as != WOOD_CUBIC_FEET)
        buf_printf(out, "; %g ft3 of wood in a cord", ask->solid_ft3);
}

/* Of which species there is the most of it; what is there of softwoods. */
struct mix {
    const struct species *most;
    bool softwoods;
};

static struct mix mix_of(const struct stock *s, const struct stock_pick *pick,
                         const struct species_table *t, const double *each)
{
    const struct inventory *inv = stock_inventory(s);
    struct species_set soft = wood_softwoods(t);
    struct mix mix = { NULL, false };
    double sum = 0, most = 0;
    size_t last = SPECIES_MOST; /* cells lie by species */
    for (size_t i = 0; i < inv->cell_count; i++) {
        const struct inventory_cell *cell = &inv->cells[i];
        if (each[i] <= 0 || !stock_pick_has(pick, cell->species, cell->diameter_in))
            continue;
        if (cell->species != last)
            sum = 0;
        last = cell->species;
        sum += stock_cell_trees(s, i) * each[i];
        if (sum > 0 && species_set_has(&soft, last))
            mix.softwoods = true;
        if (sum <= most)
            continue;
        most = sum;
        mix.most = species_at(t, last);
    }
    return mix;
}

static void put_note(struct buf *out, const struct wood_ask *ask, const struct mix *mix)
{
    put_source(out, ask, mix->softwoods);
    if (ask->as != WOOD_TONS || !mix->most)
        return;
    buf_printf(out, "; %g green tons in a cord of %s, of which there is the most: %s",
               wood_tons_per_cord(mix->most), mix->most->name,
               mix->most->tons_per_cord > 0 ? mix->most->tons_source
                                            : "common practice, no source");
}

bool wood_estimate(const struct stock *s, const struct stock_pick *pick,
                   const struct species_table *t, const struct wood_ask *ask,
                   struct estimate *out, struct fault *f)
{
    double *each = calloc(stock_inventory(s)->cell_count + 1, sizeof *each);
    if (!each)
        return fault_no_memory(f);
    bool good = wood_each(s, t, ask, each, f) && estimate_weighted(s, pick, each, out, f);
    free(each);
    return good;
}

/* An amount that goes with a power of the tree length: x[0], told at the length with[0],
 * with[1] the power. */
static double at_length(const double *x, const double *with)
{
    return x[0] * pow(x[1] / with[0], with[1]);
}
static const struct formula AT_LENGTH = { "wood at that tree length", at_length };

static double total(const struct stock *s, const struct stock_pick *pick,
                    const double *each)
{
    const struct inventory *inv = stock_inventory(s);
    double sum = 0;
    for (size_t i = 0; i < inv->cell_count; i++)
        if (stock_pick_has(pick, inv->cells[i].species, inv->cells[i].diameter_in))
            sum += stock_cell_trees(s, i) * each[i];
    return sum;
}

/* By how much of itself the amount grows for a part more tree length. */
static bool power_of_length(const struct stock *s, const struct stock_pick *pick,
                            const struct species_table *t, const struct wood_ask *ask,
                            double *each, double *power, struct fault *f)
{
    struct wood_ask lower = *ask, higher = *ask;
    lower.tree_length_ft *= 0.9;
    higher.tree_length_ft *= 1.1;
    if (!wood_each(s, t, &lower, each, f))
        return false;
    double low = total(s, pick, each);
    if (!wood_each(s, t, &higher, each, f))
        return false;
    double high = total(s, pick, each);
    *power = low > 0 && high > 0 ? log(high / low) / log(1.1 / 0.9) : 0;
    return true;
}

static struct qty with_length(struct graph *g, struct qty amount, struct qty length,
                              const double with[2], const char *unit, struct fault *f)
{
    struct unit_id ft, in;
    if (!units_find(graph_units(g), "ft", 2, &ft, f) ||
        !units_find(graph_units(g), unit, strlen(unit), &in, f))
        return QTY_NONE;
    struct operand of[] = { { amount, in, "wood" }, { length, ft, "tree length" } };
    struct origin from = { SPAN_NONE,
                           "how the wood goes with the height of the trees, by the same "
                           "equations" };
    return graph_formula(g, &AT_LENGTH, with, 2, of, 2, in, from, f);
}

/* What `each` says of the picked trees, as a leaf. */
static struct qty leaf_of(struct graph *g, const struct stock *s,
                          const struct stock_pick *pick, const struct species_table *t,
                          const struct wood_ask *ask, const double *each,
                          const char *what, struct fault *f)
{
    struct estimate e;
    if (!estimate_weighted(s, pick, each, &e, f))
        return QTY_NONE;
    struct mix mix = mix_of(s, pick, t, each);
    struct buf note;
    buf_init(&note);
    put_note(&note, ask, &mix);
    struct qty q = QTY_NONE;
    if (note.failed) {
        estimate_clear(&e);
        (void)fault_no_memory(f);
    } else {
        q = figure_leaf(g, s, &e, unit_of(ask->as), what, note.data, f);
    }
    buf_clear(&note);
    return q;
}

struct qty wood_figure(struct graph *g, const struct stock *s,
                       const struct stock_pick *pick, const struct species_table *t,
                       const struct wood_ask *ask, struct qty length, const char *what,
                       struct fault *f)
{
    double *each = calloc(stock_inventory(s)->cell_count + 1, sizeof *each);
    struct qty q = QTY_NONE;
    double power = 0;
    if (!each) {
        (void)fault_no_memory(f);
        return q;
    }
    bool doubted = qty_is(length) && graph_is_uncertain(g, length);
    if ((!doubted || power_of_length(s, pick, t, ask, each, &power, f)) &&
        wood_each(s, t, ask, each, f))
        q = leaf_of(g, s, pick, t, ask, each, what, f);
    free(each);
    if (!qty_is(q) || fabs(power) < 1e-9)
        return q;
    double with[] = { ask->tree_length_ft, power };
    struct qty moved = with_length(g, q, length, with, unit_of(ask->as), f);
    graph_release(g, q);
    return moved;
}
