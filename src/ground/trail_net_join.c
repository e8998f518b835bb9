#include "ground/trail_net_inner.h"

#include <math.h>
#include <stdlib.h>

#include "base/fault.h"
#include "base/grow.h"

/* One end of a run, and the trails within snapping distance of it. */
struct hit {
    size_t run;
    double distance, along;
    struct point at;
};

struct looking {
    struct builder *b;
    size_t run;
    double along;
    struct point at;
    struct hit *hits; /* the nearest place of each run */
    size_t count, room;
    struct fault *f;
};

/* How much of a run's end may be snapped: all of a short run must not vanish. */
static double end_snap(const struct builder *b, size_t run)
{
    return fmin(b->ask->snap, b->runs[run].length / 3);
}

static bool look(void *closure, size_t piece)
{
    struct looking *l = closure;
    struct segment s = l->b->pieces.list[piece];
    struct spot p = l->b->spots[piece];
    double t, distance = segment_distance(s, l->at, &t);
    double along = p.start + t * segment_length(s);
    /* Its own trail only when it comes round again. */
    if (distance > l->b->ask->snap ||
        (p.run == l->run && fabs(along - l->along) <= 3 * l->b->ask->snap))
        return true;
    struct hit hit = { p.run, distance, along, segment_at(s, t) };
    for (size_t i = 0; i < l->count; i++)
        if (l->hits[i].run == p.run) {
            if (distance < l->hits[i].distance)
                l->hits[i] = hit;
            return true;
        }
    struct hit *hits = grow(l->hits, &l->room, l->count, sizeof *hits);
    if (!hits)
        return fault_no_memory(l->f);
    l->hits = hits;
    hits[l->count++] = hit;
    return true;
}

/* The cut of a run at a hit: that at its end when that is as near. */
static size_t cut_of_hit(struct looking *l, const struct hit *h)
{
    const struct run *r = &l->b->runs[h->run];
    double snap = end_snap(l->b, h->run);
    if (h->along <= snap && r->begin != NET_NONE)
        return r->begin;
    if (h->along >= r->length - snap)
        return r->end;
    return builder_add_cut(l->b, h->run, h->along, h->at, l->f);
}

static size_t nearest_opening(const struct builder *b, struct point at)
{
    size_t found = NET_NONE;
    double best = HUGE_VAL;
    struct shape_box box = box_around((struct segment){ at, at }, b->ask->snap);
    for (size_t i = 0; i < b->ask->opening_count; i++) {
        if (!boxes_meet(box, b->boxes[i]))
            continue;
        double d = shape_distance(b->ask->openings[i], at, NULL);
        if (d <= b->ask->snap && d < best) {
            best = d;
            found = i;
        }
    }
    return found;
}

/* Does the end lie on something? Then it is no loose end. */
static bool snap_end(struct builder *b, size_t run, size_t cut, bool *held,
                     struct fault *f)
{
    struct looking l = { b, run, b->cuts[cut].along, b->cuts[cut].at, NULL, 0, 0, f };
    struct shape_box box = box_around((struct segment){ l.at, l.at }, b->ask->snap);
    bool ok = near_each(&b->near, box, look, &l);
    for (size_t i = 0; ok && i < l.count; i++) {
        size_t other = cut_of_hit(&l, &l.hits[i]);
        ok = other != NET_NONE;
        if (ok)
            builder_unite(b, cut_id(b, cut), cut_id(b, other));
    }
    size_t opening = nearest_opening(b, l.at);
    if (opening != NET_NONE)
        builder_unite(b, opening, cut_id(b, cut));
    *held = l.count > 0 || opening != NET_NONE;
    free(l.hits);
    for (size_t i = 0; ok && i < b->ask->exit_count; i++) {
        struct point at;
        if (shape_rim_distance(b->ask->exits[i].edge, l.at, &at) > b->ask->snap)
            continue;
        ok = builder_arrive(b, (struct arrival){ cut, NET_NONE, i, at, 0 }, f);
        *held = true;
    }
    return ok;
}

/* A loose end a little beyond the last crossing is no trail of its own. */
static void take_in_overshoot(struct builder *b, size_t cut)
{
    size_t found = NET_NONE;
    double best = end_snap(b, b->cuts[cut].run);
    for (size_t i = 0; i < b->cut_count; i++) {
        double gap = fabs(b->cuts[i].along - b->cuts[cut].along);
        if (i != cut && b->cuts[i].run == b->cuts[cut].run && gap <= best) {
            best = gap;
            found = i;
        }
    }
    if (found != NET_NONE)
        builder_unite(b, cut_id(b, cut), cut_id(b, found));
}

static bool snap_ends(struct builder *b, struct fault *f)
{
    bool *held = calloc(2 * b->run_count + 1, sizeof *held), ok = held != NULL;
    if (!ok)
        fault_no_memory(f);
    for (size_t i = 0; ok && i < 2 * b->run_count; i++) {
        const struct run *r = &b->runs[i / 2];
        ok = snap_end(b, i / 2, i % 2 ? r->end : r->begin, &held[i], f);
    }
    for (size_t i = 0; ok && i < 2 * b->run_count; i++)
        if (!held[i])
            take_in_overshoot(b, i % 2 ? b->runs[i / 2].end : b->runs[i / 2].begin);
    free(held);
    return ok;
}

static int by_east(const void *a, const void *b)
{
    const struct cut *x = a, *y = b;
    if (x->at.x != y->at.x)
        return x->at.x < y->at.x ? -1 : 1;
    return x->id < y->id ? -1 : x->id > y->id;
}

static int by_run(const void *a, const void *b)
{
    const struct cut *x = a, *y = b;
    if (x->run != y->run)
        return x->run < y->run ? -1 : 1;
    if (x->along != y->along)
        return x->along < y->along ? -1 : 1;
    return x->id < y->id ? -1 : x->id > y->id;
}

static void unite_touching(struct builder *b)
{
    if (b->cut_count > 0)
        qsort(b->cuts, b->cut_count, sizeof *b->cuts, by_east);
    for (size_t i = 0; i < b->cut_count; i++)
        for (size_t k = i + 1;
             k < b->cut_count && b->cuts[k].at.x - b->cuts[i].at.x <= NET_TOUCH; k++)
            if (point_gap(b->cuts[i].at, b->cuts[k].at) <= NET_TOUCH)
                builder_unite(b, b->cuts[i].id, b->cuts[k].id);
}

static void sort_by_run(struct builder *b)
{
    if (b->cut_count > 0)
        qsort(b->cuts, b->cut_count, sizeof *b->cuts, by_run);
    for (size_t i = b->cut_count; i-- > 0;) {
        b->runs[b->cuts[i].run].first_cut = i;
        b->runs[b->cuts[i].run].cut_count++;
    }
}

/* What is cut in an opening is the opening. */
static void unite_inside(struct builder *b)
{
    for (size_t i = 0; i < b->cut_count; i++) {
        const struct run *r = &b->runs[b->cuts[i].run];
        for (size_t k = r->first_inside; k < r->first_inside + r->inside_count; k++)
            if (b->cuts[i].along >= b->inside[k].from - NET_TOUCH &&
                b->cuts[i].along <= b->inside[k].to + NET_TOUCH)
                builder_unite(b, b->inside[k].opening, b->cuts[i].id);
    }
}

bool builder_join(struct builder *b, struct fault *f)
{
    if (!snap_ends(b, f) || !builder_openings_at_exits(b, f))
        return false;
    /* Arrivals name cuts by number: by id once the cuts are put in order. */
    for (size_t i = 0; i < b->arrival_count; i++)
        if (b->arrivals[i].cut != NET_NONE)
            b->arrivals[i].cut = cut_id(b, b->arrivals[i].cut);
    unite_touching(b);
    sort_by_run(b);
    unite_inside(b);
    return true;
}
