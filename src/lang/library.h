/* library.h: the parts of what scripts reach, a file each: library_base.c (with pairs and
 * tostring), guard.c, library_string.c, library_pattern.c, library_table.c,
 * library_math.c. Only these and sandbox.c include it.
 *
 *     lua_newtable(L);
 *     library_base(L);      // adds its functions to the table on top
 */
#ifndef SPINNEY_LANG_LIBRARY_H
#define SPINNEY_LANG_LIBRARY_H

#include <lua.h>
#include <stddef.h>
#include <stdint.h>

/* Pushes Lua's own base library, for sandbox.c to take from. */
void library_lua_base(lua_State *L);
/* Each adds to the table on top. */
void library_base(lua_State *L);
void library_pairs(lua_State *L);
void library_guard(lua_State *L); /* pcall, xpcall */
void library_coroutine(lua_State *L);
void library_string(lua_State *L);
void library_pattern(lua_State *L); /* find, match, gmatch, gsub */
void library_table(lua_State *L);
void library_sort(lua_State *L);
void library_math(lua_State *L);
void random_seed(lua_State *L, uint64_t seed);
void library_utf8(lua_State *L);

/* Copies named functions of the table below the top into the table on top, as they are.
 *  */
void library_take(lua_State *L, const char *const *names);
/* The same, each charged by the length of the texts it is given. */
void library_take_charged(lua_State *L, const char *const *names);
/* The same, each charged by how many results it gives. */
void library_take_counted(lua_State *L, const char *const *names);
/* What `tostring` gives, pushed: calls __tostring, shows no address. */
const char *library_tostring(lua_State *L, int index, size_t *length);
/* Charges `ticks` before so much work is begun; names the function when it is too much.
 *  */
void library_charge(lua_State *L, const char *function, uint64_t ticks);
/* Ends the run when a text of `length` bytes may not be made. */
void library_text(lua_State *L, const char *function, size_t length);

#endif
