/* stand_fixture.h: stands by chance, to lay openings and trails out in. */
#ifndef SPINNEY_TESTS_STAND_FIXTURE_H
#define SPINNEY_TESTS_STAND_FIXTURE_H

#include <math.h>

#include "base/chance.h"
#include "base/fault.h"
#include "ground/layout.h"

enum { STAND_CORNERS = 48, STAND_EXITS = 4, STAND_TREES = 4 };

struct stand {
    struct shape cover, keep, road, exit_lines[STAND_EXITS];
    struct layout_exit exits[STAND_EXITS];
    struct layout_shun shun;
    struct layout_tree trees[STAND_TREES];
    struct layout_ask ask;
    const struct shape *keep_out;
};

static inline void stand_rim(double acres, uint64_t *chance, struct point *rim)
{
    double r = sqrt(acres * 43560 / 3.14159265), wave[2], turn[2];
    for (int k = 0; k < 2; k++) {
        wave[k] = 0.2 * chance_unit(chance) / (k + 1);
        turn[k] = 6.28 * chance_unit(chance);
    }
    for (int i = 0; i < STAND_CORNERS; i++) {
        double a = 6.283185307 * i / STAND_CORNERS;
        double q =
            r * (1 + wave[0] * sin(2 * a + turn[0]) + wave[1] * sin(3 * a + turn[1]) +
                 0.04 * (chance_unit(chance) - 0.5));
        rim[i] = (struct point){ 500 + q * cos(a), -300 + q * sin(a) };
    }
}

static inline bool stand_line(struct shape *s, const struct point *rim, int from,
                              int count, struct fault *f)
{
    struct point line[STAND_CORNERS];
    for (int i = 0; i < count; i++)
        line[i] = rim[(from + i) % STAND_CORNERS];
    *s = (struct shape){ .kind = SHAPE_LINES };
    return shape_add_part(s, line, (size_t)count, false, f);
}

/* A stand with `exits` edges to leave by, a wet spot and kept trees, and a road to stay
 * 40 ft off. */
static inline bool stand_make(struct stand *s, double acres, size_t exits, uint64_t seed,
                              struct fault *f)
{
    struct point rim[STAND_CORNERS], wet[8];
    uint64_t chance = seed;
    *s = (struct stand){ .cover = { .kind = SHAPE_AREAS },
                         .keep = { .kind = SHAPE_AREAS } };
    stand_rim(acres, &chance, rim);
    bool good = shape_add_part(&s->cover, rim, STAND_CORNERS, false, f);
    double r = sqrt(acres * 43560 / 3.14159265);
    double away = r * (0.2 + 0.2 * chance_unit(&chance)),
           at = 6.28 * chance_unit(&chance);
    for (int i = 0; i < 8; i++) {
        double q = r * (0.12 + 0.06 * chance_unit(&chance));
        wet[i].x = 500 + away * cos(at) + q * cos(0.785398 * i);
        wet[i].y = -300 + away * sin(at) + q * sin(0.785398 * i);
    }
    good = good && shape_add_part(&s->keep, wet, 8, false, f);
    for (int i = 0; i < STAND_TREES; i++) {
        double angle = 6.28 * chance_unit(&chance), d = 0.7 * r * chance_unit(&chance);
        s->trees[i].at = (struct point){ 500 + d * cos(angle), -300 + d * sin(angle) };
        s->trees[i].radius = 8 + 10 * chance_unit(&chance);
    }
    int step = STAND_CORNERS / (int)(exits + 1);
    for (size_t i = 0; good && i < exits; i++) {
        good = stand_line(&s->exit_lines[i], rim, (int)i * step, step / 2, f);
        s->exits[i] = (struct layout_exit){ &s->exit_lines[i], 0, 0 };
    }
    good = good && stand_line(&s->road, rim, (int)exits * step, step / 2, f);
    s->shun = (struct layout_shun){ &s->road, 40 };
    s->keep_out = &s->keep;
    s->ask = (struct layout_ask){
        .cover = &s->cover, .keep_outs = &s->keep_out, .keep_out_count = 1, .trees = s->trees,
        .tree_count = STAND_TREES, .exits = s->exits, .exit_count = exits,
        .shuns = &s->shun, .shun_count = 1, .width = 40, .count = 3, .ways_out = 2,
        .trail_width = 6, .seed = seed, .candidates = 1 };
    return good;
}

static inline void stand_free(struct stand *s)
{
    shape_free(&s->cover);
    shape_free(&s->keep);
    shape_free(&s->road);
    for (int i = 0; i < STAND_EXITS; i++)
        shape_free(&s->exit_lines[i]);
}

#endif
