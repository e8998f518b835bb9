/* grid.h: a table of a document as text, fitted to so many columns.
 *
 *     if (!grid_print(d, block, (struct grid_look){ 2, 80, false }, &out, f)) ...
 *
 * A table that is too wide has first its headings wrapped, then the columns that may
 * wrap, the widest first; then the spreads of its numbers go below the numbers. One that
 * still does not fit is printed row by row, each as its first cell with the others named
 * below it. */
#ifndef SPINNEY_PAGE_GRID_H
#define SPINNEY_PAGE_GRID_H

#include "page/doc.h"

struct fault;

struct grid_look {
    int indent, columns; /* blanks before each line; columns of the page */
    bool colour;
};

__attribute__((warn_unused_result))
bool grid_print(const struct doc *d, const struct doc_block *table, struct grid_look look,
                struct buf *out, struct fault *f);

#endif
