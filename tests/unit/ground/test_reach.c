/* The farthest point of the cover, and the ground that is covered, against fine grids. */
#include "drawn.h"

#include "ground/covered.h"
#include "ground/near.h"
#include "ground/pieces.h"
#include "ground/reach.h"

static void one_trail_in_a_square(void **state)
{
    (void)state;
    struct fault f = { .id = NULL };
    struct shape cover = { .kind = SHAPE_AREAS }, line = { .kind = SHAPE_LINES };
    const struct shape *const lines[] = { &line };
    struct reach far;
    drawn_square(&cover, 500, 500, 500);
    DRAW(&line, 0, 0, 1000, 0);
    struct reach_ask ask = { &cover, lines, 1, NULL, 0 };
    assert_true(reach_farthest(&ask, &far, &f));
    assert_near(far.distance, 1000, REACH_CLOSE);
    assert_near(far.at.y, 1000, REACH_CLOSE);
    ask.line_count = 0;
    assert_true(reach_farthest(&ask, &far, &f));
    assert_true(isinf(far.distance));
    shape_free(&line);
    /* Round the middle: what is farthest lies inside, not on the rim. */
    line.kind = SHAPE_LINES;
    DRAW(&line, 0, 0, 1000, 0, 1000, 1000, 0, 1000, 0, 0);
    ask.line_count = 1;
    assert_true(reach_farthest(&ask, &far, &f));
    assert_near(far.distance, 500, REACH_CLOSE);
    shape_free(&line);
    shape_free(&cover);
}

/* A stand drawn by chance, with a pond in it. */
struct stand {
    struct shape cover, lines[3], openings[2];
    const struct shape *line_list[3], *opening_list[2];
    struct strip strips[32];
    size_t strip_count;
    double radius;
};

static void draw_stand(struct stand *s, unsigned *seed)
{
    struct fault f = { .id = NULL };
    *s = (struct stand){ .radius = drawn_between(seed, 3, 60) };
    drawn_blob(&s->cover, 0, 0, 400, drawn_between(seed, 0, 0.3), 60);
    struct point pond[4] = { { -150, -100 }, { -60, -110 }, { -70, -20 }, { -160, -30 } };
    assert_true(shape_add_part(&s->cover, pond, 4, true, &f));
    for (int i = 0; i < 3; i++) {
        double xy[12];
        struct shape *line = &s->lines[i];
        line->kind = SHAPE_LINES;
        for (int k = 0; k < 12; k++)
            xy[k] = drawn_between(seed, -450, 450);
        drawn_part(line, xy, 6);
        for (size_t k = 1; k < 6; k++)
            s->strips[s->strip_count++] =
                (struct strip){ { line->points[k - 1], line->points[k] }, s->radius };
        s->line_list[i] = line;
    }
    for (int i = 0; i < 2; i++) {
        drawn_blob(&s->openings[i], drawn_between(seed, -300, 300),
                   drawn_between(seed, -300, 300), 60, 0.2, 20);
        s->opening_list[i] = &s->openings[i];
    }
}

static void free_stand(struct stand *s)
{
    shape_free(&s->cover);
    for (int i = 0; i < 3; i++)
        shape_free(&s->lines[i]);
    for (int i = 0; i < 2; i++)
        shape_free(&s->openings[i]);
}

static double to_nearest(const struct stand *s, struct point p)
{
    double best = HUGE_VAL;
    for (int i = 0; i < 3; i++)
        best = fmin(best, shape_distance(&s->lines[i], p, NULL));
    for (int i = 0; i < 2; i++)
        best = fmin(best, shape_distance(&s->openings[i], p, NULL));
    return best;
}

static void farthest_against_a_grid(void **state)
{
    (void)state;
    unsigned seed = 31;
    for (int n = 0; n < 25; n++) {
        struct fault f = { .id = NULL };
        struct stand s;
        struct reach far;
        double best = 0, step = 6;
        draw_stand(&s, &seed);
        struct reach_ask ask = { &s.cover, s.line_list, 3, s.opening_list, 2 };
        assert_true(reach_farthest(&ask, &far, &f));
        assert_true(shape_rim_distance(&s.cover, far.at, NULL) < 1e-6 ||
                    shape_has(&s.cover, far.at));
        assert_near(to_nearest(&s, far.at), far.distance, 1e-6);
        for (double y = -600; y < 600; y += step)
            for (double x = -600; x < 600; x += step) {
                struct point p = { x, y };
                if (shape_has(&s.cover, p))
                    best = fmax(best, to_nearest(&s, p));
            }
        assert_true(far.distance >= best - REACH_CLOSE);
        assert_true(far.distance <= best + step * sqrt(2));
        free_stand(&s);
    }
}

static void covered_against_a_grid(void **state)
{
    (void)state;
    unsigned seed = 37;
    for (int n = 0; n < 15; n++) {
        struct fault f = { .id = NULL };
        struct stand s;
        struct covered found;
        double taken = 0, step = 2.37;
        draw_stand(&s, &seed);
        struct covered_ask ask = { &s.cover,       s.strips, s.strip_count,
                                   s.opening_list, 2,        s.radius / 4 };
        assert_true(covered_area(&ask, &found, &f));
        assert_near(found.whole, shape_area(&s.cover), shape_area(&s.cover) / 500);
        for (double y = -600; y < 600; y += step)
            for (double x = -600; x < 600; x += step) {
                struct point p = { x, y };
                bool held = false;
                for (int i = 0; i < 3 && !held; i++)
                    held = shape_distance(&s.lines[i], p, NULL) <= s.radius;
                for (int i = 0; i < 2 && !held; i++)
                    held = shape_has(&s.openings[i], p);
                taken += held && shape_has(&s.cover, p) ? step * step : 0;
            }
        assert_true(taken > 10000);
        assert_near(found.covered, taken, taken / 100);
        free_stand(&s);
    }
}

/* Known to the last: a 6 ft trail through a square, an opening over it. */
static void covered_by_hand(void **state)
{
    (void)state;
    struct fault f = { .id = NULL };
    struct shape cover = { .kind = SHAPE_AREAS }, square = { .kind = SHAPE_AREAS };
    const struct shape *const areas[] = { &square };
    struct strip strips[] = { { { { -100, 300 }, { 1100, 300 } }, 3 },
                              { { { 700, 200 }, { 700, 600 } }, 3 } };
    struct covered found;
    drawn_square(&cover, 500, 500, 500);
    drawn_square(&square, 300, 300, 50);
    struct covered_ask ask = { &cover, strips, 2, areas, 1, 0.75 };
    assert_true(covered_area(&ask, &found, &f));
    double exact = 1000 * 6 + 400 * 6 - 36 + 9 * 3.141592653589793 + 100 * 100 - 100 * 6;
    assert_near(found.whole, 1e6, 1e6 / 5000);
    assert_near(found.covered, exact, exact / 500);
    shape_free(&cover);
    shape_free(&square);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_trail_in_a_square),
        cmocka_unit_test(farthest_against_a_grid),
        cmocka_unit_test(covered_against_a_grid),
        cmocka_unit_test(covered_by_hand),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
