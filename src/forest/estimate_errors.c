/* How far an estimate may be off, and what causes it (estimate_inner.h). */
#include "forest/estimate_inner.h"

#include <stdlib.h>

#include "base/fault.h"
#include "forest/eye.h"
#include "forest/tally.h"

/* Causes of doubt are told apart by what they are and by their stand, never by when they
 * were first met. */
static uint64_t key_of_kind(const struct inventory *inv, uint64_t kind)
{
    return graph_key(inv->stand, (uint32_t)(kind >> 32), (uint32_t)kind);
}

static uint64_t key_of(const struct inventory *inv, const char *what, uint64_t which)
{
    return key_of_kind(inv, graph_key(what, 0, 0) ^ which);
}

static bool causes_room(struct estimate *e, size_t count, struct fault *f)
{
    e->cause_count = 0;
    e->causes = calloc(count, sizeof *e->causes);
    return e->causes || fault_no_memory(f);
}

static void cause_put(struct estimate *e, uint64_t key, double weight)
{
    if (weight < 0 || weight > 0)
        e->causes[e->cause_count++] = (struct cause){ key, weight };
}

/* --- from a tally --- */

/* No plot differs from another, or there is but one. */
static bool untold(const struct asked *a, double doubtful, struct estimate *e,
                   struct fault *f)
{
    const struct inventory *inv = a->inv;
    double part = a->kind == ASKED_TOTAL ? ESTIMATE_UNTOLD_TOTAL : ESTIMATE_UNTOLD_RATIO;
    double off = fabs(doubtful) * part / sqrt((double)inv->plots);
    bool by_cell = a->kind == ASKED_SHARE && a->each;
    e->told = false;
    if (!causes_room(e, by_cell ? inv->cell_count + 1 : 1, f))
        return false;
    if (a->kind == ASKED_SHARE)
        off *= 2 * fmax(1 - e->value, 0);
    for (size_t i = 0; by_cell && i < inv->cell_count; i++) {
        uint64_t size = (uint64_t)(inv->cells[i].diameter_in * 1e4 + 0.5);
        cause_put(e, key_of(inv, "trees", inv->cells[i].key ^ size << 20),
                  a->each[i] * inv->cells[i].trees);
    }
    if (a->kind == ASKED_MEAN)
        cause_put(e, key_of(inv, "diameters", 0), 1);
    else if (!by_cell)
        cause_put(e, key_of(inv, "density", 0), doubtful);
    e->told = e->cause_count == 0; /* all of it, or none: certain */
    e->low = e->value - (e->told ? 0 : off);
    e->high = e->value + (e->told ? 0 : off);
    return true;
}

bool estimate_errors_of_plots(const struct asked *a, double *plots, struct estimate *e,
                              struct fault *f)
{
    const struct inventory *inv = a->inv;
    bool ratio = a->kind != ASKED_TOTAL;
    e->told = true;
    e->sample = sample_of(plots, inv->plots, 0);
    double mean = e->sample.mean;
    if (ratio)
        e->sample.mean = e->value;
    double doubtful = ratio ? e->value : mean - a->certain;
    double same = 1e-9 * (fabs(doubtful) + fabs(a->certain));
    bool agree = e->sample.error <= same;
    e->low = e->high = e->value;
    if (fabs(doubtful) > same && (inv->plots == 1 || (agree && !ratio)))
        return untold(a, doubtful, e, f);
    if (agree)
        return true;
    if (!causes_room(e, inv->plots, f))
        return false;
    uint64_t plot = graph_key("plot", 0, 0);
    for (size_t p = 0; p < inv->plots; p++)
        cause_put(e, key_of_kind(inv, plot ^ p), plots[p] - mean);
    double off = sample_t(0.90, inv->plots - 1) * e->sample.error;
    e->low = e->value - off;
    e->high = e->value + off;
    return true;
}

static bool from_plots(const struct asked *a, struct estimate *e, struct fault *f)
{
    const struct inventory *inv = a->inv;
    double totals[TALLY_PLOTS_MOST];
    for (size_t p = 0; p < inv->plots; p++)
        totals[p] = a->certain;
    for (size_t i = 0; i < inv->entry_count; i++) {
        const struct inventory_entry *n = &inv->entries[i];
        totals[n->plot] += n->trees * a->each[n->cell];
    }
    return estimate_errors_of_plots(a, totals, e, f);
}

/* --- by eye --- */

/* What belongs to each share, in all; and the key of its species. */
static double parts_of(const struct asked *a, double parts[EYE_SHARES_MOST],
                       uint64_t keys[EYE_SHARES_MOST])
{
    double total = 0;
    for (size_t i = 0; i < a->inv->cell_count; i++) {
        const struct inventory_cell *cell = &a->inv->cells[i];
        parts[cell->share] += a->each[i] * cell->trees;
        keys[cell->share] = cell->key;
    }
    for (size_t k = 0; k < a->inv->doubt.share_count; k++)
        total += parts[k];
    return total;
}

/* Errors that have nothing to do with one another: of the density, of each share, of the
 * diameters. They add up by squares. */
static bool from_eye(const struct asked *a, struct estimate *e, struct fault *f)
{
    const struct inventory_doubt *d = &a->inv->doubt;
    double parts[EYE_SHARES_MOST] = { 0 }, squares = 0;
    uint64_t keys[EYE_SHARES_MOST] = { 0 };
    double total = parts_of(a, parts, keys);
    if (!causes_room(e, d->share_count + 2, f))
        return false;
    for (size_t k = 0; k < d->share_count; k++) {
        /* One share more, the others less in proportion: the whole stays. */
        double p = d->shares[k].share, others = p < 1 ? (total - parts[k]) / (1 - p) : 0;
        double off = p < 1 ? d->shares[k].off * (parts[k] / p - others) : 0;
        squares += off * off;
        cause_put(e, key_of(a->inv, "share", keys[k]), off);
    }
    double doubtful = a->kind == ASKED_TOTAL ? total : e->value;
    double diameter = a->by_diameter * d->diameter * doubtful;
    squares += diameter * diameter;
    cause_put(e, key_of(a->inv, "diameters", 0), diameter);
    cause_put(e, key_of(a->inv, "density", 0), (d->below + d->above) / 2 * total);
    e->low = e->value - sqrt(squares + d->below * d->below * total * total);
    e->high = e->value + sqrt(squares + d->above * d->above * total * total);
    return true;
}

bool estimate_errors(const struct asked *a, struct estimate *e, struct fault *f)
{
    e->told = true;
    bool tallied = a->inv->basis == INVENTORY_TALLY;
    if (!(tallied ? from_plots(a, e, f) : from_eye(a, e, f)))
        return false;
    e->low = fmax(e->low, 0);
    return true;
}
