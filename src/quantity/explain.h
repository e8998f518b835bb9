/* explain.h: `why`: a quantity as a tree in words and numbers.
 *
 *     struct explain_look look = { .width = 80, .depth = 12 };
 *     explain_text(g, sources, cost, look, &out, f);
 *
 *     felling cost = 3,150 USD (2,700 to 3,600)
 *       = hours x rate [plan.rx:7:1]
 *       hours = 70 h (60 to 80), from plan.rx:3:9
 *       rate = 45 USD/h, from plan.rx:5:8, rates of the region
 *     hangs wholly on: hours
 *
 * Named parts are shown once; a second time the line says "(above)". Each leaf says where
 * it came from, each step its formula in trade units, with the change of units where one
 * is needed to work it out on paper. Short unnamed parts stand inside the formula, longer
 * ones on lines of their own. Sums with many terms show the largest 12 and one line for
 * the rest. Names and words are shown without anything that would steer a terminal. */
#ifndef SPINNEY_QUANTITY_EXPLAIN_H
#define SPINNEY_QUANTITY_EXPLAIN_H

#include "quantity/graph.h"

struct buf;

struct explain_look {
    int width; /* columns to fold at */
    int depth; /* levels shown; deeper parts become one line with their value */
};

/* `sources` may be NULL: places are left out. Nothing for QTY_NONE. */
bool explain_text(struct graph *g, const struct sources *sources, struct qty a,
                  struct explain_look look, struct buf *out, struct fault *f);
/* "70 h (60 to 80)" or "45 USD/h": value and spread as papers print them, the unit named
 * once; "70 h (60 to 95, typically 73)" when skewed. NULL for no spread. */
struct spread;
void explain_figure(const struct graph *g, struct qty a, const struct spread *s,
                    struct buf *out);
/* "70 (60 to 80)": value and ends alone, in the unit that it is said in. */
void explain_bare(const struct graph *g, struct qty a, const struct spread *s,
                  struct buf *out);

#endif
