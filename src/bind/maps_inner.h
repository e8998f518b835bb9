/* maps_inner.h: what the parts of the maps module have in common. Not for others. */
#ifndef SPINNEY_BIND_MAPS_INNER_H
#define SPINNEY_BIND_MAPS_INNER_H

#include <stdbool.h>
#include <stddef.h>

#include "lang/finder.h"

struct fault;
struct frame;
struct lua_State;
struct luaL_Reg;

enum { BESIDE_MOST = 5 };

/* The files of one map, the map itself first; Lua's collector owns them. */
struct map_files {
    struct found found[1 + BESIDE_MOST];
    size_t count;
};

/* Pushes none yet. */
struct map_files *map_files_new(struct lua_State *L);
/* Of the files at stack index 1: their bytes are not needed any more. */
int map_files_clear(struct lua_State *L);
/* Reads the map of that name and what goes with it. */
bool map_files_find(struct lua_State *L, const char *name, struct map_files *files,
                    struct fault *f);

/* Raises; work that took too long is put down to the largest map. */
__attribute__((noreturn)) void maps_raise(struct lua_State *L, struct fault *f);

/* A class of things that scripts cannot look into, with its methods. */
void maps_class(struct lua_State *L, const char *name, const struct luaL_Reg *methods,
                int (*gc)(struct lua_State *));
/* Adds `frame` to the room on top. */
void maps_frames(struct lua_State *L);
/* Raises when it is no frame. */
struct frame *maps_frame_at(struct lua_State *L, int index);

/* frame:handout("gpx" | "kml" | "geojson", { title =, route = name of the way through the
 * flags, flags = { { name =, kind =, note =, x =, y = }, ... }, shapes = { { name =,
 * kind =, note =, shape = }, ... } }): the text of a file. */
int frame_handout(struct lua_State *L, struct frame *frame);

#endif
