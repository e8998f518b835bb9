/* along.h: which stretches of a line lie in a shape, or near it.
 *
 *     struct along_list found = { .list = NULL };
 *     if (!along_inside(line, count, &pond, &found, f)) ...   // in the pond
 *     if (!along_near(line, count, &road, 50, &found, f)) ... // less than 50 ft from it
 *     if (!along_beside(line, count, &stand, 66, &found, f)) ... // stand, square to it
 *     found.list[0].from, .to                                 // ft from the line's start
 *     along_free(&found);
 *
 * Stretches are told in order, those that touch as one; each call appends. A line that
 * only touches a rim is not in an area. Nearer than asked means by more than ALONG_CLOSE:
 * a trail drawn at exactly the least distance keeps it. Exact but for rounding; costs
 * the pieces of the line times those of the shape that are near. Faults: memory. */
#ifndef SPINNEY_GROUND_ALONG_H
#define SPINNEY_GROUND_ALONG_H

#include "ground/segment.h"

struct fault;

#define ALONG_CLOSE 0.01 /* ft */

struct along {
    double from, to; /* ft from the line's start */
    double distance; /* the least on the stretch, ft; 0 inside */
    struct point begin, end;
};

struct along_list {
    struct along *list;
    size_t count, room;
};

/* In an area; never in points or lines. */
bool along_inside(const struct point *line, size_t count, const struct shape *s,
                  struct along_list *out, struct fault *f);
bool along_near(const struct point *line, size_t count, const struct shape *s,
                double distance, struct along_list *out, struct fault *f);
/* Where some of an area lies no farther than `distance` from the line, measured square to
 * it: how far a strip of that width along the line has the area in it. */
bool along_beside(const struct point *line, size_t count, const struct shape *s,
                  double distance, struct along_list *out, struct fault *f);
/* Adds a stretch as found, in no order; along_settle puts those from number `first` on in
 * order and joins those that touch. */
bool along_add(struct along_list *out, struct along a, struct fault *f);
void along_settle(struct along_list *out, size_t first);
void along_free(struct along_list *out);

#endif
