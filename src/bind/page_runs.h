/* page_runs.h: runs of text as a report script gives them, read into a document: the part
 * of bind/page.c that knows values.
 *
 *     page_runs(L, 2, NULL);                       // raises when it is no run
 *     doc_paragraph(d), page_runs(L, 2, d);
 *
 * Every reader here works twice: without a document it only checks (and raises), with one
 * it writes; so that a fault leaves no half-written piece. Nothing here runs the author's
 * code: all access is raw. */
#ifndef SPINNEY_BIND_PAGE_RUNS_H
#define SPINNEY_BIND_PAGE_RUNS_H

#include <stddef.h>

struct doc;
struct lua_State;

/* The run or list of runs at that index; nil is no run at all. */
void page_runs(struct lua_State *L, int index, struct doc *d);
/* Raises unless the table at that index has no text keys but these; `what` is what it is
 * called in the message. */
void page_keys(struct lua_State *L, int index, const char *what, const char *const *keys,
               size_t count);
/* Pushes the field; returns its type. */
int page_field(struct lua_State *L, int index, const char *key);
/* The place of a text among `names`, `otherwise` for nil; raises for anything else. */
int page_choice(struct lua_State *L, int index, const char *key, const char *const *names,
                int count, int otherwise);

#endif
