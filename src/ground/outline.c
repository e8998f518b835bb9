#include "ground/outline.h"

#include <math.h>

#include "base/chance.h"
#include "ground/lattice.h"

#define TURN 6.283185307179586

double outline_area(const struct point *rim, size_t count)
{
    double twice = 0;
    for (size_t i = 0; i < count; i++) {
        struct point a = rim[i], b = rim[(i + 1) % count];
        twice +=
            (a.x - rim[0].x) * (b.y - rim[0].y) - (b.x - rim[0].x) * (a.y - rim[0].y);
    }
    return twice / 2;
}

void outline_make(struct point center, double width, double area, uint64_t *chance,
                  struct point rim[OUTLINE_POINTS])
{
    /* How strong the waves of two, three ... may be; together they stay below 0.28. */
    static const double most[] = { 0.12, 0.08, 0.05, 0.03 };
    double strength[4], turn[4];
    for (int k = 0; k < 4; k++) {
        strength[k] = most[k] * (0.5 + 0.5 * chance_unit(chance));
        turn[k] = TURN * chance_unit(chance);
    }
    double lie = TURN * chance_unit(chance);
    struct point flat[OUTLINE_POINTS];
    for (int i = 0; i < OUTLINE_POINTS; i++) {
        double angle = TURN * i / OUTLINE_POINTS, r = 1;
        for (int k = 0; k < 4; k++)
            r += strength[k] * cos((k + 2) * angle + turn[k]);
        flat[i] =
            (struct point){ width / 2 * r * cos(angle), width / 2 * r * sin(angle) };
    }
    double stretch = area > 0 ? area / outline_area(flat, OUTLINE_POINTS) : 1;
    for (int i = 0; i < OUTLINE_POINTS; i++) {
        double x = flat[i].x * stretch, y = flat[i].y;
        rim[i].x = center.x + x * cos(lie) - y * sin(lie);
        rim[i].y = center.y + x * sin(lie) + y * cos(lie);
    }
}

double outline_reach(struct point center, const struct point rim[OUTLINE_POINTS])
{
    double farthest = 0;
    for (int i = 0; i < OUTLINE_POINTS; i++)
        farthest = fmax(farthest, point_apart(center, rim[i]));
    return farthest;
}

struct point outline_crossing(const struct point *rim, size_t count, struct point inside,
                              struct point outside)
{
    double first = 2, dx = outside.x - inside.x, dy = outside.y - inside.y;
    for (size_t i = 0; i < count; i++) {
        struct point a = rim[i], b = rim[(i + 1) % count];
        double ex = b.x - a.x, ey = b.y - a.y, under = dx * ey - dy * ex;
        if (under == 0)
            continue;
        double t = ((a.x - inside.x) * ey - (a.y - inside.y) * ex) / under;
        double u = ((a.x - inside.x) * dy - (a.y - inside.y) * dx) / under;
        if (t >= 0 && t <= 1 && u >= 0 && u <= 1 && t < first)
            first = t;
    }
    if (first > 1)
        return inside;
    return (struct point){ inside.x + first * dx, inside.y + first * dy };
}

bool outline_has(const struct point *rim, size_t count, struct point p)
{
    bool in = false;
    for (size_t i = 0, j = count - 1; i < count; j = i++) {
        struct point a = rim[i], b = rim[j];
        if ((a.y > p.y) != (b.y > p.y) &&
            p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y))
            in = !in;
    }
    return in;
}
