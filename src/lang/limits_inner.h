/* limits_inner.h: what the parts of limits.h have in common. Not for others. */
#ifndef SPINNEY_LANG_LIMITS_INNER_H
#define SPINNEY_LANG_LIMITS_INNER_H

#include "lang/host.h"
#include "lang/limits.h"

enum {
    BYTES_PER_TICK = 64, /* memory written in about the time of one instruction */
    REST = 8 << 20       /* bytes in use before the collector starts: a plan makes less */
};

static inline struct limits *limits_of(struct lua_State *L)
{
    return host_of(L)->limits;
}

/* The collector's work is a tenth of a common run and frees next to nothing in it. Is it
 * awake now? */
bool limits_wake(struct lua_State *L, struct limits *l);

#endif
