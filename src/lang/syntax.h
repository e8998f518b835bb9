/* syntax.h: what Lua's parser says about a text, in plain words, at the very place, with
 * the mend where one is easy.
 *
 *     if (luaL_loadbufferx(...) != LUA_OK) syntax_fault(L, id, lua_tostring(L, -1), &f);
 *     // f: "a comma is missing before `ground`", at plan.rx:3:3
 *
 * Lua knows the line only, and stops at the first slip (syntax_more goes on from there);
 * which of several equal words on the line it means is found by reading the text again, cut
 * off behind each of them. */
#ifndef SPINNEY_LANG_SYNTAX_H
#define SPINNEY_LANG_SYNTAX_H

#include <stdint.h>

struct fault;
struct faults;
struct lua_State;

/* `said` is Lua's message; `id` the source that was read. Leaves the stack as it was. */
void syntax_fault(struct lua_State *L, uint32_t id, const char *said, struct fault *out);
/* The slips behind the first, up to four, each in a statement of its own: the parser starts
 * again where a line begins a statement in its first column. What only the part left out
 * could have made wrong (an `end` too many, a label) ends the search. */
void syntax_more(struct lua_State *L, uint32_t id, const struct fault *first,
                 struct faults *all);

#endif
