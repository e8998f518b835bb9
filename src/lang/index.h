/* index.h: a script's tokens with their text, as the finders of places look at them.
 *
 *     struct index t;
 *     if (index_of(s, all, &t) && index_is_sign(&t, i, '{')) ...
 */
#ifndef SPINNEY_LANG_INDEX_H
#define SPINNEY_LANG_INDEX_H

#include "lang/script_inner.h"

struct index {
    const char *text;
    size_t length;
    const struct token *list;
    size_t count;
    uint32_t source;
};

/* False when out of memory. */
bool index_of(struct script *s, const struct sources *all, struct index *t);
struct span index_span(const struct index *t, size_t first, size_t last);
bool index_is_text(const struct index *t, size_t i, const char *text);
bool index_is_sign(const struct index *t, size_t i, char c);
bool index_is_kind(const struct index *t, size_t i, enum token_kind kind);
/* The first token at or after a line; the token that starts a span, `count` for none. */
size_t index_line(const struct index *t, uint32_t line);
size_t index_token(const struct index *t, struct span at);
/* 1 where a bracket or block opens, -1 where one closes. */
int index_nesting(const struct index *t, size_t i);

#endif
