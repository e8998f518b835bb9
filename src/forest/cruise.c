#include "forest/cruise.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/num.h"

double cruise_slope_factor(double percent)
{
    return hypot(1, percent / 100);
}

/* What slope and a part of a plot make of an acre's worth. */
static double plot_factor(const struct tally_plot *plot)
{
    double slope = plot->corrected ? 1 : cruise_slope_factor(plot->slope);
    return slope * (plot->parts > 1 ? plot->parts : 1);
}

double cruise_expansion(const struct tally_plot *plot, double diameter_in)
{
    double factor = plot_factor(plot);
    if (plot->kind == PLOT_FIXED)
        return factor / plot->size;
    return factor * plot->size / (INVENTORY_FT2_PER_IN2 * diameter_in * diameter_in);
}

double cruise_tree_expansion(const struct tally_plot *plot, const struct tally_tree *tree)
{
    double each = tree->sapling ? plot_factor(plot) / plot->saplings_ac
                                : cruise_expansion(plot, tree->diameter_in);
    return each * tree->count * (tree->times > 0 ? tree->times : 1);
}

double cruise_stem_expansion(const struct tally_plot *plot)
{
    return plot_factor(plot) / plot->stems_ac;
}

double cruise_radius_factor(double baf)
{
    return 33 * sqrt(10.0) / (12 * sqrt(baf));
}

double cruise_limit_center(double baf, double diameter_in)
{
    return cruise_radius_factor(baf) * diameter_in;
}

double cruise_limit_face(double baf, double diameter_in)
{
    return cruise_limit_center(baf, diameter_in) - diameter_in / 24;
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
    if (a->plot != b->plot)
        return a->plot < b->plot ? -1 : 1;
    /* Of one plot and diameter: the sums must not hang on how a machine sorts. */
    double first = a->count * a->times, second = b->count * b->times;
    if (a->sapling != b->sapling)
        return a->sapling ? 1 : -1;
    return first < second ? -1 : first > second;
}

static void cells_fill(struct inventory *inv, const struct tally *t,
                       const struct tally_tree *trees, size_t tree_count,
                       const struct species_table *species)
{
    for (size_t i = 0; i < tree_count; i++) {
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
        double trees_ac = cruise_tree_expansion(&t->plots[tree->plot], tree);
        cell->trees += trees_ac / (double)t->plot_count;
        inv->entries[inv->entry_count++] =
            (struct inventory_entry){ tree->plot, (uint32_t)(inv->cell_count - 1),
                                      trees_ac };
    }
}

static void acres_words(double acres, struct buf *out)
{
    double parts = 1 / acres;
    bool whole = acres < 1 && fabs(parts - floor(parts + 0.5)) < 1e-6 * parts;
    if (whole)
        buf_puts(out, "1/");
    num_trade(out, whole ? floor(parts + 0.5) : acres);
    buf_puts(out, " ac");
}

static void method_words(const struct tally_plot *p, struct buf *out)
{
    if (p->kind == PLOT_FIXED) {
        acres_words(p->size, out);
        return;
    }
    buf_puts(out, "BAF ");
    num_trade(out, p->size);
}

/* ", saplings on 1/100 ac, corrected for slope" */
static void further_words(const struct tally *t, struct buf *out)
{
    bool sloping = false;
    size_t with = t->plot_count;
    for (size_t i = t->plot_count; i-- > 0;) {
        const struct tally_plot *p = &t->plots[i];
        sloping = sloping || (p->slope > 0 && !p->corrected);
        if (p->saplings_ac > 0)
            with = i;
    }
    if (with < t->plot_count) {
        buf_puts(out, ", saplings on ");
        acres_words(t->plots[with].saplings_ac, out);
    }
    if (sloping)
        buf_puts(out, ", corrected for slope");
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
    further_words(t, &out);
    return buf_take(&out);
}

/* --- what is counted beside the living trees --- */

static void marked_fill(struct inventory *inv, const struct tally *t)
{
    for (size_t i = 0; i < t->tree_count; i++) {
        const struct tally_tree *tree = &t->trees[i];
        struct inventory_marked one = { tree->plot, tree->species, tree->diameter_in,
                                        cruise_tree_expansion(&t->plots[tree->plot],
                                                              tree) };
        if (tree->state == TREE_SNAG)
            inv->snags[inv->snag_count++] = one;
        else if (tree->state == TREE_DEN)
            inv->dens[inv->den_count++] = one;
    }
    for (size_t i = 0; i < t->stem_count; i++) {
        const struct tally_stems *s = &t->stems[i];
        double each = cruise_stem_expansion(&t->plots[s->plot]);
        inv->stems[inv->stem_count++] =
            (struct inventory_stems){ s->plot,     s->species, s->from_ft,
                                      s->below_ft, s->count,   s->count * each };
    }
    for (size_t i = 0; i < t->plot_count; i++) {
        inv->stems_taken[i] = t->plots[i].stems_ac > 0;
        inv->snags_told = inv->snags_told || t->plots[i].snags_told;
        inv->dens_told = inv->dens_told || t->plots[i].dens_told;
    }
}

static size_t count_state(const struct tally *t, enum tree_state state)
{
    size_t count = 0;
    for (size_t i = 0; i < t->tree_count; i++)
        count += t->trees[i].state == state;
    return count;
}

static bool arrays_new(struct inventory *inv, const struct tally *t)
{
    inv->cells = calloc(t->tree_count + 1, sizeof *inv->cells);
    inv->entries = calloc(t->tree_count + 1, sizeof *inv->entries);
    inv->snags = calloc(count_state(t, TREE_SNAG) + 1, sizeof *inv->snags);
    inv->dens = calloc(count_state(t, TREE_DEN) + 1, sizeof *inv->dens);
    inv->stems = calloc(t->stem_count + 1, sizeof *inv->stems);
    inv->stems_taken = calloc(t->plot_count + 1, sizeof *inv->stems_taken);
    return inv->cells && inv->entries && inv->snags && inv->dens && inv->stems &&
           inv->stems_taken;
}

struct inventory *cruise_inventory(const struct tally *t,
                                   const struct species_table *species, const char *stand,
                                   struct span at, struct fault *f)
{
    struct inventory *inv = calloc(1, sizeof *inv);
    struct tally_tree *trees = calloc(t->tree_count + 1, sizeof *trees);
    size_t living = 0;
    if (!inv || !trees)
        goto failed;
    inv->basis = INVENTORY_TALLY;
    inv->at = at;
    inv->plots = t->plot_count;
    inv->stand = strdup(stand);
    inv->words = words(t, stand);
    if (!inv->stand || !inv->words || !arrays_new(inv, t))
        goto failed;
    for (size_t i = 0; i < t->tree_count; i++)
        if (t->trees[i].state != TREE_SNAG)
            trees[living++] = t->trees[i];
    qsort(trees, living, sizeof *trees, tree_order);
    cells_fill(inv, t, trees, living, species);
    marked_fill(inv, t);
    if (!inventory_find_stout(inv, f))
        goto failed;
    free(trees);
    return inv;
failed:
    free(trees);
    inventory_free(inv);
    (void)fault_no_memory(f);
    return NULL;
}
