#include <stdlib.h>

#include "base/fault.h"
#include "ground/layout_inner.h"
#include "ground/one_ground.h"

static bool find_ground(const struct layout_plot *p, struct one_ground *g,
                        struct fault *f)
{
    struct one_line *lines = calloc(p->route_count + 1, sizeof *lines);
    if (!lines)
        return fault_no_memory(f);
    for (size_t i = 0; i < p->route_count; i++) {
        const struct trace *t = &p->routes[i].trail;
        lines[i] = (struct one_line){ t->points, t->count, p->ground->ask->trail_width };
    }
    bool good = one_ground_find(lines, p->route_count, g, f);
    free(lines);
    return good;
}

static bool count_ways(struct layout_plot *p, struct one_ground *g, struct fault *f)
{
    struct joins_link *links = calloc(p->route_count + 1, sizeof *links);
    struct joins net = { .openings = (int)p->openings,
                         .exits = (int)p->ground->gate_count, .links = links,
                         .link_count = p->route_count };
    int most = (int)p->ground->ask->ways_out;
    bool good = links != NULL || fault_no_memory(f);
    for (size_t i = 0; good && i < p->route_count; i++)
        links[i] = (struct joins_link){ p->routes[i].a, p->routes[i].b, 0 };
    good = good && joins_begin(&net, f);
    for (size_t o = 0; good && o < p->openings; o++) {
        int found = 0;
        one_ground_start(g);
        do {
            int ways = joins_count(&net, g->used, (int)o, most);
            found = ways > found ? ways : found;
        } while (found < most && one_ground_next(g));
        p->ways[o] = found;
    }
    joins_end(&net);
    free(links);
    return good;
}

bool layout_check_ways(struct layout_plot *p, struct fault *f)
{
    struct one_ground g;
    if (!find_ground(p, &g, f))
        return false;
    bool good = count_ways(p, &g, f);
    one_ground_free(&g);
    return good;
}
