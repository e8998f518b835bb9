#include "forest/stock.h"

#include <stdlib.h>
#include <string.h>

#include "base/fault.h"

struct stock {
    const struct inventory *of;
    double *share, *count; /* one block, at share */
};

static struct stock *stock_blank(const struct inventory *inv, struct fault *f)
{
    struct stock *s = malloc(sizeof *s);
    double *cells = calloc(2 * inv->cell_count + 1, sizeof *cells);
    if (s && cells) {
        *s = (struct stock){ inv, cells, cells + inv->cell_count };
        return s;
    }
    free(s);
    free(cells);
    (void)fault_no_memory(f);
    return NULL;
}

struct stock *stock_none(const struct stock *like, struct fault *f)
{
    return stock_blank(like->of, f);
}

struct stock *stock_of(const struct inventory *inv, struct fault *f)
{
    struct stock *s = stock_blank(inv, f);
    for (size_t i = 0; s && i < inv->cell_count; i++)
        s->share[i] = 1;
    return s;
}

struct stock *stock_copy(const struct stock *from, struct fault *f)
{
    struct stock *s = stock_blank(from->of, f);
    if (s)
        memcpy(s->share, from->share, 2 * from->of->cell_count * sizeof *s->share);
    return s;
}

void stock_free(struct stock *s)
{
    if (!s)
        return;
    free(s->share);
    free(s);
}

const struct inventory *stock_inventory(const struct stock *s)
{
    return s->of;
}

struct stock_cells stock_cells(const struct stock *s)
{
    return (struct stock_cells){ s->share, s->count };
}

double stock_cell_trees(const struct stock *s, size_t i)
{
    double found = s->of->cells[i].trees;
    double trees = s->share[i] * found + s->count[i];
    return trees > 1e-12 * found ? trees : 0; /* below lies what rounding leaves */
}

static double each(const struct inventory_cell *cell, enum stock_measure measure)
{
    return measure == STOCK_TREES
               ? 1
               : INVENTORY_FT2_PER_IN2 * cell->diameter_in * cell->diameter_in;
}

static bool picked(const struct stock *s, size_t i, const struct stock_pick *pick)
{
    return stock_pick_has(pick, s->of->cells[i].species, s->of->cells[i].diameter_in);
}

static double amount_of(const struct stock *s, const struct stock_pick *pick,
                        enum stock_measure measure)
{
    double sum = 0;
    for (size_t i = 0; i < s->of->cell_count; i++)
        if (picked(s, i, pick))
            sum += stock_cell_trees(s, i) * each(&s->of->cells[i], measure);
    return sum;
}

double stock_trees(const struct stock *s, const struct stock_pick *pick)
{
    return amount_of(s, pick, STOCK_TREES);
}

double stock_basal_area(const struct stock *s, const struct stock_pick *pick)
{
    return amount_of(s, pick, STOCK_BASAL_AREA);
}

/* A cell taken whole is set to nothing: subtracting could leave dust behind. */
void stock_move_share(struct stock *from, struct stock *to, size_t i, double share)
{
    share = fmin(fmax(share, 0), 1);
    double part = from->share[i] * share, count = from->count[i] * share;
    to->share[i] += part;
    to->count[i] += count;
    from->share[i] = share >= 1 ? 0 : from->share[i] - part;
    from->count[i] = share >= 1 ? 0 : from->count[i] - count;
}

static void move_count(struct stock *from, struct stock *to, size_t i, double trees)
{
    to->count[i] += trees;
    from->count[i] -= trees;
}

void stock_move_but(struct stock *from, struct stock *to, size_t i, double trees)
{
    stock_move_share(from, to, i, 1);
    move_count(to, from, i, trees);
}

struct stock *stock_take_share(struct stock *from, const struct stock_pick *pick,
                               double share, struct fault *f)
{
    struct stock *taken = stock_blank(from->of, f);
    for (size_t i = 0; taken && i < from->of->cell_count; i++)
        if (picked(from, i, pick))
            stock_move_share(from, taken, i, share);
    return taken;
}

struct by_size {
    double diameter_in;
    size_t cell;
};

static int by_size_order(const void *left, const void *right)
{
    const struct by_size *a = left, *b = right;
    if (a->diameter_in < b->diameter_in)
        return -1;
    if (a->diameter_in > b->diameter_in)
        return 1;
    return a->cell < b->cell ? -1 : a->cell > b->cell;
}

/* From the thickest down, or from the thinnest up; trees of one diameter in
 * proportion. */
static bool take_in_order(struct stock *from, struct stock *to,
                          const struct stock_pick *pick, enum stock_measure measure,
                          double amount, bool largest, struct fault *f)
{
    size_t cells = from->of->cell_count, count = 0;
    struct by_size *places = calloc(cells + 1, sizeof *places);
    if (!places)
        return fault_no_memory(f);
    for (size_t i = 0; i < cells; i++)
        if (picked(from, i, pick))
            places[count++] =
                (struct by_size){ from->of->cells[i].diameter_in * (largest ? -1 : 1),
                                  i };
    qsort(places, count, sizeof *places, by_size_order);
    const struct by_size *next = places, *last = places + count;
    while (next < last && amount > 0) {
        const struct by_size *first = next;
        double there = 0;
        for (; next < last && !(next->diameter_in > first->diameter_in); next++)
            there += stock_cell_trees(from, next->cell) *
                     each(&from->of->cells[next->cell], measure);
        double part = there > 0 ? fmin(amount / there, 1) : 0;
        for (const struct by_size *p = first; p < next; p++)
            move_count(from, to, p->cell, stock_cell_trees(from, p->cell) * part);
        amount -= there * part;
    }
    free(places);
    return true;
}

struct stock *stock_take_amount(struct stock *from, const struct stock_pick *pick,
                                enum stock_measure measure, double amount,
                                enum stock_order order, struct fault *f)
{
    double there = amount_of(from, pick, measure);
    /* When there are no more than that, none is counted out: all stay, as doubtful as the
     * inventory. */
    if (amount >= there)
        return stock_take_share(from, pick, 1, f);
    struct stock *taken = stock_blank(from->of, f);
    if (!taken || amount <= 0)
        return taken;
    if (order != STOCK_AS_FOUND) {
        if (take_in_order(from, taken, pick, measure, amount, order == STOCK_LARGEST, f))
            return taken;
        stock_free(taken);
        return NULL;
    }
    for (size_t i = 0; i < from->of->cell_count; i++)
        if (picked(from, i, pick))
            move_count(from, taken, i, stock_cell_trees(from, i) * (amount / there));
    return taken;
}

void stock_add(struct stock *into, const struct stock *what)
{
    for (size_t i = 0; i < into->of->cell_count; i++) {
        into->share[i] += what->share[i];
        into->count[i] += what->count[i];
    }
}

void stock_remove(struct stock *from, const struct stock *what)
{
    for (size_t i = 0; i < from->of->cell_count; i++) {
        from->share[i] -= what->share[i];
        from->count[i] -= what->count[i];
        if (stock_cell_trees(from, i) <= 0)
            from->share[i] = from->count[i] = 0;
    }
}

bool stock_set_aside(struct stock *rest, struct stock *aside, struct stock_keep *keeps,
                     size_t count, struct fault *f)
{
    for (size_t i = 0; i < count; i++) {
        struct stock *kept = stock_take_amount(rest, &keeps[i].pick, keeps[i].measure,
                                               keeps[i].amount, keeps[i].order, f);
        if (!kept)
            return false;
        keeps[i].kept = amount_of(kept, &keeps[i].pick, keeps[i].measure);
        stock_add(aside, kept);
        stock_free(kept);
    }
    return true;
}

bool stock_cut(const struct stock *before, const struct stock_pick *what, double share,
               struct stock_keep *keeps, size_t keep_count, struct stock **taken,
               struct stock **left, struct fault *f)
{
    struct stock *rest = stock_copy(before, f), *aside = stock_none(before, f);
    *taken = *left = NULL;
    if (rest && aside && stock_set_aside(rest, aside, keeps, keep_count, f))
        *taken = stock_take_share(rest, what, share, f);
    if (*taken) {
        stock_add(rest, aside);
        *left = rest;
        rest = NULL;
    }
    stock_free(rest);
    stock_free(aside);
    return *taken != NULL;
}

size_t stock_rows(const struct stock *s, double width_in, struct stock_row *rows,
                  size_t most)
{
    size_t count = 0;
    struct stock_row row = { 0 };
    for (size_t i = 0; i <= s->of->cell_count; i++) {
        const struct inventory_cell *cell =
            i < s->of->cell_count ? &s->of->cells[i] : NULL;
        /* Cells lie by species, then diameter, so a row's cells lie together. */
        double class_in = cell && width_in > 0
                              ? floor(cell->diameter_in / width_in + 0.5) * width_in
                              : 0;
        bool same = cell && row.trees > 0 && row.species == cell->species &&
                    row.class_in >= class_in;
        if (!same && row.trees > 0) {
            if (count < most)
                rows[count] = row;
            count++;
        }
        if (!cell)
            break;
        if (!same)
            row = (struct stock_row){
                .species = cell->species,
                .class_in = class_in,
                .from_in = width_in > 0 ? class_in - width_in / 2 : 0,
                .below_in = width_in > 0 ? class_in + width_in / 2 : HUGE_VAL,
            };
        row.trees += stock_cell_trees(s, i);
        row.basal_area += stock_cell_trees(s, i) * each(cell, STOCK_BASAL_AREA);
    }
    return count;
}
