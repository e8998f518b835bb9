/* fold.h: a line of words folded to a width, its indentation kept.
 *
 *     fold_line(&out, "rate = 45 USD/h, from plan.rx:12:9", 4, 80);
 *
 * Folds at blanks; what follows stands four columns deeper. FOLD_BLANK shows as a blank
 * that nothing folds at ("45 USD/h" stays together). A word too long for a line by itself
 * is cut: no line is ever wider than `width`. */
#ifndef SPINNEY_QUANTITY_FOLD_H
#define SPINNEY_QUANTITY_FOLD_H

struct buf;

#define FOLD_BLANK '\x1f'
enum { FOLD_NARROWEST = 20 }; /* widths below count as this */

/* Indentation beyond half the width is held there. Ends the line. */
void fold_line(struct buf *out, const char *text, int indent, int width);

#endif
