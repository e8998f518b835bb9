/* plainer.h: what Lua says about a mistake, in words for somebody who is not a
 * programmer.
 *
 *     plainer(L, "attempt to call a nil value (global 'cutt')", true, &f);
 *     // f: name-unknown, "there is no `cutt` here", hint "did you mean `cut`?"
 *
 * Texts that are not known here come through as they are, as script-error. Suggestions
 * are looked for among the vocabulary, the library functions and the names that the
 * author's running function can see. */
#ifndef SPINNEY_LANG_PLAINER_H
#define SPINNEY_LANG_PLAINER_H

#include <stdbool.h>

struct fault;
struct lua_State;

/* `authors`: it happened in a line of the author's, whose names are looked at; our own
 * Lua has names that would mean nothing to him. `f` is not set yet. */
void plainer(struct lua_State *L, const char *text, bool authors, struct fault *f);

/* Adds the nearest name that the author's running function can see, or that a library
 * has. */
void plainer_suggest(struct lua_State *L, const char *name, bool library, struct fault *f);

#endif
