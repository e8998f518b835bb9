#include "ground/max_flow.h"

#include <stdlib.h>

#include "base/fault.h"
#include "base/grow.h"

enum { NONE = -1 };

/* Arcs go in pairs, there and back: the other of arc i is i ^ 1. */
struct arc {
    size_t to;
    long next; /* of the same place */
    int room, left;
};

struct max_flow {
    size_t places, arc_count, arc_room;
    struct arc *arcs;
    long *first; /* arc of each place */
    long *came;  /* the arc by which each place was reached; NONE when it was not */
    size_t *queue;
    size_t from;
};

struct max_flow *max_flow_new(size_t places, struct fault *f)
{
    struct max_flow *fl = calloc(1, sizeof *fl);
    if (fl) {
        fl->places = places;
        fl->first = malloc((places + 1) * sizeof *fl->first);
        fl->came = malloc((places + 1) * sizeof *fl->came);
        fl->queue = malloc((places + 1) * sizeof *fl->queue);
    }
    if (!fl || !fl->first || !fl->came || !fl->queue) {
        max_flow_free(fl);
        fault_no_memory(f);
        return NULL;
    }
    for (size_t i = 0; i < places; i++)
        fl->first[i] = fl->came[i] = NONE;
    return fl;
}

void max_flow_free(struct max_flow *fl)
{
    if (!fl)
        return;
    free(fl->arcs);
    free(fl->first);
    free(fl->came);
    free(fl->queue);
    free(fl);
}

static bool add_arc(struct max_flow *fl, size_t from, size_t to, int room)
{
    struct arc *arcs = grow(fl->arcs, &fl->arc_room, fl->arc_count, sizeof *arcs);
    if (!arcs)
        return false;
    fl->arcs = arcs;
    arcs[fl->arc_count] = (struct arc){ to, fl->first[from], room, room };
    fl->first[from] = (long)fl->arc_count++;
    return true;
}

bool max_flow_add(struct max_flow *fl, size_t a, size_t b, int there, int back,
                  struct fault *f)
{
    if (!add_arc(fl, a, b, there) || !add_arc(fl, b, a, back))
        return fault_no_memory(f);
    return true;
}

/* Marks what is reached from `from`; stops at `to`. */
static bool search(struct max_flow *fl, size_t from, size_t to)
{
    for (size_t i = 0; i < fl->places; i++)
        fl->came[i] = NONE;
    size_t head = 0, tail = 0;
    fl->queue[tail++] = from;
    while (head < tail) {
        size_t at = fl->queue[head++];
        for (long i = fl->first[at]; i != NONE; i = fl->arcs[i].next) {
            size_t next = fl->arcs[i].to;
            if (fl->arcs[i].left <= 0 || next == from || fl->came[next] != NONE)
                continue;
            fl->came[next] = i;
            if (next == to)
                return true;
            fl->queue[tail++] = next;
        }
    }
    return false;
}

size_t max_flow_most(struct max_flow *fl, size_t from, size_t to)
{
    size_t routes = 0;
    fl->from = from;
    for (size_t i = 0; i < fl->arc_count; i++)
        fl->arcs[i].left = fl->arcs[i].room;
    while (from != to && search(fl, from, to)) {
        for (size_t at = to; at != from; at = fl->arcs[fl->came[at] ^ 1].to) {
            fl->arcs[fl->came[at]].left--;
            fl->arcs[fl->came[at] ^ 1].left++;
        }
        routes++;
    }
    return routes;
}

static bool holds(const struct max_flow *fl, size_t place)
{
    return place == fl->from || fl->came[place] != NONE;
}

bool max_flow_cuts(const struct max_flow *fl, size_t number)
{
    const struct arc *there = &fl->arcs[2 * number], *back = there + 1;
    bool a = holds(fl, back->to), b = holds(fl, there->to);
    return (a && !b && there->room > 0) || (b && !a && back->room > 0);
}
