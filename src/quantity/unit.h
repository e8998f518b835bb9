/* unit.h: units: names, exact factors, compound units, and how a quantity is said.
 *
 *     struct units *u = units_new();
 *     struct unit_id id;
 *     if (units_find(u, "ft2/ac", 6, &id, f)) factor = unit_factor(u, id);
 *
 * Simple units come from one table (NIST SP 811 and Handbook 44, source beside each
 * factor); compound units are products and quotients of them with whole powers, written
 * without blanks ("ft2/ac", "gal/ac", "USD/h", "h/ac"), and are interned on first use, so
 * an id is small and comparing ids compares units. Id 0 is the bare number.
 *
 * "Per land": a compound with a land area (ac, ha) below the line and a length, area or
 * volume above it (ft2/ac, gal/ac, cord/ac) is kept as said and is not mixed with the
 * plain dimension it would cancel to: 80 ft2/ac is neither 0.0018 nor, later, a
 * percentage. */
#ifndef SPINNEY_QUANTITY_UNIT_H
#define SPINNEY_QUANTITY_UNIT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "quantity/dim.h"

struct buf;
struct fault;
struct units;

struct unit_id {
    uint16_t i;
};
#define UNIT_NUMBER ((struct unit_id){ 0 })
/* No unit: out of memory, or more parts or higher powers than a unit has. */
#define UNIT_NONE ((struct unit_id){ UINT16_MAX })
static inline bool unit_is(struct unit_id id) { return id.i != UINT16_MAX; }

struct units *units_new(void);
void units_free(struct units *u);

/* Reads a unit as typed: "ft", "feet", "ft2/ac", "USD/h", "fl oz", "board ft" (one blank
 * in the two-word units). Faults: unit-unknown, with the nearest name as hint,
 * unit-powers, unit-full. No span is set: the caller knows it. Printed names read back,
 * "1/ac" and "trees*h" too; fractional powers alone do not. */
bool units_find(struct units *u, const char *text, size_t length, struct unit_id *out,
                struct fault *f);
/* How many bytes of `text` a unit takes at its very start, 0 for none: the longest
 * reading wins ("fl oz" over "fl"). Used by the literal reader. */
size_t units_match(struct units *u, const char *text, size_t length, struct unit_id *out);
/* Is this one word the name of a simple unit (singular, plural or abbreviation)? */
bool units_is_name(const struct units *u, const char *word, size_t length);
/* Offers every simple name to `s` (suggest.h). */
struct suggest;
void units_offer(const struct units *u, struct suggest *s);

/* Packs: a new unit. With `like` NULL a new dimension base (a currency, a count) whose
 * unit it is; else `factor` times the known unit `like`. The very same definition again
 * is no fault. Faults: unit-name, unit-taken, unit-factor, unit-like (per land),
 * unit-unknown, unit-full. */
bool units_define(struct units *u, const char *name, const char *plural, const char *like,
                  double factor, const char *source, struct fault *f);

struct dim unit_dim(const struct units *u, struct unit_id id);
/* Base units in one of it. */
double unit_factor(const struct units *u, struct unit_id id);
bool unit_is_per_land(const struct units *u, struct unit_id id);
/* Short name as printed after a number: "ft2/ac", "trees", "h". Borrowed until
 * units_free. `one` picks the singular ("1 tree"). */
const char *unit_name(const struct units *u, struct unit_id id, bool one);
/* "a length", "an area", "working time", "basal area per area of land", "trees per area",
 * "a bare number": what a message calls a dimension said in that unit. */
void unit_says(const struct units *u, struct unit_id id, struct buf *out);
/* Lists the simple units in table order, for help and tests; false past the end. */
struct unit_row {
    const char *name, *plural, *words, *source;
    struct dim dim;
    double factor;
};
bool units_row(const struct units *u, size_t index, struct unit_row *out);

/* The unit in which a result is said, from those of its operands; mixed units of one
 * dimension are brought together (ft x in is ft2), cancelled pairs vanish, per-land is
 * kept. Memoised: cheap enough for every operation. UNIT_NONE as said there; the rules
 * are written out in unit_result.c. */
struct unit_id unit_multiply(struct units *u, struct unit_id a, struct unit_id b);
struct unit_id unit_divide(struct units *u, struct unit_id a, struct unit_id b);
struct unit_id unit_power(struct units *u, struct unit_id a, int numerator,
                          int denominator);
/* The trade's usual unit for a dimension ("ft", "ac", "h", "gal"), for results whose
 * operands leave none; UNIT_NONE as above. */
struct unit_id unit_usual(struct units *u, struct dim d);
/* "3.4 ac", "109 ft2/ac", "1 tree": `base` is in base units. Said in the unit given, but
 * for a figure below 0.01 of it or above 10,000, which moves to its neighbour (in and ft,
 * ft2 and ac, fl oz and gal, oz and lb, min and h): 43,560 ft2 is printed as "1 ac". */
void unit_print(const struct units *u, struct unit_id id, double base, struct buf *out);

#endif
