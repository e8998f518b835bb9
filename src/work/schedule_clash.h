/* schedule_clash.h: the things that are asked of a job, one by one, for schedule_clash.c
 * and schedule_clash_words.c only.
 *
 *     struct point p = { POINT_LATEST, job, 0, true };
 *     point_words(s, &p, &out);           // "done by Mar 1 2027"
 */
#ifndef SPINNEY_WORK_SCHEDULE_CLASH_H
#define SPINNEY_WORK_SCHEDULE_CLASH_H

#include "work/schedule_parts.h"

enum point_kind {
    POINT_WINDOW,
    POINT_LIMIT,
    POINT_GROUND,
    POINT_NOTICE,
    POINT_AFTER,
    POINT_WITHIN,
    POINT_EARLIEST,
    POINT_LATEST,
    POINT_IN_ONE, /* all in one week, or in a row */
    POINT_AWAY,   /* days that its crews are not at work */
    POINT_BUSY    /* what else its crews do */
};

struct point {
    enum point_kind kind;
    size_t job, index;
    bool kept;
};

/* Its crews are those in s->able. */
void point_words(const struct solver *s, const struct point *p, struct buf *out);

#endif
