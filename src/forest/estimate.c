#include "forest/estimate_inner.h"

#include <stdlib.h>

#include "base/fault.h"
#include "quantity/normal.h"

static double tree_basal_area(const struct inventory_cell *cell)
{
    return INVENTORY_FT2_PER_IN2 * cell->diameter_in * cell->diameter_in;
}

void estimate_clear(struct estimate *e)
{
    free(e->causes);
    e->causes = NULL;
    e->cause_count = 0;
}

/* Takes what was asked, whatever becomes of it. */
static bool answered(struct asked *a, struct estimate *out, struct fault *f)
{
    bool good = estimate_errors(a, out, f);
    free(a->each);
    return good;
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

/* Counts of trees follow from basal area and diameters, or the other way round: where
 * basal area was judged and the trees are a tenth thicker, a fifth fewer make it up. */
static double judged_power(const struct inventory *inv)
{
    return inv->doubt.judged == JUDGED_TREES ? 0 : 2;
}

/* `each` NULL: what the power says of a tree, 1 or its basal area. */
static bool total_of(const struct stock *s, const struct stock_pick *pick,
                     const double *each, double power, struct estimate *out,
                     struct fault *f)
{
    const struct inventory *inv = stock_inventory(s);
    struct asked a = { .inv = inv, .by_diameter = power - judged_power(inv) };
    *out = (struct estimate){ .told = true };
    if (!each_new(s, &a, f))
        return false;
    for (size_t i = 0; i < inv->cell_count; i++) {
        const struct inventory_cell *cell = &inv->cells[i];
        if (!stock_pick_has(pick, cell->species, cell->diameter_in))
            continue;
        double one = each ? each[i] : power > 0 ? tree_basal_area(cell) : 1;
        ask_cell(&a, s, i, one, 1);
        out->value += stock_cell_trees(s, i) * one;
    }
    return answered(&a, out, f);
}

bool estimate_total(const struct stock *s, const struct stock_pick *pick,
                    enum stock_measure measure, struct estimate *out, struct fault *f)
{
    return total_of(s, pick, NULL, measure == STOCK_TREES ? 0 : 2, out, f);
}

bool estimate_weighted(const struct stock *s, const struct stock_pick *pick,
                       const double *each, struct estimate *out, struct fault *f)
{
    return total_of(s, pick, each, 2, out, f);
}

bool estimate_powered(const struct stock *s, const struct stock_pick *pick,
                      const double *each, double power, struct estimate *out,
                      struct fault *f)
{
    return total_of(s, pick, each, power, out, f);
}

/* --- ratios --- */

/* A ratio of two plot totals errs by the plots' (over - ratio x under) / mean under: the
 * usual estimator of a ratio's variance (Freese 1962; formula from memory). */
struct ratio {
    enum asked_kind kind;
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
    struct asked a = { .inv = inv, .kind = r.kind, .by_diameter = r.by_diameter };
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
    return answered(&a, out, f);
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
    struct ratio r = { ASKED_SHARE, &both, of, measure, measure, 0 };
    if (!ratio_of(s, r, out, f))
        return false;
    out->high = fmin(out->high, 1);
    return true;
}

bool estimate_mean_tree(const struct stock *s, const struct stock_pick *pick,
                        struct estimate *out, struct fault *f)
{
    return ratio_of(
        s, (struct ratio){ ASKED_MEAN, pick, pick, STOCK_BASAL_AREA, STOCK_TREES, 2 },
        out, f);
}

bool estimate_plots(const struct inventory *inv, const double *over, const double *under,
                    struct estimate *out, struct fault *f)
{
    double above = 0, below = 0, *moved = calloc(inv->plots + 1, sizeof *moved);
    *out = (struct estimate){ .told = true };
    if (!moved)
        return fault_no_memory(f);
    for (size_t p = 0; p < inv->plots; p++) {
        above += over[p];
        below += under ? under[p] : 1;
    }
    bool good = true;
    if (below > 0) {
        struct asked a = { .inv = inv, .kind = under ? ASKED_SHARE : ASKED_TOTAL };
        out->value = above / below;
        double mean_under = below / (double)inv->plots;
        for (size_t p = 0; p < inv->plots; p++)
            moved[p] = under ? (over[p] - out->value * under[p]) / mean_under : over[p];
        good = estimate_errors_of_plots(&a, moved, out, f);
        out->low = fmax(out->low, 0);
    }
    free(moved);
    return good;
}

bool estimate_interval(const struct estimate *e, double confidence, double *low,
                       double *high)
{
    if (e->sample.count == 0 && e->told) {
        double times = normal_inverse(0.5 + confidence / 2) / normal_inverse(0.9);
        *low = fmax(e->value - times * (e->value - e->low), 0);
        *high = e->value + times * (e->high - e->value);
        return true;
    }
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
