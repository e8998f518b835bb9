#include "forest/cruise.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/num.h"

double cruise_expansion(const struct tally_plot *plot, double diameter_in)
{
    if (plot->kind == PLOT_FIXED)
        return 1 / plot->size;
    return plot->size / (INVENTORY_FT2_PER_IN2 * diameter_in * diameter_in);
}

double cruise_radius_factor(double baf)
{
    return 33 * sqrt(10.0) / (12 * sqrt(baf));
}

double cruise_plot_radius(double acres)
{
    return sqrt(acres * 43560 / acos(-1.0)); /* 43,560 ft2 in an acre: NIST Handbook 44 */
}

/* By species, diameter and plot: no two alike but for trees noted twice, which add up. */
static int tree_order(const void *left, const void *right)
{
    const struct tally_tree *a = left, *b = right;
    if (a->species != b->species)
        return a->species < b->species ? -1 : 1;
    if (a->diameter_in < b->diameter_in)
        return -1;
    if (a->diameter_in > b->diameter_in)
        return 1;
    return a->plot < b->plot ? -1 : a->plot > b->plot;
}

static void cells_fill(struct inventory *inv, const struct tally *t,
                       const struct tally_tree *trees,
                       const struct species_table *species)
{
    for (size_t i = 0; i < t->tree_count; i++) {
        const struct tally_tree *tree = &trees[i];
        struct inventory_cell *cell =
            inv->cell_count > 0 ? &inv->cells[inv->cell_count - 1] : NULL;
        bool same = cell && cell->species == tree->species &&
                    cell->diameter_in >= tree->diameter_in; /* sorted: never above */
        if (!same) {
            cell = &inv->cells[inv->cell_count++];
            *cell = (struct inventory_cell){ .species = tree->species,
                                             .key = inventory_species_key(species,
                                                                          tree->species),
                                             .diameter_in = tree->diameter_in };
        }
        double trees_ac =
            tree->count * cruise_expansion(&t->plots[tree->plot], tree->diameter_in);
        cell->trees += trees_ac / (double)t->plot_count;
        inv->entries[inv->entry_count++] =
            (struct inventory_entry){ tree->plot, (uint32_t)(inv->cell_count - 1),
                                      trees_ac };
    }
}

static void method_words(const struct tally_plot *p, struct buf *out)
{
    if (p->kind == PLOT_POINT) {
        buf_puts(out, "BAF ");
        num_trade(out, p->size);
        return;
    }
    double parts = 1 / p->size;
    bool whole = p->size < 1 && fabs(parts - floor(parts + 0.5)) < 1e-6 * parts;
    if (whole)
        buf_puts(out, "1/");
    num_trade(out, whole ? floor(parts + 0.5) : p->size);
    buf_puts(out, " ac");
}

static bool same_method(const struct tally_plot *a, const struct tally_plot *b)
{
    return a->kind == b->kind && fabs(a->size - b->size) <= 1e-9 * a->size;
}

/* "tally of Bench aspen: 5 plots, BAF 10 and 1/10 ac" */
static char *words(const struct tally *t, const char *stand)
{
    struct buf out;
    buf_init(&out);
    buf_puts(&out, "tally of ");
    buf_puts(&out, stand);
    buf_printf(&out, ": %zu plot%s, ", t->plot_count, t->plot_count == 1 ? "" : "s");
    size_t methods = 0;
    for (size_t i = 0; i < t->plot_count; i++) {
        size_t first = 0;
        while (!same_method(&t->plots[first], &t->plots[i]))
            first++;
        if (first < i)
            continue;
        if (methods > 0)
            buf_puts(&out, " and ");
        if (methods++ == 3) {
            buf_puts(&out, "others");
            break;
        }
        method_words(&t->plots[i], &out);
    }
    return buf_take(&out);
}

struct inventory *cruise_inventory(const struct tally *t,
                                   const struct species_table *species, const char *stand,
                                   struct span at, struct fault *f)
{
    struct inventory *inv = calloc(1, sizeof *inv);
    struct tally_tree *trees = calloc(t->tree_count + 1, sizeof *trees);
    if (!inv || !trees)
        goto failed;
    inv->basis = INVENTORY_TALLY;
    inv->at = at;
    inv->plots = t->plot_count;
    inv->stand = strdup(stand);
    inv->words = words(t, stand);
    inv->cells = calloc(t->tree_count + 1, sizeof *inv->cells);
    inv->entries = calloc(t->tree_count + 1, sizeof *inv->entries);
    if (!inv->stand || !inv->words || !inv->cells || !inv->entries)
        goto failed;
    if (t->tree_count) {
        memcpy(trees, t->trees, t->tree_count * sizeof *trees);
        qsort(trees, t->tree_count, sizeof *trees, tree_order);
        cells_fill(inv, t, trees, species);
    }
    free(trees);
    return inv;
failed:
    free(trees);
    inventory_free(inv);
    (void)fault_no_memory(f);
    return NULL;
}
