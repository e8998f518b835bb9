/* narrow.h: from the line of a fault to the word on it.
 *
 *     narrow_call(L, &f, 0);              // the name of the function that raised it
 *     narrow_word(host, &f);              // the first name in `backquotes` of its message
 *
 * Lua knows lines only. A place that is a whole line shrinks to a name when that name
 * stands on the line just once; else the line stays. Nothing here raises. */
#ifndef SPINNEY_LANG_NARROW_H
#define SPINNEY_LANG_NARROW_H

#include <stdbool.h>

#include "base/source.h"

struct fault;
struct host;
struct lua_State;

/* To the name by which the author's running function calls what runs at the level below
 * it. `first` is the level of the function that raised: 0, or 1 in a message handler. */
void narrow_call(struct lua_State *L, struct fault *f, int first);
void narrow_word(const struct host *host, struct fault *f);
/* Is the name on that line asked whether it is there: `x or 3`, `if x then`, `x == nil`? */
bool narrow_is_asked(const struct host *host, struct span line, const char *name);

#endif
