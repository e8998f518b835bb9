#include "forest/figure.h"

#include <string.h>

#include "base/buf.h"
#include "base/fault.h"

struct qty figure_leaf(struct graph *g, const struct stock *s, struct estimate *e,
                       const char *unit, const char *what, const char *note,
                       struct fault *f)
{
    const struct inventory *inv = stock_inventory(s);
    struct unit_id in;
    struct qty q = QTY_NONE;
    struct buf words;
    buf_init(&words);
    if (what)
        buf_printf(&words, "%s: ", what);
    buf_puts(&words, inv->words);
    if (!e->told)
        buf_puts(&words, inv->plots == 1
                             ? "; one plot tells no error, a wide range is assumed"
                             : "; plots agree exactly, a wide range is assumed");
    if (note)
        buf_printf(&words, "; %s", note);
    struct origin from = { inv->at, words.data };
    if (words.failed)
        (void)fault_no_memory(f);
    else if (!units_find(graph_units(g), unit, strlen(unit), &in, f))
        q = QTY_NONE;
    else if (e->low < e->high && e->cause_count > 0)
        q = graph_shared(g, e->low, e->value, e->high, in, e->causes, e->cause_count,
                         from, f);
    else
        q = graph_leaf(g, e->value, in, from, f);
    buf_clear(&words);
    estimate_clear(e);
    return q;
}

struct qty figure_trees(struct graph *g, const struct stock *s,
                        const struct stock_pick *pick, const char *what, struct fault *f)
{
    struct estimate e;
    if (!estimate_total(s, pick, STOCK_TREES, &e, f))
        return QTY_NONE;
    return figure_leaf(g, s, &e, "trees/ac", what, NULL, f);
}

struct qty figure_basal_area(struct graph *g, const struct stock *s,
                             const struct stock_pick *pick, const char *what,
                             struct fault *f)
{
    struct estimate e;
    if (!estimate_total(s, pick, STOCK_BASAL_AREA, &e, f))
        return QTY_NONE;
    return figure_leaf(g, s, &e, "ft2/ac", what, NULL, f);
}

static struct qty none(const struct stock *s, const char *what, const char *lacks,
                       struct fault *f)
{
    (void)fault_set(f, "figure-none", SPAN_NONE, "%s has no %s, so there is no %s",
                    stock_inventory(s)->stand, what ? what : "trees", lacks);
    return QTY_NONE;
}

struct qty figure_diameter(struct graph *g, const struct stock *s,
                           const struct stock_pick *pick, const char *what,
                           struct fault *f)
{
    struct estimate e;
    struct unit_id inch;
    if (!units_find(graph_units(g), "in", 2, &inch, f))
        return QTY_NONE;
    if (stock_trees(s, pick) <= 0)
        return none(s, what, "mean diameter", f);
    if (!estimate_mean_tree(s, pick, &e, f))
        return QTY_NONE;
    struct qty tree =
        figure_leaf(g, s, &e, "ft2", what, "basal area of the mean tree", f);
    /* A circle's diameter from its area. */
    struct qty square = graph_scale(g, tree, 4 / acos(-1.0), f);
    struct qty root = graph_power(g, square, 1, 2, f);
    struct qty diameter = graph_say_in(g, root, inch, f);
    if (qty_is(tree))
        graph_release(g, tree);
    if (qty_is(square))
        graph_release(g, square);
    if (qty_is(root))
        graph_release(g, root);
    return diameter;
}

struct qty figure_share(struct graph *g, const struct stock *s,
                        const struct stock_pick *pick, const struct stock_pick *of,
                        enum stock_measure measure, const char *what, struct fault *f)
{
    struct estimate e;
    struct stock_pick all = stock_pick_all();
    if (!of)
        of = &all;
    double whole = measure == STOCK_TREES ? stock_trees(s, of) : stock_basal_area(s, of);
    if (whole <= 0)
        return none(s, NULL, "share of them", f);
    if (!estimate_share(s, pick, of, measure, &e, f))
        return QTY_NONE;
    e.value *= 100;
    e.low *= 100;
    e.high *= 100;
    return figure_leaf(g, s, &e, "percent", what,
                       measure == STOCK_TREES ? "by trees" : "by basal area", f);
}

struct qty figure_part(struct graph *g, struct qty figure, const struct stock *s,
                       const struct stock_pick *whole, const struct stock_pick *part,
                       enum stock_measure measure, struct fault *f)
{
    struct stock_pick both = *part;
    for (size_t i = 0; i < SPECIES_MOST / 64; i++)
        both.species.bits[i] &= whole->species.bits[i];
    both.from_in = fmax(part->from_in, whole->from_in);
    both.below_in = fmin(part->below_in, whole->below_in);
    bool trees = measure == STOCK_TREES;
    double all = trees ? stock_trees(s, whole) : stock_basal_area(s, whole);
    double some = trees ? stock_trees(s, &both) : stock_basal_area(s, &both);
    return graph_scale(g, figure, all > 0 ? some / all : 0, f);
}
