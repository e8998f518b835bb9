/* num.h: numbers in and out, the same bytes under every locale.
 *
 *     double acres;
 *     if (num_read("3.4", 3, &acres) == 3) ...
 *     num_fixed(&out, 1234.5, 1, true);      // "1,234.5"
 *     num_trade(&out, 0.3441);               // "0.344"
 */
#ifndef SPINNEY_BASE_NUM_H
#define SPINNEY_BASE_NUM_H

#include <stdbool.h>
#include <stddef.h>

struct buf;

/* Reads a decimal number as Lua writes it (digits, point, exponent; ".5" and "5." too; no
 * sign, no hex, no inf or nan), correctly rounded. Returns how many bytes it took, 0 when
 * there is no number at the start or it is not finite. */
size_t num_read(const char *text, size_t length, double *out);
/* A fixed number of decimals (0 to 9), halves away from zero on the decimal value as
 * written with 15 significant digits, so 2.675 gives "2.68"; `thousands` puts commas.
 * Never prints "-0"; "?" when the value is not finite. */
void num_fixed(struct buf *out, double value, int decimals, bool thousands);
/* For papers: three significant digits at least, whole numbers from 100 up with commas at
 * thousands, no trailing zeros after the point: 0.344, 3.4, 12.5, 109, 3,150. At most
 * nine decimals, so that what is left of a difference of like sizes prints "0". */
void num_trade(struct buf *out, double value);
/* For data: 12 significant digits at most, without the zeros that end them; whole numbers
 * below 10^15 exactly, without a point; "null" when not finite. */
void num_data(struct buf *out, double value);

#endif
