#include <stdlib.h>

#include "ground/bend.h"

enum { LANES = 5, PLACES = 4, HALVINGS = 5 };

/* A point of the trail and the way across, half a width long. */
struct across {
    struct point at, side;
};

/* The slopes at which the two ends of a cross line are seen from the middle of a way, and by
 * how much less from one half width to the left of it. */
struct ends {
    double slope[2], shift[2];
    bool behind; /* or beside: nothing of it is seen */
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

/* All lanes of a way across look straight ahead alike, so that one sum does for all. */
static void see_ends(const struct across *line, struct across from, double part,
                     struct ends *out)
{
    struct point ahead = { from.side.y, -from.side.x };
    double square = from.side.x * from.side.x + from.side.y * from.side.y;
    out->behind = false;
    for (int k = 0; k < 2; k++) {
        double s = k == 0 ? -part : part;
        double dx = line->at.x + s * line->side.x - from.at.x;
        double dy = line->at.y + s * line->side.y - from.at.y;
        double far = dx * ahead.x + dy * ahead.y;
        out->behind = out->behind || far <= 1e-9;
        out->slope[k] = (dx * from.side.x + dy * from.side.y) / far;
        out->shift[k] = square / far;
    }
}

/* passes() by the ends of the line. */
static inline bool passes_ends(struct view *v, const struct ends *e, double lane)
{
    double one = e->slope[0] - lane * e->shift[0];
    double other = e->slope[1] - lane * e->shift[1];
    double low = most_of(v->low, least_of(one, other));
    double high = least_of(v->high, most_of(one, other));
    if (e->behind || low > high)
        return false;
    v->low = low;
    v->high = high;
    return true;
}

/* The trail, and what is known of its cross lines as seen from one of them. */
struct looking {
    const struct across *line;
    size_t count;
    double part;
    struct ends *ends;
    size_t known; /* up to here */
};

/* How far one sees ahead from the lane of a cross line between i and i + 1; what does not
 * beat the longest so far is not worked out to the end. */
static double sees(struct looking *l, size_t i, struct across from, double lane,
                   double beat)
{
    const struct across *line = l->line;
    size_t count = l->count;
    struct view v = { .low = -HUGE_VAL, .high = HUGE_VAL };
    v.eye =
        (struct point){ from.at.x + lane * from.side.x, from.at.y + lane * from.side.y };
    v.side = from.side;
    v.ahead = (struct point){ from.side.y, -from.side.x };
    size_t j = i + 1;
    for (; j < count; j++) {
        if (j >= l->known) {
            see_ends(&line[j], from, l->part, &l->ends[j]);
            l->known = j + 1;
        }
        if (!passes_ends(&v, &l->ends[j], lane))
            break;
    }
    if (j == count)
        return across_from(v.eye, line[count - 1]);
    struct across last = j == i + 1 ? from : line[j - 1];
    double sure = 0, step = 0.5;
    if (fmax(across_from(v.eye, line[j]), across_from(v.eye, last)) <= beat)
        return 0;
    for (int k = 0; k < HALVINGS; k++, step /= 2) {
        struct view again = v;
        if (passes(&again, between(last, line[j], sure + step), l->part))
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
    struct ends *ends = malloc((count + 1) * sizeof *ends);
    double longest = 0;
    /* A line between two lanes is seen from the nearer one, as if the trail were
     * so much wider. */
    struct looking l = { line, count, 1 + 1.0 / (LANES - 1), ends, 0 };
    if (!line || !ends) {
        free(line);
        free(ends);
        return HUGE_VAL; /* no trail is passed unseen */
    }
    lay_across(points, count, width, line);
    for (size_t i = 0; i + 1 < count && longest <= enough; i++) {
        double step = point_apart(points[i], points[i + 1]);
        for (int k = 0; k < LANES * PLACES; k++) {
            double lane = -1 + 2.0 * (k % LANES) / (LANES - 1);
            struct across from = between(line[i], line[i + 1],
                                         (double)(k / LANES) / PLACES);
            /* It may begin so much farther back. */
            double back = i > 0 || k >= LANES ? step / PLACES : 0;
            l.known = k % LANES == 0 ? i + 1 : l.known;
            double far = back + sees(&l, i, from, lane, longest - back);
            if (far > longest) {
                longest = far;
                if (where)
                    *where = from.at;
            }
        }
    }
    free(line);
    free(ends);
    return longest;
}
