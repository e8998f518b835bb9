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

/* A place in one integer: source, line, and which name was called (from 1; 0 for
 * none). */
enum { PLACE_KIND_BITS = 8, PLACE_LINE_BITS = 24 };
/* The registry's list of the names that places can hold, primitives first. */
extern const char face_kinds_key;
/* The innermost line of an author's that is running, as a place. */
long long face_author_place(struct lua_State *L, int kind);
/* The number of a name among those a place can hold: one more when it is new, 0 when
 * there is no room for it (then a place is its line). */
int face_kind_number(struct lua_State *L, const char *name);

/* face_words.c: `host.face`, and the `handbook` of the scripts' vocabulary. */
void face_words_open(struct lua_State *L);
void face_words_install(struct lua_State *L);
void face_told_open(struct lua_State *L);
void face_scripts_open(struct lua_State *L);
/* Ends the script now: the faults told so far say why. Does not return. */
int face_raise_faults(struct lua_State *L);

#endif
