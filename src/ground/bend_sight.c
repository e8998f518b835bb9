#include <stdlib.h>

#include "ground/bend.h"

enum { LANES = 7 };

/* A point of the trail and the way across, half a width long. */
struct across {
    struct point at, side;
};

/* How far one sees from the lane: the way through the cross lines after it narrows down. */
static size_t sees(const struct across *line, size_t count, size_t i, double lane,
                   double part)
{
    struct point eye = { line[i].at.x + lane * line[i].side.x,
                         line[i].at.y + lane * line[i].side.y };
    double fx = line[i].side.y, fy = -line[i].side.x; /* ahead */
    double low = -HUGE_VAL, high = HUGE_VAL;
    size_t j = i + 1;
    for (; j < count; j++) {
        double slope[2];
        for (int k = 0; k < 2; k++) {
            double s = k == 0 ? -part : part;
            double dx = line[j].at.x + s * line[j].side.x - eye.x;
            double dy = line[j].at.y + s * line[j].side.y - eye.y;
            double ahead = dx * fx + dy * fy;
            if (ahead <= 1e-9)
                return j - 1;
            slope[k] = (dx * line[i].side.x + dy * line[i].side.y) / ahead;
        }
        low = fmax(low, fmin(slope[0], slope[1]));
        high = fmin(high, fmax(slope[0], slope[1]));
        if (low > high)
            return j - 1;
    }
    return count - 1;
}

static void lay_across(const struct point *points, size_t count, double width,
                       struct across *line)
{
    for (size_t i = 0; i < count; i++) {
        struct point a = points[i > 0 ? i - 1 : 0];
        struct point b = points[i + 1 < count ? i + 1 : count - 1];
        double length = point_apart(a, b);
        double scale = length > 0 ? width / 2 / length : 0;
        line[i] = (struct across){ points[i], { -(b.y - a.y) * scale, (b.x - a.x) * scale } };
    }
}

double bend_sight(const struct point *points, size_t count, double width,
                  struct point *where)
{
    struct across *line = malloc((count + 1) * sizeof *line);
    double longest = 0;
    if (!line)
        return HUGE_VAL; /* no trail is passed unseen */
    lay_across(points, count, width, line);
    /* A line between two lanes is seen from the nearer one, in a trail wider by the rest. */
    double part = 1 + 1.0 / (LANES - 1);
    for (size_t i = 0; i + 1 < count; i++) {
        for (int k = 0; k < LANES; k++) {
            double lane = -1 + 2.0 * k / (LANES - 1);
            size_t j = sees(line, count, i, lane, part);
            /* The step after the last cross line that it passes may be seen in part. */
            double far = point_apart(points[i], points[j]);
            if (far > longest) {
                longest = far;
                if (where)
                    *where = (struct point){ (points[i].x + points[j].x) / 2,
                                             (points[i].y + points[j].y) / 2 };
            }
        }
    }
    free(line);
    return longest;
}
