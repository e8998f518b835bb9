/* failing.h: an allocator whose n-th request fails, for the tests of this room.
 *
 *     struct failing a = { .left = n };
 *     struct units *u = units_new_on(failing_memory(&a));
 *     ...
 *     assert_int_equal(a.held, 0);       // everything was given back
 */
#ifndef SPINNEY_TESTS_QUANTITY_FAILING_H
#define SPINNEY_TESTS_QUANTITY_FAILING_H

#include <stdlib.h>

#include "quantity/memory.h"

struct failing {
    long left; /* requests until one fails, and every one after it; below 0: none does */
    long long held;
};

static inline void *failing_resize(void *context, void *block, size_t old, size_t size)
{
    struct failing *a = context;
    if (size == 0) {
        a->held -= (long long)old;
        free(block);
        return NULL;
    }
    if (a->left == 0)
        return NULL;
    a->left -= a->left > 0;
    void *moved = realloc(block, size);
    if (moved)
        a->held += (long long)size - (long long)old;
    return moved;
}

static inline struct memory failing_memory(struct failing *a)
{
    return (struct memory){ failing_resize, a };
}

#endif
