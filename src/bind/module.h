/* module.h: rooms that are not in the program itself, because what they stand on is slow
 * to load: Lua C modules beside it, loaded when first needed.
 *
 *     sandbox_room(L, "maps", maps_room);
 *     static int maps_room(lua_State *L) { return module_open(L, "maps"); }
 *
 * spinney-maps.so is looked for in the folder of the running program and in ../lib/spinney
 * from there; nowhere else, so that no setting can lead to another. It uses the program's
 * own functions (the program exports them) and is never unloaded.
 *
 * The libraries of others that it brings take settings from the environment; a run depends
 * on its command line alone. So the process has no environment from here on, but for one
 * word that keeps PROJ to its own folder. */
#ifndef SPINNEY_BIND_MODULE_H
#define SPINNEY_BIND_MODULE_H

#include <stddef.h>

struct lua_State;

/* Names of the libraries that the library of maps stands on when this is built, the last
 * first, closed by NULL. Each is opened by itself before the module: so its names are looked
 * up in the few libraries that it stands on itself. Opened all at once, every one of 50,000
 * names would be looked up in a hundred libraries, which took half as long again. One that
 * is not there under this name is the business of the module. */
extern const char *const module_needs[];

/* Pushes what the module's luaopen_NAME gives. Fault: module-missing. */
int module_open(struct lua_State *L, const char *name);

#endif
