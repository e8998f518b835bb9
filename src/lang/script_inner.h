/* script_inner.h: how a script is kept, for the files that fill it and find places in it.
 *
 *     if (script_index(s, text, length)) token = s->tokens[i];
 */
#ifndef SPINNEY_LANG_SCRIPT_INNER_H
#define SPINNEY_LANG_SCRIPT_INNER_H

#include "lang/script.h"
#include "lang/tokens.h"

struct script {
    uint32_t source;
    char *text; /* rewritten */
    size_t text_length;
    /* Where Lua begins, behind a byte order mark and a # line; `loaded` is the newline of
     * that line where there is one. The same in the source and in `text`. */
    size_t loaded, start;
    struct literal *literals;
    size_t literals_count, literals_room;
    struct token *tokens; /* of the source; literals are one token each */
    size_t tokens_count, tokens_room;
    bool indexed;
};

/* Fills `tokens`, once; false when out of memory. */
bool script_index(struct script *s, const char *text, size_t length);
/* The literal that starts at this byte of the source, NULL for none. */
const struct literal *script_literal_at(const struct script *s, uint32_t at);
/* `start` and `loaded` of a text. */
size_t script_start(const char *text, size_t length, size_t *loaded);

#endif
