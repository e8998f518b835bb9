#include "ground/access.h"

#include <stdlib.h>

#include "base/fault.h"
#include "base/grow.h"

struct checking {
    const struct access_ask *ask;
    struct access_list *out;
    struct along_list found;
    struct access_finding now; /* what is being looked at */
    struct fault *f;
};

static bool tell(struct checking *c, enum access_kind kind)
{
    for (size_t i = 0; i < c->found.count; i++) {
        struct access_finding *list =
            grow(c->out->list, &c->out->room, c->out->count, sizeof *list);
        if (!list)
            return fault_no_memory(c->f);
        c->out->list = list;
        c->now.kind = kind;
        c->now.where = c->found.list[i];
        list[c->out->count++] = c->now;
    }
    c->found.count = 0;
    return true;
}

static bool check_line(struct checking *c, const struct point *line, size_t count,
                       const struct shape *area)
{
    const struct access_ask *ask = c->ask;
    return along_inside(line, count, area, &c->found, c->f) && tell(c, ACCESS_CROSSES) &&
           along_near(line, count, area, ask->least, &c->found, c->f) &&
           tell(c, ACCESS_NEAR) &&
           along_upwind(line, count, area, ask->wind, ask->upwind, &c->found, c->f) &&
           tell(c, ACCESS_UPWIND);
}

/* A seat is one place: how far it is says whether it is in or near. */
static bool check_seat(struct checking *c, struct point at, const struct shape *area)
{
    const struct access_ask *ask = c->ask;
    struct point line[2] = { at, at };
    double distance = shape_distance(area, at, NULL);
    struct along here = { 0, 0, distance, at, at };
    bool in = distance <= 0, near = distance < ask->least - ALONG_CLOSE;
    return (!in || (along_add(&c->found, here, c->f) && tell(c, ACCESS_CROSSES))) &&
           (!near || (along_add(&c->found, here, c->f) && tell(c, ACCESS_NEAR))) &&
           (in && ask->upwind > 0
                ? along_add(&c->found, here, c->f)
                : along_upwind(line, 2, area, ask->wind, ask->upwind, &c->found, c->f)) &&
           tell(c, ACCESS_UPWIND);
}

static bool check_area(struct checking *c, const struct shape *area)
{
    const struct shape *way = c->ask->way, *seats = c->ask->seats;
    c->now.seat = false;
    for (size_t i = 0; way && i < way->part_count; i++) {
        c->now.part = i;
        if (!check_line(c, way->points + way->parts[i].first, way->parts[i].count, area))
            return false;
    }
    c->now.seat = true;
    for (size_t i = 0; seats && i < seats->point_count; i++) {
        c->now.part = i;
        if (!check_seat(c, seats->points[i], area))
            return false;
    }
    return true;
}

bool access_check(const struct access_ask *ask, struct access_list *out, struct fault *f)
{
    struct checking c = { .ask = ask, .out = out, .f = f };
    bool ok = true;
    *out = (struct access_list){ .list = NULL };
    for (size_t i = 0; ok && i < ask->bedding_count; i++) {
        c.now.area = i;
        ok = shape_is_empty(ask->bedding[i]) || check_area(&c, ask->bedding[i]);
    }
    c.now.opening = true;
    for (size_t i = 0; ok && i < ask->opening_count; i++) {
        c.now.area = i;
        ok = shape_is_empty(ask->openings[i]) || check_area(&c, ask->openings[i]);
    }
    along_free(&c.found);
    if (!ok) {
        free(out->list);
        *out = (struct access_list){ .list = NULL };
    }
    return ok;
}
