/* failing.h: memory that runs out at the n-th asking, for a test that includes this
 * first: malloc and its kin of the whole program go through here.
 *
 *     failing_after = 3;           // three more are granted, the next and all after fail
 *     ...
 *     failing_after = SIZE_MAX;    // granted again
 *     if (!failing_seen) ...       // it never came to that
 */
#ifndef SPINNEY_TESTS_PAGE_FAILING_H
#define SPINNEY_TESTS_PAGE_FAILING_H

#ifndef _GNU_SOURCE
#define _GNU_SOURCE /* RTLD_NEXT */
#endif
#include <dlfcn.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>

/* Asked for before the sanitizers have set themselves up, so not watched by them. */
#define FAILING_UNWATCHED \
    __attribute__((no_sanitize("address"), no_sanitize("undefined")))

static size_t failing_after = SIZE_MAX;
static bool failing_seen;

FAILING_UNWATCHED static bool failing_refuses(void)
{
    if (failing_after == SIZE_MAX)
        return false;
    if (failing_after == 0) {
        failing_seen = true;
        return true;
    }
    failing_after--;
    return false;
}

/* POSIX gives the next definition of a function as a pointer to data. */
union failing_function {
    void *found;
    void *(*malloc)(size_t);
    void *(*calloc)(size_t, size_t);
    void *(*realloc)(void *, size_t);
};

FAILING_UNWATCHED void *malloc(size_t size)
{
    static union failing_function next;
    if (next.found == NULL)
        next.found = dlsym(RTLD_NEXT, "malloc");
    return failing_refuses() ? NULL : next.malloc(size);
}

FAILING_UNWATCHED void *calloc(size_t count, size_t size)
{
    static union failing_function next;
    if (next.found == NULL)
        next.found = dlsym(RTLD_NEXT, "calloc");
    return failing_refuses() ? NULL : next.calloc(count, size);
}

FAILING_UNWATCHED void *realloc(void *block, size_t size)
{
    static union failing_function next;
    if (next.found == NULL)
        next.found = dlsym(RTLD_NEXT, "realloc");
    return failing_refuses() ? NULL : next.realloc(block, size);
}

#endif
