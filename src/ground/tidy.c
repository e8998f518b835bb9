#include "ground/tidy.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ft: nearer than any map or tape tells apart. */
static const double SAME = 0.01;

enum { HAND_DRAWN = 8, TIMES = 5, SHORTEST_LEG = 60, APART = 3 };

static double between(struct point a, struct point b)
{
    return hypot(b.x - a.x, b.y - a.y);
}

static size_t drop_doubles(struct point *points, size_t count, bool ring,
                           struct tidied *done)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++)
        if (kept == 0 || between(points[kept - 1], points[i]) > SAME)
            points[kept++] = points[i];
        else
            done->doubles++;
    if (ring && kept > 1 && between(points[kept - 1], points[0]) <= SAME)
        kept--; /* what closes it is no double */
    return kept;
}

static int by_size(const void *a, const void *b)
{
    const double *x = a, *y = b;
    return (*x > *y) - (*x < *y);
}

/* 0 when there is no memory. */
static double middle_leg(const struct point *points, size_t count)
{
    double *legs = malloc(count * sizeof *legs);
    if (!legs)
        return 0;
    for (size_t i = 0; i + 1 < count; i++)
        legs[i] = between(points[i], points[i + 1]);
    qsort(legs, count - 1, sizeof *legs, by_size);
    double middle = legs[(count - 1) / 2];
    free(legs);
    return middle;
}

static bool is_spike(struct point a, struct point tip, struct point b, double middle)
{
    double out = between(a, tip), back = between(tip, b);
    double shorter = fmin(out, back);
    return shorter > fmax(TIMES * middle, SHORTEST_LEG) && between(a, b) * APART < shorter;
}

static void note_spike(struct point a, struct point tip, struct point b,
                       struct tidied *done)
{
    done->spikes++;
    done->longest = fmax(done->longest, fmin(between(a, tip), between(tip, b)));
    done->spike_area +=
        fabs((tip.x - a.x) * (b.y - a.y) - (b.x - a.x) * (tip.y - a.y)) / 2;
}

static size_t drop_spikes(struct point *points, size_t count, bool ring,
                          struct tidied *done)
{
    double middle = middle_leg(points, count);
    size_t kept = 0;
    if (middle <= 0)
        return count;
    for (size_t i = 0; i < count; i++) {
        bool inner = i > 0 && i + 1 < count;
        if (!inner && !ring) {
            points[kept++] = points[i];
            continue;
        }
        struct point before = kept > 0 ? points[kept - 1] : points[count - 1];
        struct point after = points[i + 1 < count ? i + 1 : 0];
        if (is_spike(before, points[i], after, middle))
            note_spike(before, points[i], after, done);
        else
            points[kept++] = points[i];
    }
    return kept;
}

size_t tidy_points(struct point *points, size_t count, bool ring, struct tidied *done)
{
    count = drop_doubles(points, count, ring, done);
    if (count < HAND_DRAWN)
        return count;
    size_t kept = drop_spikes(points, count, ring, done);
    /* What the spike parted may now be the same point. */
    struct tidied again = { 0 };
    return kept < count ? drop_doubles(points, kept, ring, &again) : kept;
}
