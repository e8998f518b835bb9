/* tell.h: fields of the table on top of the stack, by which a room answers.
 *
 *     lua_createtable(L, 0, 2);
 *     tell_text(L, "name", opening->name);       // no field for NULL
 *     tell_number(L, "width", opening->width);
 *
 * They may raise, when memory ends. */
#ifndef SPINNEY_BIND_TELL_H
#define SPINNEY_BIND_TELL_H

#include <stdbool.h>
#include <stddef.h>

#include "calendar/date.h"
#include "ground/shape.h"

struct lua_State;

void tell_number(struct lua_State *L, const char *key, double value);
void tell_count(struct lua_State *L, const char *key, size_t value);
void tell_truth(struct lua_State *L, const char *key, bool value);
/* No field for NULL. */
void tell_text(struct lua_State *L, const char *key, const char *value);
void tell_date(struct lua_State *L, const char *key, struct date d);
/* Its x and y. */
void tell_point(struct lua_State *L, struct point at);

#endif
