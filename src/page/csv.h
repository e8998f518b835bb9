/* csv.h: a table as comma-separated values (RFC 4180), for spreadsheets.
 *
 *     struct csv c = { .out = &out };
 *     csv_text(&c, "opening 1", 9);
 *     csv_number(&c, -87.5, 7);
 *     csv_end(&c);                       // opening 1,-87.5000000 and CR LF
 *
 * Texts are put in quotes where a comma, a quote or a blank at either end wants it.
 * Spreadsheets take a text that starts with = + - or @ for a formula, and would run it:
 * such a text gets an apostrophe in front. Numbers are ours, and stay as they are. Bytes
 * that are no UTF-8 and characters that steer become question marks, line breaks and tabs
 * blanks, so every line is a row. */
#ifndef SPINNEY_PAGE_CSV_H
#define SPINNEY_PAGE_CSV_H

#include <stdbool.h>
#include <stddef.h>

struct buf;

struct csv {
    struct buf *out;
    bool begun; /* the row has a cell */
};

void csv_text(struct csv *c, const char *text, size_t length);
/* A fixed number of decimals, 0 to 9; an empty cell when it is not finite. */
void csv_number(struct csv *c, double value, int decimals);
void csv_empty(struct csv *c);
void csv_end(struct csv *c);

#endif
