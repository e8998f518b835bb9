/* Importance of a species in a stand (density.h). */
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "forest/density.h"

/* Which species each plot met: of the picked ones into `over`, of all into `under`. Only
 * living cells of which some is left count. */
static bool meetings(const struct stock *s, const struct stock_pick *pick, double *over,
                     double *under, struct fault *f)
{
    const struct inventory *inv = stock_inventory(s);
    bool *met = calloc(inv->plots * SPECIES_MOST + 1, sizeof *met);
    bool *chosen = calloc(inv->plots * SPECIES_MOST + 1, sizeof *chosen);
    if (met && chosen)
        for (size_t i = 0; i < inv->entry_count; i++) {
            const struct inventory_entry *e = &inv->entries[i];
            const struct inventory_cell *cell = &inv->cells[e->cell];
            size_t at = e->plot * (size_t)SPECIES_MOST + cell->species;
            if (e->trees <= 0 || stock_cell_trees(s, e->cell) <= 0)
                continue;
            under[e->plot] += met[at] ? 0 : 1;
            met[at] = true;
            if (!stock_pick_has(pick, cell->species, cell->diameter_in))
                continue;
            over[e->plot] += chosen[at] ? 0 : 1;
            chosen[at] = true;
        }
    bool good = met && chosen;
    free(met);
    free(chosen);
    return good || fault_no_memory(f);
}

static struct qty frequency(struct graph *g, const struct stock *s,
                            const struct stock_pick *pick, const char *what,
                            struct fault *f)
{
    const struct inventory *inv = stock_inventory(s);
    double *over = calloc(2 * inv->plots + 1, sizeof *over);
    double *under = over ? over + inv->plots : NULL;
    struct estimate e;
    if (!over)
        (void)fault_no_memory(f);
    bool good = over && meetings(s, pick, over, under, f) &&
                estimate_plots(inv, over, under, &e, f);
    free(over);
    if (!good)
        return QTY_NONE;
    e.value *= 100;
    e.low *= 100;
    e.high = fmin(e.high, 1) * 100;
    return figure_leaf(g, s, &e, "percent", what, "by the plots it is met on", f);
}

static double mean(const double *x, const double *with)
{
    double sum = 0;
    for (int i = 0; i < (int)with[0]; i++)
        sum += x[i];
    return sum / with[0];
}

struct qty figure_importance(struct graph *g, const struct stock *s,
                             const struct stock_pick *pick, const char *what,
                             struct fault *f)
{
    static const struct formula formula = { "importance", mean };
    static const char *const names[] = { "share of trees", "share of basal area",
                                         "frequency" };
    bool plots = stock_inventory(s)->basis == INVENTORY_TALLY;
    size_t count = plots ? 3 : 2;
    struct unit_id percent;
    struct qty parts[3] = { figure_share(g, s, pick, NULL, STOCK_TREES, what, f),
                            figure_share(g, s, pick, NULL, STOCK_BASAL_AREA, what, f),
                            plots ? frequency(g, s, pick, what, f) : QTY_NONE };
    struct operand operands[3];
    struct qty q = QTY_NONE;
    bool good = units_find(graph_units(g), "percent", 7, &percent, f);
    for (size_t i = 0; good && i < count; i++) {
        operands[i] = (struct operand){ parts[i], percent, names[i] };
        good = qty_is(parts[i]);
    }
    double with = (double)count;
    if (good)
        q = graph_formula(g, &formula, &with, 1, operands, count, percent,
                          (struct origin){ SPAN_NONE, "Curtis and McIntosh 1951, Ecology "
                                                      "32:476-496, from memory" },
                          f);
    for (size_t i = 0; i < 3; i++)
        if (qty_is(parts[i]))
            graph_release(g, parts[i]);
    return q;
}
