/* pages.h: large blocks of memory, in large pages where the system has them: a page is
 * made when it is first written to, and to make many small ones takes longer than to fill
 * them.
 *
 *     double *rows = pages_get(4 << 20);
 *     free(rows);
 */
#ifndef SPINNEY_BASE_PAGES_H
#define SPINNEY_BASE_PAGES_H

#include <stddef.h>

/* As malloc; a block much smaller than a large page comes from there. */
void *pages_get(size_t size);
/* Puts the first megabytes that malloc gives into a large page: to be called before
 * anything else is. */
void pages_heap(void);

#endif
