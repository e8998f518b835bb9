/* graph.h: the expression graph: every quantity of a plan, what it is made of and where
 * each part came from.
 *
 *     struct graph *g = graph_new(units);
 *     struct qty hours = graph_range(g, 2, 2.5, 3, h, key, source);
 *     struct qty cost = graph_multiply(g, hours, rate, f);
 *     graph_name(g, &cost, "felling cost", span);
 *     graph_release(g, hours);            // the node lives on as a part of cost
 *
 * Nodes live in one array, operands always before what is made of them, so that
 * evaluating, drawing, explaining and marking are loops. Callers never hold a node: they
 * hold a `struct qty`, a small number for a slot that points at one. Every qty handed out
 * is the caller's until graph_release or the end of a scope. Nodes that nothing held can
 * reach are dropped by marking and compaction, in order, when the array has doubled; keys
 * of draws do not depend on where a node lies, so no result depends on when that was.
 *
 * Values are kept in base units (unit.h) as doubles; a node whose value is not finite is
 * refused when it is made. Operations return the id 0 (QTY_NONE) and set the fault when
 * refused; operations on QTY_NONE return QTY_NONE, so that a chain needs one check.
 * Faults carry no span (the caller knows it): dimension-add, dimension-compare,
 * dimension-say, dimension-power, unit-powers, unit-full, value-not-finite,
 * divide-by-zero, range-order, memory. */
#ifndef SPINNEY_QUANTITY_GRAPH_H
#define SPINNEY_QUANTITY_GRAPH_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/source.h"
#include "quantity/unit.h"

struct fault;
struct graph;

struct qty {
    uint32_t slot;
};
#define QTY_NONE ((struct qty){ 0 })
static inline bool qty_is(struct qty q) { return q.slot != 0; }

/* Where a leaf comes from: a place in a script, or words naming a table, its layer and
 * its publication ("felling rate, stdlib: common practice, no source"), or both. */
struct origin {
    struct span at;
    const char *words; /* copied (interned) by the graph; NULL for none */
};

struct graph *graph_new(struct units *u); /* borrows u */
void graph_free(struct graph *g);
struct units *graph_units(const struct graph *g);

/* Leaves. `value` is in `unit`. */
struct qty graph_leaf(struct graph *g, double value, struct unit_id unit,
                      struct origin from, struct fault *f);
/* An uncertain leaf: 10th percentile, likely (median), 90th percentile, in `unit`. `key`
 * says which draw it is: the same key is the same draw. Refuses low > likely or
 * likely > high (range-order). low == high is a plain leaf. */
struct qty graph_range(struct graph *g, double low, double likely, double high,
                       struct unit_id unit, uint64_t key, struct origin from,
                       struct fault *f);
/* One shared cause of doubt: a draw of its own, by key, and how strongly it moves a leaf
 * (below zero: the other way). */
struct cause {
    uint64_t key;
    double weight;
};
/* An uncertain leaf that shares its doubt with others, as the figures of one tally do:
 *
 *     struct cause plots[2] = { { plot_1, 0.4 }, { plot_2, -0.4 } };
 *     struct qty oak = graph_shared(g, 60, 70, 80, unit, plots, 2, source, f);
 *
 * Low, likely and high are its 10th, 50th and 90th percentiles, as for graph_range, and
 * read back exactly; which draw goes with which is told by its causes. The standard score
 * of the leaf in a draw is the sum of weight x score over them, the weights scaled to a
 * square sum of 1 (a key that is there twice counts once, with the sum of its weights).
 * Two leaves with the same causes in the same proportion rise and fall together; with
 * none in common they are independent; else they are correlated as the weights are (their
 * scalar product over their lengths). One cause is the draw of a range of that key.
 * Copied. Weights may be 0; all 0, or one that is no number, is value-not-finite. */
struct qty graph_shared(struct graph *g, double low, double likely, double high,
                        struct unit_id unit, const struct cause *causes, size_t count,
                        struct origin from, struct fault *f);
/* The key of a draw from what the leaf is: a name or file, a position, an occurrence. */
uint64_t graph_key(const char *name, uint32_t position, uint32_t occurrence);

struct qty graph_add(struct graph *g, struct qty a, struct qty b, struct fault *f);
struct qty graph_subtract(struct graph *g, struct qty a, struct qty b, struct fault *f);
struct qty graph_multiply(struct graph *g, struct qty a, struct qty b, struct fault *f);
struct qty graph_divide(struct graph *g, struct qty a, struct qty b, struct fault *f);
struct qty graph_negate(struct graph *g, struct qty a, struct fault *f);
/* a times a bare number, a divided by nothing: the number becomes a leaf of its own. */
struct qty graph_scale(struct graph *g, struct qty a, double by, struct fault *f);
/* Whole powers -6 to 6 and roots 1/2, 1/3. */
struct qty graph_power(struct graph *g, struct qty a, int numerator, int denominator,
                       struct fault *f);
struct qty graph_min(struct graph *g, struct qty a, struct qty b, struct fault *f);
struct qty graph_max(struct graph *g, struct qty a, struct qty b, struct fault *f);
struct qty graph_sum(struct graph *g, const struct qty *terms, size_t count,
                     struct fault *f);
/* Up to a whole number of `unit` (whole plants, whole tanks); floor likewise, down. A
 * value within 1e-9 of a whole number counts as that number. */
struct qty graph_ceil(struct graph *g, struct qty a, struct unit_id unit,
                      struct fault *f);
struct qty graph_floor(struct graph *g, struct qty a, struct unit_id unit,
                       struct fault *f);
/* The same quantity, said in another unit of its dimension (a node only for saying). */
struct qty graph_say_in(struct graph *g, struct qty a, struct unit_id unit,
                        struct fault *f);

/* What a handbook's equation computes. */
struct formula {
    const char *name; /* for `why`: "height at age" */
    /* Pure; NAN where it cannot be computed. Never asked about what is no number. */
    double (*value)(const double *x, const double *with);
};
struct operand {
    struct qty of;
    struct unit_id in; /* x[i] is handed over in this unit */
    const char *name;  /* what `why` calls it: "site index"; static, or NULL */
};
enum { FORMULA_OPERANDS_MOST = 8, FORMULA_WITH_MOST = 16 };
/* The value of an equation over quantities, 1 to FORMULA_OPERANDS_MOST of them:
 *
 *     static const struct formula height = { "height at age", height_at_age };
 *     struct operand of[] = { { site, ft, "site index" }, { age, yr, "age" } };
 *     struct qty h = graph_formula(g, &height, coefficients, 5, of, 2, ft, source, f);
 *
 * What it computes is in `unit`; its draws are worked out from those of its operands, and
 * it is uncertain when one of them is. `with`: the numbers of the equation, copied.
 * `formula` must outlive the graph. `from.words` names the publication: `why` shows it
 * beside the equation. Faults: dimension-say, value-not-finite. */
struct qty graph_formula(struct graph *g, const struct formula *formula,
                         const double *with, size_t with_count,
                         const struct operand *operands, size_t count,
                         struct unit_id unit, struct origin from, struct fault *f);

/* Gives *a a name for `why` (a node of its own over the old one; *a is replaced). `how`
 * says the formula's origin or NULL. The name survives as long as anything uses it. */
bool graph_name(struct graph *g, struct qty *a, const char *name, struct origin how,
                struct fault *f);

/* Another hold on the same quantity: a qty of its own, to be released on its own.
 * QTY_NONE, and the fault, when out of memory. */
__attribute__((warn_unused_result)) struct qty graph_hold(struct graph *g, struct qty a,
                                                          struct fault *f);
void graph_release(struct graph *g, struct qty a);
/* Everything handed out since the mark is released at once, but what is in `keep`. Scopes
 * nest. A mark of 0 (out of memory) closes nothing. */
uint32_t graph_scope_open(struct graph *g);
void graph_scope_close(struct graph *g, uint32_t mark, const struct qty *keep,
                       size_t count);

double graph_value(const struct graph *g, struct qty a); /* base units */
double graph_value_in(const struct graph *g, struct qty a, struct unit_id unit);
struct dim graph_dim(const struct graph *g, struct qty a);
struct unit_id graph_unit(const struct graph *g, struct qty a); /* said in */
bool graph_is_uncertain(const struct graph *g, struct qty a);
const char *graph_name_of(const struct graph *g, struct qty a); /* NULL when unnamed */
/* -1, 0, 1 by likely values, equal within 1 part in 10^12. */
bool graph_compare(struct graph *g, struct qty a, struct qty b, int *out,
                   struct fault *f);
/* May the two be added or compared? Sets dimension-add / dimension-compare with both
 * sides in words ("15 ft is a length, 3 ac is an area"). `verb` is "add", "subtract" or
 * "compare". */
bool graph_fits(struct graph *g, struct qty a, struct qty b, const char *verb,
                struct fault *f);

/* Memory, for limits and for the collector's pace. */
size_t graph_bytes(const struct graph *g);
size_t graph_nodes(const struct graph *g);
/* Drops what nothing held can reach, now (the tests call it at awkward moments). */
void graph_collect(struct graph *g);

#endif
