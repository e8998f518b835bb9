/* source.h: the texts an author wrote, and places in them.
 *
 *     struct sources *all = sources_new();
 *     uint32_t id = sources_add(all, "plan.rx", text, length);
 *     struct place p = source_place(all, (struct span){ id, 120, 4 });
 *     // p.file "plan.rx", p.line 7, p.column 12
 *
 * A span is a source and a stretch of its bytes; only here does it become a line and a
 * column. Columns count characters (UTF-8), from 1; a tab is one character. */
#ifndef SPINNEY_BASE_SOURCE_H
#define SPINNEY_BASE_SOURCE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct buf;
struct sources;

/* source 0 means "nowhere": no text to point at. */
struct span {
    uint32_t source, at, length;
};

struct place {
    const char *file; /* borrowed until sources_free; "" when nowhere */
    uint32_t line, column;
};

struct sources *sources_new(void);
void sources_free(struct sources *all);
/* Copies name and text. Returns the id, 0 when out of memory. */
uint32_t sources_add(struct sources *all, const char *name, const char *text,
                     size_t length);
/* The id of the text added under that name, 0 when there is none (the newest wins). */
uint32_t sources_find(const struct sources *all, const char *name);
const char *source_name(const struct sources *all, uint32_t id);
/* Borrowed until sources_free; NUL-terminated, but may hold NULs: use the length. */
const char *source_text(const struct sources *all, uint32_t id, size_t *length);
struct place source_place(const struct sources *all, struct span at);
/* The line (from 1) without its end; nowhere when past the end. */
struct span source_full_line(const struct sources *all, uint32_t id, uint32_t line);
/* The same without the blanks at either end: what carets go under when only the line of a
 * fault is known. */
struct span source_line(const struct sources *all, uint32_t id, uint32_t line);
/* Appends the line that holds `at`, then a line of carets under `at` and, when it is on
 * the same line, under `other`. Each of the two lines starts with four blanks. Long lines
 * are cut around the caret, control characters shown as '?'. */
void source_show(const struct sources *all, struct span at, struct span other,
                 struct buf *out);

#endif
