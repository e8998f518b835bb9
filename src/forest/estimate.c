#include "forest/estimate.h"

#include <stdlib.h>

#include "base/fault.h"
#include "forest/eye.h"
#include "forest/tally.h"

/* What is asked of the inventory: so much for each tree of a cell, plus what was counted
 * out and is certain. */
struct asked {
    double *each;
    double certain;
    bool ratio;         /* `each` says how a ratio moves; its own total is none */
    double by_diameter; /* how it moves with the diameters judged by eye */
};

static double tree_basal_area(const struct inventory_cell *cell)
{
    return INVENTORY_FT2_PER_IN2 * cell->diameter_in * cell->diameter_in;
}

/* --- from a tally --- */

static struct sample plot_sample(const struct inventory *inv, const struct asked *a)
{
    double totals[TALLY_PLOTS_MOST] = { 0 };
    for (size_t i = 0; i < inv->entry_count; i++) {
        const struct inventory_entry *e = &inv->entries[i];
        totals[e->plot] += e->trees * a->each[e->cell];
    }
    for (size_t p = 0; p < inv->plots; p++)
        totals[p] += a->certain;
    return sample_of(totals, inv->plots, 0);
}

static void from_plots(const struct inventory *inv, const struct asked *a,
                       struct estimate *e)
{
    e->sample = plot_sample(inv, a);
    if (a->ratio)
        e->sample.mean = e->value;
    double doubtful = a->ratio ? e->value : e->sample.mean - a->certain;
    double same = 1e-9 * (fabs(doubtful) + fabs(a->certain));
    bool agree = e->sample.error <= same;
    bool untold = inv->plots == 1 || (agree && !a->ratio);
    double off;
    if (untold && fabs(doubtful) > same) {
        e->told = false;
        off = fabs(doubtful) / sqrt((double)inv->plots) *
              (a->ratio ? ESTIMATE_UNTOLD_RATIO : ESTIMATE_UNTOLD_TOTAL);
    } else {
        off = agree ? 0 : sample_t(0.90, inv->plots - 1) * e->sample.error;
    }
    e->low = e->value - off;
    e->high = e->value + off;
}

/* --- by eye --- */

/* Errors that have nothing to do with one another: of the density, of each share, of the
 * diameters. They add up by squares. */
static void from_eye(const struct inventory *inv, const struct asked *a,
                     struct estimate *e)
{
    const struct inventory_doubt *d = &inv->doubt;
    double parts[EYE_SHARES_MOST] = { 0 }, total = 0, shares = 0;
    for (size_t i = 0; i < inv->cell_count; i++)
        parts[inv->cells[i].share] += a->each[i] * inv->cells[i].trees;
    for (size_t k = 0; k < d->share_count; k++)
        total += parts[k];
    for (size_t k = 0; k < d->share_count; k++) {
        /* One share more, the others less in proportion: the whole stays. */
        double p = d->shares[k].share, others = p < 1 ? (total - parts[k]) / (1 - p) : 0;
        double off = p < 1 ? d->shares[k].off * (parts[k] / p - others) : 0;
        shares += off * off;
    }
    double doubtful = a->ratio ? e->value : total;
    double diameter = a->by_diameter * d->diameter * doubtful;
    double same = shares + diameter * diameter;
    e->low = e->value - sqrt(same + d->below * d->below * total * total);
    e->high = e->value + sqrt(same + d->above * d->above * total * total);
}

static void errors(const struct inventory *inv, const struct asked *a, struct estimate *e)
{
    e->told = true;
    if (inv->basis == INVENTORY_TALLY)
        from_plots(inv, a, e);
    else
        from_eye(inv, a, e);
    e->low = fmax(e->low, 0);
}

static bool each_new(const struct stock *s, struct asked *a, struct fault *f)
{
    a->each = calloc(stock_inventory(s)->cell_count + 1, sizeof *a->each);
    return a->each || fault_no_memory(f);
}

/* Adds `times` what the cell holds per acre, at `each` a tree. */
static void ask_cell(struct asked *a, const struct stock *s, size_t i, double each,
                     double times)
{
    struct stock_cells cells = stock_cells(s);
    a->each[i] += times * each * cells.share[i];
    a->certain += times * each * cells.count[i];
}

/* Counts of trees follow from basal area and diameters, or the other way round: a
 * diameter a tenth off is a fifth in the one that was not judged. */
static double by_diameter(const struct inventory *inv, enum stock_measure measure)
{
    bool judged_trees = inv->doubt.judged == JUDGED_TREES;
    return (measure == STOCK_TREES) == judged_trees ? 0 : 2;
}

static bool total_of(const struct stock *s, const struct stock_pick *pick,
                     const double *each, enum stock_measure measure, bool like_trees,
                     struct estimate *out, struct fault *f)
{
    const struct inventory *inv = stock_inventory(s);
    struct asked a = { .by_diameter = by_diameter(inv, measure) };
    *out = (struct estimate){ .told = true };
    if (!each_new(s, &a, f))
        return false;
    for (size_t i = 0; i < inv->cell_count; i++) {
        const struct inventory_cell *cell = &inv->cells[i];
        if (!stock_pick_has(pick, cell->species, cell->diameter_in))
            continue;
        double one = each ? each[i] : like_trees ? 1 : tree_basal_area(cell);
        ask_cell(&a, s, i, one, 1);
        out->value += stock_cell_trees(s, i) * one;
    }
    errors(inv, &a, out);
    free(a.each);
    return true;
}

bool estimate_total(const struct stock *s, const struct stock_pick *pick,
                    enum stock_measure measure, struct estimate *out, struct fault *f)
{
    return total_of(s, pick, NULL, measure, measure == STOCK_TREES, out, f);
}

bool estimate_weighted(const struct stock *s, const struct stock_pick *pick,
                       const double *each, struct estimate *out, struct fault *f)
{
    /* Volumes and weights follow basal area far closer than they follow stems. */
    return total_of(s, pick, each, STOCK_BASAL_AREA, false, out, f);
}

/* --- ratios --- */

/* A ratio of two plot totals errs by the plots' (over - ratio x under) / mean under: the
 * usual estimator of a ratio's variance (Freese 1962; formula from memory). */
struct ratio {
    const struct stock_pick *over, *under;
    enum stock_measure over_in, under_in;
    double by_diameter;
};

static double amount(const struct stock *s, const struct stock_pick *pick,
                     enum stock_measure measure)
{
    return measure == STOCK_TREES ? stock_trees(s, pick) : stock_basal_area(s, pick);
}

static bool ratio_of(const struct stock *s, struct ratio r, struct estimate *out,
                     struct fault *f)
{
    const struct inventory *inv = stock_inventory(s);
    struct asked a = { .ratio = true, .by_diameter = r.by_diameter };
    *out = (struct estimate){ .told = true };
    double under = amount(s, r.under, r.under_in);
    if (under <= 0)
        return true;
    out->value = amount(s, r.over, r.over_in) / under;
    if (!each_new(s, &a, f))
        return false;
    for (size_t i = 0; i < inv->cell_count; i++) {
        const struct inventory_cell *cell = &inv->cells[i];
        double basal_area = tree_basal_area(cell);
        if (stock_pick_has(r.over, cell->species, cell->diameter_in))
            ask_cell(&a, s, i, r.over_in == STOCK_TREES ? 1 : basal_area, 1 / under);
        if (stock_pick_has(r.under, cell->species, cell->diameter_in))
            ask_cell(&a, s, i, r.under_in == STOCK_TREES ? 1 : basal_area,
                     -out->value / under);
    }
    errors(inv, &a, out);
    free(a.each);
    return true;
}

bool estimate_share(const struct stock *s, const struct stock_pick *pick,
                    const struct stock_pick *of, enum stock_measure measure,
                    struct estimate *out, struct fault *f)
{
    struct stock_pick both = *pick; /* only what lies in `of` can be a part of it */
    for (size_t i = 0; i < SPECIES_MOST / 64; i++)
        both.species.bits[i] &= of->species.bits[i];
    both.from_in = fmax(pick->from_in, of->from_in);
    both.below_in = fmin(pick->below_in, of->below_in);
    if (!ratio_of(s, (struct ratio){ &both, of, measure, measure, 0 }, out, f))
        return false;
    out->high = fmin(out->high, 1);
    return true;
}

bool estimate_mean_tree(const struct stock *s, const struct stock_pick *pick,
                        struct estimate *out, struct fault *f)
{
    return ratio_of(s, (struct ratio){ pick, pick, STOCK_BASAL_AREA, STOCK_TREES, 2 },
                    out, f);
}

bool estimate_interval(const struct estimate *e, double confidence, double *low,
                       double *high)
{
    if (e->sample.count < 2 || !e->told)
        return false;
    double off = sample_t(0.5 + confidence / 2, e->sample.count - 1) * e->sample.error;
    *low = fmax(e->value - off, 0);
    *high = e->value + off;
    return true;
}

double estimate_quadratic_mean(double basal_area, double trees)
{
    return trees > 0 ? sqrt(basal_area / trees / INVENTORY_FT2_PER_IN2) : 0;
}
