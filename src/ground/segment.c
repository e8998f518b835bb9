#include "ground/segment.h"

#include <math.h>

static struct point minus(struct point a, struct point b)
{
    return (struct point){ a.x - b.x, a.y - b.y };
}

static double dot(struct point a, struct point b)
{
    return a.x * b.x + a.y * b.y;
}

static double turn(struct point a, struct point b)
{
    return a.x * b.y - a.y * b.x;
}

double point_gap(struct point a, struct point b)
{
    double x = a.x - b.x, y = a.y - b.y;
    return sqrt(x * x + y * y);
}

double segment_length(struct segment s)
{
    return point_gap(s.a, s.b);
}

struct point segment_at(struct segment s, double t)
{
    return (struct point){ s.a.x + t * (s.b.x - s.a.x), s.a.y + t * (s.b.y - s.a.y) };
}

double segment_distance(struct segment s, struct point p, double *t)
{
    struct point along = minus(s.b, s.a);
    double square = dot(along, along);
    double at = square > 0 ? dot(minus(p, s.a), along) / square : 0;
    at = at < 0 ? 0 : at > 1 ? 1 : at;
    if (t)
        *t = at;
    return point_gap(segment_at(s, at), p);
}

bool segment_cross(struct segment s, struct segment o, double *t, double *u)
{
    struct point d = minus(s.b, s.a), e = minus(o.b, o.a), w = minus(o.a, s.a);
    double area = turn(d, e);
    /* As good as parallel: the sine of the angle between them is nothing. */
    if (fabs(area) <= 1e-12 * sqrt(dot(d, d) * dot(e, e)))
        return false;
    *t = turn(w, e) / area;
    *u = turn(w, d) / area;
    return *t >= 0 && *t <= 1 && *u >= 0 && *u <= 1;
}

double segment_gap(struct segment s, struct segment o, double *t)
{
    double at, other;
    if (segment_cross(s, o, &at, &other)) {
        if (t)
            *t = at;
        return 0;
    }
    double best = segment_distance(s, o.a, &at), one;
    double found = segment_distance(s, o.b, &one);
    if (found < best) {
        best = found;
        at = one;
    }
    for (int end = 0; end < 2; end++) {
        found = segment_distance(o, end ? s.b : s.a, NULL);
        if (found < best) {
            best = found;
            at = end;
        }
    }
    if (t)
        *t = at;
    return best;
}

/* Narrows from..to to where low <= a + t (b - a) <= high. */
static bool clip(double a, double b, double low, double high, double *from, double *to)
{
    double slope = b - a;
    if (slope == 0)
        return a >= low && a <= high;
    double first = (low - a) / slope, last = (high - a) / slope;
    *from = fmax(*from, fmin(first, last));
    *to = fmin(*to, fmax(first, last));
    return *from <= *to;
}

static void widen(double from, double to, double *low, double *high)
{
    *low = fmin(*low, from);
    *high = fmax(*high, to);
}

static void disc(struct segment s, struct point center, double radius, double *low,
                 double *high)
{
    struct point d = minus(s.b, s.a), w = minus(s.a, center);
    double a = dot(d, d), b = dot(d, w), c = dot(w, w) - radius * radius;
    if (a <= 0) {
        if (c <= 0)
            widen(0, 1, low, high);
        return;
    }
    double under = b * b - a * c;
    if (under < 0)
        return;
    double root = sqrt(under), from = fmax((-b - root) / a, 0),
           to = fmin((-b + root) / a, 1);
    if (from <= to)
        widen(from, to, low, high);
}

bool segment_in_capsule(struct segment s, struct segment axis, double radius,
                        double *from, double *to)
{
    /* A capsule is convex: what lies in it is one piece, from the first to the last of
     * what lies in its two round ends and in the oblong between them. */
    double low = 2, high = -1, length = segment_length(axis);
    disc(s, axis.a, radius, &low, &high);
    disc(s, axis.b, radius, &low, &high);
    if (length > 0) {
        struct point d = minus(axis.b, axis.a), a = minus(s.a, axis.a),
                     b = minus(s.b, axis.a);
        double first = 0, last = 1;
        if (clip(dot(a, d) / length, dot(b, d) / length, 0, length, &first, &last) &&
            clip(turn(d, a) / length, turn(d, b) / length, -radius, radius, &first,
                 &last))
            widen(first, last, &low, &high);
    }
    *from = low;
    *to = high;
    return low <= high;
}

bool segment_in_convex(struct segment s, const struct point *corners, size_t count,
                       double *from, double *to)
{
    *from = 0;
    *to = 1;
    for (size_t i = 0; i < count; i++) {
        struct point c = corners[i], side = minus(corners[(i + 1) % count], c);
        if (!clip(turn(side, minus(s.a, c)), turn(side, minus(s.b, c)), 0, HUGE_VAL, from,
                  to))
            return false;
    }
    return true;
}
