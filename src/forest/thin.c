#include "forest/thin.h"

#include <stdlib.h>

#include "base/fault.h"

struct thin thin_of(const struct stock_pick *what)
{
    return (struct thin){ .what = *what, .until = THIN_SHARE, .amount = 1 };
}

bool thin_has(const struct thin *rule, size_t species, double diameter_in)
{
    return stock_pick_has(&rule->what, species, diameter_in) &&
           diameter_in >= rule->least_in[species];
}

/* A cell that may be taken from, and what says when its turn comes. */
struct turn {
    uint16_t rank;
    double size; /* grows in the order of taking */
    size_t cell;
};

static int in_turn(const void *left, const void *right)
{
    const struct turn *a = left, *b = right;
    if (a->rank != b->rank)
        return a->rank < b->rank ? -1 : 1;
    if (a->size < b->size)
        return -1;
    if (a->size > b->size)
        return 1;
    return a->cell < b->cell ? -1 : a->cell > b->cell;
}

static bool together(const struct turn *a, const struct turn *b)
{
    return a->rank == b->rank && b->size <= a->size;
}

static double each(const struct stock *s, size_t cell, enum stock_measure measure)
{
    double inches = stock_inventory(s)->cells[cell].diameter_in;
    return measure == STOCK_TREES ? 1 : INVENTORY_FT2_PER_IN2 * inches * inches;
}

static double there(const struct stock *s, size_t cell, enum stock_measure measure)
{
    return stock_cell_trees(s, cell) * each(s, cell, measure);
}

static double amount_of(const struct stock *s, enum stock_measure measure)
{
    struct stock_pick all = stock_pick_all();
    return measure == STOCK_TREES ? stock_trees(s, &all) : stock_basal_area(s, &all);
}

/* The cells that may be taken from, in the order of taking. */
static size_t line_up(const struct stock *rest, const struct thin *rule,
                      struct turn *turns)
{
    const struct inventory *inv = stock_inventory(rest);
    size_t count = 0;
    for (size_t i = 0; i < inv->cell_count; i++) {
        const struct inventory_cell *cell = &inv->cells[i];
        if (!thin_has(rule, cell->species, cell->diameter_in))
            continue;
        double size = rule->from == THIN_BELOW   ? cell->diameter_in
                      : rule->from == THIN_ABOVE ? -cell->diameter_in
                                                 : 0;
        turns[count++] = (struct turn){ rule->rank[cell->species], size, i };
    }
    qsort(turns, count, sizeof *turns, in_turn);
    return count;
}

/* How much is to be taken, in the rule's measure. */
static double wanted(const struct stock *rest, const struct stock *aside,
                     const struct thin *rule, const struct turn *turns, size_t count)
{
    if (rule->until == THIN_TO)
        return amount_of(rest, rule->measure) +
               (aside ? amount_of(aside, rule->measure) : 0) - rule->amount;
    double trees = 0;
    for (size_t k = 0; k < count; k++)
        trees += stock_cell_trees(rest, turns[k].cell);
    return trees * rule->amount;
}

static void take_part(struct stock *rest, struct stock *taken, size_t cell, double part,
                      bool counted)
{
    if (part >= 1 || !counted)
        stock_move_share(rest, taken, cell, part);
    else if (part > 0)
        stock_move_but(rest, taken, cell, stock_cell_trees(rest, cell) * (1 - part));
}

struct stock *thin_take(struct stock *rest, const struct stock *aside,
                        const struct thin *rule, struct fault *f)
{
    struct turn *turns = calloc(stock_inventory(rest)->cell_count + 1, sizeof *turns);
    struct stock *taken = turns ? stock_none(rest, f) : NULL;
    if (!taken) {
        free(turns);
        (void)fault_no_memory(f);
        return NULL;
    }
    bool counted = rule->until == THIN_TO;
    enum stock_measure measure = counted ? rule->measure : STOCK_TREES;
    size_t count = line_up(rest, rule, turns);
    double amount = wanted(rest, aside, rule, turns, count);
    for (size_t start = 0, end; start < count && amount > 0; start = end) {
        double sum = 0;
        for (end = start; end < count && together(&turns[start], &turns[end]); end++)
            sum += there(rest, turns[end].cell, measure);
        /* A hair less than all is all: the rest is rounding. */
        double part = amount >= sum * (1 - 1e-12) ? 1 : amount / sum;
        for (size_t k = start; k < end; k++)
            take_part(rest, taken, turns[k].cell, part, counted);
        amount -= sum * part;
    }
    free(turns);
    return taken;
}

bool thin_cut(const struct stock *before, const struct thin *rule,
              struct stock_keep *keeps, size_t keep_count, struct stock **taken,
              struct stock **left, struct fault *f)
{
    struct stock *rest = stock_copy(before, f);
    struct stock *aside = rest ? stock_none(before, f) : NULL;
    *taken = *left = NULL;
    if (aside && stock_set_aside(rest, aside, keeps, keep_count, f))
        *taken = thin_take(rest, aside, rule, f);
    if (*taken) {
        stock_add(rest, aside);
        *left = rest;
        rest = NULL;
    }
    stock_free(rest);
    stock_free(aside);
    return *taken != NULL;
}
