#include "forest/wood.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "forest/figure.h"
#include "forest/species.h"
#include "forest/stem.h"
#include "forest/tree_volume.h"
#include "forest/volume.h"

/* Where no layer says it; common practice, no source. */
#define INSIDE_BARK_USUAL 0.93
/* Beers' cords rise with the height up to here. */
#define BEERS_MOST_FT 84.0

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

/* Lengths of stem that go as sawlogs, and as wood of any kind. */
struct cuts {
    double logs, saw_ft, all_ft;
};

static struct cuts cuts_of(const struct stem *s, const struct wood_ask *ask,
                           const struct wood_form *form)
{
    struct cuts c = { 0 };
    if (s->diameter_in < ask->pulp_from_in)
        return c;
    if (s->diameter_in >= form->from_in)
        c.logs = stem_logs(s, form->top_in);
    c.saw_ft = c.logs * STEM_LOG_FT;
    double top = fmax(ask->pulp_top_in, ask->pulp_top_part * s->diameter_in);
    double rest = fmax(0, stem_height_to(s, top) - c.saw_ft);
    c.all_ft = c.saw_ft + ask->bolt_ft * floor(rest / ask->bolt_ft + 1e-9);
    return c;
}

static double beers(double diameter_in, double height_ft)
{
    return volume_beers_cords(diameter_in, fmin(height_ft, BEERS_MOST_FT));
}

/* The part of a tree's cords that goes as the product. */
static double part_of(const struct stem *s, const struct cuts *c,
                      enum wood_product product)
{
    double all = beers(s->diameter_in, c->all_ft);
    double saw = all > 0 ? beers(s->diameter_in, c->saw_ft) / all : 0;
    switch (product) {
    case WOOD_SAWLOGS: return saw;
    case WOOD_PULPWOOD: return 1 - saw;
    default: return 1;
    }
}

static double tree_cords(const struct stem *s, const struct cuts *c,
                         const struct wood_ask *ask)
{
    if (s->diameter_in < ask->pulp_from_in)
        return 0;
    double all = ask->heights_told ? beers(s->diameter_in, c->all_ft)
                                   : volume_cords_by_diameter(s->diameter_in);
    return all * part_of(s, c, ask->product);
}

static double tree_board_feet(const struct stem *s, const struct cuts *c,
                              const struct wood_ask *ask, const struct wood_form *form)
{
    if (c->logs <= 0)
        return 0;
    return tree_girard_has(ask->rule)
               ? tree_girard(ask->rule, s->diameter_in, c->logs, ask->form_class)
               : tree_bucked(ask->rule, s, form->top_in);
}

/* What one tree has of it. */
static double tree_wood(const struct species *kind, const struct stem *s,
                        const struct wood_ask *ask, const struct wood_form *form)
{
    struct cuts c = cuts_of(s, ask, form);
    if (ask->as == WOOD_BOARD_FEET)
        return ask->product == WOOD_PULPWOOD ? 0 : tree_board_feet(s, &c, ask, form);
    double cords = tree_cords(s, &c, ask);
    switch (ask->as) {
    case WOOD_TONS:
        return cords * (kind->tons_per_cord > 0 ? kind->tons_per_cord
                                                : VOLUME_TONS_PER_CORD_USUAL);
    case WOOD_CUBIC_FEET:
        /* Beers: 76 ft3 a cord without bark, 92 with it. */
        return cords * (ask->heights_told ? 76 : ask->solid_ft3) *
               (ask->bark ? 92.0 / 76 : 1);
    default: return cords;
    }
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
        double bark = kind->traits[SPECIES_INSIDE_BARK];
        struct stem stem = { cell->diameter_in,
                             stem_height(cell->diameter_in, stout, ask->tree_length_ft),
                             isnan(bark) ? INSIDE_BARK_USUAL : bark };
        each[i] = tree_wood(kind, &stem, ask,
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

static const char *source_of(const struct wood_ask *ask)
{
    static const char *const boards[LOG_RULES] = {
        [LOG_INTERNATIONAL] = "International 1/4-inch rule, " TREE_GIRARD_SOURCE,
        [LOG_SCRIBNER] = "Scribner rule, " TREE_GIRARD_SOURCE,
        [LOG_DOYLE] = "Doyle rule, " TREE_GIRARD_SOURCE,
        [LOG_SCRIBNER_C] = "Scribner Decimal C table, stems cut into 16-ft logs",
        [LOG_INTERNATIONAL_EIGHTH] =
            "International 1/8-inch rule, stems cut into 16-ft logs",
    };
    if (ask->as == WOOD_BOARD_FEET)
        return boards[ask->rule];
    return ask->heights_told
               ? "Beers 1964, Purdue Res. Bull. 787, by diameter and height"
               : "cords by diameter: university extension table";
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

struct qty wood_figure(struct graph *g, const struct stock *s,
                       const struct stock_pick *pick, const struct species_table *t,
                       const struct wood_ask *ask, struct qty length, const char *what,
                       struct fault *f)
{
    double *each = calloc(stock_inventory(s)->cell_count + 1, sizeof *each);
    struct estimate e;
    struct qty q = QTY_NONE;
    double power = 0;
    if (!each) {
        (void)fault_no_memory(f);
        return q;
    }
    bool doubted = qty_is(length) && graph_is_uncertain(g, length);
    if ((!doubted || power_of_length(s, pick, t, ask, each, &power, f)) &&
        wood_each(s, t, ask, each, f) && estimate_weighted(s, pick, each, &e, f))
        q = figure_leaf(g, s, &e, unit_of(ask->as), what, source_of(ask), f);
    free(each);
    if (!qty_is(q) || fabs(power) < 1e-9)
        return q;
    double with[] = { ask->tree_length_ft, power };
    struct qty moved = with_length(g, q, length, with, unit_of(ask->as), f);
    graph_release(g, q);
    return moved;
}
