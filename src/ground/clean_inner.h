/* clean_inner.h: what the parts of clean.h have in common. Not for others. */
#ifndef SPINNEY_GROUND_CLEAN_INNER_H
#define SPINNEY_GROUND_CLEAN_INNER_H

#include "ground/clean.h"
#include "ground/shape.h"

/* Puts into done->words what was done. */
bool clean_say(struct clean_done *done, enum shape_kind kind, struct fault *f);
/* The fault of a shape of which too much would move; `at` is where it crosses itself,
 * `after` ft2 what would come out. False. */
bool clean_refuse(const struct clean_ask *ask, const struct clean_done *done,
                  struct point at, double after, struct fault *f);

#endif
