/* labor.h: person-hours from amounts and rates. Rates are the trade's defaults or the
 * author's own (data, not held here); this is how they are put to work.
 *
 *     struct qty hours = labor_by_rate(g, area, rate, "mowing", f);   // ac, h/ac
 *     struct qty fell = labor_felling(g, classes, count, slowing, f);
 *     struct qty clean = labor_cleanup(g, fell, ratio, f);            // 2.5 h for each
 *
 * Results are the caller's to release, QTY_NONE on failure. Faults: those of the graph,
 * and rate-fit (with both sides in words), rate-zero. */
#ifndef SPINNEY_WORK_LABOR_H
#define SPINNEY_WORK_LABOR_H

#include "quantity/graph.h"

/* Hours for an amount: divided by a rate told as so much an hour (trees/h, ac/h, stumps
 * treated as stems/h), multiplied by one told as hours for so much (h/ac, h/ft). `name`
 * is what `why` calls it: "planting", "mowing"; "hours" is added to it. */
struct qty labor_by_rate(struct graph *g, struct qty amount, struct qty rate,
                         const char *name, struct fault *f);

/* Trees of one class of diameter and how many are felled in an hour. */
struct labor_class {
    struct qty trees, rate;
    const char *name; /* "8 to 12 in" */
};
/* The sum over classes. `speed`: what slope, tangles or snow leave of the rate (70
 * percent: the hours are divided by it), or QTY_NONE. */
struct qty labor_felling(struct graph *g, const struct labor_class *classes, size_t count,
                         struct qty speed, struct fault *f);
/* Limbing, bucking and piling as so many hours for each hour of felling. */
struct qty labor_cleanup(struct graph *g, struct qty felling, struct qty ratio,
                         struct fault *f);

#endif
