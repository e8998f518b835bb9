/* dead_ends.h: trails that lead nowhere.
 *
 *     struct dead_end_list found;
 *     if (!dead_ends_find(&net, &found, f)) ...
 *     found.list[0].at, .length                       // where, ft of trail for nothing
 *     free(found.list);
 *
 * A trail leads somewhere when it goes on to an opening or an exit. A loop at the end of
 * a trail leads back only: it is a dead end too, told where the loop begins. The length
 * is back to the first junction, opening or exit, the loop's own added. Stretches whose
 * loss parts the net are found by one walk (Tarjan, 1974, from memory). Costs as much as there
 * are stretches, and those once more for each dead end. Faults: memory. */
#ifndef SPINNEY_GROUND_DEAD_ENDS_H
#define SPINNEY_GROUND_DEAD_ENDS_H

#include "ground/trail_net.h"

struct dead_end {
    struct point at;
    double length;
    size_t stretch; /* the last of it; NET_NONE: a loop joined to nothing */
    bool loop;
    bool alone; /* nothing of the trail is joined to anything that leads somewhere */
};

struct dead_end_list {
    struct dead_end *list;
    size_t count, room;
};

bool dead_ends_find(const struct trail_net *net, struct dead_end_list *out,
                    struct fault *f);

#endif
