/* explain_inner.h: the parts of explain.h among themselves.
 *
 *     explain_node_figure(g, node, &spread, ' ', out);     // explain_figure.c
 *     explain_formula(g, node, node, out);                 // explain_formula.c
 */
#ifndef SPINNEY_QUANTITY_EXPLAIN_INNER_H
#define SPINNEY_QUANTITY_EXPLAIN_INNER_H

#include "quantity/node.h"

struct buf;
struct spread;

/* The longest sum that is written out in its formula, and how many terms are shown of a
 * longer one. */
enum { EXPLAIN_TERMS = 12 };

/* explain_figure.c. `blank` stands between words that should stay on one line. */
void explain_node_figure(const struct graph *g, uint32_t node, const struct spread *s,
                         char blank, struct buf *out);
/* A value in base units, in that unit or its neighbour, as the value of a line. */
void explain_value(const struct graph *g, struct unit_id unit, double base, char blank,
                   struct buf *out);

/* explain_words.c */
/* The text without what would steer a terminal. */
void explain_plain(const char *text, struct buf *out);
/* `before`, then "plan.rx:12:9, rates of the region". False when there is nothing to
 * say. */
bool explain_origin(const struct sources *sources, struct origin from, const char *before,
                    struct buf *out);
/* "hangs mostly on: felling rate 61 percent, ..."; nothing for what is certain. */
bool explain_hangs_on(const struct graph *g, const struct sources *sources, uint32_t node,
                      struct buf *out, struct fault *f);

/* explain_equation.c */
/* "height at age (site index 61 ft, age 90 yr)" */
void explain_equation(const struct graph *g, uint32_t node, struct buf *out);
/* What the printed result has to be multiplied by to come out as the line prints it. */
double explain_equation_change(const struct graph *g, uint32_t line, uint32_t node);
/* How the equation `whole` takes the part; NULL when it does not, or is none. */
const struct formula_operand *explain_operand(const struct graph *g, uint32_t whole,
                                              uint32_t part);
/* Is the part printed in the unit that the equation `whole` takes it in? */
bool explain_handed_as_printed(const struct graph *g, uint32_t whole, uint32_t part);
/* A value in base units in that very unit. */
void explain_in(const struct graph *g, struct unit_id unit, double base, struct buf *out);

/* explain_formula.c */
/* The node under other ways of saying it; an OP_NAME is not looked through. */
uint32_t explain_under(const struct graph *g, uint32_t node);
/* Base units in one of what the figure of the node is printed in; percentages count as
 * bare numbers, for whoever reads "60 percent x 5 ac" knows what to do. */
double explain_unit_size(const struct graph *g, uint32_t node);
/* Is the part's figure in the unit of the whole, where that matters (sums, choices)? */
bool explain_in_unit(const struct graph *g, uint32_t whole, uint32_t part);
/* What a compound node (neither leaf nor name nor another way of saying) is made of, in
 * words: "trees x hours per tree". `line` is the node whose figure the formula gives. */
void explain_formula(const struct graph *g, uint32_t line, uint32_t node,
                     struct buf *out);
/* Is the formula a sum with too many terms to be written out? */
bool explain_is_long(const struct graph *g, uint32_t line, uint32_t node);
size_t explain_terms(const struct graph *g, uint32_t sum);
/* Calls `see` for each part of the formula that stands for itself, in order, with the
 * compound that it is a direct part of. */
void explain_parts(const struct graph *g, uint32_t line, uint32_t node,
                   void (*see)(void *with, uint32_t whole, uint32_t part), void *with);

#endif
