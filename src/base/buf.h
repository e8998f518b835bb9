/* buf.h: the one growable text buffer. All output is built here and written once.
 *
 *     struct buf b;
 *     buf_init(&b);
 *     buf_puts(&b, "acres: ");
 *     fwrite(b.data, 1, b.length, stdout);
 *     buf_clear(&b);
 *
 * Out of memory sets `failed` and later calls do nothing: check it once, at the end.
 * `data` always ends in a NUL that `length` does not count (it is never NULL). */
#ifndef SPINNEY_BASE_BUF_H
#define SPINNEY_BASE_BUF_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

struct buf {
    char *data;
    size_t length, capacity;
    bool failed;
};

void buf_init(struct buf *b);
/* Frees the text; the buffer may be used again afterwards. */
void buf_clear(struct buf *b);
void buf_put(struct buf *b, const char *text, size_t length);
void buf_puts(struct buf *b, const char *text);
void buf_putc(struct buf *b, char c);
void buf_fill(struct buf *b, char c, size_t count);
/* For words and integers only: numbers with a point go through num.h, which knows no
 * locale. */
__attribute__((format(printf, 2, 3)))
void buf_printf(struct buf *b, const char *format, ...);
/* Hands the text over to the caller, who frees it with free(); NULL when it failed. */
char *buf_take(struct buf *b);

#endif
