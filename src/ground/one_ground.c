#include "ground/one_ground.h"

#include <math.h>
#include <stdlib.h>

#include "base/fault.h"
#include "ground/near.h"
#include "ground/segment.h"

#define MOST      4    /* widths */
#define END       15.0 /* ft */
#define NARROWEST 0.5  /* ft */

enum { CHOICES_MOST = 200 };

/* Looks along one line for those before it. */
struct look {
    const struct one_line *lines;
    struct segment *pieces;
    size_t *of; /* of each piece: its line */
    struct near near;
    double *run;                 /* of each line: ft beside this one up to now */
    size_t *last;                /* of each: the sample at which it was beside it */
    size_t line, sample, shares; /* the first that shares ground, `line` for none */
    struct point at;
    double step;
};

/* What is brushed out narrower is looked at as if it were not: samples stay apart. */
static double width_of(const struct one_line *line)
{
    return line->width > 0 ? fmax(line->width, NARROWEST) : 0;
}

static bool see(void *closure, size_t piece)
{
    struct look *l = closure;
    size_t other = l->of[piece];
    double width = (width_of(&l->lines[l->line]) + width_of(&l->lines[other])) / 2;
    if (other >= l->shares || l->last[other] == l->sample ||
        segment_distance(l->pieces[piece], l->at, NULL) >= width)
        return true;
    bool on = l->last[other] + 1 == l->sample;
    l->run[other] = (on ? l->run[other] : 0) + l->step;
    l->last[other] = l->sample;
    if (l->run[other] > MOST * width)
        l->shares = other;
    return true;
}

/* The first line before this one that shares ground with it, or itself. Samples are
 * counted on from line to line, with a gap where one is left out. */
static size_t shares_with(struct look *l, size_t line, double widest)
{
    const struct one_line *a = &l->lines[line];
    double reach = (width_of(a) + widest) / 2, step = width_of(a) / 3;
    l->line = l->shares = line;
    l->sample += 2;
    for (size_t i = 1; i < a->count && step > 0; i++) {
        struct point p = a->points[i - 1], q = a->points[i];
        double length = point_gap(p, q);
        for (double d = 0; d < length; d += step) {
            l->at = segment_at((struct segment){ p, q }, d / length);
            l->step = fmin(step, length - d);
            bool end = point_gap(l->at, a->points[0]) < END ||
                       point_gap(l->at, a->points[a->count - 1]) < END;
            struct shape_box box = { l->at.x - reach, l->at.y - reach, l->at.x + reach,
                                     l->at.y + reach };
            l->sample += end ? 2 : 1;
            if (!end)
                near_each(&l->near, box, see, l);
        }
    }
    return l->shares;
}

static bool has_first(const struct one_ground *g, size_t first)
{
    for (size_t k = 0; k < g->first_count; k++)
        if (g->firsts[k] == first)
            return true;
    return false;
}

static bool group(const struct one_line *lines, struct look *l, struct one_ground *g,
                  struct fault *f)
{
    double widest = 0;
    size_t count = 0;
    for (size_t i = 0; i < g->count; i++) {
        widest = fmax(widest, width_of(&lines[i]));
        count += lines[i].count > 0 ? lines[i].count - 1 : 0;
    }
    size_t put = 0;
    l->pieces = malloc((count + 1) * sizeof *l->pieces);
    l->of = malloc((count + 1) * sizeof *l->of);
    l->run = calloc(g->count + 1, sizeof *l->run);
    l->last = calloc(g->count + 1, sizeof *l->last);
    if (!l->pieces || !l->of || !l->run || !l->last)
        return fault_no_memory(f);
    for (size_t i = 0; i < g->count; i++)
        for (size_t k = 1; k < lines[i].count; k++, put++) {
            l->pieces[put] =
                (struct segment){ lines[i].points[k - 1], lines[i].points[k] };
            l->of[put] = i;
        }
    if (!near_build(&l->near, l->pieces, count, f))
        return false;
    for (size_t i = 0; i < g->count; i++) {
        size_t other = shares_with(l, i, widest);
        g->group[i] = other < i ? g->group[other] : i;
        if (other < i && !has_first(g, g->group[i]) && g->first_count < ONE_GROUPS)
            g->firsts[g->first_count++] = g->group[i];
    }
    return true;
}

bool one_ground_find(const struct one_line *lines, size_t count, struct one_ground *g,
                     struct fault *f)
{
    struct look l = { .lines = lines };
    *g = (struct one_ground){ .count = count };
    g->group = calloc(count + 1, sizeof *g->group);
    g->used = calloc(count + 1, 1);
    bool good = (g->group && g->used) || fault_no_memory(f);
    good = good && group(lines, &l, g, f);
    near_free(&l.near);
    free(l.pieces);
    free(l.of);
    free(l.run);
    free(l.last);
    if (good)
        one_ground_start(g);
    else
        one_ground_free(g);
    return good;
}

void one_ground_free(struct one_ground *g)
{
    free(g->group);
    free(g->used);
    *g = (struct one_ground){ .count = 0 };
}

void one_ground_start(struct one_ground *g)
{
    g->choices = 1;
    for (size_t i = 0; i < g->count; i++)
        g->used[i] = g->group[i] == i;
}

bool one_ground_next(struct one_ground *g)
{
    if (g->choices++ >= CHOICES_MOST)
        return false;
    for (size_t k = 0; k < g->first_count; k++) {
        size_t first = g->firsts[k], now = first, i;
        while (!g->used[now] || g->group[now] != first)
            now++;
        g->used[now] = 0;
        for (i = now + 1; i < g->count && g->group[i] != first; i++)
            ;
        if (i < g->count) {
            g->used[i] = 1;
            return true;
        }
        g->used[first] = 1;
    }
    return false;
}
