/* doc.h: a paper before it is drawn: headings, paragraphs, items, tables, notes, strips,
 * made of runs of text, figures and dates. Renderers read it; it knows documents, not
 * forests.
 *
 *     struct doc *d = doc_new(graph);
 *     doc_heading(d, 1), doc_puts(d, "Quill Creek");
 *     doc_paragraph(d), doc_puts(d, "Felling takes "), doc_figure(d, hours, true);
 *     if (!terminal_print(d, look, &out, f)) ...
 *     doc_free(d);
 *
 * Each opening call (doc_heading, doc_cell, doc_ask ...) starts a piece of text; runs go
 * to the piece opened last. Out of memory is kept and told by doc_settle, so that writers
 * of papers need not ask after every word. Opened out of order (a cell without a row) is
 * a mistake of the program: asserted. */
#ifndef SPINNEY_PAGE_DOC_H
#define SPINNEY_PAGE_DOC_H

#include "calendar/date.h"
#include "page/printed.h"
#include "page/strip.h"

struct doc;

/* Borrows the graph, which must outlive the document; NULL where there are no figures. */
struct doc *doc_new(struct graph *g);
void doc_free(struct doc *d);

/* --- writing ---------------------------------------------------------------------- */

enum doc_level { DOC_LEVEL_STOP, DOC_LEVEL_CAUTION, DOC_LEVEL_NOTE };
enum doc_align {
    DOC_LEFT,
    DOC_RIGHT,
    DOC_NUMBER /* points, units and spreads under each other; such a column never wraps */
};
struct doc_column {
    const char *title; /* copied */
    size_t title_length;
    enum doc_align align;
    bool wrap; /* may be narrowed by wrapping its words */
};
enum { DOC_COLUMNS_MOST = 16 };

void doc_heading(struct doc *d, int level); /* 1 to 3 */
void doc_paragraph(struct doc *d);
void doc_item(struct doc *d);
/* A line "key: value"; neighbours are set under each other, those after an item under the
 * item. The runs are the value. */
void doc_definition(struct doc *d, const char *key, size_t length);
void doc_note(struct doc *d, enum doc_level level);
/* The small print of the note just opened: whom to ask, where it was published. */
void doc_ask(struct doc *d);
void doc_source(struct doc *d);
/* 1 to DOC_COLUMNS_MOST columns. Then rows, each with up to as many cells; what is left
 * out is empty. */
void doc_table(struct doc *d, const struct doc_column *columns, size_t count);
void doc_row(struct doc *d);
void doc_total(struct doc *d); /* the last row, set apart; no row may follow it */
void doc_cell(struct doc *d);
/* Owns the strip from here on, failing or not. */
void doc_strip(struct doc *d, struct strip *take);
void doc_rule(struct doc *d);
void doc_blank(struct doc *d); /* a wider gap than blocks have anyway */

void doc_text(struct doc *d, const char *text, size_t length);
void doc_strong(struct doc *d, const char *text, size_t length);
void doc_puts(struct doc *d, const char *text);
/* For a writer that ran out of memory itself: the document is refused. */
void doc_fail(struct doc *d);
/* "70 h (60 to 80)", or "70 h" without `spread`; QTY_NONE prints as "not known". */
void doc_figure(struct doc *d, struct qty q, bool spread);
/* "70 (60 to 80)": where a heading names the unit. */
void doc_bare(struct doc *d, struct qty q, bool spread);
void doc_date(struct doc *d, struct date when);

/* --- reading ---------------------------------------------------------------------- */

enum doc_run_kind { DOC_RUN_TEXT, DOC_RUN_STRONG, DOC_RUN_FIGURE, DOC_RUN_DATE };
struct doc_run {
    enum doc_run_kind kind;
    bool bare;         /* DOC_RUN_FIGURE: without its unit */
    size_t at, length; /* text; DOC_RUN_FIGURE: `at` is its number among the figures */
    struct date date;
};
struct doc_piece {
    size_t first, count; /* runs */
};
enum doc_block_kind {
    DOC_HEADING, DOC_PARAGRAPH, DOC_ITEM, DOC_DEFINITION, DOC_NOTE, DOC_TABLE,
    DOC_STRIP, DOC_RULE, DOC_BLANK
};
struct doc_block {
    enum doc_block_kind kind;
    int level;           /* of a heading, or enum doc_level */
    struct doc_piece body;   /* runs of all but tables, strips, rules and blanks */
    struct doc_piece key;    /* definition */
    struct doc_piece ask, source; /* note; count 0 when there is none */
    size_t first_column, columns, first_cell, rows; /* table */
    bool total;          /* the last of the rows is a total */
    struct strip *strip;
};
struct doc_table_column {
    struct doc_piece title;
    enum doc_align align;
    bool wrap;
};

/* Draws the spread of all figures in one call, and tells what went wrong while writing.
 * Renderers call it first; calling it again costs nothing. */
__attribute__((warn_unused_result)) bool doc_settle(struct doc *d, struct fault *f);
/* All of these are borrowed until the document next changes. */
const struct doc_block *doc_blocks(const struct doc *d, size_t *count);
const struct doc_run *doc_runs(const struct doc *d, struct doc_piece p);
const struct doc_table_column *doc_columns(const struct doc *d,
                                           const struct doc_block *table);
struct doc_piece doc_cell_at(const struct doc *d, const struct doc_block *table,
                             size_t row, size_t column);
/* Appends the run as it reads on paper, as written: what an output cannot show is for its
 * writer to escape. After doc_settle. */
void doc_print_run(const struct doc *d, const struct doc_run *r, struct buf *out);
/* Memory held, for limits. */
size_t doc_bytes(const struct doc *d);

#endif
