/* scope.h: what is open at a place of a Lua text, which local names are seen there, and
 * the tokens just before it. Goes forward only, as far as it is asked to.
 *
 *     struct scope s;
 *     scope_init(&s, text, length, start, is_wanted, units);
 *     if (scope_to(&s, at) && scope_open(&s) == OPEN_CURLY) ...
 *     scope_clear(&s);
 *
 * Brackets and blocks are a flat stack; only local names that are `wanted` are kept. A
 * name is seen where Lua sees it: behind the whole `local` statement, from the body of
 * a loop or function on, in the condition of its own `repeat`. Literals already settled
 * count as one operand each. Text that is no Lua is walked without complaint. */
#ifndef SPINNEY_LANG_SCOPE_H
#define SPINNEY_LANG_SCOPE_H

#include "lang/tokens.h"

enum {
    SCOPE_DEEPEST = 256, /* Lua itself refuses more than 200 */
    SCOPE_BEFORE = 3
};

enum open { OPEN_TEXT, OPEN_BLOCK, OPEN_ROUND, OPEN_SQUARE, OPEN_CURLY, OPEN_PARAMETERS };

/* A literal, or what was refused in the place of one, in the text as written. */
struct stretch {
    uint32_t at, end;
    bool refused;
};

struct scope_frame {
    uint8_t open;     /* enum open */
    uint8_t awaits;   /* what the statement at hand is waiting for */
    bool operand;     /* the expression at hand could end here */
    uint32_t base;    /* locals before this frame */
    uint32_t pending; /* from here on, locals not yet seen */
};

struct scope_local {
    uint32_t at, length;
    bool seen;
};

struct scope {
    struct reader reader;
    const struct stretch *settled; /* may grow and move between calls */
    size_t settled_count, settled_next;
    struct token before[SCOPE_BEFORE]; /* [0] is the nearest; TOKEN_END: none */
    struct scope_frame frames[SCOPE_DEEPEST];
    size_t depth; /* of the innermost frame */
    struct scope_local *locals;
    size_t locals_count, locals_room;
    bool (*wanted)(void *with, const char *name, size_t length);
    void *with;
    bool too_deep, no_memory;
};

void scope_init(struct scope *s, const char *text, size_t length, size_t start,
                bool (*wanted)(void *, const char *, size_t), void *with);
void scope_clear(struct scope *s);
/* Goes on to `at`, the start of a token not before the last one asked for. False when the
 * text is nested too deep or memory ran out. */
bool scope_to(struct scope *s, size_t at);
enum open scope_open(const struct scope *s);
/* Is the innermost thing open a bracket, so that no statement can start here? */
bool scope_in_bracket(const struct scope *s);
bool scope_sees(const struct scope *s, const char *name, size_t length);

#endif
