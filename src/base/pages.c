/* For madvise and sbrk, which are no part of POSIX. */
#define _DEFAULT_SOURCE

#include "base/pages.h"

#include <stdint.h>
#include <stdlib.h>
#include <sys/mman.h>
#include <unistd.h>
#ifdef __GLIBC__
#include <malloc.h>
#endif

enum {
    LARGE = 2 << 20, /* a large page of most processors */
    SMALL = 4 << 10
};

void *pages_get(size_t size)
{
    /* Half a large page is made as fast as as many small ones. */
    if (size < LARGE / 2 || size > SIZE_MAX - LARGE)
        return malloc(size);
    /* What is left over a large page takes one of its own only where it fills half of it. */
    size_t large = (size + LARGE / 2) / LARGE * LARGE;
    void *block;
    if (posix_memalign(&block, LARGE, size > large ? size : large) != 0)
        return NULL;
#ifdef MADV_HUGEPAGE
    madvise(block, large, MADV_HUGEPAGE); /* only a wish */
#endif
    return block;
}

void pages_heap(void)
{
#if defined(__GLIBC__) && defined(MADV_HUGEPAGE) && !defined(__SANITIZE_ADDRESS__)
    /* The heap starts in the small page before a large one: malloc writes there at once,
     * and a large page is given only where nothing was written before. */
    uintptr_t top = (uintptr_t)sbrk(0);
    uintptr_t start = (top + SMALL + LARGE - 1) / LARGE * LARGE;
    if (top == UINTPTR_MAX || sbrk((intptr_t)(start - SMALL - top)) == (void *)-1)
        return;
    mallopt(M_TOP_PAD, LARGE);
    mallopt(M_MMAP_THRESHOLD, LARGE / 2); /* above it, pages_get has pages of its own */
    void *volatile first = malloc(1); /* or the compiler leaves it out */
    free(first);
    if ((uintptr_t)sbrk(0) >= start + LARGE)
        madvise((void *)start, LARGE, MADV_HUGEPAGE); /* only a wish */
#endif
}
