/* utf8.h: one character of UTF-8 at a time, and how wide a terminal shows it.
 *
 *     uint32_t code;
 *     while (left > 0) {
 *         size_t step = utf8_next(text, left, &code);    // 1 and UTF8_BAD for a bad byte
 *         columns += utf8_width(code);
 *     }
 *
 * Characters that steer a terminal instead of showing something (control characters, and
 * those that turn the direction of text round) are told by utf8_steers: writers print a
 * question mark. */
#ifndef SPINNEY_BASE_UTF8_H
#define SPINNEY_BASE_UTF8_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define UTF8_BAD 0xFFFFFFFFu

struct buf;

/* Bytes of the first character, never 0 nor more than length; length must not be 0. */
size_t utf8_next(const char *text, size_t length, uint32_t *code);
bool utf8_steers(uint32_t code);
/* Columns: 0 for marks that sit on the letter before, 2 for wide ones, else 1 (Unicode 14,
 * whatever the locale). */
size_t utf8_width(uint32_t code);
/* Columns of a whole text, as utf8_put_plain shows it. */
size_t utf8_columns(const char *text, size_t length);
/* Appends the text with '?' for every bad byte and every character that steers. */
void utf8_put_plain(struct buf *out, const char *text, size_t length);

#endif
