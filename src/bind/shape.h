/* shape.h: shapes on the ground as values of our own Lua: need "shapes" makes them of
 * corners, need "maps" of maps and of one another (buffers, overlaps).
 *
 *     struct shape *s = shape_push(L, SHAPE_AREAS, "map farm.geojson, `Bench`");
 *     if (!map_shape(..., s, ...)) fault_raise(L, &f);    // Lua's collector owns it
 *     shape_made(L);                                      // its memory counts
 *
 * A shape is not changed once it is made. With it go its words: where it comes from, for
 * `why`. All numbers are plain, in feet and square feet, x east and y north; a list of
 * parts is { { x1, y1, x2, y2, ..., hole = true or nil }, ... }. */
#ifndef SPINNEY_BIND_SHAPE_H
#define SPINNEY_BIND_SHAPE_H

#include "ground/shape.h"

struct lua_State;

/* Pushes an empty one. `words` may be NULL. */
struct shape *shape_push(struct lua_State *L, enum shape_kind kind, const char *words);
/* The shape on top is filled: tells the limits of its memory, which may raise. */
void shape_made(struct lua_State *L);
/* Raises when it is no shape. */
const struct shape *shape_at_index(struct lua_State *L, int index);
/* Its words; the text belongs to the shape. */
const char *shape_words(struct lua_State *L, int index);
/* "point", "line" or "area", as scripts and maps say it. */
const char *shape_kind_word(enum shape_kind kind);
/* Pushes the table of methods: rooms add theirs. */
void shape_methods(struct lua_State *L);

int shapes_room(struct lua_State *L);

#endif
