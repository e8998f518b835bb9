/* Stretches of lines in, near and upwind of shapes, against points along them. */
#include "drawn.h"

#include "ground/along.h"
#include "ground/near.h"
#include "ground/pieces.h"
#include "ground/upwind.h"

static bool told(const struct along_list *l, double at)
{
    for (size_t i = 0; i < l->count; i++)
        if (at >= l->list[i].from && at <= l->list[i].to)
            return true;
    return false;
}

static double from_an_end(const struct along_list *l, double at)
{
    double best = HUGE_VAL;
    for (size_t i = 0; i < l->count; i++)
        best = fmin(best, fmin(fabs(at - l->list[i].from), fabs(at - l->list[i].to)));
    return best;
}

static void a_line_through_a_square(void **state)
{
    (void)state;
    struct fault f = { .id = NULL };
    struct shape square = { .kind = SHAPE_AREAS };
    struct point line[] = { { -100, 0 }, { 0, 0 }, { 200, 0 } };
    struct along_list found = { .list = NULL };
    drawn_square(&square, 0, 0, 50);
    assert_true(along_inside(line, 3, &square, &found, &f));
    assert_int_equal(found.count, 1);
    assert_near(found.list[0].from, 50, 1e-9);
    assert_near(found.list[0].to, 150, 1e-9);
    assert_near(found.list[0].end.x, 50, 1e-9);
    assert_true(along_near(line, 3, &square, 30, &found, &f));
    assert_int_equal(found.count, 2);
    assert_near(found.list[1].from, 20, 0.011);
    assert_near(found.list[1].to, 180, 0.011);
    assert_near(found.list[1].distance, 0, 0);
    along_free(&found);
    shape_free(&square);
}

/* Exactly the distance asked is far enough; along the rim is not in. */
static void at_the_very_distance(void **state)
{
    (void)state;
    struct fault f = { .id = NULL };
    struct shape square = { .kind = SHAPE_AREAS }, road = { .kind = SHAPE_LINES };
    struct point line[] = { { -100, 80 }, { 100, 80 } },
                 rim[] = { { -80, 50 }, { 80, 50 } };
    struct along_list found = { .list = NULL };
    drawn_square(&square, 0, 0, 50);
    DRAW(&road, -500, 130, 500, 130);
    assert_true(along_near(line, 2, &square, 30, &found, &f));
    assert_true(along_near(line, 2, &road, 50, &found, &f));
    assert_int_equal(found.count, 0);
    assert_true(along_near(line, 2, &road, 51, &found, &f));
    assert_int_equal(found.count, 1);
    assert_near(found.list[0].distance, 50, 1e-9);
    assert_near(found.list[0].to, 200, 1e-9);
    found.count = 0;
    assert_true(along_near(rim, 2, &square, 0, &found, &f));
    assert_int_equal(found.count, 0);
    along_free(&found);
    shape_free(&square);
    shape_free(&road);
}

/* A square 20 ft off a line has as much of it beside it as its side is long; round its end
 * nothing is added. */
static void beside_is_square_to_the_line(void **state)
{
    (void)state;
    struct fault f = { .id = NULL };
    struct shape square = { .kind = SHAPE_AREAS };
    struct point line[] = { { -400, -70 }, { 10, -70 }, { 400, -70 } };
    struct point through[] = { { -400, 0 }, { 400, 0 } };
    struct along_list found = { .list = NULL };
    drawn_square(&square, 0, 0, 50);
    assert_true(along_beside(line, 3, &square, 19, &found, &f));
    assert_int_equal(found.count, 0);
    assert_true(along_beside(line, 3, &square, 66, &found, &f));
    assert_int_equal(found.count, 1);
    assert_near(found.list[0].from, 350, 1e-9);
    assert_near(found.list[0].to, 450, 1e-9);
    assert_near(found.list[0].distance, 20, 1e-9);
    assert_near(found.list[0].begin.x, -50, 1e-9);
    assert_true(along_beside(through, 2, &square, 10, &found, &f));
    assert_int_equal(found.count, 2);
    assert_near(found.list[1].from, 350, 1e-9);
    assert_near(found.list[1].to, 450, 1e-9);
    square.kind = SHAPE_LINES;
    assert_true(along_beside(through, 2, &square, 10, &found, &f));
    assert_int_equal(found.count, 2);
    along_free(&found);
    shape_free(&square);
}

/* Along a straight line: at a place, is any of the area on the line square to it? */
static void beside_against_lines_square_to_it(void **state)
{
    (void)state;
    unsigned seed = 9;
    size_t beside = 0, off = 0;
    for (int n = 0; n < 200; n++) {
        struct fault f = { .id = NULL };
        struct shape blob = { .kind = SHAPE_AREAS };
        struct point line[] = { { -300, 130 }, { 300, 130 } };
        struct along_list found = { .list = NULL };
        drawn_blob(&blob, drawn_between(&seed, -80, 80), 0, 110, 0.4, 24);
        assert_true(along_beside(line, 2, &blob, 60, &found, &f));
        for (int k = 0; k < 200; k++) {
            double at = 3 * k + 0.5;
            if (from_an_end(&found, at) < 0.5)
                continue;
            bool there = false;
            for (int i = -600; i <= 600; i++)
                there = there || shape_has(&blob, (struct point){ at - 300, 130 + i * 0.1 });
            assert_int_equal(there, told(&found, at));
            beside += there;
            off += !there;
        }
        along_free(&found);
        shape_free(&blob);
    }
    assert_true(beside > 500 && off > 500);
}

static void against_points_along(void **state)
{
    (void)state;
    unsigned seed = 5;
    size_t in = 0, near = 0;
    for (int n = 0; n < 300; n++) {
        struct fault f = { .id = NULL };
        struct shape blob = { .kind = SHAPE_AREAS };
        struct along_list inside = { .list = NULL }, close = { .list = NULL };
        struct point line[6];
        double reach = drawn_between(&seed, 10, 80), along = 0;
        drawn_blob(&blob, 0, 0, 100, drawn_between(&seed, 0, 0.3), 40);
        for (int i = 0; i < 6; i++)
            line[i] = (struct point){ drawn_between(&seed, -200, 200),
                                      drawn_between(&seed, -200, 200) };
        assert_true(along_inside(line, 6, &blob, &inside, &f));
        assert_true(along_near(line, 6, &blob, reach, &close, &f));
        for (int i = 1; i < 6; i++) {
            struct segment s = { line[i - 1], line[i] };
            for (int k = 0; k < 50; k++) {
                double at = along + segment_length(s) * k / 50;
                struct point p = segment_at(s, k / 50.0);
                if (from_an_end(&inside, at) > 0.01)
                    assert_int_equal(told(&inside, at), shape_has(&blob, p));
                if (from_an_end(&close, at) > 0.5)
                    assert_int_equal(told(&close, at),
                                     shape_distance(&blob, p, NULL) < reach);
                in += told(&inside, at);
                near += told(&close, at);
            }
            along += segment_length(s);
        }
        along_free(&inside);
        along_free(&close);
        shape_free(&blob);
    }
    assert_true(in > 5000 && near > in + 5000);
}

/* Upwind by its own words: rays from the point over the sector the wind blows to. */
static bool scent_comes(const struct shape *area, struct point p, struct wind w,
                        double distance)
{
    struct pieces rim = { .list = NULL };
    struct fault f = { .id = NULL };
    bool found = shape_has(area, p);
    assert_true(pieces_add(&rim, area, &f));
    for (int i = 0; i <= 400 && !found; i++) {
        double bearing =
            (w.from + 180 + w.spread * (i - 200) / 200) * 0.017453292519943295;
        struct segment ray = {
            p, { p.x + distance * sin(bearing), p.y + distance * cos(bearing) }
        };
        double t, u;
        for (size_t k = 0; k < rim.count && !found; k++)
            found = segment_cross(ray, rim.list[k], &t, &u);
    }
    pieces_free(&rim);
    return found;
}

static void upwind_against_rays(void **state)
{
    (void)state;
    unsigned seed = 8;
    size_t up = 0, not_up = 0;
    for (int n = 0; n < 60; n++) {
        struct fault f = { .id = NULL };
        struct shape blob = { .kind = SHAPE_AREAS };
        struct along_list found = { .list = NULL };
        struct wind w = { drawn_between(&seed, 0, 360), drawn_between(&seed, 5, 175) };
        double distance = drawn_between(&seed, 50, 300);
        struct point line[2] = { { drawn_between(&seed, -400, 0), -400 },
                                 { drawn_between(&seed, 0, 400), 400 } };
        struct segment s = { line[0], line[1] };
        drawn_blob(&blob, 60, 0, 60, 0.2, 24);
        assert_true(along_upwind(line, 2, &blob, w, distance, &found, &f));
        for (int k = 0; k <= 200; k++) {
            double at = segment_length(s) * k / 200;
            if (from_an_end(&found, at) < 2)
                continue;
            assert_int_equal(told(&found, at),
                             scent_comes(&blob, segment_at(s, k / 200.0), w, distance));
            up += told(&found, at);
            not_up += !told(&found, at);
        }
        along_free(&found);
        shape_free(&blob);
    }
    assert_true(up > 1000 && not_up > 1000);
}

/* A wind from the west carries scent east: who walks west of the cover is upwind. */
static void west_wind(void **state)
{
    (void)state;
    struct fault f = { .id = NULL };
    struct shape bed = { .kind = SHAPE_AREAS };
    struct along_list found = { .list = NULL };
    struct point west[] = { { -150, -300 }, { -150, 300 } };
    struct point east[] = { { 150, -300 }, { 150, 300 } };
    drawn_square(&bed, 0, 0, 50);
    assert_true(along_upwind(east, 2, &bed, (struct wind){ 270, 30 }, 300, &found, &f));
    assert_int_equal(found.count, 0);
    assert_true(along_upwind(west, 2, &bed, (struct wind){ 270, 30 }, 300, &found, &f));
    assert_int_equal(found.count, 1);
    assert_near(found.list[0].distance, 100, 1e-9);
    /* To the corner 50 ft up or down, 30 degrees off: the far corner, 200 ft east. */
    assert_near(found.list[0].begin.y, -(50 + 200 * tan(3.14159265358979 / 6)), 0.2);
    assert_near(found.list[0].end.y, 50 + 200 * tan(3.14159265358979 / 6), 0.2);
    along_free(&found);
    shape_free(&bed);
}

static void nearest_against_all(void **state)
{
    (void)state;
    unsigned seed = 21;
    struct fault f = { .id = NULL };
    struct segment pieces[300];
    struct near n;
    for (int round = 0; round < 20; round++) {
        size_t count = 1 + drawn_chance(&seed) % 300;
        for (size_t i = 0; i < count; i++) {
            struct point a = { drawn_between(&seed, 0, 900),
                               drawn_between(&seed, 0, 300) };
            double far = i % 17 == 0 ? 400 : 30;
            pieces[i] = (struct segment){ a,
                                          { a.x + drawn_between(&seed, -far, far),
                                            a.y + drawn_between(&seed, -far, far) } };
        }
        assert_true(near_build(&n, pieces, count, &f));
        for (int k = 0; k < 300; k++) {
            struct point p = { drawn_between(&seed, -500, 1400),
                               drawn_between(&seed, -500, 800) };
            double best = HUGE_VAL;
            size_t which = 0, found;
            for (size_t i = 0; i < count; i++) {
                double d = segment_distance(pieces[i], p, NULL);
                if (d < best) {
                    best = d;
                    which = i;
                }
            }
            assert_near(near_distance(&n, p, &found), best, 0);
            assert_int_equal(found, which);
        }
        near_free(&n);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_line_through_a_square),
        cmocka_unit_test(at_the_very_distance),
        cmocka_unit_test(beside_is_square_to_the_line),
        cmocka_unit_test(beside_against_lines_square_to_it),
        cmocka_unit_test(against_points_along),
        cmocka_unit_test(upwind_against_rays),
        cmocka_unit_test(west_wind),
        cmocka_unit_test(nearest_against_all),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
