/* raise.h: faults through Lua: how one is raised, caught, placed at the author's line and
 * told with the chain of prescriptions that led there.
 *
 *     lua_pushvalue(L, steps);                     // a function and its arguments
 *     host_chain_push(L, "prescription sprout-cover", place_of_apply);
 *     if (!host_call(L, 0, 0, &f)) fault_raise(L, &f);   // or faults_add
 *     host_chain_pop(L);
 *
 * host_call is the one protected call of the project: whatever was thrown (a fault, words
 * of Lua's, a table, nothing at all) comes out as a fault with a span, in plain words.
 * Only texts known to host->sources count as an author's; our own Lua never shows. */
#ifndef SPINNEY_LANG_RAISE_H
#define SPINNEY_LANG_RAISE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/fault.h"

struct lua_Debug;
struct lua_State;

/* The chain, faults as values of Lua, and what a trace said: once, in protected mode. */
void raise_open(struct lua_State *L);

/* Does not return. The fault gets the author's line when it has no place yet; a stop that
 * is under way (limits.h) goes first. */
__attribute__((noreturn)) void fault_raise(struct lua_State *L, const struct fault *f);
/* fault_raise of a new fault at the author's line; `hint` may be NULL. */
__attribute__((noreturn, format(printf, 4, 5))) void
fault_say(struct lua_State *L, const char *id, const char *hint, const char *format, ...);
/* The fault that a value on the stack is; false when it is none. */
bool fault_at(struct lua_State *L, int index, struct fault *out);
/* Puts a fault on the stack without raising it. */
void fault_push(struct lua_State *L, const struct fault *f);

/* Calls the function below `arguments` values. On failure the function and its arguments
 * are gone, nothing is pushed, `out` holds the fault; the chain is as it was before. */
bool host_call(struct lua_State *L, int arguments, int results, struct fault *out);
/* Runs a C function, which gets `with` as light userdata, in protected mode. */
bool host_protect(struct lua_State *L, int (*run)(struct lua_State *), void *with,
                  struct fault *out);
/* Compiles the text of a script, never bytecode. `name` is its name in host->sources. On
 * top: the environment, replaced by the function; on failure it is gone. */
bool host_load(struct lua_State *L, const char *name, const char *text, size_t length,
               struct fault *out);

/* What led to where a script is: "prescription sprout-cover" applied at a place. The
 * words are copied. A failed host_call, and a script's pcall, take off what was put on in
 * it. */
void host_chain_push(struct lua_State *L, const char *words, struct span at);
/* The same with a place that is only looked up when a fault is told. */
void host_chain_push_place(struct lua_State *L, const char *words,
                           struct span (*where)(struct lua_State *, int64_t),
                           int64_t place);
void host_chain_pop(struct lua_State *L);
size_t host_chain_depth(struct lua_State *L);
void host_chain_cut(struct lua_State *L, size_t depth);

/* Appends ", in prescription sprout-cover, applied at plan.rx:7" to a fault's message,
 * for each link: for faults that are told without being raised; host_call does it by
 * itself. */
void host_chain_tell(struct lua_State *L, struct fault *f);

/* The line of the author's that runs innermost in this thread; false when there is none.
 * Allocates nothing. */
bool raise_author(struct lua_State *L, struct span *out);
/* That function, with its source, line and level in place for lua_getinfo, lua_getlocal.
 *  */
bool raise_author_frame(struct lua_State *L, struct lua_Debug *out, struct span *line);
/* Lua's "plan.rx:7: words": the words, and the line when it is an author's. Returns NULL
 * when the text does not start with a place. */
const char *raise_prefix(struct lua_State *L, const char *text, struct span *out);
/* Lua's own traceback of the last fault, "" unless host->trace. Borrowed until the next.
 *  */
const char *host_last_trace(struct lua_State *L);

#endif
