/* notes.h: a text in a language of its own, handed over inside a script (cruise notes,
 * the calls of a traverse), and where a fault in it is in what its author wrote.
 *
 *     struct notes n = notes_read(L, 1, 2);     // text; place, key, source at 2, 3, 4
 *     fault_set(&f, id, (struct span){ 0, from, length }, ...);
 *     notes_tell(L, &n, &f);                    // with the line and column of the script
 */
#ifndef SPINNEY_BIND_NOTES_H
#define SPINNEY_BIND_NOTES_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/source.h"

struct fault;
struct lua_State;

/* Inside a string of a script, or the text of a source of its own (a file), which tells
 * faults by itself. */
struct notes {
    const char *text;
    size_t length;
    struct span call; /* of the primitive */
    const char *key;  /* that has the text; "" when the call is given it alone */
    uint32_t source;  /* of the file; 0 for a string */
};

/* Borrowed from the stack: the text at one index; from another on the place, the key, and
 * the file's source or nil. */
struct notes notes_read(struct lua_State *L, int text, int place);
/* Where bytes of the notes are in what their author wrote; SPAN_NONE when the text was
 * not written there but made. */
struct span notes_place(struct lua_State *L, const struct notes *n, struct span at);
/* Keeps a fault whose place counts from the start of the notes. */
void notes_tell(struct lua_State *L, const struct notes *n, struct fault *f);
void notes_warn(struct lua_State *L, const struct notes *n, struct fault *f);

#endif
