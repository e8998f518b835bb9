#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "ground/layout_inner.h"

/* Two trails share ground where their brushed-out strips overlap for more than MOST
 * widths in one run, but for the first END ft at their ends, where they meet by right. */
#define MOST 4
#define END 15.0

enum { GROUPS = 6 }; /* so many groups are tried every way; of others one trail is kept */

struct sharing {
    struct shape_box *boxes; /* of each route */
    size_t *group;           /* of each route: the first one that it shares ground with */
    uint8_t *used;
    size_t firsts[GROUPS], first_count;
};

static double to_trail(const struct trace *t, struct point p)
{
    double least = HUGE_VAL;
    for (size_t i = 1; i < t->count; i++) {
        struct point a = t->points[i - 1], b = t->points[i];
        double square = point_apart(a, b) * point_apart(a, b);
        struct wall w = { .a = a, .b = b, .per_square = square > 0 ? 1 / square : 0 };
        least = fmin(least, wall_distance(&w, p));
    }
    return least;
}

static bool share_ground(const struct trace *a, const struct trace *b, double width)
{
    double run = 0, step = width / 3;
    for (size_t i = 1; i < a->count; i++) {
        struct point p = a->points[i - 1], q = a->points[i];
        double length = point_apart(p, q);
        for (double d = 0; d < length; d += step) {
            struct point m = { p.x + d / length * (q.x - p.x),
                               p.y + d / length * (q.y - p.y) };
            bool end = point_apart(m, a->points[0]) < END ||
                       point_apart(m, a->points[a->count - 1]) < END;
            run = !end && to_trail(b, m) < width ? run + fmin(step, length - d) : 0;
            if (run > MOST * width)
                return true;
        }
    }
    return false;
}

static struct shape_box box_of(const struct trace *t, double width)
{
    struct shape_box b = { HUGE_VAL, HUGE_VAL, -HUGE_VAL, -HUGE_VAL };
    for (size_t i = 0; i < t->count; i++) {
        b.west = fmin(b.west, t->points[i].x - width);
        b.south = fmin(b.south, t->points[i].y - width);
        b.east = fmax(b.east, t->points[i].x + width);
        b.north = fmax(b.north, t->points[i].y + width);
    }
    return b;
}

static void find_groups(const struct layout_plot *p, struct sharing *s)
{
    double width = p->ground->ask->trail_width;
    for (size_t i = 0; i < p->route_count; i++) {
        s->boxes[i] = box_of(&p->routes[i].trail, width);
        s->group[i] = i;
        for (size_t j = 0; j < i && s->group[i] == i; j++) {
            struct shape_box a = s->boxes[i], b = s->boxes[j];
            if (a.west > b.east || b.west > a.east || a.south > b.north ||
                b.south > a.north ||
                !share_ground(&p->routes[i].trail, &p->routes[j].trail, width))
                continue;
            s->group[i] = s->group[j];
            bool had = false;
            for (size_t k = 0; k < s->first_count; k++)
                had = had || s->firsts[k] == s->group[i];
            if (!had && s->first_count < GROUPS)
                s->firsts[s->first_count++] = s->group[i];
        }
    }
}

/* Which trail of each group is walked: the next choice; false after the last. */
static bool next_choice(const struct layout_plot *p, struct sharing *s)
{
    for (size_t k = 0; k < s->first_count; k++) {
        size_t first = s->firsts[k], now = first, i;
        while (!s->used[now] || s->group[now] != first)
            now++;
        s->used[now] = 0;
        for (i = now + 1; i < p->route_count && s->group[i] != first; i++)
            ;
        if (i < p->route_count) {
            s->used[i] = 1;
            return true;
        }
        s->used[first] = 1;
    }
    return false;
}

static bool count_ways(struct layout_plot *p, struct sharing *s, struct fault *f)
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
        for (size_t i = 0; i < p->route_count; i++)
            s->used[i] = s->group[i] == i;
        do {
            int ways = joins_count(&net, s->used, (int)o, most);
            found = ways > found ? ways : found;
        } while (found < most && next_choice(p, s));
        p->ways[o] = found;
    }
    joins_end(&net);
    free(links);
    return good;
}

bool layout_check_ways(struct layout_plot *p, struct fault *f)
{
    struct sharing s = { .first_count = 0 };
    s.boxes = calloc(p->route_count + 1, sizeof *s.boxes);
    s.group = calloc(p->route_count + 1, sizeof *s.group);
    s.used = calloc(p->route_count + 1, 1);
    bool good = (s.boxes && s.group && s.used) || fault_no_memory(f);
    if (good) {
        find_groups(p, &s);
        good = count_ways(p, &s, f);
    }
    free(s.boxes);
    free(s.group);
    free(s.used);
    return good;
}
