/* flow.h: running text laid into lines of at most so many columns, with its styles.
 *
 *     struct flow w;
 *     flow_init(&w);
 *     flow_add(&w, "Bench aspen", 11, FLOW_BOLD);
 *     flow_break(&w, 40, 0);
 *     for (size_t i = 0; i < w.line_count; i++) flow_put(&w, i, colour, &out);
 *     flow_clear(&w);
 *
 * Blanks run together to one; lines break at blanks, in a word only when it is longer
 * than a line (then after a "-" or "/" where there is one). Control characters are
 * dropped here, so that nothing a person typed can steer the terminal. Out of memory sets
 * `failed`. */
#ifndef SPINNEY_PAGE_FLOW_H
#define SPINNEY_PAGE_FLOW_H

#include "base/buf.h"
#include "page/doc.h"

enum flow_style { FLOW_PLAIN, FLOW_BOLD, FLOW_RED, FLOW_YELLOW };

struct flow_cell { /* a character with what combines with it */
    size_t at, length;
    unsigned char columns, style;
    bool blank; /* a line may break here */
};

struct flow_line {
    size_t first, count; /* cells */
    int columns;
};

struct flow {
    struct buf text;
    struct flow_cell *cells;
    struct flow_line *lines;
    size_t cell_count, cell_capacity, line_count, line_capacity;
    bool failed;
};

void flow_init(struct flow *w);
void flow_clear(struct flow *w);
/* Empties it, keeping its memory. */
void flow_reset(struct flow *w);
void flow_add(struct flow *w, const char *text, size_t length, enum flow_style style);
/* The runs of a piece: plain ones in `style`, strong ones bold; a figure keeps number and
 * unit together, a date stays whole. After doc_settle. */
void flow_piece(struct flow *w, const struct doc *d, struct doc_piece p,
                enum flow_style style);
/* Lays the lines; may be called again with another width. Lines after the first have
 * `hang` columns less. At least one character stands on each, however narrow. */
void flow_break(struct flow *w, int columns, int hang);
/* Gives all of it one style. */
void flow_restyle(struct flow *w, enum flow_style style);
/* Columns on one line, and of its longest word. */
int flow_columns(const struct flow *w);
int flow_longest_word(const struct flow *w);
/* Appends a line, or a stretch of cells, without its end. */
void flow_put(const struct flow *w, size_t line, bool colour, struct buf *out);
void flow_put_cells(const struct flow *w, size_t first, size_t count, bool colour,
                    struct buf *out);
/* Breaks the text for the columns right of `indent` and prints all its lines; the first
 * goes where the output stands (at `indent`), the others are indented. */
void flow_print(struct flow *w, int indent, int columns, bool colour, struct buf *out);
/* A key and its value side by side, values starting `key_columns` + 2 after `indent`; a
 * longer key takes a line of its own. */
void flow_print_pair(struct flow *key, struct flow *value, int indent, int key_columns,
                     int columns, bool colour, struct buf *out);

#endif
