/* ask.h: what the built-in Lua asks of a room in one table of plain numbers and shapes.
 *
 *     double width = ask_number(L, 1, "width", 0);       // 0 when it is not said
 *     const struct shape *cover = ask_shape(L, 1, "cover", SHAPE_AREAS);
 *     ask.exits = ask_rows(L, 1, "exits", sizeof *ask.exits, read_exit, &ask.exit_count);
 *     ask.keep_outs = ask_areas(L, 1, "keep_outs", &ask.keep_out_count);
 *
 * A field of the wrong kind raises an error that names it. A shape is the table's, and
 * lives as long as that does. */
#ifndef SPINNEY_BIND_ASK_H
#define SPINNEY_BIND_ASK_H

#include <stdbool.h>
#include <stdint.h>

#include "ground/shape.h"

struct lua_State;

/* Finite and not below 0; `otherwise` when there is none. */
double ask_number(struct lua_State *L, int table, const char *key, double otherwise);
size_t ask_count(struct lua_State *L, int table, const char *key, size_t otherwise);
/* Any finite number; raises when there is none. */
double ask_place(struct lua_State *L, int table, const char *key);
bool ask_flag(struct lua_State *L, int table, const char *key);
/* Of that kind. NULL when there is none. */
const struct shape *ask_shape(struct lua_State *L, int table, const char *key,
                              enum shape_kind kind);
/* Of any kind; raises when there is none. */
const struct shape *ask_some_shape(struct lua_State *L, int table, const char *key);
/* The tables of a list, each read into a zeroed thing of that size; none of one that is not
 * there. The list and the things stay on the stack: what the tables hold may be kept. */
void *ask_rows(struct lua_State *L, int table, const char *key, size_t size,
               void (*read)(struct lua_State *L, int row, void *out), size_t *count);
/* The areas of a list likewise. */
const struct shape *const *ask_areas(struct lua_State *L, int table, const char *key,
                                     size_t *count);
/* Pushes one zeroed thing, which `gc` clears, whatever is raised; `name` is that of its
 * class. */
void *ask_held(struct lua_State *L, size_t size, const char *name,
               int (*gc)(struct lua_State *));

#endif
