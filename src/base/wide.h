/* wide.h: for short loops over arrays that are most of the work of drawing: each such
 * function is compiled twice where a compiler can do that, for processors with wider
 * vectors too: the same operations, the same results. The choice is made when the program
 * starts, too early for a sanitizer.
 *
 *     WIDE void block_add(double *restrict out, const double *restrict a, ...)
 */
#ifndef SPINNEY_BASE_WIDE_H
#define SPINNEY_BASE_WIDE_H

#if defined(__x86_64__) && defined(__gnu_linux__) && defined(__GNUC__) && \
    !defined(__clang__) && !defined(__SANITIZE_ADDRESS__)
#define WIDE __attribute__((target_clones("avx2", "default")))
#else
#define WIDE
#endif

#endif
