/* bend.h: a trail as it is cut: rounded at its turns, swinging where one would see too
 * far.
 *
 *     struct bend_ask ask = { .router = &r, .a = 0, .b = 3, .width = 6, .sight = 75,
 *                             .chance = seed };
 *     bend_trail(&ask, &straight, &trail, f);
 *     bend_sight(trail.points, trail.count, 6, HUGE_VAL, NULL);      // ft
 *
 * The way is walked in short steps, rounded (each point to the middle of its neighbours,
 * a few times), and shifted to the sides in waves. Waves are gentle at first; as long as
 * the sight is longer than asked they are made shorter and wider. A point that would come
 * into a wall, an opening or another leg of the trail itself is shifted less. The trail
 * keeps both ends. */
#ifndef SPINNEY_GROUND_BEND_H
#define SPINNEY_GROUND_BEND_H

#include "ground/router.h"

struct bend_ask {
    const struct router *router;
    int a, b; /* the openings at its ends, may be entered; another number: none */
    double width, sight; /* ft; sight 0: as it comes */
    bool leaves;         /* it ends on the rim of the cover, at `end` */
    struct point end;
    uint64_t chance;
};

/* Replaces what is in `out`. Takes the best that was found, also when the sight is not
 * met: see bend_sight. O(tries x steps x steps in sight). */
bool bend_trail(const struct bend_ask *ask, const struct trace *way, struct trace *out,
                struct fault *f);
/* The longest straight line that stays within the trail's width, ft: never too short; too
 * long by a quarter of a step between the points, and as if the trail were a quarter
 * wider. Looks no farther once it is longer than `enough`. `where` (NULL or) gets where
 * it begins. O(steps x steps in sight). */
double bend_sight(const struct point *points, size_t count, double width, double enough,
                  struct point *where);
/* The line anew, its points at even steps of about `step`, both ends kept. */
bool bend_walk(const struct point *points, size_t count, double step, struct trace *out,
               struct fault *f);

#endif
