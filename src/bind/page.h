/* page.h: need "page": what a report script writes a paper with (page/doc.h). page.doc()
 * gives an empty document; the host takes it back and has it drawn.
 *
 *     local page = need "page"
 *     local d = page.doc()
 *     d:heading(1, "Quill Creek")
 *     d:paragraph { "Felling takes ", hours, " from ", start, { strong = "!" } }
 *     d:item { "keep every oak" }
 *     d:definition("Walked", walked)
 *     d:note { level = "caution", "No oak is wounded now.", ask = "...", source = "..." }
 *     d:table { columns = { "Act", { "Hours", align = "number" } },
 *               rows = { { "fell", hours } }, total = { "all", sum } }
 *     d:strip { rows = { { label = "fell", from = start, to = finish,
 *                          { from = open, to = close, mark = "open" } } } }
 *     d:rule() d:blank()
 *     return page.terminal(d)       -- its text, as wide as the run's settings say
 *
 * Tables for other programs are page.csv (bind/page_csv.h).
 *
 * A run is a text, a number, a measure (printed with its spread), a date, a window,
 * { strong = text } or { value = measure } (without its spread); wherever a run may
 * stand, a list of runs may. A column is a text or { text, align = "left" | "right" |
 * "number", wrap = true | false }; those set to the left wrap unless told otherwise. A
 * row of a strip has a label, a stretch of its own and any number of further ones, each
 * "planned" or "open" (when it may be done). Levels of a note are "stop", "caution" and
 * "note" (which is meant without one). Faults: page-run, page-key, page-value,
 * page-self. */
#ifndef SPINNEY_BIND_PAGE_H
#define SPINNEY_BIND_PAGE_H

struct doc;
struct lua_State;

/* Pushes the table: for sandbox_room(L, "page", page_room). */
int page_room(struct lua_State *L);
/* The document at that index, NULL when it is none. Borrowed while the value lives. */
struct doc *page_doc_at(struct lua_State *L, int index);

#endif
