/* finder_inner.h: the folders that a finder looks into, for its two halves. */
#ifndef SPINNEY_LANG_FINDER_INNER_H
#define SPINNEY_LANG_FINDER_INNER_H

#include "lang/finder.h"

enum { PACKS_MOST = 16 };

struct finder {
    char *property; /* NULL: no plan, only packs and the book */
    char *packs[PACKS_MOST];
    const char *pack_names[PACKS_MOST]; /* the last part of each */
    size_t pack_count;
};

#endif
