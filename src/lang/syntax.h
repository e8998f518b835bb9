/* syntax.h: what Lua's parser says about a text, in plain words, at the very place, with
 * the mend where one is easy.
 *
 *     if (luaL_loadbufferx(...) != LUA_OK) syntax_fault(L, id, lua_tostring(L, -1), &f);
 *     // f: "a comma is missing before `ground`", at plan.rx:3:3
 *
 * Lua knows the line only and stops at the first slip; which of several equal words on the
 * line it means is found by reading the text again, cut off behind each of them. */
#ifndef SPINNEY_LANG_SYNTAX_H
#define SPINNEY_LANG_SYNTAX_H

#include <stdint.h>

struct fault;
struct lua_State;

/* `said` is Lua's message; `id` the source that was read. Leaves the stack as it was. */
void syntax_fault(struct lua_State *L, uint32_t id, const char *said, struct fault *out);

#endif
