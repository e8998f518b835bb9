#include "ground/passing.h"

#include <math.h>

static double dot(struct point a, struct point b)
{
    return a.x * b.x + a.y * b.y;
}

struct point point_moved(struct point p, struct point along, double ft)
{
    return (struct point){ p.x + along.x * ft, p.y + along.y * ft };
}

struct point point_left_of(struct point along)
{
    return (struct point){ -along.y, along.x };
}

struct passing passing_all(double half)
{
    double s = PASSING_STEEPEST;
    return (struct passing){ .slope = { -s, s, s, -s },
                             .start = { -half, -half, half, half },
                             .count = 4 };
}

static struct point in_frame(const struct passing_frame *f, struct point p)
{
    struct point d = { p.x - f->origin.x, p.y - f->origin.y };
    return (struct point){ dot(d, f->along), dot(d, f->across) };
}

/* Keeps the lines with side * (p above the line) >= 0; false when none is left. */
static bool cut_by(struct passing *l, struct point p, double side)
{
    double over[PASSING_CORNERS];
    bool all = true;
    for (int i = 0; i < l->count; i++) {
        over[i] = side * (p.y - l->slope[i] * p.x - l->start[i]);
        all = all && over[i] >= 0;
    }
    if (all)
        return true;
    struct passing kept;
    kept.count = 0;
    for (int i = 0; i < l->count; i++) {
        int k = (i + 1) % l->count;
        double a = over[i], b = over[k];
        if (kept.count + 2 > PASSING_CORNERS)
            return false;
        if (a >= 0) {
            kept.slope[kept.count] = l->slope[i];
            kept.start[kept.count++] = l->start[i];
        }
        if ((a > 0 && b < 0) || (a < 0 && b > 0)) {
            double t = a / (a - b);
            kept.slope[kept.count] = l->slope[i] + t * (l->slope[k] - l->slope[i]);
            kept.start[kept.count++] = l->start[i] + t * (l->start[k] - l->start[i]);
        }
    }
    l->count = kept.count;
    for (int i = 0; i < kept.count; i++) {
        l->slope[i] = kept.slope[i];
        l->start[i] = kept.start[i];
    }
    return kept.count > 0;
}

bool passing_gate(const struct passing_frame *f, struct passing *l,
                  const struct passing_gate *g)
{
    struct point left = point_left_of(g->along);
    struct passing kept;
    kept.count = l->count;
    for (int i = 0; i < l->count; i++) {
        kept.slope[i] = l->slope[i];
        kept.start[i] = l->start[i];
    }
    if (!cut_by(&kept, in_frame(f, point_moved(g->at, left, g->half)), 1) ||
        !cut_by(&kept, in_frame(f, point_moved(g->at, left, -g->half)), -1))
        return false;
    l->count = kept.count;
    for (int i = 0; i < kept.count; i++) {
        l->slope[i] = kept.slope[i];
        l->start[i] = kept.start[i];
    }
    return true;
}

double passing_longest(const struct passing_frame *f, const struct passing *l,
                       const struct passing_gate *last, struct point *from,
                       struct point *to)
{
    double best = 0;
    for (int i = 0; i < l->count; i++) {
        struct point start = point_moved(f->origin, f->across, l->start[i]);
        struct point way = point_moved(f->along, f->across, l->slope[i]);
        struct point gap = { last->at.x - start.x, last->at.y - start.y };
        double forward = dot(way, last->along);
        if (fabs(forward) < 1e-9)
            continue;
        double t = dot(gap, last->along) / forward;
        double length = t * sqrt(1 + l->slope[i] * l->slope[i]);
        if (length > best) {
            best = length;
            *from = start;
            *to = point_moved(start, way, t);
        }
    }
    return best;
}
