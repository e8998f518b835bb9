/* What may be added to or compared with what, and what is said when it may not. */
#include <math.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/num.h"
#include "quantity/graph_inner.h"
#include "quantity/unit_inner.h"

/* Sets a fault from words that were built; or says that there was no memory for them. */
static bool say(const char *id, struct buf *words, struct fault *f)
{
    if (words->failed)
        fault_no_memory(f);
    else
        fault_set(f, id, SPAN_NONE, "%s", words->data);
    buf_clear(words);
    return false;
}

static bool is_count(const struct graph *g, struct unit_id unit)
{
    struct dim d = unit_dim(g->units, unit);
    for (int base = DIM_STEMS; base <= DIM_PLANTS; base++)
        if (dim_equal(d, dim_of(base, 1)))
            return true;
    return false;
}

static void put_refusal(const struct graph *g, uint32_t x, uint32_t y, const char *verb,
                        struct buf *out)
{
    struct unit_id p = g->nodes[x].unit, q = g->nodes[y].unit;
    bool subtract = strcmp(verb, "subtract") == 0;
    if (is_count(g, p) && is_count(g, q)) {
        buf_printf(out, "%s and %s are counted apart: ", unit_name(g->units, p, false),
                   unit_name(g->units, q, false));
        graph_put(g, subtract ? y : x, out);
        buf_puts(out, subtract ? " cannot be taken from " : " and ");
        graph_put(g, subtract ? x : y, out);
        buf_puts(out, subtract ? "" : strcmp(verb, "compare") == 0
                      ? " cannot be compared" : " cannot be added");
        return;
    }
    graph_put(g, x, out);
    buf_puts(out, " is ");
    unit_says(g->units, p, out);
    buf_puts(out, ", ");
    graph_put(g, y, out);
    buf_puts(out, " is ");
    unit_says(g->units, q, out);
    buf_puts(out, subtract ? ": one cannot be taken from the other"
                  : strcmp(verb, "compare") == 0 ? ": they cannot be compared"
                                                 : ": they cannot be added");
}

/* ---- the mend: at most one, and only a simple one ---- */

static bool is_share(const struct graph *g, const struct node *n)
{
    return n->unit.i != 0 && !unit_is_per_land(g->units, n->unit)
           && dim_is_number(unit_dim(g->units, n->unit));
}

/* What the lesser side must be multiplied by to become the other, where it is said "per"
 * just that. */
static const char *missing_factor(const struct graph *g, const struct node *more,
                                  const struct node *less)
{
    static const char *const words[DIM_FIRST_ADDED] = {
        [DIM_LENGTH] = "a length", [DIM_MASS] = "a weight", [DIM_WORK] = "hours of work",
        [DIM_CALENDAR] = "a time on the calendar", [DIM_STEMS] = "a count of stems",
        [DIM_TREES] = "a count of trees", [DIM_PLANTS] = "a count of plants",
        [DIM_TREE_LENGTH] = "a number of tree lengths",
    };
    struct dim lesser = unit_dim(g->units, less->unit), d;
    if (!dim_divide(unit_dim(g->units, more->unit), lesser, &d))
        return NULL;
    bool per_length = lesser.sixths[DIM_LENGTH] < 0;
    if (dim_equal(d, dim_of(DIM_LENGTH, 2)))
        return per_length || unit_is_per_land(g->units, less->unit) ? "an area" : NULL;
    if (dim_equal(d, dim_of(DIM_LENGTH, 3)))
        return per_length ? "a volume" : NULL;
    for (int base = 0; base < DIM_FIRST_ADDED; base++)
        if (words[base] && lesser.sixths[base] < 0 && dim_equal(d, dim_of(base, 1)))
            return words[base];
    return NULL;
}

static bool hint_factor(const struct graph *g, const struct node *more,
                        const struct node *less, struct fault *f)
{
    const char *factor = missing_factor(g, more, less);
    struct buf said;
    if (!factor)
        return false;
    buf_init(&said);
    unit_print(g->units, less->unit, less->value, &said);
    if (!said.failed)
        fault_hint(f, "multiply %s by %s first", said.data, factor);
    buf_clear(&said);
    return true;
}

/* Mends for pairs of plain dimensions. */
static const struct {
    int base, power, other, other_power;
    const char *words;
} pairs[] = {
    { DIM_LENGTH, 1, DIM_LENGTH, 2, "a length times a length is an area" },
    { DIM_LENGTH, 2, DIM_LENGTH, 3, "an area times a length is a volume" },
    { DIM_WORK, 1, DIM_CALENDAR, 1,
      "hours of work become days on the calendar only through a crew's week: "
      "divide by its hours, as in 70 h / (10 h/wk)" },
    { DIM_WORK, 1, DIM_MONEY, 1, "hours times a wage are money: 3 h * 45 USD/h" },
    { DIM_LENGTH, 1, DIM_TREE_LENGTH, 1, "say both in feet, or both in tree lengths" },
};

static bool hint_pair(struct dim a, struct dim b, struct fault *f)
{
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++)
        if (dim_equal(a, dim_of(pairs[i].base, pairs[i].power))
            && dim_equal(b, dim_of(pairs[i].other, pairs[i].other_power))) {
            fault_hint(f, "%s", pairs[i].words);
            return true;
        }
    return false;
}

static void hint_number(const struct graph *g, const struct node *number,
                        const struct node *other, struct fault *f)
{
    struct buf said;
    buf_init(&said);
    num_trade(&said, number->value);
    if (!said.failed)
        fault_hint(f, "write %s %s", said.data,
                   unit_name(g->units, other->unit, strcmp(said.data, "1") == 0));
    buf_clear(&said);
}

/* 3 trees/ac and 4 stems/ac: alike but for what is counted. */
static bool hint_counts(struct dim a, struct dim b, struct fault *f)
{
    static const char *const counted[] = { "stems", "trees", "plants" };
    for (int x = DIM_STEMS; x <= DIM_PLANTS; x++)
        for (int y = DIM_STEMS; y <= DIM_PLANTS; y++) {
            struct dim other = b;
            other.sixths[x] = a.sixths[x];
            other.sixths[y] = a.sixths[y];
            bool alone = a.sixths[y] == 0 && b.sixths[x] == 0 && a.sixths[x] == b.sixths[y];
            if (x == y || a.sixths[x] == 0 || !alone || !dim_equal(a, other))
                continue;
            fault_hint(f, "%s and %s are counted apart", counted[x - DIM_STEMS],
                       counted[y - DIM_STEMS]);
            return true;
        }
    return false;
}

static void hint(const struct graph *g, const struct node *p, const struct node *q,
                 struct fault *f)
{
    struct dim a = unit_dim(g->units, p->unit), b = unit_dim(g->units, q->unit);
    if (p->unit.i == 0)
        hint_number(g, p, q, f);
    else if (q->unit.i == 0)
        hint_number(g, q, p, f);
    else if (is_share(g, p) || is_share(g, q))
        fault_hint(f, "multiply the percentage by what it is a share of first");
    else if (is_count(g, p->unit) && is_count(g, q->unit))
        return; /* said already */
    else if (!hint_counts(a, b, f) && !hint_pair(a, b, f) && !hint_pair(b, a, f) && !hint_factor(g, p, q, f))
        hint_factor(g, q, p, f);
}

bool graph_fits(struct graph *g, struct qty a, struct qty b, const char *verb,
                struct fault *f)
{
    if (!qty_is(a) || !qty_is(b))
        return false;
    uint32_t x = graph_index(g, a), y = graph_index(g, b);
    const struct node *p = &g->nodes[x], *q = &g->nodes[y];
    if (p->kind == q->kind)
        return true;
    struct buf said;
    buf_init(&said);
    put_refusal(g, x, y, verb, &said);
    say(strcmp(verb, "compare") == 0 ? "dimension-compare" : "dimension-add", &said, f);
    hint(g, p, q, f);
    return false;
}

bool graph_compare(struct graph *g, struct qty a, struct qty b, int *out, struct fault *f)
{
    if (!graph_fits(g, a, b, "compare", f))
        return false;
    double x = graph_value(g, a), y = graph_value(g, b);
    double larger = fmax(fabs(x), fabs(y));
    *out = fabs(x - y) <= larger * 1e-12 ? 0 : x < y ? -1 : 1;
    return true;
}

bool graph_says_in(const struct graph *g, uint32_t x, struct unit_id unit,
                   struct fault *f)
{
    const struct node *p = &g->nodes[x];
    if (p->kind == unit_kind(g->units, unit))
        return true;
    struct buf said;
    buf_init(&said);
    graph_put(g, x, &said);
    buf_puts(&said, " is ");
    unit_says(g->units, p->unit, &said);
    if (unit.i == 0)
        buf_puts(&said, ": it is not a bare number");
    else
        buf_printf(&said, ": it cannot be said in %s, which is for ",
                   unit_name(g->units, unit, false));
    if (unit.i != 0)
        unit_says(g->units, unit, &said);
    return say("dimension-say", &said, f);
}

bool graph_not_finite(const struct graph *g, const char *verb, uint32_t x, uint32_t y,
                      struct fault *f)
{
    bool by_zero = strcmp(verb, "divide") == 0 && g->nodes[y].value == 0;
    struct buf said;
    buf_init(&said);
    buf_printf(&said, "cannot %s ", strcmp(verb, "subtract") == 0 ? "take" : verb);
    bool turned = strcmp(verb, "subtract") == 0;
    graph_put(g, turned ? y : x, &said);
    if (y) {
        buf_puts(&said, turned ? " from " : strcmp(verb, "add") == 0 ? " and " : " by ");
        graph_put(g, turned ? x : y, &said);
    }
    buf_puts(&said, by_zero ? ": that is zero"
                            : ": the result is too large to count with");
    return say(by_zero ? "divide-by-zero" : "value-not-finite", &said, f);
}
