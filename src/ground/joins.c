#include "ground/joins.h"

#include <stdlib.h>
#include <string.h>

#include "base/fault.h"

bool joins_begin(struct joins *net, struct fault *f)
{
    size_t places = (size_t)(net->openings + net->exits);
    net->start = calloc(places + 2, sizeof *net->start);
    net->half = calloc(2 * net->link_count + 1, sizeof *net->half);
    net->flow = calloc(net->link_count + 1, 1);
    net->taken = calloc((size_t)net->exits + 1, 1);
    net->queue = calloc(places + 1, sizeof *net->queue);
    net->by = calloc(places + 1, sizeof *net->by);
    if (!net->start || !net->half || !net->flow || !net->taken || !net->queue || !net->by)
        return fault_no_memory(f);
    for (size_t e = 0; e < net->link_count; e++) {
        net->start[net->links[e].a + 2]++;
        net->start[net->links[e].b + 2]++;
    }
    for (size_t i = 2; i < places + 2; i++)
        net->start[i] += net->start[i - 1];
    for (size_t e = 0; e < net->link_count; e++) {
        net->half[net->start[net->links[e].a + 1]++] = (int)e;
        net->half[net->start[net->links[e].b + 1]++] = (int)e;
    }
    return true;
}

void joins_end(struct joins *net)
{
    free(net->start);
    free(net->half);
    free(net->flow);
    free(net->taken);
    free(net->queue);
    free(net->by);
    net->start = net->half = net->queue = net->by = NULL;
    net->flow = NULL;
    net->taken = NULL;
}

/* May one more go from the place over the link? From an exit only back where one came. */
static bool passes(const struct joins *net, int place, int e)
{
    int way = net->links[e].a == place ? 1 : -1;
    return place < net->openings ? net->flow[e] * way < 1 : net->flow[e] * way < 0;
}

/* A route to an exit that is not taken yet; that exit, or -1. */
static int search(struct joins *net, const uint8_t *used, int from)
{
    int head = 0, tail = 0, places = net->openings + net->exits;
    for (int i = 0; i < places; i++)
        net->by[i] = -1;
    net->queue[tail++] = from;
    net->by[from] = -2;
    while (head < tail) {
        int place = net->queue[head++];
        for (int i = net->start[place]; i < net->start[place + 1]; i++) {
            int e = net->half[i];
            net->looked++;
            int next = net->links[e].a == place ? net->links[e].b : net->links[e].a;
            if (!used[e] || net->by[next] != -1 || !passes(net, place, e))
                continue;
            net->by[next] = e;
            if (next >= net->openings && !net->taken[next - net->openings])
                return next;
            net->queue[tail++] = next;
        }
    }
    return -1;
}

int joins_count(struct joins *net, const uint8_t *used, int opening, int most)
{
    memset(net->flow, 0, net->link_count);
    memset(net->taken, 0, (size_t)net->exits);
    int found = 0;
    for (; found < most; found++) {
        int place = search(net, used, opening);
        if (place < 0)
            break;
        net->taken[place - net->openings] = 1;
        while (place != opening) {
            int e = net->by[place];
            bool forward = net->links[e].b == place;
            net->flow[e] = (int8_t)(net->flow[e] + (forward ? 1 : -1));
            place = forward ? net->links[e].a : net->links[e].b;
        }
    }
    return found;
}
