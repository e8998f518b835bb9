#include "forest/eye.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/num.h"
#include "forest/species.h"
#include "forest/tally.h"

static bool diameters_checked(double least, double most, struct span at, struct fault *f)
{
    if (least >= TALLY_LEAST_IN && most >= least && most <= TALLY_MOST_IN)
        return true;
    if (most < least) {
        fault_set(f, "eye-diameter", at, "the smaller diameter comes first");
        fault_hint(f, "4 to 8 in");
        return false;
    }
    return fault_set(f, "eye-diameter", at, "diameters lie between 0.5 and 60 in");
}

static bool checked(const struct eye_estimate *e, struct fault *f)
{
    double total = 0, most = e->judged == JUDGED_TREES ? 50000 : 400;
    /* Far above the densest stands of the Lake States lies a slip. Common practice, no
     * source. */
    if (!(e->low >= 0 && e->low <= e->likely && e->likely > 0 && e->likely <= e->high &&
          e->high <= most))
        return fault_set(f, "eye-density", e->at, "%s",
                         e->judged == JUDGED_TREES
                             ? "stems per acre lie between 0 and 50,000"
                             : "basal area lies between 0 and 400 ft2/ac");
    if (!diameters_checked(e->least_in, e->most_in, e->at, f))
        return false;
    if (e->share_count == 0 || e->share_count > EYE_SHARES_MOST)
        return fault_set(f, "eye-shares", e->at, "between 1 and %d species are named",
                         EYE_SHARES_MOST);
    for (size_t i = 0; i < e->share_count; i++) {
        const struct eye_share *s = &e->shares[i];
        if (!(s->percent > 0 && s->percent <= 100))
            return fault_set(f, "eye-share", s->at,
                             "a share lies above 0 and up to 100 percent");
        if (s->most_in > 0 && !diameters_checked(s->least_in, s->most_in, s->at, f))
            return false;
        for (size_t k = 0; k < i; k++)
            if (e->shares[k].species == s->species)
                return fault_set(f, "eye-share", s->at, "this species is there twice");
        total += s->percent;
    }
    if (fabs(total - 100) <= 0.5)
        return true;
    struct buf sum;
    buf_init(&sum);
    num_trade(&sum, total);
    fault_set(f, "eye-shares", e->at, "the shares add up to %s percent, not 100",
              sum.data);
    fault_hint(f, total < 100 ? "call the rest \"other hardwood\" or \"other conifer\""
                              : "shares are of all the stand holds");
    buf_clear(&sum);
    return false;
}

/* The part of a gable over [0, 1] that lies below x. */
static double gable(double x)
{
    if (x <= 0)
        return 0;
    if (x >= 1)
        return 1;
    return x < 0.5 ? 2 * x * x : 1 - 2 * (1 - x) * (1 - x);
}

/* Inch classes: 8 in stands for 7.5 up to 8.5. */
static double class_of(double diameter_in)
{
    return floor(diameter_in + 0.5);
}

static void spread_over(struct inventory *inv, const struct eye_estimate *e, size_t i,
                        double amount, const struct species_table *species)
{
    const struct eye_share *s = &e->shares[i];
    double least = s->most_in > 0 ? s->least_in : e->least_in;
    double most = s->most_in > 0 ? s->most_in : e->most_in;
    bool one = class_of(least) >= class_of(most);
    for (double c = class_of(least); c <= class_of(most); c++) {
        double part = one ? 1
                          : gable((c + 0.5 - least) / (most - least)) -
                                gable((c - 0.5 - least) / (most - least));
        double diameter = one ? (least + most) / 2 : c;
        double each =
            e->judged == JUDGED_TREES ? 1 : INVENTORY_FT2_PER_IN2 * diameter * diameter;
        if (part <= 0)
            continue;
        inv->cells[inv->cell_count++] = (struct inventory_cell){
            .species = (uint16_t)s->species,
            .share = (uint16_t)i,
            .key = inventory_species_key(species, s->species),
            .diameter_in = diameter,
            .trees = amount * part / each,
        };
    }
}

static int cell_order(const void *left, const void *right)
{
    const struct inventory_cell *a = left, *b = right;
    if (a->species != b->species)
        return a->species < b->species ? -1 : 1;
    return a->diameter_in < b->diameter_in ? -1 : a->diameter_in > b->diameter_in;
}

static void doubt_fill(struct inventory_doubt *d, const struct eye_estimate *e,
                       const struct eye_rules *rules)
{
    double times = e->basis == INVENTORY_GUESS ? rules->not_walked_times : 1;
    bool said = e->low < e->high;
    double usual = rules->density_percent / 100;
    d->judged = e->judged;
    d->below = fmin(times * (said ? 1 - e->low / e->likely : usual), 1);
    d->above = times * (said ? e->high / e->likely - 1 : usual);
    d->diameter = times * rules->diameter_percent / 100;
    d->share_count = e->share_count;
    for (size_t i = 0; i < e->share_count; i++) {
        double p = e->shares[i].percent / 100;
        /* As a sample's share: widest at a half, none at nothing and at all. */
        double off = times * rules->share_points / 100 * 2 * sqrt(p * fmax(1 - p, 0));
        d->shares[i] = (struct inventory_share){ p, fmin(off, fmin(p, 1 - p)) };
    }
}

static char *words(const struct eye_estimate *e, const char *stand)
{
    struct buf out;
    buf_init(&out);
    buf_puts(&out, stand);
    buf_puts(&out,
             e->basis == INVENTORY_GUESS ? ": not walked, a guess" : ": estimate by eye");
    return buf_take(&out);
}

struct inventory *eye_inventory(const struct eye_estimate *e,
                                const struct eye_rules *rules,
                                const struct species_table *species, const char *stand,
                                struct span at, struct fault *f)
{
    if (!checked(e, f))
        return NULL;
    size_t classes = (size_t)TALLY_MOST_IN + 2;
    struct inventory *inv = calloc(1, sizeof *inv);
    if (!inv)
        goto failed;
    inv->basis = e->basis;
    inv->at = at;
    inv->stand = strdup(stand);
    inv->words = words(e, stand);
    inv->cells = calloc(e->share_count * classes, sizeof *inv->cells);
    inv->doubt.shares = calloc(e->share_count, sizeof *inv->doubt.shares);
    if (!inv->stand || !inv->words || !inv->cells || !inv->doubt.shares)
        goto failed;
    for (size_t i = 0; i < e->share_count; i++)
        spread_over(inv, e, i, e->likely * e->shares[i].percent / 100, species);
    if (inv->cell_count)
        qsort(inv->cells, inv->cell_count, sizeof *inv->cells, cell_order);
    doubt_fill(&inv->doubt, e, rules);
    if (!inventory_find_stout(inv, f))
        goto failed;
    return inv;
failed:
    inventory_free(inv);
    (void)fault_no_memory(f);
    return NULL;
}
