/* face.h: the faces of the primitives (what a script calls), and the room "host" that the
 * built-in Lua reaches: faults at the author's place, layers, other scripts.
 *
 *     sandbox_room(L, "host", face_room);   // `need "host"`
 *     face_install(L);      // a face for each primitive, in the scripts' vocabulary
 *     struct span at = face_span(L, 2);     // the place that is argument 2
 *
 * A face is a C function, because only such a one still knows its caller's line when it
 * is called in tail position (`return cut { ... }`). It notes the place and hands on to
 * `enter(kind, place, ...)` of stdlib/prelude.lua. A place is a whole number that holds
 * the source, the line and which primitive was said, so that Lua can keep it and any
 * later message can find the very word. */
#ifndef SPINNEY_LANG_FACE_H
#define SPINNEY_LANG_FACE_H

#include <stdbool.h>
#include <stdint.h>

#include "base/source.h"

struct host;
struct lua_State;

/* `need "host"`: pushes its table. */
int face_room(struct lua_State *L);
/* Pushes nothing; needs the prelude. Raises on failure. */
void face_install(struct lua_State *L);
/* The span a place means: the primitive's name on its line. SPAN_NONE for nil and 0. */
struct span face_span(struct lua_State *L, int index);
struct span face_place_span(struct lua_State *L, int64_t place);

#endif
