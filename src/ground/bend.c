#include "ground/bend.h"

#include <stdlib.h>
#include <string.h>

#include "base/chance.h"
#include "base/fault.h"

#define TURN 6.283185307179586

enum { ROUNDS = 10, TRIES = 18 };

/* In widths of the trail: two legs keep so far apart; what is so much farther along is
 * another leg; and two swings at their widest reach so far (see swing). */
#define APART     1.5
#define OTHER_LEG 6.0
#define SWINGS    7.5

bool bend_walk(const struct point *points, size_t count, double step, struct trace *out,
               struct fault *f)
{
    double length = 0;
    for (size_t i = 1; i < count; i++)
        length += point_apart(points[i - 1], points[i]);
    size_t steps = (size_t)ceil(length / step);
    steps = steps < 2 ? 2 : steps;
    double even = length / (double)steps, gone = 0;
    out->count = 0;
    size_t at = 1;
    for (size_t k = 0; k < steps; k++) {
        double want = even * (double)k;
        while (at + 1 < count && gone + point_apart(points[at - 1], points[at]) < want) {
            gone += point_apart(points[at - 1], points[at]);
            at++;
        }
        struct point a = points[at - 1], b = points[at < count ? at : at - 1];
        double d = point_apart(a, b), t = d > 0 ? (want - gone) / d : 0;
        t = t < 0 ? 0 : t > 1 ? 1 : t;
        struct point p = { a.x + t * (b.x - a.x), a.y + t * (b.y - a.y) };
        if (!trace_add(out, p, f))
            return false;
    }
    return trace_add(out, points[count - 1], f);
}

static bool is_good(const struct bend_ask *ask, struct point p)
{
    long cell = lattice_cell(&ask->router->room->at, p);
    if (cell < 0)
        return false;
    int owner = ask->router->owner[cell] - 1;
    if (owner >= 0 && owner != ask->a && owner != ask->b)
        return false;
    const struct field *room = ask->router->room;
    if (room->room[cell] >= ask->width / 2 + 0.75 * room->at.cell)
        return true; /* as far from the walls as that, whatever the place in the cell */
    double need = ask->width / 2;
    if (ask->leaves) /* where it goes out the rim comes close, but only there */
        need = fmin(need, 0.5 * point_apart(p, ask->end));
    return field_room(room, p) >= need;
}

/* And the ground between: a step may not pass the corner of a wall. */
static bool is_good_step(const struct bend_ask *ask, struct point a, struct point b)
{
    for (int k = 1; k < 4; k++) {
        struct point p = { a.x + (b.x - a.x) * k / 4, a.y + (b.y - a.y) * k / 4 };
        if (!is_good(ask, p))
            return false;
    }
    return true;
}

/* Off the wall that is too close. */
static struct point pushed(const struct bend_ask *ask, struct point p)
{
    const struct field *room = ask->router->room;
    for (int k = 0; k < 4; k++) {
        long wall = field_wall_at(room, p);
        double need = ask->width / 2 + 0.3;
        if (ask->leaves)
            need = fmin(need, 0.5 * point_apart(p, ask->end));
        double lack = wall < 0 ? 0 : need - wall_distance(&room->walls[wall], p);
        if (lack <= 0.2)
            break;
        struct point from = wall_nearest(&room->walls[wall], p);
        double d = point_apart(from, p);
        if (d <= 0)
            break;
        p.x += (p.x - from.x) / d * lack;
        p.y += (p.y - from.y) / d * lack;
    }
    return p;
}

static void round_off(const struct bend_ask *ask, struct trace *t)
{
    for (size_t i = 1; i + 1 < t->count; i++)
        t->points[i] = pushed(ask, t->points[i]);
    for (int round = 0; round < ROUNDS; round++) {
        for (size_t i = 1; i + 1 < t->count; i++) {
            struct point a = t->points[i - 1], b = t->points[i + 1];
            struct point p = { (a.x + 2 * t->points[i].x + b.x) / 4,
                               (a.y + 2 * t->points[i].y + b.y) / 4 };
            if (is_good(ask, p) && is_good_step(ask, a, p) && is_good_step(ask, p, b))
                t->points[i] = p;
        }
    }
}

/* How far to the side each point goes: waves that vary, flat at both ends. */
static void waves(struct bend_ask *ask, size_t count, double step, double wave,
                  double wide, double *aside)
{
    double phase = TURN * chance_unit(&ask->chance), length = wave, strong = wide;
    double total = step * (double)(count - 1);
    double flat = fmin(wave / 4, total / 3), half = 0;
    for (size_t i = 0; i < count; i++) {
        double at = step * (double)i, end = fmin(at, total - at);
        double ease = flat > 0 && end < flat ? end / flat : 1;
        aside[i] = strong * ease * ease * (3 - 2 * ease) * sin(phase);
        phase += TURN * step / length;
        half += step / length;
        if (half >= 0.5) { /* each half of a wave of its own */
            half -= 0.5;
            length = wave * (0.88 + 0.24 * chance_unit(&ask->chance));
            strong = wide * (0.9 + 0.3 * chance_unit(&ask->chance));
        }
    }
}

/* Is a point of the line this near to a leg of it that lies farther along? */
static bool is_beside_itself(const struct bend_ask *ask, const struct trace *line,
                             size_t i, double step, double near)
{
    size_t off = (size_t)ceil(OTHER_LEG * ask->width / step);
    for (size_t k = 0; k < line->count; k++)
        if ((k > i ? k - i : i - k) > off &&
            point_apart(line->points[i], line->points[k]) < near)
            return true;
    return false;
}

/* Could swings of two of its legs meet? */
static bool comes_back(const struct bend_ask *ask, const struct trace *line, double step)
{
    for (size_t i = 0; i < line->count; i++)
        if (is_beside_itself(ask, line, i, step, SWINGS * ask->width))
            return true;
    return false;
}

/* The line with its points shifted, each as far as there is room for it: off walls and,
 * where it comes back beside itself, off its other leg. */
static void shift(const struct bend_ask *ask, const struct trace *line, double *aside,
                  double step, bool back, struct trace *out)
{
    size_t count = line->count;
    struct point *p = out->points;
    int rounds = back ? 12 : 6;
    for (int round = 0; round < rounds; round++) {
        p[0] = line->points[0];
        p[count - 1] = line->points[count - 1];
        for (size_t i = 1; i + 1 < count; i++) {
            struct point a = line->points[i - 1], b = line->points[i + 1];
            double d = point_apart(a, b);
            p[i] = line->points[i];
            if (d > 0) {
                p[i].x += -(b.y - a.y) / d * aside[i];
                p[i].y += (b.x - a.x) / d * aside[i];
            }
        }
        bool clean = true;
        for (size_t i = 1; i + 1 < count; i++) {
            bool met = back && is_beside_itself(ask, out, i, step, APART * ask->width);
            if (!met && is_good(ask, p[i]) && is_good_step(ask, p[i - 1], p[i]) &&
                is_good_step(ask, p[i], p[i + 1]))
                continue;
            clean = false;
            for (size_t k = i > 3 ? i - 3 : 1; k <= i + 3 && k + 1 < count; k++)
                aside[k] *= round >= rounds - 2 ? 0 : met ? 0.8 : 0.6;
        }
        if (clean)
            break;
    }
}

static bool swing(struct bend_ask *ask, const struct trace *line, struct trace *out,
                  double *aside, struct fault *f)
{
    struct trace try = { 0 };
    bool good = true;
    for (size_t i = 0; good && i < line->count; i++)
        good = trace_add(&try, line->points[i], f);
    double step = trace_length(line) / (double)(line->count - 1);
    bool back = comes_back(ask, line, step);
    double least = bend_sight(line->points, line->count, ask->width, HUGE_VAL, NULL);
    for (int k = 0; good && k < TRIES && least > ask->sight; k++) {
        double wave = ask->sight * (1.25 - 0.04 * k);
        double wide = ask->width * (0.8 + 0.09 * k);
        waves(ask, line->count, step, wave, wide, aside);
        shift(ask, line, aside, step, back, &try);
        double sight = bend_sight(try.points, try.count, ask->width, least, NULL);
        if (sight < least) {
            least = sight;
            memcpy(out->points, try.points, out->count * sizeof *out->points);
        }
    }
    free(try.points);
    return good;
}

bool bend_trail(const struct bend_ask *given, const struct trace *way, struct trace *out,
                struct fault *f)
{
    struct bend_ask ask = *given;
    double step = ask.sight > 0 ? fmin(fmax(ask.sight / 10, 2), 10) : 10;
    struct trace line = { 0 };
    double *aside = NULL;
    bool good = bend_walk(way->points, way->count, step, &line, f);
    if (good) {
        round_off(&ask, &line);
        good = bend_walk(line.points, line.count, step, out, f);
    }
    if (good && ask.sight > 0) {
        line.count = 0;
        for (size_t i = 0; good && i < out->count; i++)
            good = trace_add(&line, out->points[i], f);
        aside = calloc(line.count + 1, sizeof *aside);
        good = good && (aside || fault_no_memory(f));
        good = good && swing(&ask, &line, out, aside, f);
    }
    free(aside);
    free(line.points);
    return good;
}
