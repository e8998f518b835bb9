/* syntax_inner.h: where the parser stopped, for the modules of syntax*.c only.
 *
 *     struct syntax s = ...;                  // token s.at of s.t is what Lua did not want
 *     if (!syntax_tell(&s)) ... Lua's own words
 */
#ifndef SPINNEY_LANG_SYNTAX_INNER_H
#define SPINNEY_LANG_SYNTAX_INNER_H

#include "base/fault.h"
#include "lang/index.h"

struct syntax {
    const struct sources *all;
    struct index t;
    size_t at;         /* the unwanted token; t.count at the end of the text or unknown */
    bool at_end;       /* the text ended too early */
    const char *words; /* Lua's message without its place */
    char near[80];     /* what it names behind "near" */
    struct span line;
    struct fault *out;
};

/* The text with a plain number in place of each literal, nothing moved, for the parser to
 * read again; the caller frees it. NULL when out of memory. */
char *syntax_plain(const struct index *t);
/* The fault of a text of which the parser read the tokens of `t` only. */
void syntax_say(struct lua_State *L, const struct index *t, const char *said,
                struct fault *out);
/* The innermost bracket or block that is open before token i; t.count for none. */
size_t syntax_open(const struct syntax *s, size_t i);
/* Sets the fault in words that fit; false when none do. */
bool syntax_tell(const struct syntax *s);
/* What a character means that Lua does not know: sets the fault, or returns false. */
bool syntax_character(const struct syntax *s);

#endif
