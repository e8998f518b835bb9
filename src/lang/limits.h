/* limits.h: what a script may use: steps, memory, length of a text, coroutines, depth,
 * time; and how much it has used. A limit once passed ends the run: no script can catch
 * it.
 *
 *     limits_init(&limits);                    // the defaults; change what is asked for
 *     L = lua_newstate(limits_alloc, &limits);
 *     ... sandbox_open(L, host) and the rooms ...
 *     limits_start(L);                             // counts from here on
 *     ... host_call ...
 *     lua_close(L); limits_clear(&limits);
 *
 * A tick is an instruction of Lua, or work in C that takes about as long. What runs in C
 * is charged by its size before it is done (limits_charge), since no hook fires there. A
 * stop is kept in `stop` and raised again by every way a script has of catching an error
 * (guard.c); the hook fires at every instruction from then on. */
#ifndef SPINNEY_LANG_LIMITS_H
#define SPINNEY_LANG_LIMITS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/fault.h"
#include "lang/arena.h"
#include "lang/cells.h"

struct lua_State;

/* What a script reads from outside that takes work by its size: a map. */
struct limits_input {
    char name[160];
    size_t corners, features; /* corners: of areas, lines and points together */
    size_t bytes;             /* that it takes, about */
};

enum { INPUT_WHAT = 300, INPUT_MEND = 100 };

/* What the allocator has refused and nobody has told yet. */
enum refusal { REFUSED_NOTHING, REFUSED_MEMORY, REFUSED_STRING };

struct limits {
    /* What is allowed; set before limits_start. */
    uint64_t ticks_most;
    size_t bytes_most;        /* Lua's memory, and quantities and shapes with it */
    size_t string_most;       /* bytes of one text */
    uint64_t pattern_most;    /* steps of one pattern search */
    uint32_t coroutines_most; /* not yet finished at one time */
    uint32_t depth_most;      /* script functions called from C inside one another */
    double seconds_most;      /* of processor time; the last line, 0 for none */

    /* What is used. */
    uint64_t ticks;
    size_t lua_bytes, lua_bytes_peak;
    size_t native_bytes;      /* as last told by limits_native, */
    size_t graph_bytes;       /* of these the graph */
    size_t held_bytes;        /* beside them, as told by limits_hold */
    uint32_t coroutines;      /* at most this many are unfinished */
    uint32_t depth;
    uint32_t handlers;        /* of xpcall, each called for an error of the one before */

    struct limits_input input; /* the largest; no corners: none */
    size_t input_bytes;        /* of all inputs */
    uint64_t input_ticks;      /* of `ticks` */

    struct fault stop;        /* the limit that ended the run, not set while it goes on */
    struct fault scratch;     /* for checks that seldom fail; not set between two calls */
    struct cells cells;       /* blocks of measures */
    struct arena arena;       /* other small blocks, as long as it lasts */

    /* The rest is the module's own. */
    struct lua_State *running; /* the thread that runs now */
    bool started;
    bool resting;              /* the collector waits until there is enough to collect */
    bool learning;             /* the next userdata tells how a cell's block looks */
    double seconds_before;     /* of the processor, at the start */
    double asked;              /* when its clock was asked last */
    size_t allowed;            /* bytes_most and what set-up took */
    uint32_t looked;           /* measures made since the graph's memory was looked at */
    size_t native_told;        /* native bytes at the last word to the collector */
    enum refusal refused;
    size_t refused_size;
    struct span refused_at;
};

void limits_init(struct limits *l);
/* After lua_close. */
void limits_clear(struct limits *l);
/* The lua_Alloc of every state; `limits` is the struct. */
void *limits_alloc(void *limits, void *block, size_t old, size_t size);
/* What a stop needs, in protected mode (sandbox_open does it). */
void limits_open(struct lua_State *L);
/* From here on the script is counted. Allocates nothing. */
void limits_start(struct lua_State *L);
/* Instructions are not counted from here until limits_watch: what is built in ends by
 * itself, and so does a script without a loop or a function of its own. The count costs as
 * much as the instructions. What runs in C is charged all the same. */
void limits_trust(struct lua_State *L);
void limits_watch(struct lua_State *L);
/* Learns how a userdata without payload looks as a block: once, before cells_want. */
void limits_learn_cell(struct lua_State *L);

/* Both raise a stop when the budget is gone. */
void limits_charge(struct lua_State *L, uint64_t ticks);
/* Work that goes once through so many bytes. */
void limits_charge_bytes(struct lua_State *L, size_t bytes);
/* How many ticks are left. */
uint64_t limits_left(const struct limits *l);
/* What quantities and pages hold now, the graph included. Tells the collector
 * when that has grown (it knows only Lua's own bytes) and raises a stop when it is too
 * much. */
void limits_native(struct lua_State *L, size_t bytes);
/* A userdata holds so many bytes more outside of Lua (a shape, a map), and the same when
 * its finalizer has freed them; the first may raise as limits_native does, so after the
 * userdata owns them, which must remember how many it told. */
void limits_hold(struct lua_State *L, size_t bytes);
void limits_let_go(struct lua_State *L, size_t bytes);
/* The same as limits_native after the graph alone may have grown. */
void limits_graph(struct lua_State *L);
/* Around each call of a script's function from a C function (but lua_pcall and resume).
 *  */
void limits_enter(struct lua_State *L);
void limits_leave(struct lua_State *L);

/* A map was read: the largest is named where maps are to blame for a stop. Before its
 * bytes are held. */
void limits_input(struct lua_State *L, const struct limits_input *input);
/* As limits_charge, for work that grows with the corners of shapes. */
void limits_charge_input(struct lua_State *L, uint64_t ticks);
/* Did inputs take half of what was used? Of memory, else of the steps. */
bool limits_blames_input(const struct limits *l, bool memory);
/* What is too much in it, and the mend. */
void limits_say_input(const struct limits_input *input, char what[INPUT_WHAT],
                      char mend[INPUT_MEND]);
/* The watchdog blames the largest, from here on. */
void limits_suspect(struct lua_State *L);

/* Ends the run: does not return. The first stop stays. */
__attribute__((noreturn, format(printf, 4, 5)))
void limits_stop(struct lua_State *L, const char *id, const char *hint, const char *words,
                 ...);
/* Raises the stop that is set: does not return. */
__attribute__((noreturn)) void limits_raise(struct lua_State *L);
/* To be called by whatever catches an error, before a script sees it: raises when the
 * error was a stop, or a limit of Lua's own (memory, depth) that becomes one. The error
 * value is on top of `from`, which may be a coroutine. */
void limits_after_error(struct lua_State *L, struct lua_State *from, int status);
/* The same without raising, for host_call: was it one? */
bool limits_was_stop(struct lua_State *L, struct lua_State *from, int status);
/* Every new coroutine: charges it, counts it and gives it its hook. On top of L: the
 * thread. */
void limits_adopt(struct lua_State *L, struct lua_State *thread);

#endif
