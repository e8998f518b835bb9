/* sandbox.h: what a script may reach: a vocabulary built from nothing, over safe
 * functions of Lua's libraries; and the modules of our own that implement it.
 *
 *     sandbox_open(L, host);                       // protected: it can run out of memory
 *     sandbox_print_to(L, put, owner); sandbox_seed(L, seed);
 *     sandbox_room(L, "forest", bind_forest_open); // a room of C for `need "forest"`
 *     sandbox_vocabulary(L); lua_pushcfunction(L, cut); lua_setfield(L, -2, "cut");
 *     sandbox_script_env(L); host_load(L, "plan.rx", text, length, &f);
 *
 * A script gets an environment of its own; reading falls through to the vocabulary, which
 * no script can write. The libraries (`string`, `table`, ...) are read-only, and methods
 * of texts ("x"):rep(3) are the very same functions. Not offered: io, os, debug, package,
 * require, load and its kin, string.dump, string.pack, collectgarbage, rawget, rawset,
 * math.randomseed. Different from Lua: `pairs` and `next` go by sorted keys, `tostring`
 * and %s show no addresses, patterns and every long job in C are counted (limits.h),
 * table.sort is stable, `setmetatable` takes no __gc and no __mode. */
#ifndef SPINNEY_LANG_SANDBOX_H
#define SPINNEY_LANG_SANDBOX_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct host;
struct lua_State;
struct suggest;

/* Ties L to the host and builds everything below. */
void sandbox_open(struct lua_State *L, struct host *host);
/* Where `print` goes, a line at a time with its newline; without it, nowhere. */
void sandbox_print_to(struct lua_State *L,
                      void (*put)(void *owner, const char *text, size_t length),
                      void *owner);
/* What math.random starts from. */
void sandbox_seed(struct lua_State *L, uint64_t seed);

/* Pushes the table whose names every script knows; the rooms and the host add to it. */
void sandbox_vocabulary(struct lua_State *L);
/* Pushes a library's real table ("math"), for rooms that give one of its functions a
 * wider meaning. */
void sandbox_library(struct lua_State *L, const char *name);
/* Pushes a new environment for a script, over the vocabulary. */
void sandbox_script_env(struct lua_State *L);
/* Pushes the environment of our own modules: the safe functions, rawget, rawset, Lua's
 * own setmetatable, and `need`. */
void sandbox_module_env(struct lua_State *L);
/* A room written in C: `open` pushes its table, and runs when it is first needed. */
void sandbox_room(struct lua_State *L, const char *name, int (*open)(struct lua_State *));
/* Pushes what `need "name"` gives: a room, or the built-in module stdlib/NAME.lua; loaded
 * once. Raises when there is none, or when two modules need one another. */
void sandbox_need(struct lua_State *L, const char *name);

/* Offers what scripts know to "did you mean": the vocabulary, or (`library`) the
 * functions of the libraries. The texts live as long as L. */
void sandbox_offer(struct lua_State *L, bool library, struct suggest *s);

#endif
