#include <stdlib.h>

#include "ground/bend.h"

enum { LANES = 5, PLACES = 4, HALVINGS = 5 };

/* A point of the trail and the way across, half a width long. */
struct across {
    struct point at, side;
};

/* What is seen from an eye: everything between two slopes off the way ahead. */
struct view {
    struct point eye;
    struct point side, ahead; /* the trail's, at the eye */
    double low, high;
};

/* Of numbers that are ones: half of the time goes here. */
static inline double least_of(double a, double b)
{
    return a < b ? a : b;
}

static inline double most_of(double a, double b)
{
    return a > b ? a : b;
}

static struct across between(struct across a, struct across b, double t)
{
    struct across c = {
        { a.at.x + t * (b.at.x - a.at.x), a.at.y + t * (b.at.y - a.at.y) },
        { a.side.x + t * (b.side.x - a.side.x), a.side.y + t * (b.side.y - a.side.y) }
    };
    return c;
}

/* Through one more cross line, if any of it is seen; then the view has narrowed. */
static bool passes(struct view *v, struct across line, double part)
{
    double slope[2];
    for (int k = 0; k < 2; k++) {
        double s = k == 0 ? -part : part;
        double dx = line.at.x + s * line.side.x - v->eye.x;
        double dy = line.at.y + s * line.side.y - v->eye.y;
        double ahead = dx * v->ahead.x + dy * v->ahead.y;
        if (ahead <= 1e-9)
            return false;
        slope[k] = (dx * v->side.x + dy * v->side.y) / ahead;
    }
    double low = most_of(v->low, least_of(slope[0], slope[1]));
    double high = least_of(v->high, most_of(slope[0], slope[1]));
    if (low > high)
        return false;
    v->low = low;
    v->high = high;
    return true;
}

/* To the farther end of a cross line. */
static double across_from(struct point eye, struct across line)
{
    struct point left = { line.at.x - line.side.x, line.at.y - line.side.y };
    struct point right = { line.at.x + line.side.x, line.at.y + line.side.y };
    return most_of(point_apart(eye, left), point_apart(eye, right));
}

/* How far one sees ahead from the lane of a cross line between i and i + 1; what does not
 * beat the longest so far is not worked out to the end. */
static double sees(const struct across *line, size_t count, size_t i, struct across from,
                   double lane, double part, double beat)
{
    struct view v = { .low = -HUGE_VAL, .high = HUGE_VAL };
    v.eye =
        (struct point){ from.at.x + lane * from.side.x, from.at.y + lane * from.side.y };
    v.side = from.side;
    v.ahead = (struct point){ from.side.y, -from.side.x };
    size_t j = i + 1;
    while (j < count && passes(&v, line[j], part))
        j++;
    if (j == count)
        return across_from(v.eye, line[count - 1]);
    struct across last = j == i + 1 ? from : line[j - 1];
    double sure = 0, step = 0.5;
    if (fmax(across_from(v.eye, line[j]), across_from(v.eye, last)) <= beat)
        return 0;
    for (int k = 0; k < HALVINGS; k++, step /= 2) {
        struct view again = v;
        if (passes(&again, between(last, line[j], sure + step), part))
            sure += step;
    }
    return across_from(v.eye, between(last, line[j], sure + 2 * step));
}

/* Where the trail turns, the way across is longer: to where its sides meet. */
static void lay_across(const struct point *points, size_t count, double width,
                       struct across *line)
{
    for (size_t i = 0; i < count; i++) {
        struct point a = points[i > 0 ? i - 1 : 0], p = points[i];
        struct point b = points[i + 1 < count ? i + 1 : count - 1];
        double u = point_apart(a, p), v = point_apart(p, b), length = point_apart(a, b);
        double turn = u > 0 && v > 0 ? ((p.x - a.x) * (b.x - p.x) +
                                        (p.y - a.y) * (b.y - p.y)) / (u * v) : 1;
        double half = sqrt(fmax(0.1, (1 + turn) / 2)); /* the cosine of half the turn */
        double scale = length > 0 ? width / 2 / length / half : 0;
        line[i] = (struct across){ p, { -(b.y - a.y) * scale, (b.x - a.x) * scale } };
    }
}

double bend_sight(const struct point *points, size_t count, double width, double enough,
                  struct point *where)
{
    struct across *line = malloc((count + 1) * sizeof *line);
    double longest = 0;
    if (!line)
        return HUGE_VAL; /* no trail is passed unseen */
    lay_across(points, count, width, line);
    /* A line between two lanes is seen from the nearer one, as if the trail were
     * so much wider. */
    double part = 1 + 1.0 / (LANES - 1);
    for (size_t i = 0; i + 1 < count && longest <= enough; i++) {
        double step = point_apart(points[i], points[i + 1]);
        for (int k = 0; k < LANES * PLACES; k++) {
            double lane = -1 + 2.0 * (k % LANES) / (LANES - 1);
            struct across from = between(line[i], line[i + 1],
                                         (double)(k / LANES) / PLACES);
            /* It may begin so much farther back. */
            double back = i > 0 || k >= LANES ? step / PLACES : 0;
            double far = back + sees(line, count, i, from, lane, part, longest - back);
            if (far > longest) {
                longest = far;
                if (where)
                    *where = from.at;
            }
        }
    }
    free(line);
    return longest;
}
