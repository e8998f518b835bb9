/* For madvise, which is no part of POSIX. */
#define _DEFAULT_SOURCE

#include "base/pages.h"

#include <stdint.h>
#include <stdlib.h>
#include <sys/mman.h>

enum { LARGE = 2 << 20 }; /* a large page of most processors */

void *pages_get(size_t size)
{
    /* Half a large page is made as fast as as many small ones. */
    if (size < LARGE / 2 || size > SIZE_MAX - LARGE)
        return malloc(size);
    size_t whole = (size + LARGE - 1) / LARGE * LARGE;
    void *block = aligned_alloc(LARGE, whole);
#ifdef MADV_HUGEPAGE
    if (block)
        madvise(block, whole, MADV_HUGEPAGE); /* only a wish */
#endif
    return block;
}
