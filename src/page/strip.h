/* strip.h: a year strip: when things are done, a row for each, a column a week. Any
 * renderer can draw it; this module draws it as text.
 *
 *     struct strip *s = strip_new();
 *     strip_row(s, "Fell the bench aspen", 20);
 *     strip_mark(s, STRIP_OPEN, nov_15, mar_31);
 *     strip_mark(s, STRIP_PLANNED, nov_16, dec_12);
 *     strip_text(s, 2, 80, &out, f);
 *
 * Weeks run from Monday and belong to the month that has their Thursday (as ISO 8601
 * gives weeks to years). Out of memory sets `failed`; later calls do nothing, drawing
 * refuses. */
#ifndef SPINNEY_PAGE_STRIP_H
#define SPINNEY_PAGE_STRIP_H

#include "base/buf.h"
#include "calendar/date.h"

struct fault;

enum strip_mark {
    STRIP_OPEN,    /* it may be done then */
    STRIP_PLANNED, /* it is to be done then: drawn over the other */
    STRIP_MARKS
};

struct strip_row {
    size_t at, length;         /* label, in `labels` */
    size_t first_mark, count;  /* in `marks` */
};

struct strip_stretch {
    enum strip_mark mark;
    struct date from, to; /* both included */
};

struct strip {
    struct buf labels;
    struct strip_row *rows;
    struct strip_stretch *marks;
    size_t row_count, row_capacity, mark_count, mark_capacity;
    bool failed;
};

struct strip *strip_new(void);
void strip_free(struct strip *s);
/* A new row at the bottom. */
void strip_row(struct strip *s, const char *label, size_t length);
/* A stretch of the newest row. A row may have many; `from` must not be after `to`. */
void strip_mark(struct strip *s, enum strip_mark mark, struct date from, struct date to);
/* Panels of a year from the month of the first mark (of less than a year when `columns`
 * are few), each with its rows, and one line on the signs used. A row stands in the
 * panels where it is planned; one that is not, where it may be done; one without marks in
 * the first; years without rows are left out. Without any mark at all there is no panel.
 * A row is a line: a label that is too long is cut (".."), unless another label would then
 * read the same: such a one goes on below.
 * Lines start with `indent` blanks, are at most `columns` (24 or more) wide and end in
 * "\n". */
__attribute__((warn_unused_result))
bool strip_text(const struct strip *s, int indent, int columns, struct buf *out,
                struct fault *f);

#endif
