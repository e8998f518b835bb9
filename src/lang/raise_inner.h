/* raise_inner.h: what is kept while something runs that may raise: what led to it, and the
 * fault that was caught. For the parts of raise.h, not for others. */
#ifndef SPINNEY_LANG_RAISE_INNER_H
#define SPINNEY_LANG_RAISE_INNER_H

#include "lang/raise.h"

enum { CHAIN_MOST = 16 };

struct link {
    char words[120];
    struct span at; /* unless `where` is to be asked, which is dear */
    struct span (*where)(struct lua_State *, int64_t);
    int64_t place;
};

struct raise {
    struct link chain[CHAIN_MOST];
    size_t depth;        /* may pass CHAIN_MOST: the rest is counted, not kept */
    struct fault caught; /* by the message handler, until host_call takes it */
    bool loading;        /* the parser runs: what overflows is the text's nesting */
};

/* NULL before raise_open. */
struct raise *raise_of(struct lua_State *L);
/* The place of the innermost link of the chain; SPAN_NONE when there is none. */
struct span raise_chain_place(struct lua_State *L);

#endif
