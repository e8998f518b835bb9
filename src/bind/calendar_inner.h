/* calendar_inner.h: what calendar.c, calendar_dates.c and calendar_year.c share; no other
 * file includes it.
 *
 *     char words[160];
 *     calendar_words(L, 2, words, sizeof words);     // "a date (Oct 14 2026)"
 */
#ifndef SPINNEY_BIND_CALENDAR_INNER_H
#define SPINNEY_BIND_CALENDAR_INNER_H

#include <lauxlib.h>

#include "bind/calendar.h"

/* Their addresses are the registry's keys of the metatables. */
extern const char calendar_date_key, calendar_day_key, calendar_window_key;

/* What any value is called in messages. */
void calendar_words(lua_State *L, int index, char *out, size_t size);
/* Raises: the operator does not work on the two values at 1 and 2. */
__attribute__((noreturn)) void calendar_refuse(lua_State *L, const char *symbol);
/* Pushes a method from upvalue 1, a table; raises when there is none of that name.
 * `parts` are what else may be asked. */
int calendar_method(lua_State *L, const char *const *parts);
/* Makes the metatable of a kind. */
void calendar_kind(lua_State *L, const char *name, const void *key, lua_CFunction index,
                   const luaL_Reg *operators, const luaL_Reg *methods);

/* Each makes its kinds and adds its functions to the table on top. */
void calendar_dates(lua_State *L);
void calendar_year(lua_State *L);

#endif
