/* terminal.h: a document as text for a terminal of so many columns, with or without
 * colour.
 *
 *     struct terminal_look look = { .columns = 80, .colour = false };
 *     if (!terminal_print(doc, look, &out, f)) ...
 *     fwrite(out.data, 1, out.length, stdout);
 *
 * No line is ever wider than that. Colour adds SGR sequences and nothing else: without
 * them the text is the same. Whether standard output is a terminal, how wide it is and
 * what NO_COLOR says is for the caller to find out. */
#ifndef SPINNEY_PAGE_TERMINAL_H
#define SPINNEY_PAGE_TERMINAL_H

#include "page/doc.h"

struct fault;

enum { TERMINAL_COLUMNS = 80, TERMINAL_LEAST = 24, TERMINAL_MOST = 200 };

struct terminal_look {
    int columns; /* taken as TERMINAL_LEAST or TERMINAL_MOST when beyond; 0 is 80 */
    bool colour;
};

/* Settles the document, then appends it to `out`; on failure part of it may be there. */
__attribute__((warn_unused_result))
bool terminal_print(struct doc *d, struct terminal_look look, struct buf *out,
                    struct fault *f);

#endif
