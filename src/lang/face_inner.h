/* face_inner.h: the parts of the room "host", each a file that adds its functions to the
 * table on top of the stack.
 *
 *     luaL_newlib(L, functions);
 *     face_told_open(L);
 *     face_scripts_open(L);
 */
#ifndef SPINNEY_LANG_FACE_INNER_H
#define SPINNEY_LANG_FACE_INNER_H

struct lua_State;

void face_told_open(struct lua_State *L);
void face_scripts_open(struct lua_State *L);
/* Ends the script now: the faults told so far say why. Does not return. */
int face_raise_faults(struct lua_State *L);

#endif
