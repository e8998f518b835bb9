#include "ground/along.h"

#include <math.h>
#include <stdlib.h>

#include "base/fault.h"
#include "base/grow.h"
#include "ground/pieces.h"

#define TOUCHING 1e-6 /* ft: stretches this near are one */

bool along_add(struct along_list *out, struct along a, struct fault *f)
{
    struct along *list = grow(out->list, &out->room, out->count, sizeof *list);
    if (!list)
        return fault_no_memory(f);
    out->list = list;
    list[out->count++] = a;
    return true;
}

void along_free(struct along_list *out)
{
    free(out->list);
    *out = (struct along_list){ .list = NULL };
}

static int by_start(const void *a, const void *b)
{
    const struct along *x = a, *y = b;
    if (x->from != y->from)
        return x->from < y->from ? -1 : 1;
    return x->to < y->to ? -1 : x->to > y->to;
}

void along_settle(struct along_list *out, size_t first)
{
    if (out->count <= first)
        return;
    struct along *list = out->list + first;
    size_t count = out->count - first, kept = 0;
    qsort(list, count, sizeof *list, by_start);
    for (size_t i = 1; i < count; i++) {
        struct along *last = &list[kept];
        if (list[i].from > last->to + TOUCHING) {
            list[++kept] = list[i];
            continue;
        }
        last->distance = fmin(last->distance, list[i].distance);
        if (list[i].to > last->to) {
            last->to = list[i].to;
            last->end = list[i].end;
        }
    }
    out->count = first + kept + 1;
}

static bool add_part(struct along_list *out, struct segment s, double start, double t,
                     double u, double distance, struct fault *f)
{
    double length = segment_length(s);
    return along_add(out,
                     (struct along){ start + t * length, start + u * length, distance,
                                     segment_at(s, t), segment_at(s, u) },
                     f);
}

static int by_value(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return x < y ? -1 : x > y;
}

static bool apart(struct segment s, struct segment o, double reach)
{
    return fmin(s.a.x, s.b.x) > fmax(o.a.x, o.b.x) + reach ||
           fmax(s.a.x, s.b.x) < fmin(o.a.x, o.b.x) - reach ||
           fmin(s.a.y, s.b.y) > fmax(o.a.y, o.b.y) + reach ||
           fmax(s.a.y, s.b.y) < fmin(o.a.y, o.b.y) - reach;
}

static struct segment diagonal(struct shape_box box)
{
    return (struct segment){ { box.west, box.south }, { box.east, box.north } };
}

/* A rim as its pieces, and room for where a line crosses them. */
struct rim {
    const struct shape *shape;
    struct pieces pieces;
    struct segment box;
    double *cuts; /* as many as pieces, and both ends */
};

static bool rim_open(struct rim *r, const struct shape *s, struct fault *f)
{
    *r = (struct rim){ .shape = s };
    if (!pieces_add(&r->pieces, s, f))
        return false;
    r->cuts = malloc((2 * r->pieces.count + 2) * sizeof *r->cuts);
    if (!r->cuts) {
        pieces_free(&r->pieces);
        return fault_no_memory(f);
    }
    r->box = diagonal(shape_box(s));
    return true;
}

static void rim_close(struct rim *r)
{
    free(r->cuts);
    pieces_free(&r->pieces);
}

/* Where the rim is met, and both ends; where it runs along the piece, its corners. */
static size_t rim_cuts(const struct rim *r, struct segment s)
{
    size_t count = 0;
    r->cuts[count++] = 0;
    r->cuts[count++] = 1;
    for (size_t i = 0; i < r->pieces.count; i++) {
        struct segment o = r->pieces.list[i];
        double t, u;
        if (apart(s, o, TOUCHING))
            continue;
        if (segment_cross(s, o, &t, &u))
            r->cuts[count++] = t;
        if (segment_distance(s, o.a, &t) < TOUCHING)
            r->cuts[count++] = t;
    }
    qsort(r->cuts, count, sizeof *r->cuts, by_value);
    return count;
}

static bool piece_inside(const struct rim *r, struct segment s, double start,
                         double distance, struct along_list *out, struct fault *f)
{
    (void)distance;
    if (apart(s, r->box, 0))
        return true;
    size_t count = rim_cuts(r, s);
    for (size_t i = 1; i < count; i++) {
        double t = r->cuts[i - 1], u = r->cuts[i];
        struct point middle = segment_at(s, (t + u) / 2);
        if ((u - t) * segment_length(s) > TOUCHING && shape_has(r->shape, middle) &&
            !add_part(out, s, start, t, u, 0, f))
            return false;
    }
    return true;
}

static bool piece_near(const struct rim *r, struct segment s, double start,
                       double distance, struct along_list *out, struct fault *f)
{
    if (apart(s, r->box, distance))
        return true;
    for (size_t i = 0; i < r->pieces.count; i++) {
        struct segment o = r->pieces.list[i];
        double t, u;
        if (!apart(s, o, distance) && segment_in_capsule(s, o, distance, &t, &u) &&
            !add_part(out, s, start, t, u, segment_gap(s, o, NULL), f))
            return false;
    }
    return r->shape->kind != SHAPE_AREAS || piece_inside(r, s, start, 0, out, f);
}

/* The part of `o` that lies at most `distance` off the piece, seen square to it: from t to
 * u along the piece. */
static bool seen_square(struct segment s, struct segment o, double distance, double *t,
                        double *u)
{
    double length = segment_length(s);
    if (length <= 0)
        return false;
    double ux = (s.b.x - s.a.x) / length, uy = (s.b.y - s.a.y) / length;
    double from = (o.a.x - s.a.x) * ux + (o.a.y - s.a.y) * uy;
    double to = (o.b.x - s.a.x) * ux + (o.b.y - s.a.y) * uy;
    double off = (o.a.y - s.a.y) * ux - (o.a.x - s.a.x) * uy;
    double end = (o.b.y - s.a.y) * ux - (o.b.x - s.a.x) * uy;
    double low = 0, high = 1; /* of `o` */
    if (off == end) {
        if (fabs(off) > distance)
            return false;
    } else {
        double a = (-distance - off) / (end - off), b = (distance - off) / (end - off);
        low = fmax(low, fmin(a, b));
        high = fmin(high, fmax(a, b));
    }
    if (low > high)
        return false;
    double one = from + low * (to - from), other = from + high * (to - from);
    *t = fmax(0, fmin(one, other) / length);
    *u = fmin(1, fmax(one, other) / length);
    return *t < *u;
}

/* A line square to the piece meets an area where it crosses its rim, or where all of it
 * lies inside: then the piece does so too. */
static bool piece_beside(const struct rim *r, struct segment s, double start,
                         double distance, struct along_list *out, struct fault *f)
{
    if (apart(s, r->box, distance))
        return true;
    for (size_t i = 0; i < r->pieces.count; i++) {
        struct segment o = r->pieces.list[i];
        double t, u;
        if (!apart(s, o, distance) && seen_square(s, o, distance, &t, &u) &&
            !add_part(out, s, start, t, u, segment_gap(s, o, NULL), f))
            return false;
    }
    return piece_inside(r, s, start, 0, out, f);
}

typedef bool on_piece(const struct rim *r, struct segment s, double start, double distance,
                      struct along_list *out, struct fault *f);

static bool walk(const struct point *line, size_t count, const struct shape *s,
                 double distance, on_piece *look, struct along_list *out, struct fault *f)
{
    struct rim r;
    size_t first = out->count;
    double start = 0;
    bool ok = rim_open(&r, s, f);
    if (!ok)
        return false;
    for (size_t i = 1; ok && i < count; i++) {
        struct segment piece = { line[i - 1], line[i] };
        ok = look(&r, piece, start, distance, out, f);
        start += segment_length(piece);
    }
    rim_close(&r);
    along_settle(out, first);
    return ok;
}

bool along_inside(const struct point *line, size_t count, const struct shape *s,
                  struct along_list *out, struct fault *f)
{
    return s->kind != SHAPE_AREAS || shape_is_empty(s) ||
           walk(line, count, s, 0, piece_inside, out, f);
}

bool along_near(const struct point *line, size_t count, const struct shape *s,
                double distance, struct along_list *out, struct fault *f)
{
    distance -= ALONG_CLOSE;
    return distance <= 0 || shape_is_empty(s) ||
           walk(line, count, s, distance, piece_near, out, f);
}

bool along_beside(const struct point *line, size_t count, const struct shape *s,
                  double distance, struct along_list *out, struct fault *f)
{
    return s->kind != SHAPE_AREAS || shape_is_empty(s) || distance <= 0 ||
           walk(line, count, s, distance, piece_beside, out, f);
}
