/* glyph.h: UTF-8 text one character at a time, with the columns each takes on a terminal.
 *
 *     struct glyph g;
 *     for (size_t i = 0; i < length; i += g.bytes) {
 *         g = glyph_next(text + i, length - i);
 *         columns += g.columns;
 *     }
 *
 * Knows no locale: how wide a character is tells base/utf8.h. Bytes
 * that are no UTF-8 come out as U+FFFD, control characters as none, and so do those that
 * turn the direction of the text (one thing could be written and another shown). */
#ifndef SPINNEY_PAGE_GLYPH_H
#define SPINNEY_PAGE_GLYPH_H

#include <stddef.h>
#include <stdint.h>

struct buf;

enum glyph_kind {
    GLYPH_SHOWN,     /* takes columns */
    GLYPH_COMBINING, /* belongs to the one before it, takes none */
    GLYPH_BLANK,     /* a blank, tab or line end: a line may break here */
    GLYPH_STIFF,     /* a blank at which no line may break (U+00A0, U+202F) */
    GLYPH_REMOVED    /* a control character: never printed */
};

struct glyph {
    uint32_t code;
    enum glyph_kind kind;
    int columns; /* 0, 1 or 2 */
    size_t bytes; /* taken from the text, at least 1 */
};

/* `length` must not be 0. */
struct glyph glyph_next(const char *text, size_t length);
/* Columns of a whole text, removed characters counting none. */
int glyph_columns(const char *text, size_t length);
/* Appends the text as sound UTF-8: what is none becomes U+FFFD, everything else stays. */
void glyph_mend(struct buf *out, const char *text, size_t length);

#endif
